/** A table of contents says the pages its headings stand on, and leads there; short documents have none. */
import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/press/document.ts';
import { settledDocument } from '../../src/press/layout/contents.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { documentOf, heading, paragraph, text } from './documents.ts';
import { plainFonts } from './plain-fonts.ts';
import { readAll, said } from './reading.ts';

const PARTS = 20;
const chapters = (paragraphs: number) =>
  Array.from({ length: PARTS }, (_, index) => [
    heading(`Part ${index}`, index % 4 === 0 ? 2 : 3, `part-${index}`),
    ...Array.from({ length: paragraphs }, () => paragraph('Work as the chart shows. '.repeat(9))),
  ]).flat();

const contents: Block = {
  kind: 'contents',
  id: 'contents',
  title: [text('In this pattern')],
  leastPages: 12,
  entries: Array.from({ length: PARTS }, (_, index) => ({
    target: `part-${index}`,
    title: `Part ${index}`,
    level: index % 4 === 0 ? 2 : 3,
  })),
};

const set = (paragraphs: number, edition: 'standard' | 'large' = 'standard') => {
  const blocks = [heading('Skerry', 1, 'top'), contents, ...chapters(paragraphs)];
  const document = documentOf(blocks, { edition });
  const laid = layOut(document, pageStyle(edition), plainFonts);
  return { laid, document: settledDocument(document, laid) };
};

describe('contents', () => {
  it.each(['standard', 'large'] as const)('say where each heading stands (%s)', (edition) => {
    const { laid, document } = set(20, edition);
    const block = document.blocks.find(({ kind }) => kind === 'contents');
    const pages = block?.kind === 'contents' ? block.entries.map(({ page }) => page) : [];
    const stand = contents.entries.map(({ target }) => laid.destinations.get(target)!.page + 1);
    expect(pages).toEqual(stand);
    expect(new Set(pages).size).toBeGreaterThan(15);
  });

  it('are read where they stand, each number behind its heading', () => {
    const { laid, document } = set(20);
    expect(readAll(laid)).toBe(said(document));
  });

  it('lead to the headings', () => {
    const { laid } = set(20);
    const links = laid.pages.flatMap(({ marks }) => marks.filter(({ kind }) => kind === 'link'));
    const targets = links.map((link) => (link.kind === 'link' ? link.target : ''));
    expect(targets.toSorted()).toEqual(
      contents.entries.map(({ target }) => `#${target}`).toSorted(),
    );
  });

  it('are left out of a document of few pages, and leave no tag behind', () => {
    const { laid, document } = set(1);
    expect(laid.pages.length).toBeLessThan(12);
    expect(document.blocks.map(({ kind }) => kind)).not.toContain('contents');
    expect(laid.tags.map(({ role }) => role)).not.toContain('TOC');
    expect(readAll(laid)).toBe(said(document));
  });
});
