/**
 * Works rows apart from any piece: a stitch pattern on a count of its multiple, a written row stitch by
 * stitch. Gives what came out and the first thing that did not.
 */
import type { Env, StitchFlow } from './env.ts';
import type { Chart } from '../pattern.ts';
import type { Job } from './job.ts';
import { workRow } from './job.ts';
import type { Problem } from './problem.ts';
import { type RowDefinition, startState, stitchesOn } from './state.ts';

export interface Books {
  stitch(name: string): StitchFlow | undefined;
  chart(name: string): Chart | undefined;
}

/** An environment without a piece: one size, no lines, no gauge. */
export function bareEnv(books: Books, form: 'flat' | 'round'): Env {
  return {
    sizes: ['one'],
    lines: [],
    piece: '',
    form,
    firstSide: 'RS',
    made: 1,
    stitch: (name) => books.stitch(name),
    chart: (name) => books.chart(name),
    stitchPattern: () => undefined,
    rowsPerInch: () => 1,
    neckEdge: () => 'left',
  };
}

export interface RowTrial {
  readonly before: number;
  readonly after: number;
  readonly problem?: Problem;
}

/** Works rows one after another on so many stitches; stops at the first that cannot be worked. */
export function tryRows(
  env: Env,
  rows: readonly RowDefinition[],
  count: number,
): readonly RowTrial[] {
  const job: Job = {
    env,
    size: 0,
    line: { sentences: [], text: '', span: { start: 0, end: 0 } },
    lineIndex: 0,
    read: (sized) => sized.values[0] ?? null,
    state: { ...startState(env.form, env.firstSide, new Map()), left: count > 0 ? [count] : [] },
    rows: 0,
    problems: [],
    failed: false,
    fabric: undefined,
    exactInches: undefined,
    usedFaulty: false,
  };
  const trials: RowTrial[] = [];
  for (const row of rows) {
    const before = stitchesOn(job.state);
    workRow(job, row, { start: 0, end: 0 });
    const [problem] = job.problems;
    trials.push({ before, after: stitchesOn(job.state), ...(problem && { problem }) });
    if (problem) break;
  }
  return trials;
}

/** The stitches of a row in the order in which they are worked, one entry each. */
export function stitchesOfRow(
  env: Env,
  row: RowDefinition,
  count: number,
): readonly string[] | undefined {
  const stitches: string[] = [];
  const onStitch = (stitch: string, times: number): void => {
    for (let each = 0; each < times; each += 1) stitches.push(stitch);
  };
  const [trial] = tryRows({ ...env, onStitch }, [row], count);
  return trial?.problem ? undefined : stitches;
}
