/**
 * Brackets and asterisks. A repeat whose count is plain arithmetic is not run stitch by stitch: it is
 * divided, and what is left over is the finding. A repeat that looks at markers is run turn by turn and
 * must come closer to its goal each time.
 */
import { assertNever } from '../../base/assert.ts';
import type { Span } from '../../base/span.ts';
import type { Action } from '../notation/ast.ts';
import { workActions } from './actions.ts';
import type { StitchFlow } from './env.ts';
import { flowOf, flowOfAll } from './flow.ts';
import { distanceTo } from './goals.ts';
import { problem } from './problem.ts';
import { complain, countStep, noteChange, take, type Work } from './row.ts';
import { pushStitches } from './strands.ts';

type Repeat = Extract<Action, { kind: 'repeat' }>;

/** `[…] 4 times`: at once where no marker lies in the way, else one after the other. */
export function workGroup(work: Work, actions: readonly Action[], times: number, span: Span): void {
  if (times <= 0) return;
  const flow = flowOfAll(actions, work.read, work.env);
  if (flow && workAtOnce(work, flow, times)) return;
  for (let turn = 0; turn < times && !work.problem; turn += 1) {
    if (!countStep(work, span)) return;
    workActions(work, actions);
  }
}

/** Works a repeat by its sum. False where marks lie between, or the stitches do not suffice. */
function workAtOnce(work: Work, flow: StitchFlow, times: number): boolean {
  const { left, right } = work.needles;
  if (work.env.onStitch) return false;
  const run = left.at(-1);
  const needs = flow.takes * times;
  const made = flow.makes * times;
  if (typeof run !== 'number' || run < needs || needs === 0 || made < 0) return false;
  if (run === needs) left.pop();
  else left[left.length - 1] = run - needs;
  pushStitches(right, made);
  work.begun = true;
  noteChange(work, needs, made - needs);
  return true;
}

export function workRepeat(work: Work, repeat: Repeat): void {
  const { until, actions, span } = repeat;
  switch (until.kind) {
    case 'more':
      return workTimes(work, repeat, (work.read(until.times) ?? 0) + 1);
    case 'total':
      return workTimes(work, repeat, work.read(until.times) ?? 0);
    case 'goal': {
      const available = distanceTo(work, until.goal);
      if (available === undefined) return;
      work.begun = true;
      if (repeat.endingWith) return workWithEnding(work, repeat, repeat.endingWith, available);
      const flow = flowOfAll(actions, work.read, work.env);
      if (!flow) return workTowards(work, repeat, available);
      if (flow.takes <= 0) return complainEndless(work, repeat, available);
      const leftOver = available % flow.takes;
      if (leftOver > 0) {
        const numbers = { available, takes: flow.takes, leftOver };
        complain(work, problem('count/repeat', span, numbers, {}));
        return;
      }
      return workGroup(work, actions, available / flow.takes, span);
    }
    default:
      return assertNever(until);
  }
}

function workTimes(work: Work, repeat: Repeat, times: number): void {
  if (!repeat.endingWith || times === 0) return workGroup(work, repeat.actions, times, repeat.span);
  workGroup(work, repeat.actions, times - 1, repeat.span);
  if (work.problem) return;
  const flow = flowOfAll(repeat.actions, work.read, work.env);
  const ending = flowOfAll(repeat.endingWith, work.read, work.env);
  const prefix = flow && ending && prefixTaking(work, repeat.actions, flow.takes - ending.takes);
  workActions(work, prefix ?? []);
  workActions(work, repeat.endingWith);
}

/** A repeat that looks at markers: each turn must come closer to the goal. */
function workTowards(work: Work, repeat: Repeat, available: number): void {
  const { until, actions, span } = repeat;
  if (until.kind !== 'goal') return;
  for (let rest = available; rest > 0;) {
    if (!countStep(work, span)) return;
    workActions(work, actions);
    if (work.problem) return;
    const now = distanceTo(work, until.goal);
    if (now === undefined) return;
    if (now >= rest) return complainEndless(work, repeat, now);
    rest = now;
  }
}

function complainEndless(work: Work, repeat: Repeat, available: number): void {
  if (available === 0) return;
  complain(work, problem('count/endless', repeat.span, {}, {}));
}

/**
 * `rep from * to end, ending with k2`: the end of the last repeat is replaced. So many whole repeats,
 * then the beginning of one more, up to where the ending fills the rest exactly.
 */
function workWithEnding(
  work: Work,
  repeat: Repeat,
  ending: readonly Action[],
  available: number,
): void {
  const flow = flowOfAll(repeat.actions, work.read, work.env);
  const last = flowOfAll(ending, work.read, work.env);
  if (!flow || !last || flow.takes <= 0) {
    workTowards(work, repeat, available);
    return workActions(work, ending);
  }
  const rest = available - last.takes;
  if (rest < 0) return take(work, repeat.span, { takes: last.takes, makes: last.makes }, 1);
  const prefix = prefixTaking(work, repeat.actions, rest % flow.takes);
  if (!prefix) {
    const numbers = { available: rest, takes: flow.takes, leftOver: rest % flow.takes };
    complain(work, problem('count/repeat', repeat.span, numbers, {}));
    return;
  }
  workGroup(work, repeat.actions, Math.floor(rest / flow.takes), repeat.span);
  if (!work.problem) workActions(work, prefix);
  if (!work.problem) workActions(work, ending);
}

/** The shortest beginning of a repeat that takes so many stitches; undefined where none does. */
function prefixTaking(
  work: Work,
  actions: readonly Action[],
  takes: number,
): readonly Action[] | undefined {
  let sum = 0;
  for (let at = 0; at <= actions.length; at += 1) {
    if (sum === takes) return actions.slice(0, at);
    const action = actions[at];
    const flow = action && flowOf(action, work.read, work.env);
    if (!flow) return undefined;
    sum += flow.takes;
  }
  return undefined;
}
