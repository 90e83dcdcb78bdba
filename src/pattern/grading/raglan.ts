/**
 * Raglans: body and sleeves that grow together along four lines, each at its own rate, in the rounds
 * there are. Takes the counts at neck and underarm, gives the rounds on which each part is shaped and
 * how a knitter reads them. Counts only.
 */
import { assert } from '../../base/assert.ts';
import { type Leg, shapingRates, spaceEvenly } from './spacing.ts';

/** Four lines, two stitches each: eight a round (Barbara G. Walker, Knitting from the Top, 1972). */
export const RAGLAN_STITCHES_PER_ROUND = 8;

export interface RaglanWish {
  /** Stitches of the back, or the front, at the neck edge and where the sleeves part from it. */
  readonly bodyFrom: number;
  readonly bodyTo: number;
  readonly sleeveFrom: number;
  readonly sleeveTo: number;
  /** Rounds, or rows, of the yoke. */
  readonly rounds: number;
  /** 2 where flat rows are shaped on right sides, or every second round. */
  readonly step: 1 | 2;
}

export interface RaglanPlan {
  /** Rounds with a stitch more at each edge of back and front, and of the sleeves. */
  readonly bodyEvents: number;
  readonly sleeveEvents: number;
  readonly bodyRates: readonly Leg[];
  readonly sleeveRates: readonly Leg[];
  /** By round, from the neck: what is shaped. */
  readonly rounds: readonly ('both' | 'body' | 'sleeves' | 'plain')[];
  readonly stitchesAfter: readonly number[];
}

export type RaglanProblem = {
  readonly part: 'body' | 'sleeves';
  /** Odd: the difference cannot lie at two edges. Rounds: more shaping than rounds. */
  readonly why: 'odd difference' | 'too few rounds' | 'narrower';
  readonly events: number;
  readonly available: number;
};

/**
 * Compound rates: body and sleeve grow by different numbers over the same depth. Shaping is spread as
 * evenly as whole rounds allow, each part for itself, so that the four lines stay straight.
 */
export function planRaglan(
  wish: RaglanWish,
): { readonly plan: RaglanPlan } | { readonly problem: RaglanProblem } {
  const body = eventsOf('body', wish.bodyFrom, wish.bodyTo, wish);
  if ('problem' in body) return body;
  const sleeves = eventsOf('sleeves', wish.sleeveFrom, wish.sleeveTo, wish);
  if ('problem' in sleeves) return sleeves;
  const onBody = eventRounds(wish.rounds, body.events, wish.step);
  const onSleeves = eventRounds(wish.rounds, sleeves.events, wish.step);
  let stitches = 2 * (wish.bodyFrom + wish.sleeveFrom);
  const rounds = Array.from({ length: wish.rounds }, (_, at) => kindOf(onBody.has(at), onSleeves.has(at))); // prettier-ignore
  const stitchesAfter = rounds.map((kind) => (stitches += STITCHES[kind]));
  return {
    plan: {
      bodyEvents: body.events,
      sleeveEvents: sleeves.events,
      bodyRates: shapingRates(wish.rounds, body.events, wish.step)?.legs ?? [],
      sleeveRates: shapingRates(wish.rounds, sleeves.events, wish.step)?.legs ?? [],
      rounds,
      stitchesAfter,
    },
  };
}

const STITCHES = { both: RAGLAN_STITCHES_PER_ROUND, body: 4, sleeves: 4, plain: 0 } as const;

const kindOf = (body: boolean, sleeves: boolean) =>
  body && sleeves ? 'both' : body ? 'body' : sleeves ? 'sleeves' : 'plain';

function eventsOf(
  part: RaglanProblem['part'],
  from: number,
  to: number,
  { rounds, step }: RaglanWish,
): { readonly events: number } | { readonly problem: RaglanProblem } {
  const events = (to - from) / 2;
  const available = Math.floor(rounds / step);
  const why =
    events < 0
      ? 'narrower'
      : !Number.isInteger(events)
        ? 'odd difference'
        : events > available
          ? 'too few rounds'
          : undefined;
  return why ? { problem: { part, why, events, available } } : { events };
}

/** The rounds, from 0, on which something happens: the last of each gap. */
function eventRounds(rounds: number, events: number, step: 1 | 2): ReadonlySet<number> {
  if (events === 0) return new Set();
  const gaps = spaceEvenly(Math.floor(rounds / step), events);
  let at = 0;
  return new Set(gaps.map((gap) => (at += gap) * step - 1));
}

/** Stitches of one part at the underarm: start + 2 an event + what is cast on under the arm. */
export function raglanPart(start: number, events: number, underarm: number): number {
  assert(events >= 0 && underarm >= 0, 'a part grows');
  return start + 2 * events + underarm;
}
