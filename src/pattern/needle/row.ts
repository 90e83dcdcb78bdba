/**
 * Works one row: its actions consume the stitches on the left needle one by one and must end exactly
 * when they run out. Takes the needles as they stand, gives them as they are after the row, with the
 * first thing that could not be worked. What the row was for, and how often it is worked, is not known
 * here.
 */
import type { Span } from '../../base/span.ts';
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { Side } from '../notation/ast.ts';
import type { FabricMove } from '../pattern.ts';
import type { Env, NumberReader } from './env.ts';
import { readerOf } from './env.ts';
import type { Problem } from './problem.ts';
import { problem } from './problem.ts';
import { marksOn, movesOf, shortOf } from './recording.ts';
import type { Held, RowDefinition, State } from './state.ts';
import {
  countStitches,
  GAP,
  isMark,
  type Mark,
  type Needles,
  passMarks,
  pushStitches,
  pushStrand,
  ROUND_START,
  type Strand,
  workStitch,
} from './strands.ts';

/** A row in the making. */
export interface Work {
  readonly env: Env;
  readonly size: number;
  readonly read: NumberReader;
  readonly definition: RowDefinition;
  readonly by: number;
  readonly needles: Needles;
  readonly form: 'flat' | 'round';
  side: Side;
  /** Row of the piece that is being worked, from 1. */
  row: number;
  readonly inches: number;
  readonly heights: State['heights'];
  holders: ReadonlyMap<string, Held>;
  fabricRows: State['fabricRows'];
  /** The first thing that could not be worked ends the row. */
  problem: Problem | undefined;
  /** The row took up stitches whose number is only guessed. */
  guessed: boolean;
  /** What is odd and still can be worked. */
  readonly remarks: Problem[];
  /** Stitches on the left needle at the start of the row, and how many are worked. */
  atStart: number;
  taken: number;
  /** How the count changed at the edge worked first and at the other: the edges of the outline. */
  changedFirst: number;
  changedSecond: number;
  /** Entries of the right needle that lie behind an earlier turn. */
  behind: number;
  /** Stitches put on the left needle in this row: they are no part of the row before. */
  added: number;
  /** Stitches that joined or left in this row, for outlines; told when it ends. */
  moves: WorkMove[];
  /** Something was worked since the row began. */
  begun: boolean;
  shortRows: number;
  /** Places that begin in this row and that lengths are measured from. */
  readonly begins: Set<'divide' | 'underarm' | 'pick-up'>;
  steps: number;
}

export interface RowResult {
  readonly state: State;
  readonly problem?: Problem;
  readonly remarks: readonly Problem[];
  /** Rows ended: one, or more where the row turns in the middle. */
  readonly rows: number;
}

/** `offset`: stitches before it in the order of working. */
export interface WorkMove {
  readonly kind: FabricMove['kind'];
  readonly offset: number;
  readonly count: number;
  readonly holder?: string;
  readonly from?: string;
}

/** `by`: the line that works the row, where it is not the one it is written in. */
export function startWork(
  state: State,
  definition: RowDefinition,
  env: Env,
  size: number,
  by = definition.line,
): Work {
  const left = [...state.left];
  return {
    env,
    size,
    definition,
    by,
    read: readerOf(env, definition.line, size),
    needles: { left, right: [...state.right] },
    form: state.form,
    side: state.side,
    row: state.row + 1,
    inches: state.inches,
    heights: state.heights,
    holders: state.holders,
    fabricRows: state.fabricRows,
    problem: undefined,
    guessed: false,
    remarks: [],
    atStart: countStitches(left),
    taken: 0,
    changedFirst: 0,
    changedSecond: 0,
    behind: state.right.length,
    added: 0,
    moves: [],
    begun: false,
    shortRows: 0,
    begins: new Set(),
    steps: 0,
  };
}

/**
 * Ends the row and gives the state after it. Stitches left over are worked plain after a problem.
 * `shape` may change the edges while all stitches of the row lie on the right needle.
 */
export function finishWork(
  work: Work,
  state: State,
  inchesPerRow: number,
  shape: (work: Work) => void = () => undefined,
): RowResult {
  if (!work.problem && work.begun) {
    passMarks(work.needles);
    const leftOver = countStitches(work.needles.left);
    if (leftOver > 0) {
      const before = countStitches(state.left) + countStitches(state.right);
      complain(work, problem('count/left-over', lastSpan(work), { before, leftOver }, {}));
    }
  }
  if (work.begun || work.problem) {
    const rest = work.needles.left.splice(0).reverse();
    for (const strand of rest) pushStrand(work.needles.right, strand);
  }
  if (!work.problem && work.begun) shape(work);
  if (work.begun || work.problem) endRow(work, false);
  const rows = work.row - 1 - state.row;
  const inches = state.inches + (rows - work.shortRows) * inchesPerRow;
  return {
    // Written out key by key, because this is done for every row and a spread of so many keys is slow.
    state: {
      left: work.needles.left,
      right: work.needles.right,
      form: state.form,
      side: work.side,
      row: work.row - 1,
      inches,
      drift: state.drift,
      heights: heightsFrom(work, state.heights, inches),
      holders: work.holders,
      written: state.written,
      standing: state.standing,
      waiting: state.waiting,
      number: state.number,
      history: { row: work.definition, before: state.history },
      roleNumber: state.roleNumber,
      roles: state.roles,
      fabricRows: work.fabricRows,
      unsure: state.unsure,
      guessed: state.guessed || work.guessed,
      faulty: state.faulty,
      misnumbered: state.misnumbered,
    },
    rows,
    remarks: work.remarks,
    ...(work.problem && { problem: work.problem }),
  };
}

function heightsFrom(work: Work, heights: State['heights'], inches: number): State['heights'] {
  if (work.begins.size === 0) return heights;
  return { ...heights, ...Object.fromEntries([...work.begins].map((name) => [name, inches])) };
}

/** Ends a row: the work is turned, or goes on in the round from the first stitch. */
export function endRow(work: Work, turned: boolean): void {
  const { needles } = work;
  recordRow(work);
  const short = countStitches(needles.left) > 0;
  if (turned || worksFlat(work)) {
    if (turned && short) {
      needles.left.push(GAP);
      work.shortRows += 1;
    }
    [needles.left, needles.right] = [needles.right, needles.left];
    work.side = work.side === 'RS' ? 'WS' : 'RS';
  } else {
    const round = needles.right.splice(0).reverse();
    const marked = round.some(isRoundStart);
    needles.left = round.filter((strand) => !isRoundStart(strand));
    if (marked) needles.left.unshift(ROUND_START);
    work.side = 'RS';
  }
  work.row += 1;
  work.atStart = countStitches(needles.left);
  work.taken = 0;
  work.changedFirst = 0;
  work.changedSecond = 0;
  work.behind = needles.right.length;
  work.added = 0;
  work.moves = [];
  work.begun = false;
}

/** Rows are worked to and fro in flat pieces, and in the round once the work was turned (a heel). */
const worksFlat = (work: Work): boolean =>
  work.form === 'flat' || (work.definition.unit === 'row' && work.behind > 0);

export const isRoundStart = (strand: Strand): boolean =>
  isMark(strand) && strand.kind === 'marker' && strand.name === ROUND_START.name;

function recordRow(work: Work): void {
  const { env, needles, side, definition, by } = work;
  if (!env.record) return;
  for (const move of movesOf(work)) env.record.move(move);
  const [changeRight, changeLeft] =
    side === 'RS'
      ? [work.changedFirst, work.changedSecond]
      : [work.changedSecond, work.changedFirst];
  const stitches = countStitches(needles.left) + countStitches(needles.right);
  const line = env.lines[definition.line]?.pointer ?? '';
  const marks = marksOn(needles.right, needles.left, side);
  const short = shortOf(work, stitches);
  const row = { row: work.row, stitches, changeRight, changeLeft, line, by, side, marks };
  env.record.row({ ...row, ...(short && { short }) }, 1);
}

// ---------------------------------------------------------------- what actions are made of

export function complain(work: Work, found: Problem): void {
  work.problem ??= found;
}

/** The words of the row that a span covers. */
export function wordsAt(work: Work, span: Span): string {
  const text = work.env.lines[work.definition.line]?.text ?? '';
  return text.slice(span.start, span.end).trim();
}

const lastSpan = (work: Work): Span => work.definition.actions.at(-1)?.span ?? { start: 0, end: 0 };

/** Every row takes so many steps at most; a repeat without end is stopped here. */
export function countStep(work: Work, span: Span): boolean {
  work.steps += 1;
  if (work.steps <= NEEDLE_LIMITS.stepsPerRow) return true;
  const limit = String(NEEDLE_LIMITS.stepsPerRow);
  complain(work, problem('count/limit', span, {}, { what: 'steps in one row', limit }));
  return false;
}

/** Works one kind of stitch and complains where there are not enough. */
export function take(
  work: Work,
  span: Span,
  flow: { readonly takes: number; readonly makes: number },
  times: number,
): void {
  const { takes, makes } = flow;
  if (times <= 0) return;
  work.begun = true;
  if (makes * times > NEEDLE_LIMITS.stitches) return tooMany(work, span);
  borrow(work, takes * times);
  const has = countStitches(work.needles.left);
  const done = workStitch(work.needles, takes, makes, times);
  noteChange(work, takes * done, (makes - takes) * done);
  if (done === times) return;
  const before = countStitches(work.needles.right) + countStitches(work.needles.left);
  complain(
    work,
    problem(
      'count/too-few',
      span,
      { before: before - (makes - takes) * done, needs: takes * times, has },
      { what: wordsAt(work, span) },
    ),
  );
}

function tooMany(work: Work, span: Span): void {
  const limit = String(NEEDLE_LIMITS.stitches);
  complain(work, problem('count/limit', span, {}, { what: 'stitches', limit }));
}

/** Puts new stitches on the right needle. */
export function make(work: Work, span: Span, count: number): void {
  if (count <= 0) return;
  if (count > NEEDLE_LIMITS.stitches) return tooMany(work, span);
  work.begun = true;
  pushStitches(work.needles.right, count);
  noteChange(work, 0, count);
}

/** Changes this near an edge shape it; further in they draw both edges in alike (common practice). */
const EDGE_STITCHES = 8;

/** Keeps the position in the row, and which edge a change belongs to; neither in the middle. */
export function noteChange(work: Work, taken: number, change: number): void {
  const start = work.taken;
  work.taken += taken;
  if (change === 0) return;
  const rest = work.atStart - work.taken;
  if (Math.min(start, rest) > EDGE_STITCHES) return;
  if (start < rest) work.changedFirst += change;
  else if (rest < start) work.changedSecond += change;
  else {
    const first = Math.trunc(change / 2);
    work.changedFirst += first;
    work.changedSecond += change - first;
  }
}

/**
 * Short rows in the round run past the beginning of the round: the stitches that lie behind an earlier
 * turn are then the next ones, from their far end.
 */
function borrow(work: Work, need: number): void {
  const { needles } = work;
  if (work.form !== 'round' || work.behind === 0) return;
  if (work.definition.unit !== 'round' && !work.definition.short) return;
  if (countStitches(needles.left) >= need) return;
  const behind = needles.right.splice(0, work.behind);
  work.behind = 0;
  needles.left.unshift(...behind.reverse());
}

export const isNamed = (mark: Mark, name: string | undefined): boolean =>
  mark.kind === 'marker' &&
  (name === undefined || name === '' || mark.name.toLowerCase() === name.toLowerCase());
