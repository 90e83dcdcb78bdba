/**
 * Even spacing: so many events over so many stitches or rows, as evenly as whole numbers allow, and
 * shaping rates that a knitter can read. Takes counts, gives gaps and legs; the sum of all gaps is
 * always the whole. Pure arithmetic; knows no stitch and no language.
 */
import { assert } from '../../base/assert.ts';

/**
 * Gaps between `events` over `total`, spread so that no two long gaps sit together where it can be
 * helped: the spread of a straight line on a grid (J. E. Bresenham, 1965).
 * `ends: 'none'` (rounds): as many gaps as events. `'half'` (flat pieces): the first and last gap
 * are the two halves of one, so there is one gap more than events.
 */
export function spaceEvenly(
  total: number,
  events: number,
  ends: 'none' | 'half' = 'none',
): number[] {
  assert(Number.isInteger(total) && total >= 0, `cannot spread over ${total}`);
  assert(Number.isInteger(events) && events > 0, `cannot spread ${events} events`);
  const edge = (step: number) => Math.floor((step * total) / events);
  const gaps = Array.from({ length: events }, (_, index) => edge(index + 1) - edge(index));
  if (ends === 'none') return gaps;
  const [first = 0, ...rest] = gaps;
  return [Math.ceil(first / 2), ...rest, Math.floor(first / 2)];
}

/** One leg of a shaping instruction: every `every`th row `times` times. */
export interface Leg {
  readonly every: number;
  readonly times: number;
}

/**
 * Shaping rates for `events` in `rows`: q = rows div events, r = rows mod events; every q rows
 * (events − r) times and every q + 1 rows r times (Brunette, Sweater 101; Paden, Knitwear Design
 * Workshop). `step: 2` keeps rates even, so that flat shaping always falls on the right side; rows
 * that are over come back as `restRows` and are worked plain at the end.
 */
export function shapingRates(
  rows: number,
  events: number,
  step: 1 | 2 = 1,
): { readonly legs: readonly Leg[]; readonly restRows: number } | undefined {
  assert(Number.isInteger(rows) && Number.isInteger(events), 'rates are of whole rows and events');
  if (events === 0) return { legs: [], restRows: rows };
  const units = Math.floor(rows / step);
  if (units < events) return undefined;
  const short = Math.floor(units / events);
  const longTimes = units % events;
  const legs = [
    { every: short * step, times: events - longTimes },
    { every: (short + 1) * step, times: longTimes },
  ].filter((leg) => leg.times > 0);
  return { legs, restRows: rows - units * step };
}

/** Rows a schedule takes: each leg works a full interval before its event, unless it starts now. */
export function rowsOfLegs(legs: readonly Leg[], startsNow: boolean): number {
  const full = legs.reduce((sum, leg) => sum + leg.every * leg.times, 0);
  const [first] = legs;
  return startsNow && first ? full - first.every + 1 : full;
}
