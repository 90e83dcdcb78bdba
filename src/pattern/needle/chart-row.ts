/**
 * Works one row of a chart: the cells in the order of working, the boxed repeat as often as it fits.
 * Which row comes next is remembered by chart, so that "work Chart A" goes on where it stopped; two
 * panels of the same chart in one row are on the same chart row.
 */
import { rowInOrder } from '../charts/rows.ts';
import type { Action } from '../notation/ast.ts';
import type { Chart } from '../pattern.ts';
import { workActions } from './actions.ts';
import { flowOfAll } from './flow.ts';
import { distanceTo } from './goals.ts';
import { problem } from './problem.ts';
import { workGroup } from './repeats.ts';
import { sideSay } from './sides.ts';
import { complain, type Work } from './row.ts';
import { countStitches } from './strands.ts';

type ChartAction = Extract<Action, { kind: 'chart' }>;

export function workChart(work: Work, action: ChartAction, following: readonly Action[]): void {
  const chart = work.env.chart(action.chart);
  if (!chart) {
    complain(work, problem('count/no-such-chart', action.span, {}, { chart: action.chart }));
    return;
  }
  const row = action.row ? (work.read(action.row) ?? 0) : nextChartRow(work, chart);
  const cells = rowInOrder(chart, row);
  if (!cells) {
    const numbers = { row, rows: chart.rows.length };
    complain(work, problem('count/chart-row', action.span, numbers, { chart: chart.data.name }));
    return;
  }
  if (work.form === 'flat' && chart.data.form === 'flat' && cells.side !== work.side) {
    const faces = sideSay(work.side);
    const words = { stated: `${sideSay(cells.side)} by ${chart.data.name} row ${row}`, faces };
    work.remarks.push(problem('count/side', action.span, { rowNumber: row }, words));
  }
  keepInStep(work, action, chart, row);
  work.fabricRows = new Map(work.fabricRows).set(chart.data.id, {
    patternRow: row,
    row: work.row,
  });
  const times = repeatsIn(work, action, cells, following);
  if (times === undefined) return;
  work.begun = true;
  workActions(work, cells.before);
  if (!work.problem) workGroup(work, cells.repeat, times, action.span);
  if (!work.problem) workActions(work, cells.after);
}

function nextChartRow(work: Work, chart: Chart): number {
  const last = work.fabricRows.get(chart.data.id);
  if (!last) return 1;
  if (last.row === work.row) return last.patternRow;
  return rowAfter(chart, last.patternRow);
}

/** "Rnds 1–6: work Chart A" with six rows: round 4 is row 4 of the chart, in every repeat. */
function keepInStep(work: Work, action: ChartAction, chart: Chart, row: number): void {
  const { number, ofLabel } = work.definition;
  if (action.row || number === undefined || ofLabel !== chart.rows.length || number === row) return;
  const numbers = { row, label: number };
  work.remarks.push(problem('count/chart-step', action.span, numbers, { chart: chart.data.name }));
}

/** After the top row of its box, or its own top row, a chart begins again at the lowest of the box. */
export function rowAfter(chart: Chart, row: number): number {
  const { fromRow = 1, toRow = chart.rows.length } = chart.data.repeat ?? {};
  return row === toRow || row >= chart.rows.length ? fromRow : row + 1;
}

/** How often the box is worked, or undefined after a complaint. */
function repeatsIn(
  work: Work,
  action: ChartAction,
  cells: { before: readonly Action[]; repeat: readonly Action[]; after: readonly Action[] },
  following: readonly Action[],
): number | undefined {
  if (action.times) return work.read(action.times) ?? 0;
  const box = flowOfAll(cells.repeat, work.read, work.env);
  const edges = flowOfAll([...cells.before, ...cells.after], work.read, work.env);
  if (!box || !edges || box.takes <= 0) return 1;
  const available = stitchesForChart(work, action, following);
  if (available === undefined) return work.problem ? undefined : 1;
  const rest = available - edges.takes;
  const leftOver = ((rest % box.takes) + box.takes) % box.takes;
  if (rest >= 0 && leftOver === 0) return rest / box.takes;
  const numbers = { available, takes: box.takes, leftOver };
  complain(work, problem('count/repeat', action.span, numbers, {}));
  return undefined;
}

function stitchesForChart(
  work: Work,
  action: ChartAction,
  following: readonly Action[],
): number | undefined {
  if (action.over) return work.read(action.over) ?? 0;
  if (action.goal) return distanceTo(work, action.goal);
  const after = flowOfAll(following, work.read, work.env);
  return after && countStitches(work.needles.left) - after.takes;
}
