/** A table of contents says the pages its headings stand on, and leads there. */
import { describe, expect, it } from 'vitest';
import { layOutWithContents } from '../../src/press/layout/contents.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { documentOf, heading, paragraph } from './documents.ts';
import { plainFonts } from './plain-fonts.ts';
import { readAll, said } from './reading.ts';

const chapters = Array.from({ length: 30 }, (_, index) => [
  heading(`Part ${index}`, 2, `part-${index}`),
  ...Array.from({ length: 20 }, () => paragraph('Work as the chart shows. '.repeat(9))),
]).flat();

describe('contents', () => {
  const { document, laid } = layOutWithContents(
    documentOf([heading('Skerry', 1, 'top'), ...chapters, heading('Detail', 4, 'detail')]),
    { position: 1, before: [heading('In this pattern', 2, 'contents-heading')], deepest: 3 },
    pageStyle('standard'),
    plainFonts,
  );
  const table = document.blocks.find((block) => block.kind === 'table')!;

  it('name every heading down to their level, and no other', () => {
    expect(table.rows).toHaveLength(30);
  });

  it('give the page on which each heading stands', () => {
    const pages = table.rows.map(([, page]) => {
      const [link] = page!.content;
      if (link?.kind !== 'link' || link.children[0]?.kind !== 'text') return undefined;
      return [link.target.slice(1), Number(link.children[0].text)];
    });
    const stand = chapters.flatMap((block) =>
      block.kind === 'heading' ? [[block.id, laid.destinations.get(block.id)!.page + 1]] : [],
    );
    expect(pages).toEqual(stand);
    expect(new Set(pages.map((each) => each?.[1])).size).toBeGreaterThan(20);
  });

  it('are part of the document that was laid out', () => {
    expect(readAll(laid)).toBe(said(document));
  });
});
