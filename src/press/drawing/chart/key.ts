/**
 * The key of a chart: every stitch and every colour that stands in it, once, with its cell drawn as
 * in the chart. The words beside it are the language room's; here is only the order: as a knitter
 * meets them, from the bottom row upwards, cells without a stitch last.
 */
import type { StitchName } from '../../../pattern/notation/ast.ts';
import type { Chart, ChartCell } from '../../../pattern/pattern.ts';
import type { Drawing } from '../drawing.ts';
import { boxPath, fillPath, strokePath } from '../path.ts';
import { cellOf, styleOf, type ChartOptions } from './options.ts';
import { newSymbolSheet, NO_STITCH, swatchOf, talliesOf, type Tallies } from './symbol-sheet.ts';

export interface KeyEntry {
  readonly stitch: StitchName; // or `none`
  /** Colour id, where the chart says one for the cell. */
  readonly colour?: string;
  readonly drawing: Drawing;
}

const MARGIN = 1;

/** One cell with its frame, its ground and its symbol. */
export function drawCell(
  cell: Pick<ChartCell, 'stitch' | 'colour' | 'columns'>,
  options: ChartOptions,
  tallies: Tallies = new Map(),
): Drawing {
  const size = cellOf(options);
  const style = styleOf(options);
  const sheet = newSymbolSheet(options, tallies);
  const symbol = sheet.use({ ...cell, column: 0 });
  const ground = cell.stitch === NO_STITCH ? style.noStitch : swatchOf(cell, options);
  const frame = boxPath(MARGIN, MARGIN, size.widthPoints * cell.columns, size.heightPoints);
  return {
    widthPoints: size.widthPoints * cell.columns + 2 * MARGIN,
    heightPoints: size.heightPoints + 2 * MARGIN,
    symbols: sheet.symbols(),
    shapes: [
      ...(ground ? [fillPath(frame, ground)] : []),
      strokePath(frame, { widthPoints: 0.6, colour: style.ink }),
      ...(symbol ? [{ kind: 'use' as const, symbol, x: MARGIN, y: MARGIN }] : []),
    ],
  };
}

export function chartKey(chart: Chart, options: ChartOptions): readonly KeyEntry[] {
  const seen = new Map<string, ChartCell>();
  for (const row of chart.rows)
    for (const cell of row.cells.toReversed()) {
      const key = `${cell.stitch} ${cell.colour ?? ''}`;
      if (!seen.has(key)) seen.set(key, cell);
    }
  const cells = [...seen.values()];
  const tallies = talliesOf(chart, options);
  return [
    ...cells.filter(({ stitch }) => stitch !== NO_STITCH),
    ...cells.filter(({ stitch }) => stitch === NO_STITCH),
  ].map((cell) => ({
    stitch: cell.stitch,
    ...(cell.colour === undefined ? {} : { colour: cell.colour }),
    drawing: drawCell(cell, options, tallies),
  }));
}
