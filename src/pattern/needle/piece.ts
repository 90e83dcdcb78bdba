/**
 * Works a piece line by line in one size. Where a line does not come out, the rest is worked from
 * whichever count agrees with what follows: the one that was worked, or the one that is stated. So one
 * slip is one finding, and the rows after it are judged on their own.
 */
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { WrittenLine } from '../pattern.ts';
import type { Env } from './env.ts';
import { type LineResult, workLine } from './line.ts';
import type { Problem } from './problem.ts';
import { type State, stitchesOn } from './state.ts';
import { withCount } from './strands.ts';
import { emptyHeld, guessedSince, isHeldAs, withHeld, withUnknown } from './holders.ts';
import { goesByMarks, holdersNamed } from './look.ts';

/** Which count the work went on from after a problem, and whether what follows decides it. */
export interface Verdict {
  readonly from: 'worked' | 'stated' | 'before';
  /** The first line that cannot be worked from the other count; undefined where both go on. */
  readonly otherFailsAt?: number;
  /** From the chosen count all lines to the end of the piece work. */
  readonly clean: boolean;
}

export interface LineRun {
  readonly result: LineResult;
  /** The state the next line is worked from. */
  readonly after: State;
  readonly problems: readonly Problem[];
  readonly verdict?: Verdict;
  /** The line could not be read, or an earlier one could not and no count was stated since. */
  readonly unsure: boolean;
  /** The slip was found, and this is what the corrected lines come to. */
  readonly corrected?: boolean;
  /** This line holds the slip that a later line tripped over. */
  readonly culprit?: boolean;
}

/** Lines with those after them that say AT THE SAME TIME. */
export interface Group {
  readonly first: number;
  readonly followers: readonly number[];
  /** Its rows look for markers or gaps. */
  readonly goesByMarks: boolean;
}

/** A line whose first word is AT THE SAME TIME is worked with the line before it. */
export function groupsOf(lines: readonly WrittenLine[]): readonly Group[] {
  const groups: { first: number; followers: number[]; goesByMarks: boolean }[] = [];
  lines.forEach(({ line }, at) => {
    const joins = line?.sentences[0]?.kind === 'atTheSameTime' && line.label === undefined;
    const last = groups.at(-1);
    if (joins && last && lines[last.first]?.line) last.followers.push(at);
    else groups.push({ first: at, followers: [], goesByMarks: goesByMarks(line) });
  });
  return groups;
}

/** Problems that say something about counts; a label's side or a missing number does not. */
const SOFT = new Set<Problem['code']>([
  'count/side',
  'count/ending',
  'count/row-missing',
  'count/row-order',
  'count/chart-step',
  'count/open-ended',
]);
export const isHard = (found: Problem): boolean => !SOFT.has(found.code);

export function workGroup(state: State, group: Group, env: Env, size: number): LineResult {
  const line = env.lines[group.first]?.line;
  if (!line) return unread(state, env.piece);
  const others = group.followers.flatMap((at) => env.lines[at]?.line ?? []);
  return workLine(state, line, group.first, env, size, others);
}

const unread = (state: State, piece: string): LineResult => ({
  state: { ...state, unsure: true, guessed: true, holders: withUnknown(state.holders, piece) },
  before: stitchesOn(state),
  rows: 0,
  skipped: false,
  problems: [],
  failed: true,
  usedFaulty: false,
});

/** One run per group of lines, in order. `done`: groups that are worked already. */
export function workPiece(
  env: Env,
  groups: readonly Group[],
  size: number,
  start: State,
  done: readonly LineRun[] = [],
): readonly LineRun[] {
  const runs: LineRun[] = [...done];
  let state = done.at(-1)?.after ?? start;
  let looked = 0;
  groups.forEach((group, at) => {
    if (at < done.length) return;
    const result = workGroup(state, group, env, size);
    const wasUnsure = state.unsure || !env.lines[group.first]?.line;
    const run = wasUnsure
      ? settleUnsure(result)
      : settle(result, state, { env, groups, at, size }, looked < NEEDLE_LIMITS.lookAheads);
    if (run.verdict) looked += 1;
    runs.push(run);
    state = run.after;
  });
  return runs;
}

/** After a line that could not be read nothing is blamed until a count is stated. */
function settleUnsure(result: LineResult): LineRun {
  const { stated, state } = result;
  if (stated === undefined) {
    return { result, after: { ...state, unsure: true }, problems: [], unsure: true };
  }
  return {
    result,
    after: { ...counted(state, stated), unsure: false },
    problems: [],
    unsure: true,
  };
}

interface Ahead {
  readonly env: Env;
  readonly groups: readonly Group[];
  readonly at: number;
  readonly size: number;
}

function settle(result: LineResult, before: State, ahead: Ahead, look: boolean): LineRun {
  const { problems } = result;
  if (!problems.some(isHard)) return { result, after: result.state, problems, unsure: false };
  if (isEcho(result, before, ahead)) return settleEcho(result, before, ahead);
  const { chosen, verdict } = choose(result, before, ahead, look);
  const decided = verdict.from === 'worked' && verdict.otherFailsAt !== undefined;
  const after =
    decided && !result.failed ? chosen.state : guessedState(chosen.state, result, before, ahead);
  return { result, after, problems, verdict, unsure: false };
}

/** Where markers and holders are only guessed, rows that go by them say nothing new. */
function isEcho({ problems, usedFaulty }: LineResult, before: State, ahead: Ahead): boolean {
  if (!before.guessed) return false;
  if (usedFaulty || ahead.groups[ahead.at]?.goesByMarks === true) return true;
  return problems.filter(isHard).every(({ code }) => BY_PLACE.has(code));
}

const BY_PLACE = new Set<Problem['code']>([
  'count/marker-away',
  'count/no-marker',
  'count/no-holder',
  'count/held',
  'count/join',
  'count/longer',
]);

function settleEcho(result: LineResult, before: State, ahead: Ahead): LineRun {
  const { stated, state } = result;
  const resumed = stated === undefined ? state : counted(state, stated);
  const after = guessedState(resumed, result, before, ahead);
  const problems = result.problems.filter((found) => !isHard(found));
  return { result, after, problems, unsure: true };
}

function choose(
  result: LineResult,
  before: State,
  ahead: Ahead,
  look: boolean,
): { chosen: Choice; verdict: Verdict } {
  const faulty = new Set([...before.faulty, ...linesOf(ahead)]);
  const choices = choicesFor(result, before).map(({ from, state }): Choice => {
    return { from, state: result.failed ? { ...state, faulty } : state };
  });
  const [first = { from: 'worked', state: result.state } as const] = choices;
  if (!look) return { chosen: first, verdict: { from: first.from, clean: false } };
  const judged = choices.map((choice) => ({ choice, failsAt: firstFailure(choice.state, ahead) }));
  const best = judged.reduce((one, other) => (other.failsAt > one.failsAt ? other : one));
  const others = judged.filter((each) => each !== best).map(({ failsAt }) => failsAt);
  const other = others.length === 0 ? undefined : Math.max(...others);
  const decided = other !== undefined && other < best.failsAt;
  const verdict: Verdict = {
    from: best.choice.from,
    clean: best.failsAt >= ahead.groups.length,
    ...(decided && { otherFailsAt: ahead.groups[other]?.first ?? other }),
  };
  return { chosen: best.choice, verdict };
}

function linesOf({ groups, at }: Ahead): readonly number[] {
  const group = groups[at];
  return group ? [group.first, ...group.followers] : [];
}

/** What a row that did not come out leaves behind is not known for certain. */
function guessedState(state: State, result: LineResult, before: State, ahead: Ahead): State {
  const { env } = ahead;
  const lines = linesOf(ahead);
  const faulty = new Set([...state.faulty, ...lines]);
  const holders = guessedSince(state.holders, before.holders);
  const guessed: State = { ...state, guessed: true, faulty, holders };
  if (!result.failed) return guessed;
  const named = lines.flatMap((line) => holdersNamed(env.lines[line]?.line));
  return named.reduce<State>((here, name) => {
    if (isHeldAs(here.holders, name)) return here;
    return { ...here, holders: withHeld(here.holders, name, emptyHeld(env.piece, env.made)) };
  }, guessed);
}

interface Choice {
  readonly from: Verdict['from'];
  readonly state: State;
}

/** Counts the next line may be worked from; the likelier first. */
function choicesFor(result: LineResult, before: State): readonly Choice[] {
  const { state, stated, failed } = result;
  const worked: Choice = { from: 'worked', state };
  const choices: Choice[] = [];
  const fromStated: Choice[] =
    stated === undefined ? [] : [{ from: 'stated', state: counted(state, stated) }];
  if (!failed) return [worked, ...fromStated];
  choices.push(...fromStated, worked);
  const leftOver = result.problems.find((each) => 'leftOver' in each.numbers)?.numbers['leftOver'];
  if (typeof leftOver === 'number') {
    const without = Math.max(0, stitchesOn(state) - leftOver);
    choices.push({ from: 'worked', state: counted(state, without) });
  }
  choices.push({ from: 'before', state: counted(state, stitchesOn(before)) });
  return choices;
}

/** The same work with another number of stitches on the needle. */
export function counted(state: State, count: number): State {
  const now = stitchesOn(state);
  if (now === count) return state;
  const behind = state.right.reduce<number>(
    (sum, strand) => sum + (typeof strand === 'number' ? strand : 0),
    0,
  );
  if (count < behind)
    return { ...state, left: withCount([...state.left, ...state.right], count), right: [] };
  return { ...state, left: withCount(state.left, count - behind) };
}

/** The first following group that cannot be worked from this state; the number of groups for none. */
function firstFailure(state: State, { env, groups, at, size }: Ahead): number {
  const { record: _, ...silent } = env;
  let here = state;
  for (let next = at + 1; next < groups.length; next += 1) {
    const group = groups[next];
    if (!group) break;
    const result = workGroup(here, group, silent, size);
    if (!env.lines[group.first]?.line) return groups.length;
    if (result.problems.some(isHard)) return next;
    here = result.state;
  }
  return groups.length;
}
