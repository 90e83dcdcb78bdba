/**
 * What a stretch is worked in. A stitch pattern of the bundle or a chart gives its own rows, each of
 * which must fit the stitches on the needle; a known fabric ("stockinette", "in pattern") is worked
 * stitch for stitch.
 */
import type { Fabric } from '../notation/ast.ts';
import { rowAfter } from './chart-row.ts';
import type { WorkedPattern } from './env.ts';
import type { Job } from './job.ts';
import type { RowDefinition } from './state.ts';
import type { Chart } from '../pattern.ts';
import { NOWHERE } from '../../base/span.ts';
import { sizedOf } from '../bundle/size-list.ts';

const CHART = /^chart\s+/i;

export const patternNamed = (job: Job, fabric: Fabric | undefined): WorkedPattern | undefined =>
  fabric === undefined ? undefined : job.env.stitchPattern(fabric);

function chartNamed(job: Job, fabric: Fabric): Chart | undefined {
  if (CHART.test(fabric)) return job.env.chart(fabric.replace(CHART, ''));
  const pattern = job.env.stitchPattern(fabric);
  return pattern?.rows.length === 0 && pattern.chart ? job.env.chart(pattern.chart) : undefined;
}

/**
 * Rows of a fabric from its first (`numbered`) or from where it was left (`next`); undefined where it
 * is worked stitch for stitch.
 */
export function definitionsOfFabric(
  job: Job,
  fabric: Fabric,
  from: 'numbered' | 'next',
): readonly RowDefinition[] | undefined {
  const chart = chartNamed(job, fabric);
  if (chart) return chartRows(job, chart, from);
  const rows = job.env.stitchPattern(fabric)?.rows ?? [];
  if (rows.length === 0) return undefined;
  if (from === 'numbered') return rows;
  const last = job.state.fabricRows.get(fabric)?.patternRow ?? 0;
  return [...rows.slice(last % rows.length), ...rows.slice(0, last % rows.length)];
}

/** `numbered`: every row by its number. `next`: the chart goes on by itself from where it stopped. */
function chartRows(job: Job, chart: Chart, from: 'numbered' | 'next'): readonly RowDefinition[] {
  const row = (number: number): RowDefinition => ({
    actions: [
      {
        kind: 'chart',
        chart: chart.data.id,
        span: NOWHERE,
        ...(from === 'numbered' && { row: sizedOf(number) }),
      },
    ],
    unit: chart.data.form === 'round' ? 'round' : 'row',
    number,
    line: job.lineIndex,
    foreign: true,
    short: false,
  });
  if (from === 'numbered') return chart.rows.map((_, at) => row(at + 1));
  const last = job.state.fabricRows.get(chart.data.id)?.patternRow;
  const rows: RowDefinition[] = [];
  let number = last === undefined ? 1 : rowAfter(chart, last);
  while (rows.length < chart.rows.length - (chart.data.repeat?.fromRow ?? 1) + 1) {
    rows.push(row(number));
    number = rowAfter(chart, number);
  }
  return rows;
}

/** Makes `row` the next row of a chart or stitch pattern. */
export function startFabricAt(job: Job, fabric: Fabric, row: number): void {
  const chart = chartNamed(job, fabric);
  const name = chart?.data.id ?? fabric;
  const fabricRows = new Map(job.state.fabricRows);
  if (row === 1) fabricRows.delete(name);
  else fabricRows.set(name, { patternRow: row - 1, row: -1 });
  job.state = { ...job.state, fabricRows };
}

/** Remembers how far a stitch pattern has been worked; charts remember by themselves. */
export function noteFabricRows(job: Job, fabric: Fabric, rows: number): void {
  const pattern = job.env.stitchPattern(fabric);
  if (!pattern || pattern.rows.length === 0) return;
  const last = job.state.fabricRows.get(fabric)?.patternRow ?? 0;
  const patternRow = ((last + rows - 1) % pattern.rows.length) + 1;
  const fabricRows = new Map(job.state.fabricRows).set(fabric, {
    patternRow,
    row: job.state.row,
  });
  job.state = { ...job.state, fabricRows };
}
