/**
 * How far "to …" is: to the end, to the last few, to so many before a marker or a gap. Takes the row in
 * the making, gives the stitches up to that place, or says why it cannot be reached.
 */
import { assertNever } from '../../base/assert.ts';
import type { Goal } from '../notation/ast.ts';
import { problem } from './problem.ts';
import { complain, isNamed, isRoundStart, type Work } from './row.ts';
import { countStitches, stitchesBefore } from './strands.ts';

const GAP_SAY = 'the gap of an earlier turn';

/** Stitches from here to the goal, or undefined after a complaint. */
export function distanceTo(work: Work, goal: Goal): number | undefined {
  switch (goal.kind) {
    case 'end':
      return toEnd(work);
    case 'last':
    case 'remaining':
      return lessThan(work, goal, toEnd(work), work.read(goal.count) ?? 0);
    case 'marker': {
      const distance = toMarker(work, goal.marker);
      if (distance !== undefined) {
        return lessThan(work, goal, distance, work.read(goal.before) ?? 0);
      }
      const has = countStitches(work.needles.left);
      const marker = markerSay(goal.marker);
      complain(work, problem('count/no-marker', goal.span, { has }, { marker }));
      return undefined;
    }
    case 'gap': {
      const distance = stitchesBefore(work.needles.left, (mark) => mark.kind === 'gap');
      if (distance !== undefined) {
        return lessThan(work, goal, distance, work.read(goal.before) ?? 0);
      }
      const has = countStitches(work.needles.left);
      complain(work, problem('count/no-marker', goal.span, { has }, { marker: GAP_SAY }));
      return undefined;
    }
    case 'past':
      return pastPlace(work, goal);
    default:
      return assertNever(goal);
  }
}

/** `to 5 sts past gap`: up to the place and so many beyond it. */
function pastPlace(work: Work, goal: Extract<Goal, { kind: 'past' }>): number | undefined {
  const { left } = work.needles;
  const distance =
    goal.of === 'gap'
      ? stitchesBefore(left, (mark) => mark.kind === 'gap')
      : toMarker(work, goal.marker);
  if (distance !== undefined) return distance + (work.read(goal.count) ?? 0);
  const marker = goal.of === 'gap' ? GAP_SAY : markerSay(goal.marker);
  complain(work, problem('count/no-marker', goal.span, { has: countStitches(left) }, { marker }));
  return undefined;
}

/** In the round the end is where the round began, even if short rows have run past it. */
function toEnd(work: Work): number {
  const all = countStitches(work.needles.left);
  if (work.form !== 'round') return all;
  return stitchesBefore(work.needles.left, isRoundStart) ?? all;
}

/** The next marker of this name; where none is named, the beginning of the round comes last. */
export function toMarker(work: Work, name: string | undefined): number | undefined {
  const { left } = work.needles;
  const named = stitchesBefore(left, (mark) => isNamed(mark, name) && !isRoundStart(mark));
  if (named !== undefined) return named;
  const unnamed = name === undefined || name === '' || /^(bor|beginning|end)/i.test(name);
  return unnamed ? stitchesBefore(left, isRoundStart) : undefined;
}

function lessThan(work: Work, goal: Goal, distance: number, stops: number): number | undefined {
  if (distance >= stops) return distance - stops;
  complain(work, problem('count/goal', goal.span, { has: distance, stops }, {}));
  return undefined;
}

/** "a marker", "the marker “raglan”": for complaints. */
export const markerSay = (name: string | undefined): string =>
  name ? `the marker “${name}”` : 'a marker';
