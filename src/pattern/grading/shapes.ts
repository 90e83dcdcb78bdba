/**
 * The classic shapes of garments as counts: raglans, circular yokes, crowns, heels, gussets, circles.
 * Each function takes counts and gives counts, with the rule's source beside it. Where a rule is a
 * habit of the trade and no theorem, the comment says so.
 */
import { assert } from '../../base/assert.ts';
import { type Leg, shapingRates } from './spacing.ts';

/** Four lines, two decreases each: eight stitches a round (common practice). */
export const RAGLAN_STITCHES_PER_ROUND = 8;

export interface RaglanPlan {
  /** Rounds on which body and sleeves are shaped together, and rounds with one of them alone. */
  readonly bodyRates: readonly Leg[];
  readonly sleeveRates: readonly Leg[];
  readonly rounds: number;
}

/**
 * Compound raglan: body and sleeve grow at different rates over the same depth. `bodyEvents` shape
 * four stitches each (two on front, two on back), `sleeveEvents` four as well (two on each sleeve).
 */
export function planRaglan(
  rounds: number,
  bodyEvents: number,
  sleeveEvents: number,
  step: 1 | 2 = 2,
): RaglanPlan | undefined {
  const body = shapingRates(rounds, bodyEvents, step);
  const sleeve = shapingRates(rounds, sleeveEvents, step);
  if (!body || !sleeve) return undefined;
  return { bodyRates: body.legs, sleeveRates: sleeve.legs, rounds };
}

/** Stitches at the underarm of a raglan worked from the neck: start + 2 an event + the cast-on. */
export const raglanPart = (start: number, events: number, underarm: number): number =>
  start + 2 * events + underarm;

// ---------------------------------------------------------------- circular yokes

export interface YokeProportions {
  readonly body: number;
  readonly upperSleeve: number;
  readonly underarm: number;
  readonly yokeStart: number;
  readonly neck: number;
  /** Half the body width: a quarter of the circumference. */
  readonly depthInches: number;
}

/**
 * The percentage system: upper sleeve 33 %, underarm 8 % each side, neck 40 % of the body; depth half
 * the body width (Elizabeth Zimmermann, Knitting Without Tears, 1971; Knitting Around, 1989).
 * The yoke starts on body + two sleeves less the underarm stitches of all four edges.
 */
export function percentageYoke(body: number, bodyInches: number): YokeProportions {
  const upperSleeve = Math.round(body * 0.33);
  const underarm = Math.round(body * 0.08);
  return {
    body,
    upperSleeve,
    underarm,
    yokeStart: body + 2 * upperSleeve - 4 * underarm,
    neck: Math.round(body * 0.4),
    depthInches: bodyInches / 4,
  };
}

/** Stitches after a decrease round that turns every `from` stitches into `to`, rest kept as they are. */
export function afterRatio(count: number, from: number, to: number): number {
  const groups = Math.floor(count / from);
  return groups * to + (count % from);
}

// ---------------------------------------------------------------- crowns and circles

/**
 * Counts of a crown of `wedges`, one stitch less in each on every decrease round: 8 wedges of 12 go
 * 96, 88, 80 … (common practice). Ends when `leave` stitches or fewer remain in each wedge.
 */
export function crownCounts(wedges: number, wedgeStitches: number, leave = 1): number[] {
  assert(wedges > 0 && wedgeStitches >= leave, 'a crown has wedges to decrease');
  return Array.from(
    { length: wedgeStitches - leave + 1 },
    (_, index) => wedges * (wedgeStitches - index),
  );
}

/** Stitches to add in each round of a flat circle: 2π × stitch gauge ÷ row gauge (geometry). */
export const circleIncreasePerRound = (stitchesPerInch: number, rowsPerInch: number): number =>
  (2 * Math.PI * stitchesPerInch) / rowsPerInch;

// ---------------------------------------------------------------- heels, gussets, edges

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
