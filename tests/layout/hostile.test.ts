/** Documents nobody should write: each still gives good pages, and says what could not be set well. */
import { describe, expect, it } from 'vitest';
import type { Block, Document, TableCell } from '../../src/press/document.ts';
import type { Laid } from '../../src/press/layout/frames.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { documentOf, heading, instruction, paragraph, text } from './documents.ts';
import { strays } from './frame.ts';
import { plainFonts } from './plain-fonts.ts';
import { bare, readAll, runsOf, said } from './reading.ts';

const style = pageStyle('standard');

function setWhole(blocks: readonly Block[], more: Partial<Document> = {}): Laid {
  const document = documentOf(blocks, more);
  const laid = layOut(document, style, plainFonts);
  expect(strays(laid, document, style)).toEqual([]);
  expect(readAll(laid)).toBe(said(document));
  return laid;
}

const cell = (content: string, header?: 'row' | 'column'): TableCell => ({
  content: [text(content)],
  ...(header === undefined ? {} : { header }),
});

function sizeTable(sizes: number, rows: number): Block {
  const each = <Value>(make: (index: number) => Value): Value[] =>
    Array.from({ length: sizes }, (_, index) => make(index));
  return {
    kind: 'table',
    id: 'sizes',
    caption: [text('Measurements')],
    columns: [
      { align: 'start', stretch: 0 },
      ...each(() => ({ align: 'end', stretch: 0 }) as const),
    ],
    head: [[cell('Size', 'column'), ...each((size) => cell(`No. ${size + 1}`, 'column'))]],
    rows: Array.from({ length: rows }, (_, row) => [
      cell(`Measure ${row + 1}`, 'row'),
      ...each((size) => cell(`${80 + 4 * size + row}`)),
    ]),
  };
}

const sizes = (count: number, first: number): string =>
  `${first} (${Array.from({ length: count - 1 }, (_, index) => first + 8 * (index + 1)).join(', ')})`;

describe('hostile documents', () => {
  it('cuts a word of 300 characters that no hyphen parts, and says so', () => {
    const word = '0123456789'.repeat(30);
    const laid = setWhole([paragraph(`Before ${word} after.`)]);
    expect(laid.trouble).toEqual([{ kind: 'overflow', page: 0, text: word }]);
  });

  it('hyphenates a word of 300 letters', () => {
    const word = 'Donaudampfschifffahrt'.repeat(15).slice(0, 300);
    expect(setWhole([paragraph(`Vor ${word} nach.`)], { language: 'de' }).trouble).toEqual([]);
  });

  it('cuts a label, a count and a cell that are too long', () => {
    const word = 'x'.repeat(120);
    const table: Block = {
      kind: 'table',
      id: 't',
      caption: [text(word)],
      columns: [],
      head: [[cell(word), cell(word)]],
      rows: [[cell(word), cell(word), cell(word)]],
    };
    setWhole([instruction(word, word, word), heading(word), table]);
  });

  it('sets empty blocks', () => {
    const laid = setWhole([
      { kind: 'section', id: 'a', start: 'page', children: [] },
      { kind: 'together', children: [] },
      { kind: 'list', ordered: true, items: [] },
      { kind: 'definitions', entries: [] },
      { kind: 'definitions', entries: [{ term: [], description: [] }] },
      { kind: 'table', id: 't', caption: [], columns: [], head: [], rows: [] },
      { kind: 'table', id: 'u', caption: [], columns: [], head: [[]], rows: [[], []] },
      { kind: 'paragraph', role: 'body', content: [] },
      { kind: 'paragraph', role: 'note', content: [text('   ')] },
      { kind: 'heading', level: 2, id: 'h', content: [] },
      instruction('', '', ''),
    ]);
    expect(laid.pages).toHaveLength(1);
  });

  it('has a page where there is nothing to set', () => {
    expect(setWhole([]).pages).toHaveLength(1);
  });

  it('sets 400 rows in 40 sizes', () => {
    const rows = Array.from({ length: 400 }, (_, row) =>
      instruction(
        `Row ${row + 1}`,
        `K${sizes(40, 2)}, *yo, k2tog; rep from * to end.`,
        `${sizes(40, 80)} sts`,
        `row-${row}`,
      ),
    );
    const laid = setWhole(rows);
    expect(laid.destinations.size).toBe(400);
    expect(laid.trouble).toEqual([]);
  });

  it('shares 40 sizes out to several parts of a table, and repeats the heads of its rows', () => {
    const laid = setWhole([sizeTable(40, 30)]);
    const named = laid.pages
      .flatMap(({ marks }) => marks)
      .filter((mark) => mark.kind === 'run' && mark.run.text.trim() === 'Measure 7');
    expect(named.filter(({ tag }) => tag !== 'artifact')).toHaveLength(1);
    expect(named.length).toBeGreaterThan(2);
    expect(laid.tags.filter(({ role }) => role === 'Table')).toHaveLength(1);
    expect(laid.tags.filter(({ role }) => role === 'TR')).toHaveLength(31);
  });

  it('sets emoji, joined ones in one piece', () => {
    const family = '\u{1F469}\u200D\u{1F469}\u200D\u{1F467}';
    const laid = setWhole([paragraph(`Yarn \u{1F9F6} ${family.repeat(200)}`)]);
    expect(laid.trouble).toEqual([]);
    const starts = runsOf(laid).map(({ mark }) => mark.run.text);
    expect(starts.filter((line) => line.startsWith('\u200d'))).toEqual([]);
  });

  it('tells of characters that no face has', () => {
    const laid = setWhole([paragraph('Before'), paragraph('a\u{10FFFD}b\u{10FFFD}')]);
    expect(laid.trouble).toEqual([{ kind: 'missing-glyph', page: 0, text: '\u{10FFFD}' }]);
  });

  it.each([
    [1, 1],
    [1, 4000],
    [4000, 1],
    [0, 0],
    [30_000, 30_000],
  ])('keeps a picture of %i × %i pixels whole', (widthPixels, heightPixels) => {
    for (const size of ['cover', 'full', 'half', 'natural'] as const) {
      setWhole([
        { kind: 'figure', id: 'f', size, alternative: 'dot', caption: [text('A dot')],
          content: { kind: 'picture', hash: 'h', widthPixels, heightPixels } },
      ]); // prettier-ignore
    }
  });

  it('tells of a picture with too few pixels for its size', () => {
    const laid = setWhole([
      ...Array.from({ length: 40 }, () => paragraph('A line.')),
      { kind: 'figure', id: 'hero', size: 'full', alternative: 'a hat', caption: [],
        content: { kind: 'picture', hash: 'h', widthPixels: 600, heightPixels: 400 } },
    ]); // prettier-ignore
    // 600 pixels over 487.28 points, which are 6.77 inches, are 88.7 dots an inch.
    const text = 'hero is printed with 89 dots per inch';
    expect(laid.trouble).toEqual([{ kind: 'picture-resolution', page: 1, text }]);
  });

  it('breaks a row of a table that is higher than the page', () => {
    const words = 'knit the stitches as they appear '.repeat(220);
    const laid = setWhole([
      { kind: 'table', id: 't', caption: [], columns: [], head: [[cell('A'), cell('B')]],
        rows: [[cell(words), cell('short')], [cell('x'), cell('y')]] },
    ]); // prettier-ignore
    expect(laid.pages.length).toBeGreaterThan(1);
  });

  it('lets go of what cannot stay together', () => {
    const laid = setWhole([
      { kind: 'together', children: Array.from({ length: 90 }, (_, row) => paragraph(`Line ${row}.`)) },
    ]); // prettier-ignore
    expect(laid.pages.length).toBeGreaterThan(1);
  });

  it('sets a hundred headings after each other', () => {
    setWhole(
      Array.from({ length: 100 }, (_, index) => heading(`Heading ${index}`, 2, `h${index}`)),
    );
  });

  it('sets lists within lists within lists', () => {
    let block: Block = paragraph('The innermost words, which still have a column to stand in.');
    for (let depth = 0; depth < 30; depth++)
      block = { kind: 'list', ordered: true, items: [[block]] };
    setWhole([block]);
  });

  it('sets a paragraph of ten thousand words', () => {
    const laid = setWhole([paragraph('slip the marker and work to the end '.repeat(1250))]);
    expect(laid.pages.length).toBeGreaterThan(5);
  });

  it('sets text that changes its direction at every word', () => {
    const words = Array.from({ length: 120 }, (_, index) => (index % 2 === 0 ? 'k2tog' : 'עיניים'));
    const document = documentOf([paragraph(words.join(' '))], { language: 'he', direction: 'rtl' });
    const laid = layOut(document, style, plainFonts);
    expect(readAll(laid)).toBe(bare(words.join('')));
  });
});
