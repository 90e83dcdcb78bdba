/**
 * "Rep Rows 1–4 six more times": finds the rows that are meant (by number, the last few, by role, rows
 * of a chart or stitch pattern), changes them where the sentence says so, and says how often they are
 * worked.
 */
import { assertNever } from '../../base/assert.ts';
import type { Sentence } from '../notation/ast.ts';
import { changePlain, replaceActions } from './changed-rows.ts';
import { workCycle, workUntilCount } from './cycles.ts';
import { definitionsOfFabric } from './fabrics.ts';
import { fail, failForRows, type Job, softly } from './job.ts';
import { numbersOf, standingRow, workPromised } from './labels.ts';
import { missingInches, nearestRows, targetOf } from './lengths.ts';
import { problem } from './problem.ts';
import { lastRows, type RowDefinition, stitchesOn } from './state.ts';

export type RepeatRows = Extract<Sentence, { kind: 'repeatRows' }>;

/** The rows meant, in order; undefined after a complaint. */
export function rowsMeant(job: Job, sentence: RepeatRows): readonly RowDefinition[] | undefined {
  const rows = foundRows(job, sentence);
  if (!rows || rows.length === 0) {
    if (!job.failed) {
      const words = { rows: job.line.text.slice(sentence.span.start, sentence.span.end) };
      fail(job, problem('count/no-such-row', sentence.span, {}, words));
    }
    return undefined;
  }
  const { instead } = sentence;
  if (!instead) return rows;
  return rows.map((row) => ({
    ...row,
    actions: replaceActions(row.actions, instead, job.read),
    line: job.lineIndex,
    foreign: true,
  }));
}

function foundRows(job: Job, { rows, of, span }: RepeatRows): readonly RowDefinition[] | undefined {
  if ('last' in rows) {
    const count = job.read(rows.last) ?? 0;
    const last = lastRows(job.state, count);
    return last.length === count ? last : undefined;
  }
  if ('role' in rows) {
    const row = job.state.roles.get(rows.role);
    return row && [row];
  }
  const numbers = numbersOf(rows.ranges, job.read);
  if (!numbers) {
    failForRows(job, span);
    return undefined;
  }
  if (of !== undefined) {
    const all = definitionsOfFabric(job, of, 'numbered');
    const meant = numbers.map((number) => all?.[number - 1]);
    return meant.every((row) => row !== undefined) ? meant : undefined;
  }
  const fallen = numbers.findIndex((number, at) => at > 0 && number <= (numbers[at - 1] ?? 0));
  if (fallen > 0) {
    const found = numbers[fallen] ?? 0;
    const expected = (numbers[fallen - 1] ?? 0) + 1;
    softly(job, problem('count/row-order', span, { expected, found }, {}));
  }
  finishFirstPass(job, numbers, { span });
  const written = numbers.map((number) => {
    const row = job.state.written.get(number) ?? standingRow(job.state.standing, number);
    return row && { ...row, number };
  });
  if (written.every((row) => row !== undefined)) return written;
  const last = lastRows(job.state, numbers.length);
  return job.state.misnumbered && last.length === numbers.length ? last : undefined;
}

/** Rows promised by "and all WS rows" at the end of the first pass are worked before it is repeated. */
function finishFirstPass(
  job: Job,
  numbers: readonly number[],
  where: { span: RepeatRows['span'] },
): void {
  const last = job.state.number;
  const end = numbers.at(-1);
  if (last === undefined || end === undefined || last >= end) return;
  if (!numbers.includes(last)) return;
  workPromised(job, last + 1, end, where);
}

/** Works the rows as often as the extent says. `labelled`: rows the label names, where it names any. */
export function repeatRows(job: Job, sentence: RepeatRows, labelled: number | undefined): void {
  const rows = rowsMeant(job, sentence);
  if (!rows) return;
  const { extent, span } = sentence;
  if (sentence.changing) return repeatChanging(job, sentence, rows);
  if (extent.kind === 'once' && labelled !== undefined) {
    return workCycle(job, rows, labelled, span);
  }
  if (extent.kind === 'count') {
    const target = job.read(extent.count);
    return target === null ? undefined : workUntilCount(job, rows, target, span);
  }
  const count = rowsToWork(job, sentence, rows);
  if (count !== undefined) workCycle(job, rows, count, span);
}

/** Rows to work in all, or undefined after a complaint or where nothing applies to this size. */
function rowsToWork(
  job: Job,
  { extent, span, of }: RepeatRows,
  rows: readonly RowDefinition[],
): number | undefined {
  switch (extent.kind) {
    case 'once':
      return rows.length;
    case 'more':
      return (job.read(extent.times) ?? 0) * rows.length;
    case 'total': {
      // Rows written in the piece were worked once already; those of a chart were not.
      const times = job.read(extent.times) ?? 0;
      return (of === undefined ? Math.max(0, times - 1) : times) * rows.length;
    }
    case 'rows':
      return job.read(extent.count) ?? 0;
    case 'length':
      return rowsToLength(job, extent, rows, span);
    case 'count':
      return undefined;
    default:
      return assertNever(extent);
  }
}

type LengthExtent = Extract<RepeatRows['extent'], { kind: 'length' }>;

function rowsToLength(
  job: Job,
  extent: LengthExtent,
  rows: readonly RowDefinition[],
  span: RepeatRows['span'],
): number | undefined {
  const target = targetOf(job.state, extent, job.read);
  if (target === null) return undefined;
  const perInch = job.env.rowsPerInch(job.fabric);
  const wanted = missingInches(job.state, target) * perInch;
  if (wanted < -0.5) return complainLonger(job, target, span);
  const stop = stoppingPlace(job, extent, rows);
  const count = nearestRows(wanted, job.state, stop);
  job.exactInches = target;
  return count;
}

export function complainLonger(job: Job, target: number, span: RepeatRows['span']): undefined {
  const quarter = (inches: number) => Math.round(inches * 4) / 4;
  const numbers = { has: quarter(job.state.inches), stated: quarter(target) };
  fail(job, problem('count/longer', span, numbers, { unit: 'in' }));
  return undefined;
}

/** Rows that change the count are repeated whole; others stop at any row of the side asked for. */
function stoppingPlace(job: Job, extent: LengthExtent, rows: readonly RowDefinition[]) {
  const ending = extent.endingRow ? job.read(extent.endingRow) : null;
  if (ending !== null) {
    const at = rows.findIndex((row) => row.number === ending);
    return { cycle: rows.length, rest: (at + 1) % rows.length };
  }
  const trial: Job = { ...job, problems: [], rows: 0, env: withoutRecord(job.env) };
  workCycle(trial, rows, rows.length, { start: 0, end: 0 });
  const changes = stitchesOn(trial.state) !== stitchesOn(job.state);
  if (changes) return { cycle: rows.length };
  return extent.ending ? { side: extent.ending } : {};
}

function withoutRecord(env: Job['env']): Job['env'] {
  const { record: _, ...rest } = env;
  return rest;
}

/** "Having 1 st less between decs": the rows are worked again and again, a little different each time. */
function repeatChanging(job: Job, sentence: RepeatRows, rows: readonly RowDefinition[]): void {
  const { changing, extent, span } = sentence;
  if (!changing) return;
  const step = (job.read(changing.by) ?? 0) * (changing.way === 'fewer' ? -1 : 1);
  const target = extent.kind === 'count' ? job.read(extent.count) : null;
  const times = timesOf(job, sentence);
  for (let turn = 1; turn <= times && !job.failed; turn += 1) {
    const now = stitchesOn(job.state);
    if (target !== null && now === target) return;
    const changed = rows.map((row) => changedRow(job, row, step * turn));
    workCycle(job, changed, rows.length, span);
    if (target === null || job.failed) continue;
    const passed = Math.sign(target - stitchesOn(job.state)) === -Math.sign(target - now);
    if (passed || stitchesOn(job.state) === now) {
      return fail(job, problem('count/never', span, { from: now, target }, {}));
    }
  }
}

function timesOf(job: Job, { extent }: RepeatRows): number {
  if (extent.kind === 'more') return job.read(extent.times) ?? 0;
  if (extent.kind === 'total') return (job.read(extent.times) ?? 1) - 1;
  return extent.kind === 'count' ? 1000 : 1;
}

function changedRow(job: Job, row: RowDefinition, by: number): RowDefinition {
  const actions = changePlain(row.actions, by, job.env, job.read);
  return { ...row, actions, line: job.lineIndex, foreign: true };
}
