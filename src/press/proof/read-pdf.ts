/**
 * Reads a finished PDF with a reader that shares nothing with our writer (pdf.js): what stands in each
 * piece of tagged content, in the order of the tag tree, and where on the page it stands. Takes bytes;
 * knows nothing of what it should say.
 */
import type { PDFPageProxy } from 'pdfjs-dist';
import { embeddedPictures } from './embedded-pictures.ts';
import { type Box, joinBoxes, type Painted, readMarks } from './page-marks.ts';
import { loadReader } from './reader.ts';

/** One piece of marked content. */
export interface ReadPiece {
  readonly text: string;
  readonly box: Box | undefined;
  /** Size of the smallest type in it, in points; endless where it has none. */
  readonly smallestType: number;
}

/** An element with an alternative text; its box holds what stands inside it. */
export interface ReadFigure {
  readonly alternative: string;
  readonly box: Box | undefined;
  /** Size of a photograph on the page, in points. */
  readonly picture: { readonly width: number; readonly height: number } | undefined;
}

export interface ReadPage {
  readonly widthPoints: number;
  readonly heightPoints: number;
  /** In reading order. */
  readonly pieces: readonly ReadPiece[];
  readonly figures: readonly ReadFigure[];
  /** Heads, feet, rules and tints: seen, and not read. */
  readonly furniture: readonly ReadPiece[];
  /** Text that is neither in the tree nor furniture. */
  readonly stray: string;
}

export interface ReadDocument {
  readonly title: string;
  readonly language: string;
  readonly pages: readonly ReadPage[];
  /** Hashes of the photographs it holds. */
  readonly pictures: ReadonlySet<string>;
}

/** Pictures are not unpacked: their place says enough, and six photographs cost half a second. */
const LARGEST_PICTURE_PIXELS = 1;

/** Throws where the file cannot be opened at all. */
export async function readPdf(bytes: Uint8Array): Promise<ReadDocument> {
  const { getDocument, OPS, VerbosityLevel } = await loadReader();
  const task = getDocument({
    // The reader keeps the buffer it is given, so it gets a copy.
    data: Uint8Array.from(bytes),
    useSystemFonts: false,
    isOffscreenCanvasSupported: false,
    maxImageSize: LARGEST_PICTURE_PIXELS,
    verbosity: VerbosityLevel.ERRORS,
  });
  try {
    const document = await task.promise;
    const { info } = (await document.getMetadata()) as unknown as { info: Record<string, unknown> };
    const pages: ReadPage[] = [];
    for (let number = 1; number <= document.numPages; number += 1)
      pages.push(await readPage(await document.getPage(number), OPS));
    const [title, language] = [words(info['Title']), words(info['Language'])];
    return { title, language, pages, pictures: embeddedPictures(bytes) };
  } finally {
    await task.destroy();
  }
}

const words = (value: unknown): string => (typeof value === 'string' ? value : '');

async function readPage(page: PDFPageProxy, codes: Readonly<Record<string, number>>) {
  const { ref, view } = page as PDFPageProxy & { ref: { num: number } | null };
  const [left = 0, bottom = 0, right = 0, top = 0] = view;
  const painted = readMarks(await page.getOperatorList(), codes);
  const tree = treeNode(await page.getStructTree());
  // How the tree names a piece of this page; generations other than 0 do not occur in new files.
  const piecesById = new Map(
    [...painted.tagged].map(([number, piece]) => [`p${ref?.num ?? 0}R_mc${number}`, piece]),
  );
  const named = idsOf(tree).flatMap((id) => piecesById.get(id) ?? []);
  const inTree = new Set(named);
  const outside = [...painted.tagged.values()].filter((piece) => !inTree.has(piece));
  return {
    widthPoints: right - left,
    heightPoints: top - bottom,
    pieces: named.map(({ text, box, smallestType }) => ({ text, box, smallestType })),
    figures: figuresOf(tree, piecesById),
    furniture: painted.furniture,
    stray: painted.stray + outside.map(({ text }) => text).join(' '),
  };
}

// ---------------------------------------------------------------- the tag tree of a page

interface TreeNode {
  readonly alternative: string | undefined;
  /** Pieces of marked content by id, and elements, in order. */
  readonly children: readonly (string | TreeNode)[];
}

function treeNode(value: unknown): TreeNode {
  const { alt, children = [] } = (value ?? {}) as { alt?: string; children?: unknown[] };
  return {
    alternative: alt,
    children: children.flatMap((child): (string | TreeNode)[] => {
      const { type, id } = child as { type?: string; id?: string };
      if (type === undefined) return [treeNode(child)];
      return type === 'content' && id !== undefined ? [id] : [];
    }),
  };
}

const idsOf = ({ children }: TreeNode): string[] =>
  children.flatMap((child) => (typeof child === 'string' ? [child] : idsOf(child)));

/** Lists and tables are given whole on each of their pages, so what has nothing here is left out. */
function figuresOf(node: TreeNode, pieces: ReadonlyMap<string, Painted>): ReadFigure[] {
  const inside = node.children.flatMap((child) =>
    typeof child === 'string' ? [] : figuresOf(child, pieces),
  );
  if (node.alternative === undefined) return inside;
  const own = idsOf(node).flatMap((id) => pieces.get(id) ?? []);
  if (own.length === 0) return inside;
  const box = own.map((piece) => piece.box).reduce(joinBoxes, undefined);
  const picture = own.find((piece) => piece.picture !== undefined)?.picture;
  return [{ alternative: node.alternative, box, picture }, ...inside];
}
