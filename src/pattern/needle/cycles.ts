/**
 * Rows worked again and again. A cycle of rows that leaves the needle as it found it is not run a
 * thousand times: it is counted. One that changes the count is run until it has been worked often
 * enough, or has come to the count that is wanted, or has stepped over it.
 */
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { Span } from '../../base/span.ts';
import type { FabricRow } from '../pattern.ts';
import { fail, failForRows, type Job, workRow } from './job.ts';
import { problem } from './problem.ts';
import { type RowDefinition, type State, stitchesOn } from './state.ts';
import { sameStrands } from './strands.ts';

/** Works `rows` rows, taking the definitions in turn. */
export function workCycle(
  job: Job,
  rowsInTurn: readonly RowDefinition[],
  rows: number,
  where: Span,
): void {
  // In flat work an odd number of rows ends on the other side: only two cycles come round to the first.
  const odd = job.state.form === 'flat' && rowsInTurn.length % 2 === 1;
  const definitions = odd ? [...rowsInTurn, ...rowsInTurn] : rowsInTurn;
  if (job.rows + rows > NEEDLE_LIMITS.rowsPerLine) return failForRows(job, where);
  let rest = rows;
  while (rest > 0 && !job.failed) {
    const before = job.state;
    const recorded = workOnce(job, definitions.slice(0, Math.min(rest, definitions.length)), where);
    rest -= Math.min(rest, definitions.length);
    const cycles = Math.floor(rest / definitions.length);
    if (job.failed || cycles === 0 || !leavesAsFound(before, job.state)) continue;
    skipCycles(job, before, cycles, recorded);
    rest -= cycles * definitions.length;
  }
}

function workOnce(
  job: Job,
  definitions: readonly RowDefinition[],
  where: Span,
): readonly FabricRow[] {
  const rows: FabricRow[] = [];
  const { record } = job.env;
  const recording = record && {
    ...job.env,
    record: {
      ...record,
      row(row: FabricRow, times: number) {
        rows.push(row);
        record.row(row, times);
      },
    },
  };
  const cycle: Job = recording ? { ...job, env: recording } : job;
  for (const definition of definitions) workRow(cycle, definition, where);
  if (cycle !== job) {
    job.state = cycle.state;
    job.rows = cycle.rows;
    job.failed = cycle.failed;
    job.usedFaulty = cycle.usedFaulty;
  }
  return rows;
}

/** The same stitches in the same order, the same side, and charts on the same row as before. */
function leavesAsFound(before: State, after: State): boolean {
  if (before.side !== after.side || before.holders !== after.holders) return false;
  if (!sameStrands(before.left, after.left) || !sameStrands(before.right, after.right))
    return false;
  if (before.fabricRows === after.fabricRows) return true;
  return [...after.fabricRows].every(
    ([name, { patternRow }]) => before.fabricRows.get(name)?.patternRow === patternRow,
  );
}

function skipCycles(job: Job, before: State, cycles: number, recorded: readonly FabricRow[]): void {
  const rows = job.state.row - before.row;
  const inches = job.state.inches - before.inches;
  for (let cycle = 1; cycle <= cycles && job.env.record; cycle += 1) {
    for (const row of recorded) job.env.record.row({ ...row, row: row.row + rows * cycle }, 1);
  }
  job.rows += rows * cycles;
  job.state = {
    ...job.state,
    row: job.state.row + rows * cycles,
    inches: job.state.inches + inches * cycles,
    fabricRows: new Map(
      [...job.state.fabricRows].map(([name, last]) => {
        const inCycle = last.row > before.row;
        return [name, inCycle ? { ...last, row: last.row + rows * cycles } : last];
      }),
    ),
  };
}

/**
 * "Until 24 sts remain". Ends after the cycle in which the count is reached; in the middle of one only
 * where its other rows would leave the count again.
 */
export function workUntilCount(
  job: Job,
  definitions: readonly RowDefinition[],
  target: number,
  where: Span,
): void {
  let nearest = stitchesOn(job.state);
  while (!job.failed && stitchesOn(job.state) !== target) {
    const start = stitchesOn(job.state);
    let reached: { state: State; rows: number } | undefined;
    for (const definition of definitions) {
      workRow(job, definition, where);
      if (job.failed) return;
      if (stitchesOn(job.state) === target) reached ??= { state: job.state, rows: job.rows };
    }
    const now = stitchesOn(job.state);
    if (now === target) return;
    if (reached) {
      job.state = reached.state;
      job.rows = reached.rows;
      return;
    }
    if (Math.abs(now - target) < Math.abs(nearest - target)) nearest = now;
    const passed = Math.sign(target - now) !== Math.sign(target - start);
    if (passed || Math.abs(now - target) >= Math.abs(start - target)) {
      return fail(job, problem('count/never', where, { from: nearest, target }, {}));
    }
  }
}
