/**
 * One line being worked in one size: the state as it moves from row to row, the problems found, and
 * the two ways rows come about, a written row and tracks that run together. What a sentence means is
 * decided elsewhere.
 */
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { Span } from '../../base/span.ts';
import type { Line, Side } from '../notation/ast.ts';
import { workActions } from './actions.ts';
import { changeEdges, type EdgeChange } from './edges.ts';
import type { Env, NumberReader } from './env.ts';
import { actionsGoByMarks } from './look.ts';
import type { Problem } from './problem.ts';
import { problem } from './problem.ts';
import { marksOn } from './recording.ts';
import { finishWork, type RowResult, startWork } from './row.ts';
import { type RowDefinition, type State, stitchesOn } from './state.ts';
import { countStitches } from './strands.ts';
import type { Step, Track } from './tracks.ts';

export interface Job {
  readonly env: Env;
  readonly size: number;
  readonly line: Line;
  readonly lineIndex: number;
  readonly read: NumberReader;
  state: State;
  rows: number;
  /** Soft problems (a count stated wrongly, a side) let the line go on; a hard one ends it. */
  readonly problems: Problem[];
  failed: boolean;
  /** The fabric whose gauge gives the length of the rows. */
  fabric: string | undefined;
  /** The height the rows of a sentence bring the work to, where it says one. */
  exactInches: number | undefined;
  /** Rows that could not be worked before were gone over plain, or markers stand where guessed. */
  usedFaulty: boolean;
}

export function softly(job: Job, found: Problem): void {
  job.problems.push(found);
}

export function fail(job: Job, found: Problem): void {
  job.problems.push(found);
  job.failed = true;
}

const inchesPerRow = (job: Job): number => 1 / job.env.rowsPerInch(job.fabric);

/** `work to end`, for rows that only go on as established. */
export function plainRow(job: Job, unit: 'row' | 'round', span: Span): RowDefinition {
  const goal = { kind: 'end', span } as const;
  const actions = [{ kind: 'workTo', stitch: 'work', goal, span }] as const;
  return { actions, unit, line: job.lineIndex, short: false };
}

/** Works a written row once, with changes at its edges. `where`: the sentence that asks for it. */
export function workRow(
  job: Job,
  definition: RowDefinition,
  where: Span,
  changes: readonly EdgeChange[] = [],
): void {
  if (job.failed) return;
  if (isFaulty(job, definition)) {
    job.usedFaulty = true;
    return workRow(job, plainRow(job, definition.unit, where), where, changes);
  }
  if (job.state.guessed && actionsGoByMarks(definition.actions)) job.usedFaulty = true;
  const result = tryRow(job, definition, changes);
  job.state = result.state;
  job.rows += result.rows;
  const [remark] = result.remarks;
  const known = job.problems.some(({ code }) => code === remark?.code);
  if (remark && !known && !job.state.guessed) {
    softly(job, placed(job, definition, remark, where));
  }
  if (result.problem) fail(job, placed(job, definition, result.problem, where));
  if (job.rows > NEEDLE_LIMITS.rowsPerLine) failForRows(job, where);
}

/** A row that could not be worked where it is written is not tried again. */
const isFaulty = ({ state, lineIndex }: Job, { line }: RowDefinition): boolean =>
  line !== lineIndex && state.faulty.has(line);

function tryRow(job: Job, definition: RowDefinition, changes: readonly EdgeChange[]): RowResult {
  const work = startWork(job.state, definition, job.env, job.size, job.lineIndex);
  workActions(work, definition.actions);
  return finishWork(work, job.state, inchesPerRow(job), (row) => {
    for (const change of changes) changeEdges(row, change);
  });
}

export function failForRows(job: Job, where: Span): void {
  const limit = String(NEEDLE_LIMITS.rowsPerLine);
  fail(job, problem('count/limit', where, {}, { what: 'rows', limit }));
}

/** A row that was written elsewhere is blamed on the sentence that works it again. */
function placed(job: Job, definition: RowDefinition, found: Problem, where: Span): Problem {
  const here = definition.line === job.lineIndex && !definition.foreign;
  return here ? found : { ...found, span: where, written: definition.line };
}

// ---------------------------------------------------------------- tracks together

/** Runs tracks row by row until all that end by themselves are done. */
export function runTracks(
  job: Job,
  tracks: readonly Track[],
  unit: 'row' | 'round',
  where: Span,
): void {
  const merged = tracks.length > 1;
  const running = new Set(tracks);
  while (running.size > 0 && !job.failed) {
    const steps = wantedSteps(job, running);
    if (![...running].some((track) => !track.open)) return;
    const rows = Math.min(...steps.map((step) => step.rows));
    if (job.rows + rows > NEEDLE_LIMITS.rowsPerLine) return failForRows(job, where);
    const changes = steps.flatMap((step) => step.changes);
    const definition = steps.find((step) => step.definition)?.definition;
    if (definition) workMerged(job, definition, changes, where, merged);
    else if (changes.length > 0) workRow(job, plainRow(job, unit, where), where, changes);
    else workPlainRows(job, rows, unit, where);
    for (const track of running) track.worked(definition || changes.length > 0 ? 1 : rows);
  }
}

function wantedSteps(job: Job, running: Set<Track>): readonly Step[] {
  const steps: Step[] = [];
  for (const track of running) {
    const step = track.next(job.state);
    if (step) steps.push(step);
    else {
      running.delete(track);
      job.state = track.finish(job.state);
    }
  }
  return steps;
}

/**
 * A written row under shaping no longer fits its own repeats: what does not divide is then worked "in
 * pattern", one for one, and only the shaping changes the count.
 */
function workMerged(
  job: Job,
  definition: RowDefinition,
  changes: readonly EdgeChange[],
  where: Span,
  merged: boolean,
): void {
  const fits = !merged || !tryRow(untold(job), definition, changes).problem;
  if (fits) return workRow(job, definition, where, changes);
  workRow(job, plainRow(job, definition.unit, where), where, changes);
}

/** Of a long plain stretch, so many rows can be named by `rep last … rows`. */
const PLAIN_HISTORY = 8;

/** Any number of plain rows at once: only the side and the order of the marks change. */
export function workPlainRows(job: Job, rows: number, unit: 'row' | 'round', where: Span): void {
  let rest = rows;
  while (rest > 0 && !job.failed && countStitches(job.state.right) > 0) {
    workRow(job, plainRow(job, unit, where), where);
    rest -= 1;
  }
  if (rest <= 0 || job.failed) return;
  const { state, env } = job;
  const row = plainRow(job, unit, where);
  recordPlain(job, rest);
  let { history } = state;
  for (let each = 0; each < Math.min(rest, PLAIN_HISTORY); each += 1) {
    history = { row, before: history };
  }
  const flips = state.form === 'flat' && rest % 2 === 1;
  job.rows += rest;
  job.state = {
    ...state,
    history,
    left: flips ? [...state.left].reverse() : state.left,
    side: flips ? (state.side === 'RS' ? 'WS' : 'RS') : state.side,
    row: state.row + rest,
    inches: state.inches + rest / env.rowsPerInch(job.fabric),
  };
}

function recordPlain(job: Job, rows: number): void {
  const { env, state, lineIndex } = job;
  if (!env.record) return;
  const line = env.lines[lineIndex]?.pointer ?? '';
  const stitches = stitchesOn(state);
  const marks = marksOn(state.right, state.left, state.side);
  const row = { stitches, changeRight: 0, changeLeft: 0, line, by: lineIndex, marks };
  for (let each = 0; each < rows; each += 1) {
    const turned = state.form === 'flat' && each % 2 === 1;
    const side = turned ? otherSide(state.side) : state.side;
    env.record.row({ ...row, row: state.row + 1 + each, side }, 1);
  }
}

const otherSide = (side: Side): Side => (side === 'RS' ? 'WS' : 'RS');

/** The job without its listeners: what is only tried is not told. */
export function untold(job: Job): Job {
  const { record: _, onStitch: __, ...env } = job.env;
  return { ...job, env };
}
