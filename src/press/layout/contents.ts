/**
 * A table of contents: headings with the pages they stand on, put into a document whose pages are not
 * known before it is laid out. So it is laid out with guessed numbers, and again with those it then
 * has, until they hold. Gives the document that was laid out too: the numbers are part of its text.
 */
import type { Block, Document, TableCell } from '../document.ts';
import type { Fonts } from '../fonts/face.ts';
import type { Laid } from './frames.ts';
import { layOut } from './lay-out.ts';
import { plainText } from './lines/flat-text.ts';
import type { PageStyle } from './style.ts';

export interface ContentsOptions {
  /** Place of the contents among the document's blocks. */
  readonly position: number;
  /** Set before the table: its heading. */
  readonly before: readonly Block[];
  /** Headings of this level and above are listed, the document's own title aside. */
  readonly deepest: 2 | 3 | 4;
}

export interface WithContents {
  readonly document: Document;
  readonly laid: Laid;
}

/** Two passes are enough unless a number changes the length of its line; then nearly is enough. */
const MOST_PASSES = 4;

interface Entry {
  readonly id: string;
  readonly title: string;
  readonly level: number;
}

/** Lays out a document with its contents. */
export function layOutWithContents(
  document: Document,
  options: ContentsOptions,
  style: PageStyle,
  fonts: Fonts,
): WithContents {
  const entries = entriesOf(document.blocks, options.deepest);
  let pages = entries.map(() => 1);
  let set = documentWith(document, entries, pages, options);
  let laid = layOut(set, style, fonts);
  for (let pass = 1; pass < MOST_PASSES; pass++) {
    const found = entries.map(({ id }) => (laid.destinations.get(id)?.page ?? 0) + 1);
    if (found.every((page, index) => page === pages[index])) break;
    pages = found;
    set = documentWith(document, entries, pages, options);
    laid = layOut(set, style, fonts);
  }
  return { document: set, laid };
}

/** Headings below the title, in order. */
function entriesOf(blocks: readonly Block[], deepest: number): Entry[] {
  return blocks.flatMap((block): Entry[] => {
    if (block.kind === 'section' || block.kind === 'together') {
      return entriesOf(block.children, deepest);
    }
    if (block.kind !== 'heading' || block.level === 1 || block.level > deepest) return [];
    return [{ id: block.id, title: plainText(block.content), level: block.level }];
  });
}

function documentWith(
  document: Document,
  entries: readonly Entry[],
  pages: readonly number[],
  { position, before }: ContentsOptions,
): Document {
  const { blocks } = document;
  const contents = entries.length === 0 ? [] : [...before, contentsTable(entries, pages)];
  return {
    ...document,
    blocks: [...blocks.slice(0, position), ...contents, ...blocks.slice(position)],
  };
}

function contentsTable(entries: readonly Entry[], pages: readonly number[]): Block {
  const cell = (entry: Entry, text: string, header?: 'row'): TableCell => ({
    content: [
      {
        kind: 'link',
        target: `#${entry.id}`,
        children: [{ kind: 'text', text, role: entry.level === 2 ? 'strong' : 'plain' }],
      },
    ],
    ...(header === undefined ? {} : { header }),
  });
  return {
    kind: 'table',
    id: 'contents',
    caption: [],
    columns: [
      { align: 'start', stretch: 1 },
      { align: 'end', stretch: 0 },
    ],
    head: [],
    rows: entries.map((entry, index) => [
      cell(entry, entry.title, 'row'),
      cell(entry, String(pages[index])),
    ]),
  };
}
