/**
 * What a chart drawing is told besides the chart: the size of a cell, the look of each stitch and
 * yarn colour, and how numbers and parts are worded. The drawing room owns no words and no catalogue,
 * so all of these are passed in.
 */
import type { StitchName } from '../../../pattern/notation/ast.ts';
import type { Drawn } from '../symbols/index.ts';
import type { CellSize } from '../symbols/glyph.ts';

export interface ChartColour {
  readonly swatch: string; // #rrggbb
}

export interface ChartOptions {
  /** The catalogue, or a bundle's own stitch. A name without an answer is drawn as a lozenge. */
  stitchOf(name: StitchName): Drawn | undefined;
  /** By colour id, the main colour first: the place in the list decides the mark. */
  readonly colours?: ReadonlyMap<string, ChartColour>;
  readonly cellPoints: number;
  /** Where a cell is not square, as for colourwork in the proportions of the gauge. */
  readonly cellHeightPoints?: number;
  /** Room for one drawing; a larger chart is split over several. Unlimited when left out. */
  readonly maxWidthPoints?: number;
  readonly maxHeightPoints?: number;
  /** Size of the numbers; after the cells where it is not given. */
  readonly numberPoints?: number;
  /** Rows and stitches in the reader's digits. */
  readonly numberText?: (value: number) => string;
  /** A stitch number stands under every fifth stitch unless another step is given. */
  readonly stitchNumberStep?: number;
  /** Heading of a part of a chart that is split, e.g. "Part 1 of 4". */
  readonly partText?: (part: number, parts: number) => string;
  readonly style?: Partial<ChartStyle>;
}

export interface ChartStyle {
  readonly ink: string;
  readonly grid: string;
  /** Cells without a stitch. */
  readonly noStitch: string;
  /** Columns and rows shown again from the neighbouring part. */
  readonly overlap: string;
  /** The box round the repeat. */
  readonly repeat: string;
}

export const CHART_STYLE: ChartStyle = {
  ink: '#1d252b',
  grid: '#8b959c',
  noStitch: '#d5dade',
  overlap: '#f1efe9',
  repeat: '#a4372a',
};

export const styleOf = (options: ChartOptions): ChartStyle => ({
  ...CHART_STYLE,
  ...options.style,
});

export const cellOf = (
  options: Pick<ChartOptions, 'cellPoints' | 'cellHeightPoints'>,
): CellSize => ({
  widthPoints: options.cellPoints,
  heightPoints: options.cellHeightPoints ?? options.cellPoints,
});

/** Size of the numbers beside and below the grid. */
export const numberSizePoints = (options: ChartOptions): number =>
  options.numberPoints ?? Math.min(9, Math.max(5, cellOf(options).heightPoints * 0.68));
