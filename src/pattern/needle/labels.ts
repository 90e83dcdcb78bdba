/**
 * Row labels: which rows a line is, whether they follow the row before, and which rows in between were
 * promised by an earlier line (`Row 2 and all WS rows`, `Rows 1 and 3`). Works those first.
 */
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { RowLabel, RowRange } from '../notation/ast.ts';
import type { NumberReader } from './env.ts';
import { fail, type Job, softly, workRow } from './job.ts';
import { problem } from './problem.ts';
import { checkFacing } from './sides.ts';
import type { RowDefinition, Standing, State } from './state.ts';

type Numbered = Extract<RowLabel, { kind: 'numbered' }>;

/** Every row number of the ranges in order; undefined where they are more than any piece has. */
export function numbersOf(
  ranges: readonly RowRange[],
  read: NumberReader,
): readonly number[] | undefined {
  const numbers: number[] = [];
  for (const range of ranges) {
    const from = read(range.from);
    const to = read(range.to);
    if (from === null || to === null) continue;
    if (to - from > NEEDLE_LIMITS.rowsPerLine) return undefined;
    for (let number = from; number <= to; number += 1) numbers.push(number);
  }
  return numbers;
}

/** Rows the label names; undefined for "Dec rows" or a free name, which may stand for any number. */
export function rowsOfLabel(label: RowLabel | undefined, read: NumberReader): number | undefined {
  switch (label?.kind) {
    case 'numbered':
      return numbersOf(label.ranges, read)?.length;
    case 'next': {
      const count = read(label.count) ?? 0;
      return count === 1 ? undefined : count;
    }
    default:
      return undefined;
  }
}

/** A label's side must be the one that faces. */
export function checkSide(job: Job, label: RowLabel | undefined): void {
  if (label && label.kind !== 'named') checkFacing(job, label.side, label.span);
}

/** Numbers rise by one label and from label to label; a section may begin again at 1. */
export function checkOrder(job: Job, label: Numbered, numbers: readonly number[]): void {
  const [first] = numbers;
  const empty = label.ranges.find(({ from, to }) => (job.read(from) ?? 0) > (job.read(to) ?? 0));
  if (empty) {
    const numbers = { expected: job.read(empty.from), found: job.read(empty.to) };
    softly(job, problem('count/row-order', label.span, numbers, {}));
  }
  if (first === undefined) return;
  const within = numbers.findIndex((number, at) => at > 0 && number <= (numbers[at - 1] ?? 0));
  const last = job.state.number ?? 0;
  const found = within > 0 ? numbers[within] : first !== 1 && first <= last ? first : undefined;
  if ((found === undefined && first >= 1) || job.state.misnumbered) return;
  job.state = { ...job.state, misnumbered: true };
  const expected = within > 0 ? (numbers[within - 1] ?? 0) + 1 : last + 1;
  softly(job, problem('count/row-order', label.span, { expected, found: found ?? first }, {}));
}

/** `Short row 3` follows `Short row 2`, or a new set begins at 1. */
export function checkRoleNumber(job: Job, label: Extract<RowLabel, { kind: 'next' }>): void {
  const number = label.number && job.read(label.number);
  if (number === undefined || number === null) return;
  const last = job.state.roleNumber ?? 0;
  job.state = { ...job.state, roleNumber: number };
  if (number === 1 || number === last + 1) return;
  const numbers = { expected: last + 1, found: number };
  softly(job, problem('count/row-order', label.span, numbers, {}));
}

/** A numbered label that begins again at row 1 forgets the rows of the section before. */
export function beginNumbers(job: Job, numbers: readonly number[]): void {
  const last = job.state.number;
  if (numbers[0] !== 1 || last === undefined) return;
  const { number: _, ...state } = job.state;
  const fresh = { number: undefined, written: new Map(), standing: [], waiting: [] };
  job.state = { ...state, ...fresh, misnumbered: false };
}

/** Works the promised rows between the last one and `number`; warns where one is missing. */
export function catchUp(job: Job, label: Numbered, number: number): void {
  const last = job.state.number ?? 0;
  if (number <= last + 1) return;
  const missing = workPromised(job, last + 1, number - 1, label);
  if (missing === undefined || job.state.misnumbered) return;
  job.state = { ...job.state, misnumbered: true };
  softly(job, problem('count/row-missing', label.span, { expected: missing, found: number }, {}));
}

/** Works rows that an earlier line promised. Gives the first that nothing promised. */
export function workPromised(
  job: Job,
  from: number,
  to: number,
  where: { readonly span: Numbered['span'] },
): number | undefined {
  const rows: RowDefinition[] = [];
  let missing: number | undefined;
  for (let number = from; number <= to; number += 1) {
    const row = promised(job.state, number);
    if (row) rows.push({ ...row, number });
    else missing ??= number;
  }
  // A promise for every other row fills gaps of one; where more is missing, nothing is made up.
  const asked = missing === undefined ? rows : rows.filter((row) => isWaiting(job.state, row));
  for (const row of asked) workNumbered(job, row, where.span);
  return missing;
}

const isWaiting = (state: State, row: RowDefinition): boolean =>
  state.waiting.some((each) => each.number === row.number);

function promised(state: State, number: number): RowDefinition | undefined {
  const waiting = state.waiting.find((row) => row.number === number);
  return waiting ?? standingRow(state.standing, number);
}

export function standingRow(
  standing: readonly Standing[],
  number: number,
): RowDefinition | undefined {
  return standing.findLast((each) => covers(each, number))?.row;
}

function covers({ which, from }: Standing, number: number): boolean {
  switch (which) {
    case 'even':
      return number % 2 === 0;
    case 'odd':
      return number % 2 === 1;
    case 'following':
      return number > from;
    default:
      return number > from && (number - from) % 2 === 0;
  }
}

/** Works a row that has a number, and keeps it to be worked again. */
export function workNumbered(job: Job, row: RowDefinition, where: Numbered['span']): void {
  workRow(job, row, where);
  const { number } = row;
  if (number === undefined) return;
  job.state = {
    ...job.state,
    number,
    written: new Map(job.state.written).set(number, row),
    waiting: job.state.waiting.filter((each) => each.number !== number),
  };
}

/** A label with more rows than any piece has is a slip of the pen. */
export function failLabel(job: Job, label: RowLabel): void {
  const limit = String(NEEDLE_LIMITS.rowsPerLine);
  fail(job, problem('count/limit', label.span, {}, { what: 'rows', limit }));
}
