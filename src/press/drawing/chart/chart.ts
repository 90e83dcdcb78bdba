/**
 * A chart as one drawing, or as several where it is larger than its room. Row 1 is at the bottom; a
 * row's number stands at the side where its working starts (right side of the fabric: at the right;
 * wrong side: at the left; rounds: at the right), stitches are numbered from the right.
 */
import type { Chart, ChartRow } from '../../../pattern/pattern.ts';
import type { Drawing, Shape } from '../drawing.ts';
import { closedPath, fillPath, moveShape, openPath, strokePath, type Point } from '../path.ts';
import { chartGround, placesOf, repeatBox, shownCells } from './grid.ts';
import { cellOf, numberSizePoints, styleOf, type ChartOptions } from './options.ts';
import { splitChart, type Part } from './parts.ts';
import { newSymbolSheet, talliesOf, type SymbolSheet } from './symbol-sheet.ts';

/** Width of a digit over its size: enough for the figures of the text faces. */
const DIGIT_EMS = 0.6;
const NUMBER_GAP = 3;
const EDGE = 2;
const STITCH_NUMBER_STEP = 5;

interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const isOnLeft = (chart: Chart, row: ChartRow): boolean =>
  chart.data.form === 'flat' && row.side === 'WS';

const numberText = (options: ChartOptions, value: number): string =>
  options.numberText?.(value) ?? String(value);

function marginsOf(chart: Chart, options: ChartOptions, isSplit: boolean): Margins {
  const size = numberSizePoints(options);
  const digits = Math.max(...[1, chart.rows.length].map((n) => numberText(options, n).length));
  const gap = numberGap(options, isSplit);
  const side = gap + digits * DIGIT_EMS * size + EDGE;
  const hasLeft = chart.rows.some((row) => isOnLeft(chart, row));
  const hasRight = chart.rows.some((row) => !isOnLeft(chart, row));
  const bare = EDGE + gap - NUMBER_GAP;
  return {
    left: hasLeft ? side : bare,
    right: hasRight ? side : bare,
    top: bare + (isSplit && options.partText ? size * 1.6 : 0),
    bottom: gap + size + EDGE,
  };
}

/** Room between grid and numbers; a split chart has arrow heads there. */
const numberGap = (options: ChartOptions, isSplit: boolean): number =>
  NUMBER_GAP + (isSplit ? headReach(options) : 0);

const headReach = (options: ChartOptions): number => numberSizePoints(options) * 0.75;

function rowNumbers(chart: Chart, part: Part, options: ChartOptions, gap: number): Shape[] {
  const places = placesOf(part, options);
  const size = numberSizePoints(options);
  const { heightPoints } = cellOf(options);
  const every = heightPoints >= size * 0.95 ? 1 : 5;
  return chart.rows
    .slice(part.shown.rows.from, part.shown.rows.to)
    .filter((row) => every === 1 || row.number % every === 0 || row.number === 1)
    .map((row): Shape => {
      const left = isOnLeft(chart, row);
      return {
        kind: 'text',
        x: left ? -gap : places.widthPoints + gap,
        y: places.y(row.number - 1) - heightPoints / 2 + size * 0.36,
        text: numberText(options, row.number),
        sizePoints: size,
        anchor: left ? 'end' : 'start',
        weight: 'regular',
        colour: styleOf(options).ink,
      };
    });
}

function stitchNumbers(chart: Chart, part: Part, options: ChartOptions, gap: number): Shape[] {
  const places = placesOf(part, options);
  const size = numberSizePoints(options);
  const step = options.stitchNumberStep ?? STITCH_NUMBER_STEP;
  const numbers: Shape[] = [];
  for (let column = part.shown.columns.from; column < part.shown.columns.to; column += 1) {
    const stitch = chart.columns - column;
    const nearFifth = step - (stitch % step) < 2 && stitch % step !== 0;
    const isLast = stitch === chart.columns && stitch % step >= 2;
    if (stitch % step !== 0 && (stitch !== 1 || nearFifth) && !isLast) continue;
    numbers.push({
      kind: 'text',
      x: places.x(column + 0.5),
      y: places.heightPoints + gap + size * 0.8,
      text: numberText(options, stitch),
      sizePoints: size,
      anchor: 'middle',
      weight: 'regular',
      colour: styleOf(options).ink,
    });
  }
  return numbers;
}

function symbolUses(chart: Chart, part: Part, options: ChartOptions, sheet: SymbolSheet): Shape[] {
  const places = placesOf(part, options);
  const uses: Shape[] = [];
  for (let row = part.shown.rows.from; row < part.shown.rows.to; row += 1)
    for (const { cell, from, whole } of shownCells(chart, part, row)) {
      const symbol = whole ? sheet.use(cell) : undefined;
      if (symbol) uses.push({ kind: 'use', symbol, x: places.x(from), y: places.y(row + 1) });
    }
  return uses;
}

/** Dashed lines where this part ends and the next begins, with arrow heads outside the grid. */
function overlapMarks(part: Part, options: ChartOptions): Shape[] {
  const places = placesOf(part, options);
  const { ink } = styleOf(options);
  const reach = headReach(options);
  const { own, shown } = part;
  const [right, bottom] = [places.widthPoints, places.heightPoints];
  const shapes: Shape[] = [];
  const mark = (from: Point, to: Point, toward: Point) => {
    const line = strokePath(openPath(from, to), { widthPoints: 0.9, colour: ink, dash: [3, 2] });
    const head = ([x, y]: Point, outX: number, outY: number) =>
      fillPath(
        closedPath(
          [x + outX * reach, y + outY * reach],
          [x + outX * reach * 0.2 , y + outY * reach * 0.2],
          [x + outX * reach * 0.6 + toward[0] * reach * 0.6, y + outY * reach * 0.6 + toward[1] * reach * 0.6],
        ),
        ink,
      ); // prettier-ignore
    const upright = from[0] === to[0];
    shapes.push(line, head(from, upright ? 0 : -1, upright ? -1 : 0));
    if (upright) return;
    shapes.push(head(to, 1, 0));
  };
  if (own.columns.from > shown.columns.from)
    mark([places.x(own.columns.from), 0], [places.x(own.columns.from), bottom], [-1, 0]);
  if (own.columns.to < shown.columns.to)
    mark([places.x(own.columns.to), 0], [places.x(own.columns.to), bottom], [1, 0]);
  if (own.rows.to < shown.rows.to)
    mark([0, places.y(own.rows.to)], [right, places.y(own.rows.to)], [0, -1]);
  if (own.rows.from > shown.rows.from)
    mark([0, places.y(own.rows.from)], [right, places.y(own.rows.from)], [0, 1]);
  return shapes;
}

function heading(margins: Margins, options: ChartOptions, number: number, of: number): Shape[] {
  const size = numberSizePoints(options);
  if (of === 1 || !options.partText) return [];
  const text = options.partText(number, of);
  const { ink: colour } = styleOf(options);
  return [{ kind: 'text', x: margins.left, y: EDGE + size, text, sizePoints: size * 1.1, anchor: 'start', weight: 'bold', colour }]; // prettier-ignore
}

/**
 * The drawings of a chart: one, or its parts from the bottom right upwards where `maxWidthPoints` or
 * `maxHeightPoints` are too small for it whole.
 */
export function drawChart(chart: Chart, options: ChartOptions): readonly Drawing[] {
  const cell = cellOf(options);
  const fitting = (isSplit: boolean) => {
    const { left, right, top, bottom } = marginsOf(chart, options, isSplit);
    return {
      columns: Math.floor(((options.maxWidthPoints ?? Infinity) - left - right) / cell.widthPoints),
      rows: Math.floor(((options.maxHeightPoints ?? Infinity) - top - bottom) / cell.heightPoints),
    };
  };
  const whole = fitting(false);
  const isSplit = whole.columns < chart.columns || whole.rows < chart.rows.length;
  const fits = fitting(isSplit);
  const parts = splitChart(chart, Math.max(1, fits.columns), Math.max(1, fits.rows));
  const margins = marginsOf(chart, options, isSplit);
  const gap = numberGap(options, isSplit);
  const tallies = talliesOf(chart, options);
  return parts.map((part, index) => {
    const sheet = newSymbolSheet(options, tallies);
    const places = placesOf(part, options);
    const shapes = [
      ...chartGround(chart, part, options),
      ...symbolUses(chart, part, options, sheet),
      ...repeatBox(chart, part, options),
      ...overlapMarks(part, options),
      ...rowNumbers(chart, part, options, gap),
      ...stitchNumbers(chart, part, options, gap),
    ];
    return {
      widthPoints: margins.left + places.widthPoints + margins.right,
      heightPoints: margins.top + places.heightPoints + margins.bottom,
      symbols: sheet.symbols(),
      shapes: [
        ...heading(margins, options, index + 1, parts.length),
        ...shapes.map((shape) => moveShape(shape, margins.left, margins.top)),
      ],
    };
  });
}
