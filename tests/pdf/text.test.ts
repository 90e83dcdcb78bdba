/**
 * The text of finished files: what is extracted equals what was set, in every script; glyphs land
 * where the measuring interface put them; fonts are whole, small and mapped to text.
 */
import fc from 'fast-check';
import * as fontkit from 'fontkit';
import type { PDFName } from 'pdf-lib';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Laid, Mark } from '../../src/press/layout/frames.ts';
import { toUnicodeMap } from '../../src/press/pdf/to-unicode.ts';
import { writePdf } from '../../src/press/pdf/write.ts';
import { factsFor, fonts, greyJpeg, HandSet, pictures, sampleBook, SAMPLES } from './hand-set.ts';
import { advancesOf, Objects, readWithViewer, runText, spoken } from './reading.ts';

const resources = { fonts, pictures: pictures(greyJpeg()) };
const write = (laid: Laid, language: string) => writePdf(laid, factsFor(language), resources);
const withoutSpace = (text: string) => text.replace(/\s/gu, '');

describe.each(Object.keys(SAMPLES))('a book in %s', (language) => {
  let bytes: Uint8Array;
  beforeAll(() => {
    bytes = write(sampleBook(language).laid(), language);
  });

  it('gives its text back in the order of the tags', async () => {
    const { pages } = await readWithViewer(bytes);
    const { title, lines } = SAMPLES[language] ?? { title: '', lines: [] };
    const [first] = pages;
    const said = spoken(first?.tree ?? {}, first?.texts ?? new Map()).map(([role, text]) => [
      role,
      language === 'he' ? withoutSpace(text) : text.trim(),
    ]);
    // The viewer loses the spaces of right-to-left text; their places are tested below.
    const expected = (text: string) => (language === 'he' ? withoutSpace(text) : text);
    expect(said.slice(0, lines.length + 1)).toEqual([
      ['H1', expected(title)],
      ...lines.map((line) => ['P', expected(line)]),
    ]);
    expect(said.map(([, text]) => text)).toContain('54½');
  });

  it('embeds every font as a subset with its text', async () => {
    const objects = await Objects.read(bytes);
    const composite = objects.ofType('Font').filter((font) => objects.at(font, 'DescendantFonts'));
    expect(composite.length).toBeGreaterThanOrEqual(2);
    for (const font of composite) {
      expect(String(objects.at(font, 'BaseFont'))).toMatch(/^\/[A-Z]{6}\+\w+-\w+$/);
      const [descendant] = objects.list(objects.at(font, 'DescendantFonts'));
      const file = objects.stream(objects.at(descendant, 'FontDescriptor', 'FontFile2'));
      const subset = fontkit.create(file) as fontkit.Font;
      expect(subset.numGlyphs).toBeLessThan(200);
      const map = objects.stream(objects.at(font, 'ToUnicode')).toString('latin1');
      const mapped = map.match(/^<(?!0000)[0-9a-f]{4}> <[0-9a-f]{4,}>$/gm) ?? [];
      expect(mapped.length).toBeGreaterThan(0);
      expect(mapped.length).toBeLessThan(subset.numGlyphs);
    }
  });

  it('says the same widths in the file as in the fonts', async () => {
    const objects = await Objects.read(bytes);
    const advance = advancesOf(objects);
    for (const [name, ref] of objects
      .dict(objects.at(objects.page(0), 'Resources', 'Font'))
      .entries()) {
      const [descendant] = objects.list(objects.at(ref, 'DescendantFonts'));
      const file = objects.stream(objects.at(descendant, 'FontDescriptor', 'FontFile2'));
      const subset = fontkit.create(file) as fontkit.Font;
      const mapped = objects.stream(objects.at(ref, 'ToUnicode')).toString('latin1');
      for (const [, hex = ''] of mapped.matchAll(/^<(?!0000)([0-9a-f]{4})> </gm)) {
        const code = parseInt(hex, 16);
        expect(advance((name as PDFName).decodeText(), code)).toBe(
          subset.getGlyph(code).advanceWidth,
        );
      }
    }
  });
});

/** Where the frames say each glyph stands. */
function placesOf(marks: readonly Mark[], pageHeight: number) {
  return marks.flatMap((mark) => {
    if (mark.kind !== 'run') return [];
    const { run, sizePoints } = mark;
    let pen = run.direction === 'rtl' ? run.width : 0;
    return run.glyphs.map((glyph) => {
      if (run.direction === 'rtl') pen -= glyph.advance;
      const x = mark.x + ((pen + glyph.xOffset) * sizePoints) / 1000;
      const y = pageHeight - mark.y + (glyph.yOffset * sizePoints) / 1000;
      if (run.direction === 'ltr') pen += glyph.advance;
      return { x, y, text: glyph.text };
    });
  });
}

describe('glyphs land where layout put them', () => {
  const word = fc.constantFrom(
    'AVATAR', 'To', 'office', 'e\u0323\u0302', 'Łódź', '½', '96', '(104,', 'k2tog', '防波堤', 'ガ', '겉뜨기',
    'שָׁלוֹם', 'סריגה', '[א]', 'їжак',
  ); // prettier-ignore
  const line = fc.array(word, { minLength: 1, maxLength: 6 }).map((words) => words.join(' '));

  it('to a hundredth of a point, in every script and mixture', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(line, { minLength: 1, maxLength: 4 }), async (lines) => {
        const book = new HandSet(lines.length % 2 ? 'he' : 'en');
        for (const text of lines) book.paragraph(text, { size: 9.37 });
        const laid = book.laid();
        const objects = await Objects.read(write(laid, book.language));
        const painted = runText(objects.content(0), advancesOf(objects));
        const [page] = laid.pages;
        const places = placesOf(page?.marks ?? [], page?.heightPoints ?? 0);
        expect(painted).toHaveLength(places.length);
        places.forEach(({ x, y, text }, index) => {
          expect(Math.abs((painted[index]?.x ?? 0) - x), text).toBeLessThan(0.01);
          expect(Math.abs((painted[index]?.y ?? 0) - y), text).toBeLessThan(0.01);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('kerns AVA and To, which plain widths would leave apart', async () => {
    const book = new HandSet('en');
    book.paragraph('AVA To');
    const objects = await Objects.read(write(book.laid(), 'en'));
    const advance = advancesOf(objects);
    const glyphs = runText(objects.content(0), advance);
    const gap = (index: number) => {
      const [here, next] = [glyphs[index], glyphs[index + 1]];
      return (next?.x ?? 0) - (here?.x ?? 0) - (advance('F1', here?.code ?? 0) * 11) / 1000;
    };
    expect([0, 1, 4].map((index) => gap(index) < -0.1)).toEqual([true, true, true]);
  });

  it('paints right-to-left words in the order of the text, brackets turned round', async () => {
    const book = new HandSet('he');
    book.paragraph('(אבג) 12');
    const bytes = write(book.laid(), 'he');
    const objects = await Objects.read(bytes);
    const glyphs = runText(objects.content(0), advancesOf(objects));
    const { pages } = await readWithViewer(bytes);
    expect([...(pages[0]?.texts.values() ?? [])].join('')).toBe('(אבג)12');
    const xs = glyphs.map(({ x }) => x);
    // Bracket, three letters, bracket and space each stand left of the one before; figures follow
    // from left to right, left of them all.
    for (let index = 1; index <= 5; index++) expect(xs[index]).toBeLessThan(xs[index - 1] ?? 0);
    expect(xs[7]).toBeGreaterThan(xs[6] ?? 0);
    expect(xs[7]).toBeLessThan(xs[5] ?? 0);
    // In an unturned font the text “(” is drawn by the glyph “)”.
    const [run] = fonts.shape('(', { family: 'text', weight: 'regular', italic: false, language: 'he' }, 1); // prettier-ignore
    const [turned] = fonts.shape(')', { family: 'text', weight: 'regular', italic: false, language: 'he' }, 0); // prettier-ignore
    expect(run?.glyphs[0]?.id).toBe(turned?.glyphs[0]?.id);
    expect(run?.glyphs[0]?.text).toBe('(');
  });
});

describe('text that fonts draw alike', () => {
  it('stays apart when it is extracted, in one document after another', async () => {
    const texts = ['ex\u00adam\u00adple', 'well-known K2-p1', 'non\u2011breaking', '5 Ω and 5 \u2126', 'kazı işi', 'così']; // prettier-ignore
    for (let round = 0; round < 2; round++) {
      const book = new HandSet('en');
      for (const text of round ? texts.toReversed() : texts) book.paragraph(text);
      const { pages } = await readWithViewer(write(book.laid(), 'en'));
      const said = [...(pages[0]?.texts.values() ?? [])].map((text) => text.trim()).sort();
      expect(said).toEqual(texts.map((text) => text.replaceAll('\u00ad', '')).sort());
    }
  });

  it('leaves out the hyphen that only a line’s end put there', async () => {
    const book = new HandSet('en');
    const tag = book.tag('P');
    book.line('exam', tag);
    const style = { family: 'text', weight: 'regular', italic: false, language: 'en' } as const;
    const [hyphen] = fonts.shape('-', style);
    if (!hyphen) throw new Error('no hyphen');
    const glyphs = hyphen.glyphs.map((glyph) => ({ ...glyph, text: '\u00ad' }));
    book.mark({
      kind: 'run', x: 90, y: 72, sizePoints: 11, run: { ...hyphen, glyphs, text: '\u00ad' },
      colour: '#000000', tag,
    }); // prettier-ignore
    book.line('ple', tag);
    const { pages } = await readWithViewer(write(book.laid(), 'en'));
    expect(withoutSpace([...(pages[0]?.texts.values() ?? [])].join(''))).toBe('example');
  });
});

describe('the map to text', () => {
  it('writes at most a hundred lines in a block', () => {
    const map = toUnicodeMap(['', ...Array.from({ length: 250 }, (_, code) => String(code))]);
    const sizes = [...map.matchAll(/^(\d+) beginbfchar$/gm)].map(([, size]) => Number(size));
    expect(sizes).toEqual([100, 100, 50]);
  });

  it.each([
    ['½', '<0001> <00bd>'],
    ['ffi', '<0001> <006600660069>'],
    ['𠮷', '<0001> <d842dfb7>'],
    ['', '<0001> <200b>'],
  ])('says “%s” as UTF-16: %s', (text, line) => {
    expect(toUnicodeMap(['', text]).split('\n')).toContain(line);
  });
});
