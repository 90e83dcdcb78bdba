/**
 * Splits a chart that is larger than its room into parts of about equal size. Neighbours overlap by a
 * few columns and rows, and cuts go where they cross no cable if such a place is near, so that every
 * cell stands whole in at least one part. Knows counts only, neither symbols nor ink.
 */
import type { Chart } from '../../../pattern/pattern.ts';

/** Half-open ranges: columns from the left, rows from the bottom (index, so row number − 1). */
export interface Range {
  readonly from: number;
  readonly to: number;
}

export interface Part {
  /** What the part is there for; together the parts cover the chart once. */
  readonly own: { readonly columns: Range; readonly rows: Range };
  /** With the overlap to the neighbours. */
  readonly shown: { readonly columns: Range; readonly rows: Range };
}

const ROW_OVERLAP = 1;
const LEAST_COLUMN_OVERLAP = 2;

/** Wide enough that a cell across a cut is whole on one side of it. */
function columnOverlap(chart: Chart): number {
  const widest = chart.rows.reduce(
    (width, row) => row.cells.reduce((most, cell) => Math.max(most, cell.columns), width),
    1,
  );
  return Math.max(LEAST_COLUMN_OVERLAP, Math.floor(widest / 2));
}

/** How many cells each boundary between columns would cut through. */
function cutCells(chart: Chart): number[] {
  const cuts = Array.from({ length: chart.columns + 1 }, () => 0);
  for (const { cells } of chart.rows)
    for (const cell of cells)
      for (let inner = 1; inner < cell.columns; inner += 1)
        cuts[cell.column + inner] = (cuts[cell.column + inner] ?? 0) + 1;
  return cuts;
}

/** How many parts of at most `fits`, overlaps included, are needed for `length`. */
function partsNeeded(length: number, fits: number, overlap: number): number {
  if (length <= fits) return 1;
  if (length <= 2 * (fits - overlap)) return 2;
  return Math.ceil(length / Math.max(1, fits - 2 * overlap));
}

/** Cuts `length` into ranges, each cut moved within its slack to where `cost` is least. */
function splitLength(length: number, fits: number, overlap: number, cost: readonly number[]) {
  const parts = partsNeeded(length, fits, overlap);
  const room = (index: number) =>
    Math.max(1, fits - (index === 0 || index === parts - 1 ? overlap : 2 * overlap));
  const ranges: Range[] = [];
  let from = 0;
  for (let index = 0; index < parts; index += 1) {
    const later = Array.from({ length: parts - index - 1 }, (_, next) => room(index + 1 + next));
    const least = Math.max(from + 1, length - later.reduce((sum, value) => sum + value, 0));
    const most = Math.min(length, from + (parts === 1 ? length : room(index)));
    const even = Math.round(from + (length - from) / (parts - index));
    const to = index === parts - 1 ? length : cheapest(least, Math.max(least, most), even, cost);
    ranges.push({ from, to });
    from = to;
  }
  return ranges;
}

/** The place between `least` and `most` that costs least; among equals the one nearest `wish`. */
function cheapest(least: number, most: number, wish: number, cost: readonly number[]): number {
  let best = Math.min(most, Math.max(least, wish));
  const weight = (place: number) => (cost[place] ?? 0) * 1000 + Math.abs(place - wish);
  for (let place = least; place <= most; place += 1) if (weight(place) < weight(best)) best = place;
  return best;
}

const widened = ({ from, to }: Range, overlap: number, length: number): Range => ({
  from: Math.max(0, from - overlap),
  to: Math.min(length, to + overlap),
});

/** The parts in the order a knitter needs them: from the bottom up, each level from the right. */
export function splitChart(chart: Chart, fitColumns: number, fitRows: number): Part[] {
  const overlap = columnOverlap(chart);
  const across = splitLength(chart.columns, fitColumns, overlap, cutCells(chart)).reverse();
  const up = splitLength(chart.rows.length, fitRows, ROW_OVERLAP, []);
  return up.flatMap((rows) =>
    across.map((columns) => ({
      own: { columns, rows },
      shown: {
        columns: widened(columns, overlap, chart.columns),
        rows: widened(rows, ROW_OVERLAP, chart.rows.length),
      },
    })),
  );
}
