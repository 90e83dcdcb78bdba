/**
 * What each action of a row does to the needles. One function for each form that needs more than a
 * line; the closed union of forms lives in the notation, and a new one fails to compile here.
 */
import { assertNever, present } from '../../base/assert.ts';
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { Action } from '../notation/ast.ts';
import { workChart } from './chart-row.ts';
import { changeEdges, spreadChanges } from './edges.ts';
import { alternativeIn, type StitchFlow } from './env.ts';
import { heldAs, heldStitches, takeStrands, withHeld, withoutHeld } from './holders.ts';
import { distanceTo, markerSay, toMarker } from './goals.ts';
import { problem } from './problem.ts';
import { noteMove } from './recording.ts';
import { workGroup, workRepeat } from './repeats.ts';
import {
  complain,
  countStep,
  endRow,
  isNamed,
  make,
  noteChange,
  take,
  type Work,
  wordsAt,
} from './row.ts';
import { countStitches, isMark, pushStrand, ROUND_START } from './strands.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

const ONE_FOR_ONE = { takes: 1, makes: 1 };

/** Works actions in order until one cannot be worked. `after`: the actions of the row that follow. */
export function workActions(
  work: Work,
  actions: readonly Action[],
  after: readonly Action[] = [],
): void {
  for (let at = 0; at < actions.length && !work.problem; at += 1) {
    const action = actions[at];
    if (!action || !countStep(work, action.span)) return;
    const looksAhead = action.kind === 'chart' || action.kind === 'bySize';
    const following = looksAhead ? [...actions.slice(at + 1), ...after] : [];
    workAction(work, action, following);
  }
}

function workAction(work: Work, action: Action, following: readonly Action[]): void {
  switch (action.kind) {
    case 'work':
      return workStitches(work, action);
    case 'workTo':
      return workTo(work, action);
    case 'group':
      return workGroup(work, action.actions, work.read(action.times) ?? 0, action.span);
    case 'repeat':
      return workRepeat(work, action);
    case 'into':
      return workInto(work, action);
    case 'marker':
      return handleMarker(work, action);
    case 'bindOff':
      return bindOff(work, action);
    case 'castOn':
      return castOn(work, action);
    case 'pickUp':
      return pickUp(work, action);
    case 'hold':
      return hold(work, action);
    case 'resume':
      return resume(work, action);
    case 'turn':
      return turn(work, action);
    case 'slide':
      return slide(work);
    case 'bySize':
      return workActions(work, alternativeIn(action, work.read), following);
    case 'chart':
      return workChart(work, action, following);
    case 'evenly':
      return spreadChanges(work, action);
    case 'change':
      return changeInRow(work, action);
    case 'yarn':
      return;
    default:
      return assertNever(action);
  }
}

function workStitches(work: Work, action: Of<'work'>): void {
  const times = work.read(action.times) ?? 0;
  if (times > 0) work.env.onStitch?.(action.stitch, times);
  take(work, action.span, knownStitch(work, action.stitch), times);
}

/** The reader lets no unknown stitch into a tree. */
const knownStitch = (work: Work, name: string): StitchFlow =>
  present(work.env.stitch(name), `the stitch ${name}`);

function workTo(work: Work, action: Of<'workTo'>): void {
  const flow = knownStitch(work, action.stitch);
  const distance = distanceTo(work, action.goal);
  if (distance === undefined) return;
  work.begun = true;
  const { takes } = flow;
  if (takes === 0 || distance % takes === 0) {
    if (takes > 0 && distance > 0) work.env.onStitch?.(action.stitch, distance / takes);
    take(work, action.span, flow, takes === 0 ? 0 : distance / takes);
    return;
  }
  const numbers = { available: distance, takes, leftOver: distance % takes };
  complain(work, problem('count/repeat', action.span, numbers, {}));
}

/** `(k1, yo, k1) in next st`: every time takes one stitch and makes what stands in the brackets. */
function workInto(work: Work, action: Of<'into'>): void {
  const makes = action.actions.reduce((sum, inner) => sum + madeInto(work, inner), 0);
  const takes = action.together ? (work.read(action.together) ?? 1) : 1;
  const times = work.read(action.times) ?? 0;
  if (times > 0) work.env.onStitch?.(wordsAt(work, action.span), times);
  take(work, action.span, { takes, makes }, times);
}

function madeInto(work: Work, action: Action): number {
  if (action.kind === 'work') {
    return knownStitch(work, action.stitch).makes * (work.read(action.times) ?? 0);
  }
  if (action.kind !== 'group') return 0;
  const each = action.actions.reduce((sum, inner) => sum + madeInto(work, inner), 0);
  return each * (work.read(action.times) ?? 0);
}

function handleMarker(work: Work, action: Of<'marker'>): void {
  const { needles } = work;
  if (action.act === 'place') {
    if (needles.right.length > NEEDLE_LIMITS.strands) return tooManyMarks(work, action.span);
    needles.right.push({ kind: 'marker', name: action.name ?? '' });
    return;
  }
  const top = needles.left.at(-1);
  if (isMark(top) && (isNamed(top, action.name) || isRoundStartName(top.name, action.name))) {
    needles.left.pop();
    if (action.act === 'slip') needles.right.push(top);
    return;
  }
  const marker = markerSay(action.name);
  const away = toMarker(work, action.name);
  if (away === undefined) {
    const has = countStitches(needles.left);
    complain(work, problem('count/no-marker', action.span, { has }, { marker }));
  } else complain(work, problem('count/marker-away', action.span, { away }, { marker }));
}

function tooManyMarks(work: Work, span: Action['span']): void {
  const limit = String(NEEDLE_LIMITS.strands / 2);
  complain(work, problem('count/limit', span, {}, { what: 'markers', limit }));
}

const isRoundStartName = (name: string, wanted: string | undefined): boolean =>
  name === ROUND_START.name && /^(bor|beginning|end)/i.test(wanted ?? '');

/**
 * Binding off n stitches takes n: one more is worked to pass the last over it, and stays on the right
 * needle. Where the row counts that one among the stitches that follow, nothing is left to do; where it
 * is written out apart, it is taken here.
 */
function bindOff(work: Work, action: Of<'bindOff'>): void {
  const left = countStitches(work.needles.left);
  const count = action.count === 'all' ? left : (work.read(action.count) ?? 0);
  if (count === 0 && action.count !== 'all') return;
  noteMove(work, { kind: 'bindOff', count });
  take(work, action.span, { takes: 1, makes: 0 }, count);
  if (action.lastStitch === 'apart') take(work, action.span, ONE_FOR_ONE, 1);
}

/** At the beginning of a row the new stitches are worked in that same row, else they are its next. */
function castOn(work: Work, action: Of<'castOn'>): void {
  const count = work.read(action.count) ?? 0;
  work.begins.add('underarm');
  noteMove(work, { kind: 'castOn', count });
  if (work.begun || countStitches(work.needles.left) === 0) return make(work, action.span, count);
  pushStrand(work.needles.left, count);
  work.changedFirst += count;
  work.atStart += count;
  work.added += count;
}

function pickUp(work: Work, action: Of<'pickUp'>): void {
  const count = work.read(action.count) ?? 0;
  work.begins.add('pick-up');
  noteMove(work, { kind: 'pickUp', count });
  make(work, action.span, count);
}

// ---------------------------------------------------------------- holders and turns

function hold(work: Work, action: Of<'hold'>): void {
  const { needles } = work;
  const has = countStitches(needles.left);
  const count = action.count === 'all' ? has : (work.read(action.count) ?? 0);
  if (count > has) {
    const before = has + countStitches(needles.right);
    complain(
      work,
      problem('count/too-few', action.span, { before, needs: count, has }, { what: 'hold' }),
    );
    return;
  }
  if (count === 0) return;
  work.begun = true;
  noteMove(work, { kind: 'hold', count, holder: action.holder });
  noteChange(work, count, -count);
  const strands = takeStrands(needles.left, count);
  const { inches, heights, row, env } = work;
  const held = { strands, sets: env.made, piece: env.piece, inches, heights, row };
  work.holders = withHeld(work.holders, action.holder, held);
  work.begins.add('divide').add('underarm');
}

function resume(work: Work, action: Of<'resume'>): void {
  const held = heldAs(work.holders, action.holder);
  const stated = action.count ? work.read(action.count) : null;
  if (!held) {
    if (stated !== null) pushStrand(work.needles.left, stated);
    const { holder } = action;
    complain(work, problem('count/no-holder', action.span, {}, { holder }));
    return;
  }
  if (held.guessed === true) {
    work.guessed = true;
    pushStrand(work.needles.left, stated ?? heldStitches(held));
    work.holders = withoutHeld(work.holders, action.holder, work.env.piece);
    return;
  }
  const onHold = heldStitches(held);
  if (stated !== null && stated !== onHold) {
    const numbers = { held: onHold, stated };
    complain(work, problem('count/held', action.span, numbers, { holder: action.holder }));
  }
  noteMove(work, {
    kind: 'resume',
    count: onHold,
    holder: action.holder,
    from: held.piece,
  });
  for (const strand of held.strands) pushStrand(work.needles.left, strand);
  work.holders = withoutHeld(work.holders, action.holder, work.env.piece);
  work.atStart += onHold;
  work.added += onHold;
}

function turn(work: Work, action: Of<'turn'>): void {
  const left = countStitches(work.needles.left);
  const stated = action.leaving ? work.read(action.leaving) : null;
  if (stated !== null && stated !== left) {
    complain(work, problem('count/turn', action.span, { left, stated }, {}));
    return;
  }
  endRow(work, true);
}

/** The work is not turned: the next row begins where this one did, and faces the same side. */
function slide(work: Work): void {
  endRow(work, false);
  if (work.form === 'round') return;
  work.needles.left.reverse();
  work.side = work.side === 'RS' ? 'WS' : 'RS';
}

/** `dec 1 st each end`: what is left of the row is worked plain, with the change at its place. */
function changeInRow(work: Work, action: Of<'change'>): void {
  take(work, action.span, ONE_FOR_ONE, countStitches(work.needles.left));
  work.begun = true;
  const count = work.read(action.count) ?? 0;
  const { act, place, span, marker } = action;
  changeEdges(work, { act, place, count, span, ...(marker !== undefined && { marker }) });
}
