/**
 * The ground of one part of a chart: filled cells, thin lines between cells (none inside a cable), a
 * thick line every ten stitches from the right and every ten rows from the bottom, the frame and the
 * box round the repeat. All in points from the top left corner of the part's grid.
 */
import type { Chart, ChartCell } from '../../../pattern/pattern.ts';
import type { PathStep, Shape } from '../drawing.ts';
import { boxPath, fillPath, openPath, strokePath } from '../path.ts';
import { cellOf, styleOf, type ChartOptions, type ChartStyle } from './options.ts';
import { NO_STITCH, swatchOf } from './symbol-sheet.ts';
import type { Part, Range } from './parts.ts';

const THIN = 0.35;
const TEN = 0.95;
const FRAME = 1.1;
const REPEAT = 1.9;
const TEN_STEP = 10;

const inside = (range: Range, from: number, to = from + 1): boolean =>
  from >= range.from && to <= range.to;

/** From chart columns and rows to points in the part. */
export function placesOf(part: Part, options: ChartOptions) {
  const { widthPoints, heightPoints } = cellOf(options);
  const { columns, rows } = part.shown;
  return {
    x: (column: number) => (column - columns.from) * widthPoints,
    /** The line below the row with this index: `rows.to` is the top of the part. */
    y: (row: number) => (rows.to - row) * heightPoints,
    widthPoints: (columns.to - columns.from) * widthPoints,
    heightPoints: (rows.to - rows.from) * heightPoints,
  };
}

/** Cells of a row that show in the part, cut to what shows. */
export function shownCells(chart: Chart, part: Part, rowIndex: number) {
  const { columns } = part.shown;
  return (chart.rows[rowIndex]?.cells ?? [])
    .filter((cell) => cell.column < columns.to && cell.column + cell.columns > columns.from)
    .map((cell) => ({
      cell,
      from: Math.max(cell.column, columns.from),
      to: Math.min(cell.column + cell.columns, columns.to),
      whole: inside(columns, cell.column, cell.column + cell.columns),
    }));
}

function groundColour(
  cell: ChartCell,
  isWholeOwn: boolean,
  style: ChartStyle,
  options: ChartOptions,
): string | undefined {
  if (cell.stitch === NO_STITCH) return style.noStitch;
  const swatch = swatchOf(cell, options);
  if (swatch) return swatch;
  return isWholeOwn ? undefined : style.overlap;
}

/** One path of boxes for each colour; equal neighbours in a row become one box. */
function fills(chart: Chart, part: Part, options: ChartOptions): Shape[] {
  const places = placesOf(part, options);
  const { heightPoints } = cellOf(options);
  const style = styleOf(options);
  const boxes = new Map<string, PathStep[]>();
  const add = (colour: string, from: number, to: number, row: number) => {
    const steps = boxes.get(colour) ?? [];
    steps.push(...boxPath(places.x(from), places.y(row + 1), places.x(to) - places.x(from), heightPoints)); // prettier-ignore
    boxes.set(colour, steps);
  };
  for (let row = part.shown.rows.from; row < part.shown.rows.to; row += 1) {
    let run: { colour: string; from: number; to: number } | undefined;
    for (const { cell, from, to, whole } of shownCells(chart, part, row)) {
      const isOwn = inside(part.own.rows, row) && inside(part.own.columns, from);
      const colour = groundColour(cell, isOwn && whole, style, options);
      if (run && run.colour === colour && run.to === from) run.to = to;
      else {
        if (run) add(run.colour, run.from, run.to, row);
        run = colour === undefined ? undefined : { colour, from, to };
      }
    }
    if (run) add(run.colour, run.from, run.to, row);
  }
  return [...boxes].map(([colour, steps]) => fillPath(steps, colour));
}

/** Upright lines at the edges of cells, joined over rows that share them. */
function uprights(chart: Chart, part: Part, options: ChartOptions, atTen: boolean): PathStep[] {
  const places = placesOf(part, options);
  const { columns, rows } = part.shown;
  const edges = Array.from({ length: rows.to - rows.from }, (_, index) => {
    const cells = shownCells(chart, part, rows.from + index);
    return new Set(cells.map(({ from }) => from));
  });
  const steps: PathStep[] = [];
  for (let column = columns.from + 1; column < columns.to; column += 1) {
    const isTen = (chart.columns - column) % TEN_STEP === 0;
    if (isTen !== atTen) continue;
    let start: number | undefined;
    for (let row = rows.from; row <= rows.to; row += 1) {
      const isEdge = row < rows.to && edges[row - rows.from]?.has(column) === true;
      if (isEdge) start ??= row;
      else if (start !== undefined) {
        steps.push(...openPath([places.x(column), places.y(start)], [places.x(column), places.y(row)])); // prettier-ignore
        start = undefined;
      }
    }
  }
  return steps;
}

function levels(part: Part, options: ChartOptions, atTen: boolean): PathStep[] {
  const places = placesOf(part, options);
  const steps: PathStep[] = [];
  for (let row = part.shown.rows.from + 1; row < part.shown.rows.to; row += 1)
    if ((row % TEN_STEP === 0) === atTen)
      steps.push(...openPath([0, places.y(row)], [places.widthPoints, places.y(row)]));
  return steps;
}

/** Diagonals over the visible stretch of a cell that the edge of the part cuts off. */
function cutCellLines(chart: Chart, part: Part, options: ChartOptions): PathStep[] {
  const { x, y } = placesOf(part, options);
  const steps: PathStep[] = [];
  for (let row = part.shown.rows.from; row < part.shown.rows.to; row += 1)
    for (const { from, to, whole } of shownCells(chart, part, row)) {
      if (whole) continue;
      for (let column = from; column < to; column += 0.5)
        steps.push(...openPath([x(column), y(row)], [x(column + 0.5), y(row + 1)]));
    }
  return steps;
}

/** The ground below the symbols. */
export function chartGround(chart: Chart, part: Part, options: ChartOptions): Shape[] {
  const { grid, ink } = styleOf(options);
  const places = placesOf(part, options);
  const lines = (atTen: boolean) => [
    ...uprights(chart, part, options, atTen),
    ...levels(part, options, atTen),
  ];
  const frame = boxPath(0, 0, places.widthPoints, places.heightPoints);
  const drawn: readonly (readonly [PathStep[], number, string])[] = [
    [cutCellLines(chart, part, options), THIN, grid],
    [lines(false), THIN, grid],
    [lines(true), TEN, ink],
    [frame, FRAME, ink],
  ];
  return [
    ...fills(chart, part, options),
    ...drawn
      .filter(([steps]) => steps.length > 0)
      .map(([steps, widthPoints, colour]) => strokePath(steps, { widthPoints, colour })),
  ];
}

/** The repeat in columns from the left and rows from the bottom, cut to the chart. */
export function repeatRange(chart: Chart): Part['own'] | undefined {
  const { repeat } = chart.data;
  if (!repeat) return undefined;
  const clamp = (value: number, most: number) => Math.min(most, Math.max(0, value));
  return {
    columns: {
      from: clamp(chart.columns - repeat.toStitch, chart.columns),
      to: clamp(chart.columns - repeat.fromStitch + 1, chart.columns),
    },
    rows: {
      from: clamp((repeat.fromRow ?? 1) - 1, chart.rows.length),
      to: clamp(repeat.toRow ?? chart.rows.length, chart.rows.length),
    },
  };
}

/** The sides of the repeat's box that show in the part, above the symbols. */
export function repeatBox(chart: Chart, part: Part, options: ChartOptions): Shape[] {
  const repeat = repeatRange(chart);
  if (!repeat) return [];
  const { columns, rows } = part.shown;
  const [left, right] = [Math.max(repeat.columns.from, columns.from), Math.min(repeat.columns.to, columns.to)]; // prettier-ignore
  const [low, high] = [Math.max(repeat.rows.from, rows.from), Math.min(repeat.rows.to, rows.to)];
  if (left >= right || low >= high) return [];
  const { x, y } = placesOf(part, options);
  const side = { widthPoints: REPEAT, colour: styleOf(options).repeat, cap: 'round' as const, join: 'round' as const }; // prettier-ignore
  if (
    left === repeat.columns.from &&
    right === repeat.columns.to &&
    low === repeat.rows.from &&
    high === repeat.rows.to
  )
    // prettier-ignore
    return [strokePath(boxPath(x(left), y(high), x(right) - x(left), y(low) - y(high)), side)];
  const steps: PathStep[] = [];
  if (left === repeat.columns.from) steps.push(...openPath([x(left), y(low)], [x(left), y(high)]));
  if (right === repeat.columns.to) steps.push(...openPath([x(right), y(low)], [x(right), y(high)]));
  if (low === repeat.rows.from) steps.push(...openPath([x(left), y(low)], [x(right), y(low)]));
  if (high === repeat.rows.to) steps.push(...openPath([x(left), y(high)], [x(right), y(high)]));
  return steps.length > 0 ? [strokePath(steps, side)] : [];
}
