/**
 * The proof says nothing about good files in any script, and finds every fault that is put into one: a
 * digit, a line, two cells, a glyph with another meaning, a picture too coarse, ink beyond its frame.
 */
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import type { Block, Document, TableCell } from '../../src/press/document.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { writePdf } from '../../src/press/pdf/write.ts';
import { type ProofCopy, proveDocument } from '../../src/press/proof/prove.ts';
import { documentOf, heading, instruction, paragraph, text } from '../layout/documents.ts';
import { fonts, greyJpeg } from '../pdf/hand-set.ts';
import { Spoiler } from './spoil.ts';

const PHOTO = { hash: hashBytes(greyJpeg()), widthPixels: 8, heightPixels: 8 };
const pictures = new Map([[PHOTO.hash, { ...PHOTO, jpeg: greyJpeg() }]]);

function set(document: Document, photographs = pictures): { copy: ProofCopy; bytes: Uint8Array } {
  const style = pageStyle(document.edition);
  const laid = layOut(document, style, fonts);
  const copy = {
    document,
    pages: laid.pages.length,
    margins: style.margins,
    smallestDotsPerInch: style.figure.smallestDotsPerInch,
    leastTypePoints: style.leastSize,
    trouble: laid.trouble,
  };
  return { copy, bytes: writePdf(laid, document, { fonts, pictures: photographs }) };
}

async function proofOf(document: Document) {
  const { copy, bytes } = set(document);
  return proveDocument(copy, bytes);
}

const cell = (content: string, header?: TableCell['header']): TableCell => ({
  content: [text(content)],
  ...(header === undefined ? {} : { header }),
});

/** A table with one row of heads and as many columns as there are sizes. */
function sizeTable(id: string, sizes: readonly string[], rows: readonly string[]): Block {
  return {
    kind: 'table',
    id,
    caption: [text('Finished measurements (cm)')],
    columns: [
      { align: 'start', stretch: 0 },
      ...sizes.map(() => ({ align: 'centre', stretch: 1 }) as const),
    ],
    head: [[cell('Size', 'column'), ...sizes.map((size) => cell(size, 'column'))]],
    rows: rows.map((row, index) => [
      cell(row, 'row'),
      ...sizes.map((_, size) => cell(String(30 + index * 7 + size * 2))),
    ]),
  };
}

const hat: Block[] = [
  heading('Breakwater Hat', 1, 'title'),
  paragraph('A hat in five sizes, worked from the brim to the crown.'),
  sizeTable('sizes', ['S', 'M', 'L'], ['Circumference', 'Height']),
  heading('Crown', 2, 'crown'),
  instruction('Rnd 1', '*k7, k2tog; rep from * to end.', '144 sts', 'line-1'),
  instruction('Rnd 2', 'knit.', '', 'line-2'),
  instruction('Rnd 3', '*k6, k2tog; rep from * to end.', '126 sts', 'line-3'),
  { kind: 'list', ordered: false, items: [[paragraph('16 markers')], [paragraph('1 needle')]] },
];

describe('good files', () => {
  it('a hat', async () => {
    expect(await proofOf(documentOf(hat))).toEqual([]);
  });

  it.each([
    ['Hebrew with numbers, units and vowel points', 'he', 'להעלות 144 עיניים (20 ס״מ, k2tog) וּלְהַמְשִׁיךְ.'],
    ['Japanese in full lines', 'ja', '輪に編みます。「かのこ編み」を20目、14cm（5½インチ）編む。'.repeat(12)],
    ['German with hyphens', 'de', 'Maschenmarkierungsringe zwischen Zunahmestellen einhängen, Rückreihen '.repeat(30)],
    ['Polish', 'pl', 'Następne okrążenie: *2 oczka prawe, 2 oczka lewe; powtarzać od * do końca.'.repeat(9)],
    ['Korean', 'ko', '겉뜨기 12코, 안뜨기 3코를 끝까지 반복하여 뜹니다. '.repeat(20)],
    ['letters with marks that the fonts compose', 'en', 'cafe\u0301 nai\u0308ve A\u030a'],
  ])('%s', async (_, language, sentence) => {
    const direction = language === 'he' ? 'rtl' : 'ltr';
    expect(await proofOf(documentOf([paragraph(sentence)], { language, direction }))).toEqual([]);
  }); // prettier-ignore

  it('a table whose columns are shared out to two pages', async () => {
    const sizes = ['XS', 'S', 'M', 'L', '1X', '2X', '3X', '4X', '5X', '6X', '7X', '8X'];
    const rows = Array.from({ length: 18 }, (_, row) => `Measurement ${row + 1}`);
    const blocks = [
      heading('Sizes', 1, 'h'),
      sizeTable('wide', sizes, rows),
      paragraph('The end.'),
    ];
    const document = documentOf(blocks, { edition: 'large' });
    const { copy, bytes } = set(document);
    expect(copy.pages).toBeGreaterThan(1);
    expect(await proveDocument(copy, bytes)).toEqual([]);
  });

  it('lines that the document ends by itself', async () => {
    const content = [text('one'), { kind: 'lineBreak' } as const, text('two')];
    expect(await proofOf(documentOf([{ kind: 'paragraph', role: 'body', content }]))).toEqual([]);
  });
});

describe('a file with a fault', () => {
  let copy: ProofCopy;
  let bytes: Uint8Array;
  beforeAll(() => {
    ({ copy, bytes } = set(documentOf(hat)));
  });

  async function findings(spoil: (file: Spoiler) => void) {
    const file = await Spoiler.open(bytes);
    spoil(file);
    return proveDocument(copy, await file.save());
  }

  const first = async (spoil: (file: Spoiler) => void) => {
    const [found] = await findings(spoil);
    return { code: found?.code, place: found?.where.label, facts: found?.facts };
  };

  /** Faces by what they set: F1 the display face of headings, the rest as they come. */
  const fontOf = (file: Spoiler, sample: string): string =>
    ['F1', 'F2', 'F3', 'F4'].find((font) => {
      try {
        return file.content(0).includes(file.codes(font, sample));
      } catch {
        return false;
      }
    }) ?? 'none';

  it('a digit changed in a content stream', async () => {
    const found = await first((file) => {
      const bold = fontOf(file, '144');
      file.paint(0, (page) => page.replace(file.codes(bold, '144'), file.codes(bold, '146')));
    });
    expect(found).toEqual({
      code: 'press/proof',
      place: 'line-1',
      facts: { expected: '144 sts', found: '146 sts' },
    });
  });

  it('a line that is missing', async () => {
    const found = await first((file) => {
      const plain = fontOf(file, 'knit');
      const word = file.codes(plain, 'knit');
      file.paint(0, (page) => page.replace(new RegExp(`\\[<${word}[^\\]]*\\]TJ`), ''));
    });
    expect(found).toMatchObject({ code: 'press/proof', place: 'line-2' });
  });

  it('two cells that changed places', async () => {
    const found = await first((file) => {
      const plain = fontOf(file, '30');
      const [a, b] = [`<${file.codes(plain, '30')}>`, `<${file.codes(plain, '32')}>`];
      file.paint(0, (page) => page.replace(a, '<swap>').replace(b, a).replace('<swap>', b));
    });
    expect(found).toMatchObject({ code: 'press/proof', place: 'sizes', facts: { expected: '30' } });
  });

  it('a digit moved from one cell to the next', async () => {
    const found = await first((file) => {
      const plain = fontOf(file, '30');
      const [a, b] = [file.codes(plain, '30'), file.codes(plain, '32')];
      const [three] = [file.code(plain, '3')];
      file.paint(0, (page) =>
        page.replace(`<${a}>`, `<${three}>`).replace(`<${b}>`, `<${file.code(plain, '0')}${b}>`),
      );
    });
    expect(found).toMatchObject({ code: 'press/proof', place: 'sizes', facts: { expected: '30' } });
  });

  it('a glyph that is said to be another character', async () => {
    const found = await first((file) => {
      const bold = fontOf(file, '144');
      const four = file.code(bold, '4');
      file.map(bold, (map) => map.replace(`<${four}> <0034>`, `<${four}> <0039>`));
    });
    expect(found).toMatchObject({ facts: { expected: '144 sts', found: '199 sts' } });
  });

  it('a space that was lost', async () => {
    const found = await first((file) => {
      const bold = fontOf(file, '144');
      file.paint(0, (page) => page.replace(file.codes(bold, '144 '), file.codes(bold, '144')));
    });
    expect(found).toMatchObject({ facts: { expected: '144 sts', found: '144sts' } });
  });

  it('text that nobody asked for', async () => {
    const found = await first((file) => {
      file.paint(0, (page) => page.replace(/BT\n([^]*?)TJ\nET/, (same) => `${same}\n${same}`));
    });
    expect(found).toMatchObject({ code: 'press/proof' });
  });

  it('text outside the tag tree', async () => {
    const found = await findings((file) => {
      const bold = fontOf(file, '144');
      const text = `BT /${bold} 9 Tf 1 0 0 1 100 400 Tm [<${file.codes(bold, '144')}>]TJ ET`;
      file.paint(0, (page) => `${page}\n${text}`);
    });
    expect(found).toMatchObject([{ code: 'press/proof', facts: { expected: '', found: '144' } }]);
  });

  it('two instructions in another order of reading', async () => {
    const found = await first((file) => file.swapElements('LBody', 0, 1));
    expect(found).toMatchObject({ code: 'press/proof', place: 'line-1' });
  });

  it('a glyph that is not drawn', async () => {
    const found = await first((file) => {
      const bold = fontOf(file, '144');
      file.paint(0, (page) => page.replace(file.code(bold, '4'), '0000'));
    });
    expect(found).toMatchObject({ code: 'press/proof' });
  });

  it('type too small to read', async () => {
    const found = await findings((file) =>
      file.paint(0, (page) => page.replace(/1 0 0 1 ([\d.]+ [\d.]+) Tm/, '0.2 0 0 0.2 $1 Tm')),
    );
    expect(found).toMatchObject([{ code: 'press/overflow', where: { label: 'page 1' } }]);
  });

  it('a page that is lost', async () => {
    const long = set(documentOf([...hat, paragraph('Weave in the ends. '.repeat(400))]));
    const file = await Spoiler.open(long.bytes);
    file.removePage(1);
    const found = await proveDocument(long.copy, await file.save());
    expect(found.map(({ where }) => where.pointer)).toContain('/pages');
  });

  it('ink beyond the margin', async () => {
    const found = await findings((file) =>
      file.paint(0, (page) => page.replace(/1 0 0 1 [\d.]+ ([\d.]+) Tm/, '1 0 0 1 500 $1 Tm')),
    );
    expect(found).toMatchObject([{ code: 'press/overflow', where: { label: 'page 1' } }]);
  });

  it('another title and language', async () => {
    const { document } = copy;
    const other = { ...copy, document: { ...document, title: 'Skerry II', language: 'de' } };
    const codes = (await proveDocument(other, bytes)).map(({ where }) => where.pointer);
    expect(codes).toEqual(['/title', '/language']);
  });
});

describe('pictures', () => {
  const photo = (id: string, alternative: string): Block => ({
    kind: 'figure', id, alternative, caption: [], size: 'half', content: { kind: 'picture', ...PHOTO },
  }); // prettier-ignore

  it('tells of a picture with too few pixels, from the layout and from the file', async () => {
    const found = await proofOf(documentOf([paragraph('A hat.'), photo('cover', 'A grey hat')]));
    expect(found.map(({ code }) => code)).toEqual(['press/coarse-picture', 'press/coarse-picture']);
  });

  it('finds another description and a picture that is missing', async () => {
    const { copy, bytes } = set(documentOf([photo('cover', 'A grey hat')]));
    const blocks = [photo('cover', 'A green hat')];
    const other = { ...copy, document: { ...copy.document, blocks } };
    expect((await proveDocument(other, bytes)).at(-1)).toMatchObject({
      code: 'press/proof',
      facts: { expected: 'A green hat', found: 'A grey hat' },
    });
    const file = await Spoiler.open(bytes);
    file.paint(0, (page) => page.replace(/q [^q]* cm \/P1 Do Q/, ''));
    expect((await proveDocument(copy, await file.save())).at(-1)).toMatchObject({
      code: 'press/proof',
      facts: { found: 'no picture' },
    });
  });

  describe('fine enough for the page', () => {
    // 1500 pixels on the 483 points of the text: 223 dots to the inch.
    let fine: { copy: ProofCopy; bytes: Uint8Array };
    beforeAll(async () => {
      const grey = { width: 1500, height: 1000, channels: 3, background: '#808080' } as const;
      const jpeg = new Uint8Array(await sharp({ create: grey }).jpeg({ quality: 50 }).toBuffer());
      const photograph = { hash: hashBytes(jpeg), widthPixels: 1500, heightPixels: 1000 };
      const content = { kind: 'picture', ...photograph } as const;
      const cover: Block = { kind: 'figure', id: 'cover', alternative: 'A grey hat', caption: [], size: 'half', content }; // prettier-ignore
      fine = set(documentOf([cover]), new Map([[photograph.hash, { ...photograph, jpeg }]]));
    });
    const spoilt = async (spoil: (file: Spoiler) => void) => {
      const file = await Spoiler.open(fine.bytes);
      spoil(file);
      return proveDocument(fine.copy, await file.save());
    };

    it('has no finding', async () => {
      expect(await spoilt(() => undefined)).toEqual([]);
    });

    it('is found where the page prints it larger', async () => {
      const found = await spoilt(
        (file) =>
        file.paint(0, (page) => page.replace(/q ([\d.]+) 0 0 ([\d.]+) ([^q]*) cm \/P1 Do/, (_, w, h, at) => `q ${Number(w) * 3} 0 0 ${Number(h) * 3} ${at} cm /P1 Do`)), // prettier-ignore
      );
      expect(found.map(({ code }) => code)).toContain('press/coarse-picture');
    });

    it('is found where it is another photograph', async () => {
      const found = await spoilt((file) => file.replacePicture('P1', greyJpeg()));
      expect(found).toMatchObject([
        { code: 'press/proof', where: { label: 'cover' }, facts: { found: 'another picture' } },
      ]);
    });
  });
});
