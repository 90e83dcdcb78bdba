/**
 * Bookmarks: the headings of the document as a tree of items, each leading to its place and to its tag
 * (ISO 32000-1, 12.3.3). A level that is skipped hangs under the nearest level above it.
 */
import { present } from '../../base/assert.ts';
import type { Laid, OutlineEntry } from '../layout/frames.ts';
import { destination } from './links.ts';
import { assign, type PDFContext, type PDFRef, text } from './objects.ts';
import type { PaintedPages } from './pages.ts';
import type { StructureTree } from './structure.ts';

interface Item {
  readonly entry: OutlineEntry;
  readonly ref: PDFRef;
  readonly children: Item[];
}

/** The root of the bookmarks, or nothing where there are none. */
export function addOutline(
  context: PDFContext,
  laid: Laid,
  pages: PaintedPages,
  structure: StructureTree,
): PDFRef | undefined {
  if (laid.outline.length === 0) return undefined;
  const root = context.nextRef();
  const items = treeOf(context, laid.outline);
  const write = (siblings: readonly Item[], parent: PDFRef): void => {
    siblings.forEach(({ entry, ref, children }, place) => {
      assign(context, ref, {
        Title: text(entry.title),
        Parent: parent,
        Prev: siblings[place - 1]?.ref,
        Next: siblings[place + 1]?.ref,
        ...family(children),
        Dest: destination(laid, pages, entry.page, entry.y),
        SE: present(structure.elements[entry.tag], `tag ${entry.tag}`),
      });
      write(children, ref);
    });
  };
  write(items, root);
  assign(context, root, { Type: 'Outlines', ...family(items) });
  return root;
}

function treeOf(context: PDFContext, outline: readonly OutlineEntry[]): Item[] {
  const top: Item[] = [];
  const open: Item[] = [];
  for (const entry of outline) {
    const item: Item = { entry, ref: context.nextRef(), children: [] };
    while ((open.at(-1)?.entry.level ?? -1) >= entry.level) open.pop();
    (open.at(-1)?.children ?? top).push(item);
    open.push(item);
  }
  return top;
}

/** First, last, and how many items are seen when all are open. */
function family(children: readonly Item[]) {
  const first = children[0]?.ref;
  const last = children.at(-1)?.ref;
  return first && last ? { First: first, Last: last, Count: seen(children) } : {};
}

const seen = (items: readonly Item[]): number =>
  items.reduce((sum, { children }) => sum + 1 + seen(children), 0);
