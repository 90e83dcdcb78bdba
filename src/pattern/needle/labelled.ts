/**
 * Works a row that is written out, under its label: once for each row the label names, in the order of
 * the numbers, keeping each to be worked again. Rows whose turn has not come wait for it.
 */
import type { Action, RowLabel, Sentence } from '../notation/ast.ts';
import type { Job } from './job.ts';
import {
  beginNumbers,
  catchUp,
  checkOrder,
  checkRoleNumber,
  checkSide,
  failLabel,
  numbersOf,
  workNumbered,
  workPromised,
} from './labels.ts';
import { checkFacing, faceWith } from './sides.ts';
import type { RowDefinition } from './state.ts';
import { workCycle } from './cycles.ts';

type Written = Extract<Sentence, { kind: 'actions' }>;

export function workLabelled(job: Job, sentence: Written, actions: readonly Action[]): void {
  const { label } = job.line;
  const row: RowDefinition = {
    actions,
    unit: unitOfLabel(job, label),
    line: job.lineIndex,
    short: label?.kind === 'next' && label.role === 'short',
    ...(label && label.kind !== 'named' && label.role && { role: label.role }),
  };
  // Stitches are picked up along an edge, which may be held either way.
  if (actions[0]?.kind === 'pickUp') faceWith(job, sentence.facing);
  else checkFacing(job, sentence.facing, sentence.span);
  if (label?.kind === 'numbered') {
    workNumbers(job, label, row);
    return noteRole(job, row);
  }
  checkSide(job, label);
  if (label?.kind === 'next') checkRoleNumber(job, label);
  const count = label?.kind === 'next' ? (job.read(label.count) ?? 0) : 1;
  workCycle(job, [row], count, sentence.span);
  noteRole(job, row);
}

function noteRole(job: Job, row: RowDefinition): void {
  if (!row.role) return;
  job.state = { ...job.state, roles: new Map(job.state.roles).set(row.role, row) };
}

export function unitOfLabel(job: Job, label: RowLabel | undefined): 'row' | 'round' {
  if (label && label.kind !== 'named') return label.unit;
  return job.state.form === 'round' ? 'round' : 'row';
}

type Numbered = Extract<RowLabel, { kind: 'numbered' }>;

function workNumbers(job: Job, label: Numbered, row: RowDefinition): void {
  const numbers = numbersOf(label.ranges, job.read);
  if (!numbers) return failLabel(job, label);
  const first = numbers[0];
  checkOrder(job, label, numbers);
  if (first === undefined) return;
  beginNumbers(job, numbers);
  catchUp(job, label, first);
  const written = first === 1 ? { ...row, ofLabel: numbers.length } : row;
  promise(job, label, first, written);
  checkSide(job, label);
  const together = numbers.findIndex((number, at) => number !== first + at);
  const now = together < 0 ? numbers : numbers.slice(0, together);
  const later = together < 0 ? [] : numbers.slice(together);
  workRun(job, now, written, label);
  if (job.failed) return;
  const waiting = later.map((number) => ({ ...written, number }));
  job.state = { ...job.state, waiting: [...job.state.waiting, ...waiting] };
  workDue(job, label);
}

/** A run of rows that are all alike. */
function workRun(job: Job, numbers: readonly number[], row: RowDefinition, label: Numbered): void {
  const last = numbers.at(-1);
  const charted = row.actions.some((action) => action.kind === 'chart');
  if (numbers.length < 3 || last === undefined || charted) {
    for (const number of numbers) workNumbered(job, { ...row, number }, label.span);
    return;
  }
  workCycle(job, [row], numbers.length, label.span);
  const written = new Map(job.state.written);
  for (const number of numbers) written.set(number, { ...row, number });
  job.state = { ...job.state, number: last, written };
}

/** Rows that were labelled early and whose turn has come. */
function workDue(job: Job, label: Numbered): void {
  for (;;) {
    const next = (job.state.number ?? 0) + 1;
    if (job.failed || !job.state.waiting.some((row) => row.number === next)) return;
    workPromised(job, next, next, label);
  }
}

function promise(job: Job, label: Numbered, from: number, row: RowDefinition): void {
  if (!label.andAll) return;
  const standing = [...job.state.standing, { from, which: label.andAll, row }];
  job.state = { ...job.state, standing };
}
