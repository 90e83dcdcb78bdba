/**
 * A sleeve cap that fits its armhole: its edge is as long as the edge it is sewn to, with a little to be
 * eased in, and it is worked in the rows there are. Takes the armhole and the upper arm, gives the cap's
 * rows with the stitches each takes off, or the reason why none fits.
 */
import { assert } from '../../base/assert.ts';
import { type EdgeStep, edgeLengthInches, stepsOfRows } from './curves.ts';
import { type Gauge, widthInches } from './gauge.ts';

export interface CapWish {
  /** On the needle below the cap, without seam stitches. */
  readonly upperArm: number;
  /** Bound off at each side, as at the armhole, where the seams meet. */
  readonly boundOff: number;
  /** Edges of front and back armhole above what is bound off, from underarm to shoulder. */
  readonly armholeInches: number;
  /** To be eased in at the top; 0 to 2 in (common practice). */
  readonly fullnessInches: number;
  readonly gauge: Gauge;
  /** Bound off straight at the top, at least and at most. */
  readonly top: { readonly least: number; readonly most: number };
  /** Rows the cap may have. */
  readonly mostRows: number;
}

export interface CapPlan {
  readonly rows: number;
  /** Stitches off at each edge, row by row; on right-side rows only, a few at most. */
  readonly edge: readonly number[];
  readonly steps: readonly EdgeStep[];
  readonly top: number;
  readonly capInches: number;
  /** Cap less armhole. */
  readonly fullnessInches: number;
}

/** Stitches one right-side row may take at an edge; more would show as a step in the seam. */
const MOST_AT_ONCE = 4;

/**
 * Tries every even number of rows and every width of the top and keeps the cap whose edge comes nearest
 * to the armhole and its fullness. The edge follows half a wave of the cosine: steep in the middle, flat
 * at the underarm and at the top (common practice).
 */
export function planCap(wish: CapWish): CapPlan | undefined {
  const { upperArm, boundOff, top, mostRows } = wish;
  assert(upperArm > 2 * boundOff, 'an upper arm is wider than what is bound off');
  const wanted = wish.armholeInches + wish.fullnessInches;
  let best: CapPlan | undefined;
  for (let width = top.least; width <= top.most; width += 1) {
    const each = (upperArm - 2 * boundOff - width) / 2;
    if (!Number.isInteger(each) || each < 1) continue;
    for (let rows = 2 * Math.ceil(each / MOST_AT_ONCE); rows <= mostRows; rows += 2) {
      const plan = capOf(wish, each, rows, width);
      if (Math.max(...plan.edge) > MOST_AT_ONCE) continue;
      const off = Math.abs(plan.capInches - wanted);
      if (!best || off < Math.abs(best.capInches - wanted) - 1e-9) best = plan;
    }
  }
  return best;
}

function capOf(wish: CapWish, each: number, rows: number, top: number): CapPlan {
  const edge = capEdge(each, rows);
  const steps = stepsOfRows(edge);
  const capInches = 2 * edgeLengthInches(steps, wish.gauge) + widthInches(top, wish.gauge);
  return { rows, edge, steps, top, capInches, fullnessInches: capInches - wish.armholeInches };
}

/**
 * Stitches off at one edge on each row: the width that is left falls with the height as the cosine does,
 * quickly at both ends and slowly between. Right-side rows only.
 */
function capEdge(stitches: number, rows: number): number[] {
  const pairs = rows / 2;
  // How much is off at a height: the inverse of a half wave, so that both ends are flat.
  const taken = (pair: number) =>
    Math.round((stitches * Math.acos(1 - (2 * pair) / pairs)) / Math.PI);
  return Array.from({ length: pairs }, (_, pair) => [taken(pair + 1) - taken(pair), 0]).flat();
}

// ---------------------------------------------------------------- comparing

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
  const fits = fullnessInches >= 0 && fullnessInches <= 2;
  return { capInches, armholeInches, fullnessInches, fits };
}
