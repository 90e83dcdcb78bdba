/**
 * Charts: the box fits, every key is used, each row takes what the row below leaves (inside and outside
 * the box), wrong-side rows can be worked from that side, no yarn floats too far, and the multiple of
 * the stitch pattern is the one that is drawn.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { chartPlace } from '../charts/read.ts';
import { partOf } from '../charts/rows.ts';
import type { Chart, ChartCell, ChartRow } from '../pattern.ts';
import { catalogueFor, type Catalogue } from '../stitches/index.ts';
import type { CheckContext } from './context.ts';
import { longFloats } from './floats.ts';

export function checkCharts(context: CheckContext): readonly Finding[] {
  const catalogue = catalogueFor(context.data.stitches);
  return [...context.pattern.charts.values()].flatMap((chart) => [
    ...unusedKeys(chart),
    ...boxFits(chart),
    ...rowCounts(chart, catalogue),
    ...wrongSides(chart, catalogue),
    ...longFloats(chart),
  ]);
}

function unusedKeys(chart: Chart): readonly Finding[] {
  const used = new Set(chart.data.rows.flatMap((row) => Array.from(row)));
  return Object.keys(chart.data.key)
    .filter((character) => !used.has(character))
    .map((character) => {
      const pointer = pointerTo(chart.pointer, 'key', character);
      const where = { file: 'pattern.json', pointer, label: chart.data.name };
      return finding('chart/unused-key', where, { chart: chart.data.name, character });
    });
}

function boxFits(chart: Chart): readonly Finding[] {
  const { repeat, name } = chart.data;
  if (!repeat) return [];
  const problem = boxProblem(chart, repeat);
  if (problem === undefined) return [];
  const where = {
    file: 'pattern.json',
    pointer: pointerTo(chart.pointer, 'repeat'),
    label: name,
  };
  return [finding('chart/box', where, { chart: name, problem })];
}

type Box = NonNullable<Chart['data']['repeat']>;

function boxProblem(chart: Chart, box: Box): string | undefined {
  const { fromStitch, toStitch, fromRow = 1, toRow = chart.rows.length } = box;
  if (fromStitch > toStitch) return `begins at stitch ${fromStitch} and ends at ${toStitch}`;
  if (toStitch > chart.columns) {
    return `ends at stitch ${toStitch}; the chart is ${chart.columns} cells wide`;
  }
  if (fromRow > toRow) return `begins at row ${fromRow} and ends at ${toRow}`;
  if (toRow > chart.rows.length)
    return `ends at row ${toRow}; the chart has ${chart.rows.length} rows`;
  const cut = chart.rows.find((row) => row.cells.some((cell) => isCut(chart, box, cell)));
  return cut && `cuts through a cable in row ${cut.number}`;
}

/** A cable that lies on both sides of the box's edge. */
function isCut(chart: Chart, box: Box, cell: ChartCell): boolean {
  const right = chart.columns - (cell.column + cell.columns) + 1;
  const left = chart.columns - cell.column;
  const crosses = (edge: number) => right <= edge && left > edge;
  return crosses(box.fromStitch - 1) || crosses(box.toStitch);
}

// ---------------------------------------------------------------- counts from row to row

interface Flow {
  readonly takes: number;
  readonly makes: number;
}

function flowOf(cells: readonly ChartCell[], catalogue: Catalogue): Flow {
  let takes = 0;
  let makes = 0;
  for (const { stitch } of cells) {
    const known = stitch === 'none' ? undefined : catalogue.lookup(stitch);
    takes += known?.takes ?? 0;
    makes += known?.makes ?? 0;
  }
  return { takes, makes };
}

/** The box may be repeated any number of times, so it must come out by itself, and so must the edges. */
function partsOf(
  chart: Chart,
  row: ChartRow,
): { box: readonly ChartCell[]; edges: readonly ChartCell[] } {
  const inBox = (cell: ChartCell) => partOf(chart, cell) === 'box';
  return { box: row.cells.filter(inBox), edges: row.cells.filter((cell) => !inBox(cell)) };
}

function rowCounts(chart: Chart, catalogue: Catalogue): readonly Finding[] {
  const flows = chart.rows.map((row) => {
    const { box, edges } = partsOf(chart, row);
    return { box: flowOf(box, catalogue), edges: flowOf(edges, catalogue) };
  });
  const found: Finding[] = [];
  const bounded = chart.data.repeat !== undefined;
  flows.forEach((flow, at) => {
    const below = flows[at - 1];
    if (!below) return;
    for (const part of ['box', 'edges'] as const) {
      const { takes } = flow[part];
      const { makes } = below[part];
      if (takes === makes) continue;
      const row = at + 1;
      const said = bounded ? (part === 'box' ? 'in the box' : 'outside the box') : 'in all';
      const facts = { chart: chart.data.name, row, takes, makes, part: said };
      found.push(finding('chart/row-count', chartPlace(chart, row), facts));
    }
  });
  return [...found, ...boxReturns(chart, flows)];
}

/** Rows inside the box are worked again from its first, which must then find the count it needs. */
function boxReturns(
  chart: Chart,
  flows: readonly { readonly box: Flow; readonly edges: Flow }[],
): readonly Finding[] {
  const { repeat, name } = chart.data;
  if (repeat?.fromRow === undefined || repeat.toRow === undefined) return [];
  const first = flows[repeat.fromRow - 1]?.box.takes;
  const last = flows[repeat.toRow - 1]?.box.makes;
  if (first === undefined || last === undefined || first === last) return [];
  // Where the edges change as well, a shape grows and is not worked again with the same count.
  const facts = { chart: name, first, last, part: 'in the box' };
  return [finding('chart/returns', chartPlace(chart, repeat.toRow), facts)];
}

function wrongSides(chart: Chart, catalogue: Catalogue): readonly Finding[] {
  return chart.rows
    .filter((row) => row.side === 'WS')
    .flatMap((row) => {
      const cell = row.cells.find(({ stitch }) => {
        const known = stitch === 'none' ? undefined : catalogue.lookup(stitch);
        return known !== undefined && known.otherSide === undefined;
      });
      if (!cell) return [];
      const facts = { chart: chart.data.name, row: row.number, stitch: cell.stitch };
      return [finding('chart/other-side', chartPlace(chart, row.number, cell), facts)];
    });
}
