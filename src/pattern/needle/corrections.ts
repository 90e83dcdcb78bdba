/**
 * Goes on from a slip as if it had been corrected. Where a correction is proven, the rows after it are
 * worked from the corrected row: its count, its markers and its length are then right, and nothing
 * further down is accused of what was never its fault.
 */
import type { Fix, Worked } from './fixes.ts';
import { findFix } from './fixes.ts';
import { isHard, type LineRun, workPiece } from './piece.ts';
import { startState } from './state.ts';

export interface CorrectedRuns {
  readonly runs: Worked['runs'];
  /** Corrections in words, by group. */
  readonly fixes: ReadonlyMap<number, string>;
}

export function correct(first: Worked): CorrectedRuns {
  const fixes = new Map<number, string>();
  let worked = first;
  for (let at = 0; at < worked.groups.length; at += 1) {
    const found = worked.runs.flatMap((runs, size) => {
      const problem = runs[at]?.problems.find(isHard);
      return problem ? [{ size, problem }] : [];
    });
    if (found.length === 0) continue;
    // What stands on a guess cannot prove a correction.
    const guessed = found.some(({ size }) => worked.runs[size]?.[at - 1]?.after.guessed === true);
    const fix = guessed ? undefined : findFix(worked, at, found);
    if (!fix) continue;
    fixes.set(at, fix.said);
    if (fix.row) worked = withRow(worked, at, fix.row);
  }
  return { runs: worked.runs, fixes };
}

/** The piece with one line corrected and worked again from there, in the sizes it touches. */
function withRow(worked: Worked, at: number, row: NonNullable<Fix['row']>): Worked {
  const { groups, env, start } = worked;
  const index = groups[row.group]?.first;
  const lines = env.lines.map((written, line) =>
    line === index ? { ...written, line: row.line } : written,
  );
  const corrected = { ...env, lines };
  const runs = worked.runs.map((before, size) => {
    if (!row.sizes.includes(size)) return before;
    const begin = startState(env.form, env.firstSide, start[size] ?? new Map());
    const again = workPiece(corrected, groups, size, begin, before.slice(0, row.group));
    return again.map((run, group) => keepProblem(run, before[group], group, row.group, at));
  });
  return { ...worked, env: corrected, runs };
}

/** What was found stays found; what it comes to is what the correction gives. */
function keepProblem(
  run: LineRun,
  before: LineRun | undefined,
  group: number,
  culprit: number,
  at: number,
): LineRun {
  const marked = group === culprit ? { culprit: true } : {};
  if (group !== at || !before) return { ...run, ...marked };
  const { problems, verdict } = before;
  return { ...run, problems, corrected: true, ...(verdict && { verdict }), ...marked };
}
