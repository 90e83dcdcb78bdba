/**
 * Which end of a piece is worn up. Pieces are worked from either end; the measurements know, because a
 * hem depth lies at the lower end and an armhole at the upper one. Takes a source and the roles of both
 * ends, says whether the piece was worked from the top.
 */
import type { OutlineSource } from './source.ts';

export interface Ends {
  readonly lower: readonly string[];
  readonly upper: readonly string[];
}

/** `otherwise`: what the widths suggest, where no measurement tells. */
export function isWorkedFromTop(source: OutlineSource, ends: Ends, otherwise: boolean): boolean {
  const lower = meanHeight(source, ends.lower);
  const upper = meanHeight(source, ends.upper);
  if (lower !== undefined && upper !== undefined) return lower > upper;
  const middle = heightOf(source) / 2;
  if (lower !== undefined) return lower > middle;
  if (upper !== undefined) return upper < middle;
  return otherwise;
}

export const heightOf = ({ worked }: OutlineSource): number =>
  Math.max(0, ...worked.panels.flatMap(({ rows }) => rows.map(({ high }) => high)));

function meanHeight(source: OutlineSource, roles: readonly string[]): number | undefined {
  const heights = roles.flatMap((role) => {
    const range = source.range(role);
    if (range) return [(range.low + range.high) / 2];
    const row = source.row(role);
    return row ? [row.high] : [];
  });
  return heights.length === 0
    ? undefined
    : heights.reduce((sum, height) => sum + height, 0) / heights.length;
}
