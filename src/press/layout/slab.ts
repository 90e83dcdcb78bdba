/**
 * Slabs: what blocks become and pages are made of. A slab is one unbreakable strip of the page (a line,
 * a table row, a figure) with its marks, the white space around it, and what it would cost to begin a
 * page with it. Marks are counted from the slab's top and the page's start edge.
 */
import type { ContentsPlace } from './blocks/contents.ts';
import type { Mark } from './frames.ts';

/** Named places a slab carries, for links and bookmarks. */
export interface Anchor {
  readonly id: string;
  readonly outline?: { readonly title: string; readonly level: number; readonly tag: number };
}

export interface Shrink {
  readonly by: number;
  /** Marks at a height. */
  readonly at: (height: number) => readonly Mark[];
  /** What it takes of a height it is given, where it cannot use all of it. */
  readonly takes?: (height: number) => number;
}

/** One way to set a block, and what it costs beyond what its pages cost. */
export interface Choice {
  readonly slabs: readonly Slab[];
  readonly cost: number;
}

export interface Slab {
  readonly height: number;
  readonly marks: readonly Mark[];
  /** White space to the neighbours; the larger of two counts, and none at a page's head or foot. */
  readonly before: number;
  readonly after: number;
  /** Costs of a page that begins with this slab or ends with it. */
  readonly breakBefore: number;
  readonly breakAfter: number;
  /** Begins a page, unless a page is saved where it does not and much of one would stay white. */
  readonly newPage?: boolean;
  /** Set again at the head of a page that begins with this slab: the heads of a table. */
  readonly repeat?: { readonly height: number; readonly marks: readonly Mark[] };
  /** May become lower by so much. */
  readonly shrink?: Shrink;
  readonly anchors?: readonly Anchor[];
  /** Other ways to set the same, the first being this one; the pages decide which is best. */
  readonly choices?: readonly Choice[];
  /** Keeps the place of a table of contents, which is set when the pages stand. */
  readonly contents?: ContentsPlace;
}

/** So dear that it happens only where nothing else is possible; sums of it stay exact. */
export const FORBIDDEN = 1e7;

export const slab = (height: number, marks: readonly Mark[], more: Partial<Slab> = {}): Slab => ({
  height,
  marks,
  before: 0,
  after: 0,
  breakBefore: 0,
  breakAfter: 0,
  ...more,
});

/** A mark moved by so much. */
export function moved(mark: Mark, dx: number, dy: number): Mark {
  if (mark.kind === 'rule') {
    const { x1, y1, x2, y2 } = mark;
    return { ...mark, x1: x1 + dx, y1: y1 + dy, x2: x2 + dx, y2: y2 + dy };
  }
  return { ...mark, x: mark.x + dx, y: mark.y + dy };
}

export const lowered = (marks: readonly Mark[], dy: number): Mark[] =>
  marks.map((mark) => moved(mark, 0, dy));

/** A slab with further marks, which stay as they are when it shrinks. */
export function withMarks(each: Slab, marks: readonly Mark[]): Slab {
  const { shrink } = each;
  return {
    ...each,
    marks: [...marks, ...each.marks],
    ...(shrink === undefined
      ? {}
      : { shrink: { ...shrink, at: (height) => [...marks, ...shrink.at(height)] } }),
  };
}

/** Changes the first slab, the last, or both, of what a block became. */
export function withEnds(
  slabs: readonly Slab[],
  first: Partial<Slab>,
  last: Partial<Slab> = {},
): Slab[] {
  const { length } = slabs;
  return slabs.map((each, index) => ({
    ...each,
    ...(index === 0 ? first : {}),
    ...(index === length - 1 ? last : {}),
  }));
}

/** Height of slabs under each other, the white space between them included. */
export function stackHeight(slabs: readonly Slab[]): number {
  return slabs.reduce((sum, each, index) => {
    const above = slabs[index - 1];
    return sum + each.height + (above === undefined ? 0 : Math.max(above.after, each.before));
  }, 0);
}

/** Marks of slabs under each other, counted from the top of the first. */
export function stacked(slabs: readonly Slab[]): Mark[] {
  const marks: Mark[] = [];
  let y = 0;
  slabs.forEach((each, index) => {
    const above = slabs[index - 1];
    if (above !== undefined) y += Math.max(above.after, each.before);
    marks.push(...lowered(each.marks, y));
    y += each.height;
  });
  return marks;
}
