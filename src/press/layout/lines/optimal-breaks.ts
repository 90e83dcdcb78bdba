/**
 * Chooses the lines of a paragraph as a whole (Knuth and Plass, "Breaking Paragraphs into Lines",
 * Software: Practice and Experience 11, 1981), as a shortest path over atoms. It differs from the
 * paper where the paper may fail: looseness is never forbidden, only dear, so every text has lines.
 */
import { type Atom, HAIR } from './atoms.ts';

export interface Measure {
  readonly width: number;
  /** Taken from the first line: an indent or a label in the line. */
  readonly firstIndent: number;
  /** Kept free at the end of the last line. */
  readonly lastReserve: number;
  readonly justified: boolean;
  /** Size of the type, which says how ragged an edge may be. */
  readonly size: number;
}

/** Demerits of the paper; the hyphen before a last line costs more, since lines may be ragged here. */
const LINE_COST = 10;
const WORST = 10_000;
const TWO_HYPHENS = 5_000;
const HYPHEN_BEFORE_LAST = 40_000;
const SHORT_LAST_LINE = 60_000;
/** A last line shorter than this, in sizes of the type, looks like a slip. */
const SHORT_LINE = 4.2;
/** The same where something stands at the end of the line. */
const SHORT_BESIDE = 2.4;
/** Slack of a ragged line that counts as a space stretched to its limit: sizes of the type, and share. */
const RAGGED_SLACK = 8;
const RAGGED_SHARE = 0.22;

/** Sums over atoms up to an index, so that any line is measured in one step. */
interface Sums {
  readonly width: Float64Array;
  readonly stretch: Float64Array;
  readonly shrink: Float64Array;
  /** Width before a line that begins at an index: the blank half of its first sign stands outside. */
  readonly before: Float64Array;
}

function sumsOf(atoms: readonly Atom[]): Sums {
  const sums = Array.from({ length: 4 }, () => new Float64Array(atoms.length + 1));
  const [width, stretch, shrink, before] = sums as [Float64Array, Float64Array, Float64Array, Float64Array]; // prettier-ignore
  atoms.forEach((atom, index) => {
    before[index] = (width[index] as number) + atom.startBlank;
    width[index + 1] = (width[index] as number) + atom.width + atom.space;
    stretch[index + 1] = (stretch[index] as number) + atom.stretch + atom.spaceStretch;
    shrink[index + 1] = (shrink[index] as number) + atom.shrink + atom.spaceShrink;
  });
  return { width, stretch, shrink, before };
}

/** All that the lines which end at one place share. */
interface LineEnd {
  /** Sums up to here, without the space that is lost. */
  readonly width: number;
  readonly stretch: number;
  readonly shrink: number;
  /** The least that a line up to here is wide, in the same sum. */
  readonly leastWidth: number;
  /** Demerits of ending here at all. */
  readonly cost: number;
  readonly forced: boolean;
  readonly closing: boolean;
  readonly room: number;
}

function endOf(atoms: readonly Atom[], sums: Sums, to: number, measure: Measure): LineEnd {
  const last = atoms[to - 1] as Atom;
  const closing = to === atoms.length;
  const width = (sums.width[to] as number) - last.space - last.endBlank;
  const shrink = measure.justified ? (sums.shrink[to] as number) : 0;
  return {
    width: width + last.hyphenWidth,
    stretch: (sums.stretch[to] as number) - last.spaceStretch,
    shrink: measure.justified ? shrink - last.spaceShrink : 0,
    leastWidth: width - shrink,
    cost: squared(last.cost),
    forced: last.forced,
    closing,
    room: measure.width - (closing ? measure.lastReserve : 0),
  };
}

/** Badness of a line: a hundred times the cube of how far its spaces are from their own width. */
const badness = (ratio: number): number => Math.min(WORST, 100 * ratio * ratio * ratio);

/** The operator for powers is many times slower, and this runs for every pair of places in a line. */
const squared = (value: number): number => value * value;

/** Demerits of the line of atoms `from` up to an end; infinite where it is too wide. */
function demerits(end: LineEnd, sums: Sums, from: number, measure: Measure): number {
  const width = end.width - (sums.before[from] as number);
  const slack = end.room - (from === 0 ? measure.firstIndent : 0) - width;
  if (slack < -HAIR) {
    const shrink = measure.justified ? end.shrink - (sums.shrink[from] as number) : 0;
    if (slack < -shrink - HAIR) return Infinity;
    return squared(LINE_COST + badness(-slack / shrink)) + end.cost;
  }
  if (end.forced) {
    const short = end.closing && from > 0 && width < shortLine(measure);
    return squared(LINE_COST) + (short ? SHORT_LAST_LINE : 0);
  }
  if (!measure.justified) return squared(LINE_COST + raggedness(slack, measure)) + end.cost;
  const stretch = end.stretch - (sums.stretch[from] as number);
  const ratio = slack / Math.max(stretch, measure.size / 10);
  return squared(LINE_COST + badness(ratio)) + end.cost;
}

/** Badness of a ragged line; it grows more slowly, since white at the edge hurts less than in words. */
const raggedness = (slack: number, measure: Measure): number =>
  Math.min(WORST, 100 * squared(slack / usualSlack(measure)));

const usualSlack = ({ size, width }: Measure): number =>
  Math.max(Math.min(size * RAGGED_SLACK, width * RAGGED_SHARE), size / 10);

/** How loose the loosest line is, in what a line may usually be; 0 where all end as they must. */
export function loosestLine(
  atoms: readonly Atom[],
  ends: readonly number[],
  measure: Measure,
): number {
  let loosest = 0;
  let from = 0;
  for (const to of ends) {
    const last = atoms[to - 1] as Atom;
    let width = last.hyphenWidth - last.endBlank - (atoms[from] as Atom).startBlank - last.space;
    let stretch = -last.spaceStretch;
    for (let at = from; at < to; at++) {
      const atom = atoms[at] as Atom;
      width += atom.width + atom.space;
      stretch += atom.stretch + atom.spaceStretch;
    }
    const slack = measure.width - (from === 0 ? measure.firstIndent : 0) - width;
    const usual = measure.justified ? Math.max(stretch, measure.size / 10) : usualSlack(measure);
    if (!last.forced) loosest = Math.max(loosest, slack / usual);
    from = to;
  }
  return loosest;
}

const shortLine = ({ size, lastReserve }: Measure): number =>
  size * (lastReserve > 0 ? SHORT_BESIDE : SHORT_LINE);

/** Ends of lines as numbers of atoms, ascending; the last is `atoms.length`. */
export function optimalBreaks(atoms: readonly Atom[], measure: Measure): number[] {
  const sums = sumsOf(atoms);
  const best = new Float64Array(atoms.length + 1).fill(Infinity);
  const from = new Int32Array(atoms.length + 1).fill(-1);
  best[0] = 0;
  for (let to = 1; to <= atoms.length; to++) {
    const end = endOf(atoms, sums, to, measure);
    for (let start = to - 1; start >= 0; start--) {
      if (start < to - 1 && atoms[start]?.forced === true) break;
      if (isTooWide(end, sums, start, measure)) break;
      const cost = demerits(end, sums, start, measure);
      const total = (best[start] as number) + cost + hyphenPair(atoms, start, to);
      if (total < (best[to] as number)) {
        best[to] = total;
        from[to] = start;
      }
    }
    if (from[to] === -1) takeAlone(best, from, to);
  }
  return backwards(from);
}

/** Whether the line would be too wide wherever in the paragraph it stood. */
function isTooWide(end: LineEnd, sums: Sums, from: number, { width, justified }: Measure): boolean {
  const shrunk = justified ? (sums.shrink[from] as number) : 0;
  return end.leastWidth - (sums.before[from] as number) + shrunk > width + HAIR;
}

/** An atom that fits on no line still has one to itself; it is made to fit when the line is set. */
function takeAlone(best: Float64Array, from: Int32Array, to: number): void {
  from[to] = to - 1;
  best[to] = (best[to - 1] as number) + squared(WORST);
}

function hyphenPair(atoms: readonly Atom[], from: number, to: number): number {
  if (from === 0) return 0;
  const before = atoms[from - 1] as Atom;
  if (before.hyphen === 'none') return 0;
  if (to === atoms.length) return HYPHEN_BEFORE_LAST;
  return (atoms[to - 1] as Atom).hyphen === 'none' ? 0 : TWO_HYPHENS;
}

function backwards(from: Int32Array): number[] {
  const ends: number[] = [];
  for (let to = from.length - 1; to > 0; to = from[to] as number) ends.push(to);
  return ends.reverse();
}
