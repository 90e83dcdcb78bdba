/**
 * The table of contents of an edition: its main headings and the pieces of its instructions, in order,
 * after the cover. Knows blocks only; the layout decides whether the document is long enough for it.
 */
import type { Block, ContentsEntry, Inline } from '../document.ts';

/** Shorter documents are leafed through sooner than looked up. */
const LEAST_PAGES = 12;

export function withContents(blocks: readonly Block[], title: string): readonly Block[] {
  const entries = blocks.flatMap(entriesOf);
  const [cover, ...rest] = blocks;
  if (cover === undefined || entries.length === 0) return blocks;
  const contents: Block = {
    kind: 'contents',
    id: 'contents',
    title: [{ kind: 'text', text: title, role: 'plain' }],
    leastPages: LEAST_PAGES,
    entries,
  };
  return [cover, contents, ...rest];
}

/** Headings that begin a section; those inside one are found soon enough. */
function entriesOf(block: Block): ContentsEntry[] {
  if (block.kind !== 'section') return [];
  const first = firstOf(block.children);
  const own = first?.kind === 'heading' ? entryOf(first) : [];
  return [...own, ...block.children.flatMap(entriesOf)];
}

const firstOf = ([first]: readonly Block[]): Block | undefined =>
  first?.kind === 'together' ? firstOf(first.children) : first;

function entryOf({ id, level, content }: Extract<Block, { kind: 'heading' }>): ContentsEntry[] {
  if (level !== 2 && level !== 3) return [];
  return [{ target: id, title: content.map(textOf).join(''), level }];
}

function textOf(inline: Inline): string {
  if (inline.kind === 'text') return inline.text;
  return 'children' in inline ? inline.children.map(textOf).join('') : ' ';
}
