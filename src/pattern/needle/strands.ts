/**
 * The stitches on a pair of needles. Gives lists of runs and marks with the operations a row needs:
 * take, make, look ahead to a mark. Both lists are stacks: the last entry of `left` is worked next, the
 * last entry of `right` was worked last, so that turning the work is swapping the two. Runs keep a
 * plain row of a thousand stitches as cheap as one of ten. Knows no stitch names and no sizes.
 */

/** A marker, or the gap that an earlier turn left between worked and unworked stitches. */
export interface Mark {
  readonly kind: 'marker' | 'gap';
  /** Empty for an unnamed marker. */
  readonly name: string;
}

/** So many stitches, or a mark between stitches. */
export type Strand = number | Mark;

export interface Needles {
  left: Strand[];
  right: Strand[];
}

/** Beginning of the round. Stands at the end of the round until it is slipped or passed. */
export const ROUND_START: Mark = { kind: 'marker', name: 'BOR' };
export const GAP: Mark = { kind: 'gap', name: '' };

export const isMark = (strand: Strand | undefined): strand is Mark => typeof strand === 'object';

export function countStitches(strands: readonly Strand[]): number {
  let total = 0;
  for (const strand of strands) if (typeof strand === 'number') total += strand;
  return total;
}

export const countMarkers = (strands: readonly Strand[]): number =>
  strands.filter((strand) => isMark(strand) && strand.kind === 'marker').length;

/** Puts stitches on top of a stack, joining the run that lies there. */
export function pushStitches(strands: Strand[], count: number): void {
  if (count <= 0) return;
  const top = strands.at(-1);
  if (typeof top === 'number') strands[strands.length - 1] = top + count;
  else strands.push(count);
}

export function pushStrand(strands: Strand[], strand: Strand): void {
  if (typeof strand === 'number') pushStitches(strands, strand);
  else strands.push(strand);
}

/** Moves a mark from left to right. A gap that is crossed closes and is gone. */
function passMark(needles: Needles): void {
  const mark = needles.left.pop();
  if (isMark(mark) && mark.kind === 'marker') needles.right.push(mark);
}

/** Marks that lie before the next stitch are passed silently: "k to end" needs no "sm". */
export function passMarks(needles: Needles): void {
  while (isMark(needles.left.at(-1))) passMark(needles);
}

/**
 * Works one stitch `times` times, each taking and making so many. Marks between the stitches that one
 * decrease takes come to lie behind it. Gives how many of the `times` could be worked.
 */
export function workStitch(needles: Needles, takes: number, makes: number, times: number): number {
  const { left, right } = needles;
  if (takes === 0) {
    if (makes >= 0) pushStitches(right, makes * times);
    else liftStitches(right, -makes * times);
    return times;
  }
  let rest = times;
  while (rest > 0) {
    passMarks(needles);
    const run = left.at(-1);
    if (typeof run !== 'number') return times - rest;
    const whole = Math.min(rest, Math.floor(run / takes));
    if (whole === 0) {
      if (!straddle(needles, takes, makes)) return times - rest;
      rest -= 1;
      continue;
    }
    dropStitches(left, run, whole * takes);
    pushStitches(right, whole * makes);
    rest -= whole;
  }
  return times;
}

/** One stitch that takes its stitches from both sides of a mark. */
function straddle(needles: Needles, takes: number, makes: number): boolean {
  const { left, right } = needles;
  if (countStitches(left) < takes) return false;
  const marks: Mark[] = [];
  for (let need = takes; need > 0;) {
    const strand = left.pop();
    if (strand === undefined) break;
    if (isMark(strand)) {
      if (strand.kind === 'marker') marks.push(strand);
    } else if (strand > need) {
      left.push(strand - need);
      need = 0;
    } else need -= strand;
  }
  pushStitches(right, makes);
  right.push(...marks);
  return true;
}

function dropStitches(left: Strand[], run: number, count: number): void {
  if (run === count) left.pop();
  else left[left.length - 1] = run - count;
}

/** Takes stitches off the top of a stack; marks between them stay. Gives how many were there. */
export function liftStitches(strands: Strand[], count: number): number {
  let rest = count;
  for (let at = strands.length - 1; at >= 0 && rest > 0; at -= 1) {
    const strand = strands[at];
    if (typeof strand !== 'number') continue;
    const lifted = Math.min(strand, rest);
    rest -= lifted;
    if (lifted === strand) strands.splice(at, 1);
    else strands[at] = strand - lifted;
  }
  return count - rest;
}

/** Takes stitches off the bottom of a stack: the edge worked first. */
export function liftFromBottom(strands: Strand[], count: number): number {
  strands.reverse();
  const lifted = liftStitches(strands, count);
  strands.reverse();
  return lifted;
}

export function addAtBottom(strands: Strand[], count: number): void {
  strands.reverse();
  pushStitches(strands, count);
  strands.reverse();
}

/** Stitches before the next mark that fits, or undefined where there is none. */
export function stitchesBefore(
  left: readonly Strand[],
  fits: (mark: Mark) => boolean,
): number | undefined {
  let total = 0;
  for (let at = left.length - 1; at >= 0; at -= 1) {
    const strand = left[at];
    if (typeof strand === 'number') total += strand;
    else if (strand && fits(strand)) return total;
  }
  return undefined;
}

/** A copy of the strands that holds `count` stitches: the longest run takes up the difference. */
export function withCount(strands: readonly Strand[], count: number): Strand[] {
  const copy = [...strands];
  let difference = count - countStitches(copy);
  while (difference !== 0) {
    let longest = -1;
    for (let at = 0; at < copy.length; at += 1) {
      const here = copy[at];
      const best = copy[longest];
      if (typeof here !== 'number') continue;
      if (typeof best !== 'number' || here > best) longest = at;
    }
    const run = copy[longest];
    if (typeof run !== 'number') {
      if (difference > 0) copy.push(difference);
      return copy;
    }
    const changed = Math.max(0, run + difference);
    difference -= changed - run;
    if (changed === 0) copy.splice(longest, 1);
    else copy[longest] = changed;
  }
  return copy;
}

export function sameStrands(one: readonly Strand[], other: readonly Strand[]): boolean {
  return (
    one.length === other.length &&
    one.every((strand, at) => {
      const twin = other[at];
      return isMark(strand)
        ? isMark(twin) && strand.kind === twin.kind && strand.name === twin.name
        : strand === twin;
    })
  );
}
