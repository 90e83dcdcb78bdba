/**
 * Curves as steps: necklines, armholes and sleeve caps as stitches taken off row by row, and the
 * length of the edge that results. Takes widths and heights in stitches and rows, gives counts per
 * row; the edge is measured through the gauge so that two edges sewn together can be compared.
 */
import { assert } from '../../base/assert.ts';
import { type Gauge, lengthInches, widthInches } from './gauge.ts';

/**
 * Stitches to take off at one edge on each of `rows` rows so that the edge follows a quarter ellipse:
 * many at first, then fewer, none at the top. The sum is `stitches`. Geometry; rounding is to the
 * nearest whole stitch of the running total, so that no error piles up.
 */
export function quarterEllipse(stitches: number, rows: number): number[] {
  assert(rows > 0 && stitches >= 0, 'a curve has rows');
  const taken = (row: number) => {
    const height = row / rows;
    return Math.round(stitches * Math.sqrt(1 - (1 - height) ** 2));
  };
  return Array.from({ length: rows }, (_, row) => taken(row + 1) - taken(row));
}

/** Shoulder slope by short rows or bind-offs: `stitches` in `steps` groups, the larger ones first. */
export function slopeSteps(stitches: number, steps: number): number[] {
  assert(steps > 0, 'a slope has steps');
  const small = Math.floor(stitches / steps);
  const larger = stitches - small * steps;
  return Array.from({ length: steps }, (_, index) => small + (index < larger ? 1 : 0));
}

/** One row of an edge: how far it moves sideways, in stitches, while the work grows by `rows`. */
export interface EdgeStep {
  readonly stitches: number;
  readonly rows: number;
}

/** Length in inches along a stepped edge: each step is the diagonal of its width and height. */
export function edgeLengthInches(steps: readonly EdgeStep[], gauge: Gauge): number {
  return steps.reduce(
    (sum, step) =>
      sum + Math.hypot(widthInches(step.stitches, gauge), lengthInches(step.rows, gauge)),
    0,
  );
}

export interface CapCheck {
  readonly capInches: number;
  readonly armholeInches: number;
  /** Cap minus armhole, both sides: 0 to 2 in is eased in (common practice). */
  readonly fullnessInches: number;
  readonly fits: boolean;
}

/** The whole cap edge against the whole armhole edge, above the bind-offs that match. */
export function compareCap(
  halfCap: readonly EdgeStep[],
  capTopStitches: number,
  armholes: readonly (readonly EdgeStep[])[],
  gauge: Gauge,
): CapCheck {
  const capInches = 2 * edgeLengthInches(halfCap, gauge) + widthInches(capTopStitches, gauge);
  const armholeInches = armholes.reduce((sum, edge) => sum + edgeLengthInches(edge, gauge), 0);
  const fullnessInches = capInches - armholeInches;
  return {
    capInches,
    armholeInches,
    fullnessInches,
    fits: fullnessInches >= 0 && fullnessInches <= 2,
  };
}
