/**
 * How much fabric a pattern takes: the area of every worked row, by gauge and by the colour it is
 * worked in, for all pieces and copies of a size. Short rows count for what they work. Seams, joins and
 * tails are not fabric; an allowance covers them.
 */
import type { CheckedPattern } from '../pattern.ts';
import { panelsOf } from './panels.ts';
import { workedInOf } from './worked-in.ts';

export interface FabricArea {
  readonly gauge: string;
  /** Colour of the yarn in use; undefined where the bundle has none. */
  readonly colour: string | undefined;
  readonly squareInches: number;
}

/** By gauge and colour, in the order in which they are first worked. */
export function fabricAreas(
  { pattern, pieces }: CheckedPattern,
  size: number,
): readonly FabricArea[] {
  const { data } = pattern.bundle;
  const areas = new Map<string, FabricArea>();
  for (const trace of pieces) {
    const workedIn = workedInOf(data, trace.piece);
    const { panels } = panelsOf(trace, workedIn, size);
    const copies = trace.piece.data.make;
    for (const row of panels.flatMap(({ rows }) => rows)) {
      const colour = workedIn[row.by]?.colour;
      const key = `${row.gauge} ${colour ?? ''}`;
      const before = areas.get(key)?.squareInches ?? 0;
      const height = row.short ? 1 / row.rowsPerInch : row.high - row.low;
      const width = row.short
        ? row.short.right - row.short.left
        : row.stitches / row.stitchesPerInch;
      const squareInches = before + width * height * copies;
      areas.set(key, { gauge: row.gauge, colour, squareInches });
    }
  }
  return [...areas.values()];
}
