/**
 * Chooses where pages end, for the whole document at once: a shortest path over slabs, like the lines
 * of a paragraph. Costs are white space at the foot, breaks where the slabs say they are dear, white
 * space and figures made smaller, and pages themselves. Every slab has a page whatever the costs are.
 */
import type { Slab } from '../slab.ts';

/** Slabs `start` up to `end`. */
export interface PageRange {
  readonly start: number;
  readonly end: number;
  /** How much of what can give way must do so, from 0, as designed, to 1: white space gives first. */
  readonly gapSqueeze: number;
  readonly figureSqueeze: number;
}

/** White space between blocks may lose this share. */
export const GAP_SHRINK = 0.3;

export const gapAbove = (above: Slab | undefined, below: Slab): number =>
  above === undefined ? 0 : Math.max(above.after, below.before);

const PAGE = 1_000;
/** White at the foot of all but the last page: the sum is kept low, and no page has much more than others. */
const WHITE_FOOT = 300;
const WHITE_FOOT_SQUARED = 700;
/** A part that should begin a page begins inside one: worth it where that saves a page half white. */
const FLOWED = 1_150;
const SHRUNK = 400;
/** A last page with almost nothing on it; the cost falls to nothing where it is as full as `WELL_BEGUN`. */
const NEARLY_EMPTY = 0.14;
const WELL_BEGUN = 0.26;
const NEARLY_EMPTY_COST = 700;
const OVERFULL = 1e12;
const HAIR = 0.01;

/** Height of slabs from one to another, and what of it may give way, in one step. */
class Heights {
  readonly #tops: Float64Array;
  readonly #figures: Float64Array;
  readonly #gaps: Float64Array;
  readonly #slabs: readonly Slab[];

  constructor(slabs: readonly Slab[]) {
    this.#slabs = slabs;
    this.#tops = new Float64Array(slabs.length);
    this.#gaps = new Float64Array(slabs.length);
    this.#figures = new Float64Array(slabs.length + 1);
    let y = 0;
    let gaps = 0;
    slabs.forEach((slab, index) => {
      const gap = gapAbove(slabs[index - 1], slab);
      this.#tops[index] = y += gap;
      this.#gaps[index] = gaps += gap;
      this.#figures[index + 1] = (this.#figures[index] as number) + (slab.shrink?.by ?? 0);
      y += slab.height;
    });
  }

  of(start: number, end: number): number {
    const last = this.#slabs[end - 1] as Slab;
    const first = this.#slabs[start] as Slab;
    const content = (this.#tops[end - 1] as number) + last.height - (this.#tops[start] as number);
    return content + (first.repeat?.height ?? 0);
  }

  /** How much the white space may lose. */
  gaps(start: number, end: number): number {
    return ((this.#gaps[end - 1] as number) - (this.#gaps[start] as number)) * GAP_SHRINK;
  }

  /** How much the figures may lose. */
  figures(start: number, end: number): number {
    return (this.#figures[end] as number) - (this.#figures[start] as number);
  }
}

export interface PageBreaks {
  /** In order. */
  readonly ranges: readonly PageRange[];
  readonly cost: number;
}

/** Pages of slabs on a given height. */
export function breakPages(slabs: readonly Slab[], pageHeight: number): PageBreaks {
  const heights = new Heights(slabs);
  const best = new Float64Array(slabs.length + 1).fill(Infinity);
  const from = new Int32Array(slabs.length + 1).fill(-1);
  best[0] = 0;
  for (let end = 1; end <= slabs.length; end++) {
    const cost = breakCost(slabs, end);
    let flowed = 0;
    for (let start = end - 1; start >= 0; start--) {
      const alone = start === end - 1;
      const height = heights.of(start, end);
      const shrink = heights.gaps(start, end) + heights.figures(start, end);
      const tooHigh = height - shrink > pageHeight + HAIR;
      if (tooHigh && !alone) {
        if (height - shrink > pageHeight * 2) break;
        continue;
      }
      const inside = pageCost(height, shrink, pageHeight, end === slabs.length);
      const total = (best[start] as number) + cost + flowed + (tooHigh ? OVERFULL : inside);
      if (total < (best[end] as number)) {
        best[end] = total;
        from[end] = start;
      }
      if (slabs[start]?.newPage === true) flowed += FLOWED;
    }
  }
  return { ranges: rangesOf(from, heights, pageHeight), cost: best[slabs.length] as number };
}

/** Cost of a page that ends before slab `end`. */
function breakCost(slabs: readonly Slab[], end: number): number {
  const below = slabs[end];
  if (below === undefined || below.newPage === true) return 0;
  const above = slabs[end - 1] as Slab;
  return Math.max(above.breakAfter, below.breakBefore);
}

function pageCost(height: number, shrink: number, pageHeight: number, last: boolean): number {
  if (height > pageHeight) {
    const share = shrink === 0 ? 1 : (height - pageHeight) / shrink;
    return PAGE + SHRUNK * share ** 2;
  }
  const white = (pageHeight - height) / pageHeight;
  if (!last) return PAGE + WHITE_FOOT * white + WHITE_FOOT_SQUARED * white ** 2;
  const lack = (WELL_BEGUN - (1 - white)) / (WELL_BEGUN - NEARLY_EMPTY);
  return PAGE + NEARLY_EMPTY_COST * Math.min(1, Math.max(0, lack)) ** 2;
}

const shareOf = (excess: number, room: number): number =>
  excess > HAIR && room > 0 ? Math.min(1, excess / room) : 0;

function rangesOf(from: Int32Array, heights: Heights, pageHeight: number): PageRange[] {
  const pages: PageRange[] = [];
  for (let end = from.length - 1; end > 0; end = from[end] as number) {
    const start = from[end] as number;
    const excess = Math.max(0, heights.of(start, end) - pageHeight);
    const gaps = heights.gaps(start, end);
    pages.push({
      start,
      end,
      gapSqueeze: shareOf(excess, gaps),
      figureSqueeze: shareOf(excess - gaps, heights.figures(start, end)),
    });
  }
  return pages.reverse();
}
