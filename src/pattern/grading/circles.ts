/**
 * What is worked round about a point: circular yokes, crowns, flat circles. Each function takes counts
 * and gives counts, with the rule's source beside it. Where a rule is a habit of the trade and no
 * theorem, the comment says so.
 */
import { assert } from '../../base/assert.ts';
import { spaceEvenly } from './spacing.ts';

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

/** One decrease round of a yoke: every `from` stitches become `to`, `over` stitches stay as they are. */
export interface YokeRound {
  /** Rounds worked since the yoke began. */
  readonly round: number;
  readonly before: number;
  readonly after: number;
  /** Single decreases, spread evenly. */
  readonly decreases: number;
}

/**
 * Decrease rounds of a circular yoke at given shares of its depth, each to a share of the first count,
 * so that the last comes out on the neck exactly. Three rounds at a half, three quarters and the end
 * (Zimmermann, 1971) are `[[1/2, 2/3], [3/4, 4/9], [1, neck]]`. Undefined where a round would have to
 * take more stitches than there are pairs.
 */
export function planYoke(
  start: number,
  neck: number,
  rounds: number,
  at: readonly (readonly [depth: number, share: number])[],
): readonly YokeRound[] | undefined {
  assert(start >= neck && neck > 0 && rounds > 0, 'a yoke narrows to the neck');
  let before = start;
  const plan = at.map(([depth, share], index): YokeRound => {
    const after = index === at.length - 1 ? neck : Math.round(start * share);
    const decreases = before - after;
    const round = { round: Math.round(rounds * depth), before, after, decreases };
    before = after;
    return round;
  });
  const possible = plan.every((each) => each.decreases >= 0 && 2 * each.decreases <= each.before);
  return possible ? plan : undefined;
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

/**
 * Decrease rounds of a crown so that it is as high as wanted: `wedges` stitches a time, from `stitches`
 * down to `leave` in each wedge, spread over the rounds there are; plain rounds come first. Undefined
 * where there are fewer rounds than decreases. Gives the count after each round.
 */
export function planCrown(
  stitches: number,
  wedges: number,
  rounds: number,
  leave = 1,
): readonly number[] | undefined {
  assert(wedges > 0 && stitches % wedges === 0, 'a crown has equal wedges');
  const events = stitches / wedges - leave;
  if (events < 1 || events > rounds) return undefined;
  const gaps = spaceEvenly(rounds, events);
  const counts: number[] = [];
  let now = stitches;
  for (const gap of gaps) {
    for (let plain = 1; plain < gap; plain += 1) counts.push(now);
    now -= wedges;
    counts.push(now);
  }
  return counts;
}

/**
 * Stitches after each round of a crown begun at its top: 4 sts are doubled twice, then 8 more every
 * second round (common practice): 16, 16, 24, 24, 32 …
 */
export function topDownCrown(rounds: number): readonly number[] {
  const counts = [8, 16];
  while (counts.length < rounds)
    counts.push((counts.at(-1) ?? 16) + (counts.length % 2 === 1 ? 8 : 0));
  return counts.slice(0, rounds);
}

export interface Doubling {
  readonly plainRounds: number;
  /** The round on which the stitches double, counted from the first after the cast-on. */
  readonly round: number;
  readonly stitches: number;
}

/**
 * A circle by doublings: the circumference doubles where the radius does, so the plain rounds between do
 * as well, 1, 3, 6, 12, 24 … (Elizabeth Zimmermann, Knitter's Almanac, 1974).
 */
export function doublingCircle(castOn: number, doublings: number): readonly Doubling[] {
  let round = 0;
  let stitches = castOn;
  return Array.from({ length: doublings }, (_, at) => {
    const plainRounds = at === 0 ? 1 : 3 * 2 ** (at - 1);
    round += plainRounds + 1;
    stitches *= 2;
    return { plainRounds, round, stitches };
  });
}

/** A mitred square of `side` stitches: cast on two sides and a corner, two stitches less on each RS row. */
export const mitredSquare = (side: number): { readonly castOn: number; readonly rows: number } => ({
  castOn: 2 * side + 1,
  rows: 2 * side,
});
