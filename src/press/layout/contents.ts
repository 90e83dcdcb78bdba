/**
 * A table of contents: its place in the flow is kept until the pages stand, for only then it is known
 * whether the document is long enough to have one, and which numbers it says. It is then set with the
 * room it needs, the pages are cut again, and its numbers are filled in without moving anything.
 */
import type { Block, Document } from '../document.ts';
import { type Contents, prepareContents } from './blocks/contents.ts';
import type { Laid } from './frames.ts';
import { choosePages } from './pages/choices.ts';
import type { PageRange } from './pages/page-breaks.ts';
import type { Area, Setting } from './setting.ts';
import type { Slab } from './slab.ts';

export interface BrokenPages {
  readonly slabs: readonly Slab[];
  readonly ranges: readonly PageRange[];
  /** Printed page numbers by the ids of headings, where there is a table of contents. */
  readonly contentsPages: ReadonlyMap<string, number> | undefined;
}

export function breakWithContents(
  flow: readonly Slab[],
  area: Area,
  setting: Setting,
): BrokenPages {
  const text = flow.filter(({ contents }) => contents === undefined);
  const plain = choosePages(text, setting.pageHeight);
  const at = flow.findIndex(({ contents }) => contents !== undefined);
  const place = flow[at]?.contents;
  if (place === undefined || plain.ranges.length < place.block.leastPages) {
    return { ...plain, contentsPages: undefined };
  }
  return inserted(text, at, prepareContents(place, area, setting), setting);
}

function inserted(
  text: readonly Slab[],
  at: number,
  contents: Contents,
  setting: Setting,
): BrokenPages {
  const own = contents.slabs(new Map());
  // What follows begins on the page of the contents, which is begun anyway.
  const after = text.slice(at).map((each, index) => (index === 0 ? { ...each, newPage: false } : each)); // prettier-ignore
  const { slabs, ranges } = choosePages([...text.slice(0, at), ...own, ...after], setting.pageHeight); // prettier-ignore
  const contentsPages = pagesOf(slabs, ranges);
  const numbered = contents.slabs(contentsPages);
  const first = slabs.findIndex(({ marks }) => marks === own[0]?.marks);
  const filled = slabs.map((each, index) => numbered[index - first] ?? each);
  return { slabs: filled, ranges, contentsPages };
}

function pagesOf(slabs: readonly Slab[], ranges: readonly PageRange[]): Map<string, number> {
  const pages = new Map<string, number>();
  ranges.forEach(({ start, end }, page) => {
    for (const { id } of slabs.slice(start, end).flatMap(({ anchors = [] }) => anchors)) {
      if (!pages.has(id)) pages.set(id, page + 1);
    }
  });
  return pages;
}

/** The document as it was laid out: its contents with their page numbers, or without contents. */
export function settledDocument(document: Document, { contentsPages }: Laid): Document {
  const settled = (block: Block): Block[] => {
    if (block.kind !== 'contents') return [block];
    if (contentsPages === undefined) return [];
    const entries = block.entries.map((entry) => {
      const page = contentsPages.get(entry.target);
      return page === undefined ? entry : { ...entry, page };
    });
    return [{ ...block, entries }];
  };
  if (document.blocks.every(({ kind }) => kind !== 'contents')) return document;
  return { ...document, blocks: document.blocks.flatMap(settled) };
}
