/**
 * Collects the symbols that one drawing uses, each once however many cells show it. A symbol's name
 * says stitch, colour mark and ink; its shapes are in points for the cell size of the chart.
 */
import type { StitchName } from '../../../pattern/notation/ast.ts';
import type { Chart, ChartCell } from '../../../pattern/pattern.ts';
import type { Shape } from '../drawing.ts';
import { boxPath } from '../path.ts';
import { fill, fitted, inkGlyph, type CellSize, type Glyph } from '../symbols/glyph.ts';
import { symbolOf, type Drawn } from '../symbols/index.ts';
import { colourMark, cornerMark, isDark } from './colour.ts';
import { cellOf, styleOf, type ChartOptions } from './options.ts';

/** Drawn for a name that nobody knows: an open lozenge. */
const UNKNOWN: Drawn = {
  symbol: 'unknown',
  takes: 1,
  makes: 1,
  lean: 'none',
  face: 'knit',
};

const WHITE = '#ffffff';

/** A cell that stands for no stitch at all. */
export const NO_STITCH = 'none';

export interface SymbolSheet {
  /** The name of the cell's symbol, or undefined where the cell stays empty. */
  use(cell: ChartCell): string | undefined;
  symbols(): Readonly<Record<string, readonly Shape[]>>;
}

/**
 * Stitches of one chart that share a drawing (a knit stitch, and one knitted with its wrap) are told
 * apart by small squares in the upper corner: by stitch, how many it wears.
 */
export type Tallies = ReadonlyMap<StitchName, number>;

export function talliesOf(chart: Chart, options: ChartOptions): Tallies {
  const tallies = new Map<StitchName, number>();
  const wearers = new Map<string, number>();
  for (const { cells } of chart.rows)
    for (const { stitch } of cells) {
      if (stitch === NO_STITCH || tallies.has(stitch)) continue;
      const look = JSON.stringify(symbolOf(options.stitchOf(stitch) ?? UNKNOWN));
      const worn = wearers.get(look) ?? 0;
      tallies.set(stitch, worn);
      wearers.set(look, worn + 1);
    }
  return tallies;
}

const tallyMarks = (count: number): Glyph =>
  Array.from({ length: Math.min(count, 5) }, (_, index) =>
    fill(...boxPath(0.07 + index * 0.17, 0.07, 0.11, 0.11)),
  );

/** Place of a colour in the list; a colour that is not listed counts as the main one. */
export const colourPlace = (cell: Pick<ChartCell, 'colour'>, options: ChartOptions): number =>
  cell.colour === undefined
    ? 0
    : Math.max(0, [...(options.colours?.keys() ?? [])].indexOf(cell.colour));

export function newSymbolSheet(options: ChartOptions, tallies: Tallies): SymbolSheet {
  const cellSize: CellSize = cellOf(options);
  const shapes = new Map<string, readonly Shape[]>();
  const names = new Map<string, string | undefined>();

  const glyphOf = (cell: ChartCell, place: number): Glyph => {
    const { glyph, columns } = symbolOf(options.stitchOf(cell.stitch) ?? UNKNOWN);
    const mark = glyph.length === 0 ? colourMark(place) : cornerMark(place);
    const set = fitted(glyph.length === 0 ? mark : glyph, columns, cell.columns);
    const corner = glyph.length === 0 ? [] : mark;
    return [...set, ...corner, ...tallyMarks(tallies.get(cell.stitch) ?? 0)];
  };

  const add = (cell: ChartCell): string | undefined => {
    const swatch = swatchOf(cell, options);
    const dark = swatch !== undefined && isDark(swatch);
    const place = colourPlace(cell, options);
    const glyph = glyphOf(cell, place);
    if (glyph.length === 0) return undefined;
    const parts = [
      cell.stitch,
      ...(place > 0 ? [`colour ${place}`] : []),
      ...(dark ? ['dark'] : []),
    ];
    const name = parts.join(', ');
    shapes.set(name, inkGlyph(glyph, cellSize, dark ? WHITE : styleOf(options).ink));
    return name;
  };

  return {
    use(cell) {
      if (cell.stitch === NO_STITCH) return undefined;
      const key = `${cell.columns} ${cell.stitch} ${cell.colour ?? ''}`;
      if (!names.has(key)) names.set(key, add(cell));
      return names.get(key);
    },
    symbols: () => Object.fromEntries([...shapes].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

/** The colour of the yarn a cell is worked in, where the chart says one. */
export const swatchOf = (
  cell: Pick<ChartCell, 'colour'>,
  options: ChartOptions,
): string | undefined =>
  cell.colour === undefined ? undefined : options.colours?.get(cell.colour)?.swatch;
