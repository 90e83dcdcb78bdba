/** What holds of every document, whatever it says: over documents made at random. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Block, Document, Inline, TableCell } from '../../src/press/document.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle, styleForLanguage } from '../../src/press/layout/style.ts';
import { documentOf } from './documents.ts';
import { strays } from './frame.ts';
import { plainFonts } from './plain-fonts.ts';
import { readAll, runsOf, said } from './reading.ts';
import { chartDrawing } from './specimen.ts';

const WORDS = [
  'k2tog', 'increase', 'der', 'Maschenmarkierer', '22–24', '3.5 mm', 'a', '編み目', 'くり返す。', '「表2」',
  'לסרוג', 'עיניים', '(88,', '96)', 'well-known', '코를', '½', 'e\u0308cru', '\u{1F9F6}', 'x'.repeat(70),
]; // prettier-ignore

const sentence = fc
  .array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 30 })
  .map((words) => words.join(' '));
const shortText = fc.array(fc.constantFrom(...WORDS.slice(0, 12)), { maxLength: 3 });
const role = fc.constantFrom('plain', 'strong', 'emphasis', 'abbreviation', 'count', 'small');

const textInline: fc.Arbitrary<Inline> = fc
  .tuple(sentence, role, fc.option(fc.constantFrom('en', 'he', 'ja'), { nil: undefined }))
  .map(([content, kind, language]) => ({
    kind: 'text',
    text: content + ' ',
    role: kind,
    ...(language === undefined ? {} : { language }),
  }));
const inline: fc.Arbitrary<Inline> = fc.oneof(
  { weight: 6, arbitrary: textInline },
  {
    weight: 1,
    arbitrary: textInline.map((child): Inline => ({ kind: 'unbroken', children: [child] })),
  },
  {
    weight: 1,
    arbitrary: textInline.map((child): Inline => ({
      kind: 'link',
      target: '#x',
      children: [child],
    })),
  },
  { weight: 1, arbitrary: fc.constant<Inline>({ kind: 'lineBreak' }) },
  {
    weight: 1,
    arbitrary: fc.constant<Inline>({
      kind: 'drawing',
      drawing: chartDrawing(2, 2),
      alternative: 'purl',
    }),
  },
);
const inlines = fc.array(inline, { maxLength: 4 });
const few = shortText.map((words): Inline[] =>
  words.length === 0 ? [] : [{ kind: 'text', text: words.join(' '), role: 'plain' }],
);

const table: fc.Arbitrary<Block> = fc
  .record({ columns: fc.integer({ min: 1, max: 14 }), rows: fc.integer({ min: 0, max: 12 }) })
  .chain(({ columns, rows }) =>
    fc
      .array(fc.array(few, { minLength: columns, maxLength: columns }), {
        minLength: rows + 1,
        maxLength: rows + 1,
      })
      .map((cells): Block => {
        const [head = [], ...body] = cells;
        const asCells = (row: Inline[][], header?: 'column'): TableCell[] =>
          row.map((content, column) => {
            const kind = header ?? (column === 0 ? 'row' : undefined);
            return { content, ...(kind === undefined ? {} : { header: kind }) };
          });
        return {
          kind: 'table',
          id: 't',
          caption: [],
          columns: head.map(() => ({ align: 'end', stretch: 0 })),
          head: [asCells(head, 'column')],
          rows: body.map((row) => asCells(row)),
        };
      }),
  );

const figure: fc.Arbitrary<Block> = fc
  .record({
    size: fc.constantFrom('cover', 'full', 'half', 'natural'),
    width: fc.integer({ min: 1, max: 3000 }),
    height: fc.integer({ min: 1, max: 3000 }),
    caption: few,
    drawn: fc.boolean(),
  })
  .map(({ size, width, height, caption, drawn }): Block => ({
    kind: 'figure',
    id: 'f',
    size,
    caption,
    alternative: 'a figure',
    content: drawn
      ? {
          kind: 'drawing',
          drawing: { ...chartDrawing(1, 1), widthPoints: width, heightPoints: height },
        }
      : { kind: 'picture', hash: 'h', widthPixels: width, heightPixels: height },
  }));

const leaf: fc.Arbitrary<Block> = fc.oneof(
  fc.record({
    kind: fc.constant('paragraph' as const),
    role: fc.constantFrom('body', 'lead', 'note', 'caution', 'fine', 'byline'),
    content: inlines,
  }),
  fc.record({
    kind: fc.constant('heading' as const),
    level: fc.constantFrom(1, 2, 3, 4),
    id: fc.constant('h'),
    content: few,
  }),
  fc.record({
    kind: fc.constant('instruction' as const),
    id: fc.constant('i'),
    label: few,
    content: inlines,
    count: few,
  }),
  fc.record({
    kind: fc.constant('definitions' as const),
    entries: fc.array(fc.record({ term: few, description: inlines }), { maxLength: 12 }),
  }),
  table,
  figure,
);

const { block } = fc.letrec<{ block: Block }>((tie) => ({
  block: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    leaf,
    fc.record({
      kind: fc.constant('list' as const),
      ordered: fc.boolean(),
      items: fc.array(fc.array(tie('block'), { maxLength: 2 }), { maxLength: 3 }),
    }),
    fc.record({
      kind: fc.constant('together' as const),
      children: fc.array(tie('block'), { maxLength: 3 }),
    }),
    fc.record({
      kind: fc.constant('section' as const),
      id: fc.constant('s'),
      start: fc.constantFrom('flow', 'page'),
      children: fc.array(tie('block'), { maxLength: 3 }),
    }),
  ) as fc.Arbitrary<Block>,
}));

const someDocument: fc.Arbitrary<Document> = fc
  .record({
    blocks: fc.array(block, { maxLength: 12 }),
    language: fc.constantFrom('en', 'de', 'ja', 'he'),
    edition: fc.constantFrom('standard', 'large', 'ink-saving'),
    paper: fc.constantFrom('A4', 'Letter'),
  })
  .map(({ blocks, language, edition, paper }) =>
    documentOf(blocks, { language, edition, paper, direction: language === 'he' ? 'rtl' : 'ltr' }),
  );

const laid = (document: Document) => layOut(document, pageStyle(document.edition), plainFonts);

/** Each document is laid out once for all properties; a failure names its number in the sample. */
const sample = fc
  .sample(someDocument, { numRuns: 60, seed: 20260301 })
  .map((document, number) => ({ document, number, pages: laid(document) }));

describe('every document', () => {
  it('stays inside its pages', () => {
    const found = sample.flatMap(({ document, number, pages }) => {
      const style = styleForLanguage(pageStyle(document.edition), document.language);
      return strays(pages, document, style).map((stray) => `document ${number}, ${stray}`);
    });
    expect(found).toEqual([]);
  });

  it('says each character once, in the order of its tags', () => {
    for (const { document, number, pages } of sample) {
      expect(readAll(pages), `document ${number}`).toBe(said(document));
    }
  });

  it('gives the same pages twice', () => {
    for (const { document, number, pages } of sample.slice(0, 15)) {
      expect(laid(document), `document ${number}`).toEqual(pages);
    }
  });

  it('has no type under 18 points in large print, and none too small elsewhere', () => {
    const small = sample.flatMap(({ document, number, pages }) => {
      const least = document.edition === 'large' ? 17.9 : 6;
      return runsOf(pages)
        .filter(({ mark }) => mark.sizePoints < least && mark.run.text.trim() !== '')
        .map(({ mark }) => [number, mark.run.text, mark.sizePoints]);
    });
    expect(small).toEqual([]);
  });

  it('has a tag for each mark, each tag in one place', () => {
    for (const { number, pages } of sample) {
      const { tags } = pages;
      const children = tags.flatMap((tag) => tag.children);
      expect(new Set(children).size, `document ${number}`).toBe(children.length);
      expect(children.length, `document ${number}`).toBe(tags.length - 1);
      const named = pages.pages.flatMap(({ marks }) => marks.map(({ tag }) => tag));
      expect(named.filter((tag) => tag !== 'artifact' && tags[tag] === undefined)).toEqual([]);
    }
  });
});
