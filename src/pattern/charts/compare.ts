/**
 * A chart and the written rows of the same pattern, stitch by stitch in the order of working, over two
 * repeats. Gives the first difference of each row. Slips and yarn positions are compared as they are
 * named; colours are not, because written rows seldom repeat them.
 */
import type { Books } from '../needle/trial.ts';
import { bareEnv, stitchesOfRow } from '../needle/trial.ts';
import type { RowDefinition } from '../needle/state.ts';
import type { Chart } from '../pattern.ts';
import { rowInOrder } from './rows.ts';

export interface ChartDifference {
  /** Row of the chart, from 1 at the bottom. */
  readonly row: number;
  /** Stitch of the row in the order of working, from 1. */
  readonly stitch: number;
  readonly drawn: string;
  readonly written: string;
}

const NOTHING = 'no stitch';
const REPEATS = 2;

export function compareChart(
  chart: Chart,
  rows: readonly RowDefinition[],
  books: Books,
): readonly ChartDifference[] {
  const env = bareEnv(books, chart.data.form);
  let count = countFor(chart, books);
  return chart.rows.flatMap(({ number }) => {
    const written = rows.find((row) => row.number === number) ?? rows[number - 1];
    const drawn = drawnStitches(chart, number);
    const before = count;
    count = after(drawn, books);
    if (!written) return [];
    const stitches = stitchesOfRow(env, written, before) ?? [];
    return firstDifference(number, drawn, stitches);
  });
}

function firstDifference(
  row: number,
  drawn: readonly string[],
  written: readonly string[],
): readonly ChartDifference[] {
  const length = Math.max(drawn.length, written.length);
  for (let at = 0; at < length; at += 1) {
    const one = drawn[at] ?? NOTHING;
    const other = written[at] ?? NOTHING;
    if (one !== other) return [{ row, stitch: at + 1, drawn: one, written: other }];
  }
  return [];
}

/** The stitches of a chart row as they are worked, the box twice. */
export function drawnStitches(chart: Chart, number: number): readonly string[] {
  const row = rowInOrder(chart, number);
  if (!row) return [];
  const boxes = Array.from({ length: REPEATS }, () => row.repeat).flat();
  return [...row.before, ...boxes, ...row.after].flatMap((action) =>
    action.kind === 'work'
      ? Array.from({ length: action.times.values[0] ?? 0 }, () => action.stitch)
      : [],
  );
}

const countFor = (chart: Chart, books: Books): number =>
  drawnStitches(chart, 1).reduce((sum, name) => sum + (books.stitch(name)?.takes ?? 0), 0);

const after = (stitches: readonly string[], books: Books): number =>
  stitches.reduce((sum, name) => sum + (books.stitch(name)?.makes ?? 0), 0);
