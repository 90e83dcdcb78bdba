/**
 * Heels, gussets, thumbs and picked-up edges as counts. Each function takes counts and gives counts,
 * with the rule's source beside it; where there are too few rows it says so instead of giving a plan.
 */
import { assert } from '../../base/assert.ts';
import { type Leg, shapingRates } from './spacing.ts';

/**
 * Counts after each row of the turned heel "purl n/2 + 2, p2tog, p1; slip 1, knit 5, decrease, k1;
 * then to 1 before the gap, decrease across it, one more" (common practice). The last is what remains.
 */
export function heelTurnCounts(heel: number): number[] {
  assert(heel % 2 === 0 && heel >= 12, 'a heel is turned over an even number of stitches');
  // After two rows: 8 stitches in the middle, the others wait on both sides of them.
  const middle = 8;
  const waiting = { left: heel / 2 - 5, right: heel / 2 + 4 - 9 };
  let worked = middle;
  const counts = [heel - 1, heel - 2];
  for (let side: 'left' | 'right' = 'left'; waiting[side] > 0; side = otherSide(side)) {
    // Decreasing over the gap takes one waiting stitch; one more is worked where there is one.
    worked += waiting[side] > 1 ? 1 : 0;
    waiting[side] = Math.max(0, waiting[side] - 2);
    counts.push(worked + waiting.left + waiting.right);
  }
  return counts;
}

const otherSide = (side: 'left' | 'right') => (side === 'left' ? 'right' : 'left');

/** Stitches to pick up along a vertical edge: rows × stitch gauge ÷ row gauge (geometry). */
export const pickUpAlongRows = (
  rows: number,
  stitchesPerInch: number,
  rowsPerInch: number,
): number => Math.round((rows * stitchesPerInch) / rowsPerInch);

// ---------------------------------------------------------------- heels

export interface HeelFlap {
  /** Half of the round. */
  readonly flap: number;
  /** As many rows as stitches: a square (common practice). */
  readonly rows: number;
  /** Along each side: one for every second row. */
  readonly pickUp: number;
}

export function heelFlap(round: number): HeelFlap {
  assert(round % 2 === 0, 'a heel takes half of the round');
  const flap = round / 2;
  return { flap, rows: flap, pickUp: Math.floor(flap / 2) };
}

export interface HeelGusset {
  /** On the needle after both sides are picked up. */
  readonly start: number;
  /** Rounds with a decrease at each side, every second round. */
  readonly events: number;
  readonly rounds: number;
}

/** From the turned heel back to the stitches of the foot; undefined where that is no whole number. */
export function heelGusset(
  turned: number,
  pickUp: number,
  instep: number,
  foot: number,
): HeelGusset | undefined {
  const start = turned + 2 * pickUp + instep;
  const events = (start - foot) / 2;
  return Number.isInteger(events) && events >= 0
    ? { start, events, rounds: 2 * events }
    : undefined;
}

export interface ShortRowHeel {
  /** Stitches left in the middle at the narrowest. */
  readonly middle: number;
  /** Stitches worked on each short row, out and back. */
  readonly rows: readonly number[];
}

/**
 * A heel in short rows over `heel` stitches: one stitch less on every row until a third is left, then one
 * more on every row (common practice). Rows: twice the stitches that are left at each side, out and back.
 */
export function shortRowHeel(
  heel: number,
  middle = Math.round(heel / 3),
): ShortRowHeel | undefined {
  const waiting = heel - middle;
  if (middle < 1 || waiting < 2 || waiting % 2 !== 0) return undefined;
  const narrowing = Array.from({ length: waiting }, (_, row) => heel - 1 - row);
  return { middle, rows: [...narrowing, ...narrowing.toReversed().map((each) => each + 1)] };
}

// ---------------------------------------------------------------- thumbs

export interface ThumbGusset {
  /** Rounds that add a stitch at each side. */
  readonly events: number;
  readonly legs: readonly Leg[];
  readonly plainRounds: number;
  /** Stitches put on hold for the thumb. */
  readonly thumb: number;
}

/**
 * A gusset that grows from `start` stitches to `thumb` by two at a time, within the rounds between wrist
 * and thumb; undefined where the difference is odd or the rounds do not suffice.
 */
export function thumbGusset(start: number, thumb: number, rounds: number): ThumbGusset | undefined {
  const events = (thumb - start) / 2;
  if (!Number.isInteger(events) || events < 0) return undefined;
  // Every third round is the steepest that does not pucker (common practice); else evenly.
  const rates = shapingRates(rounds, events, 1);
  if (!rates) return undefined;
  const used = rates.legs.reduce((sum, { every, times }) => sum + every * times, 0);
  return { events, legs: rates.legs, plainRounds: rounds - used, thumb };
}
