/**
 * Curves as steps: necklines, armholes and sleeve caps as stitches taken off row by row, and the length
 * of the edge that results. Takes widths and heights in stitches and rows, gives counts per row; the
 * edge is measured through the gauge so that two edges sewn together can be compared.
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
  return alongCurve(stitches, rows, (height) => Math.sqrt(1 - (1 - height) ** 2));
}

/** Whole stitches for each row of a curve that goes from 0 to 1 as the height does. */
function alongCurve(stitches: number, rows: number, share: (height: number) => number): number[] {
  const taken = (row: number) => Math.round(stitches * share(row / rows));
  return Array.from({ length: rows }, (_, row) => taken(row + 1) - taken(row));
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

/** Rows that take a stitch or more, with the plain rows before them: what a knitter is told. */
export function stepsOfRows(taken: readonly number[]): EdgeStep[] {
  const steps: EdgeStep[] = [];
  let rows = 0;
  for (const stitches of taken) {
    rows += 1;
    if (stitches === 0) continue;
    steps.push({ stitches, rows });
    rows = 0;
  }
  if (rows > 0) steps.push({ stitches: 0, rows });
  return steps;
}

/** Flat shaping falls on the right side: what a wrong-side row would take is taken one row later. */
export function onRightSides(taken: readonly number[]): number[] {
  const moved = taken.map(() => 0);
  taken.forEach((stitches, row) => {
    const at = Math.min(taken.length - 1, row % 2 === 0 ? row : row + 1);
    moved[at] = (moved[at] ?? 0) + stitches;
  });
  return moved;
}

// ---------------------------------------------------------------- necks and armholes

export interface NeckPlan {
  /** Bound off in the middle, at the depth of the neck. */
  readonly centre: number;
  /** At each neck edge, on each row up to the shoulder. */
  readonly edge: readonly number[];
}

/**
 * A round neck: so many stitches wide and rows deep. `flat` is the share that is bound off in the middle;
 * the rest follows a quarter ellipse at each edge. Both edges are alike, so a stitch that is over goes
 * to the middle.
 */
export function planNeck(stitches: number, rows: number, flat = 1 / 3): NeckPlan {
  assert(stitches > 0 && rows > 0 && flat >= 0 && flat <= 1, 'a neck has a width and a depth');
  const wanted = Math.round(stitches * flat);
  const centre = wanted + ((stitches - wanted) % 2);
  return { centre, edge: onRightSides(quarterEllipse((stitches - centre) / 2, rows)) };
}

export interface ArmholePlan {
  readonly boundOff: number;
  readonly edge: readonly number[];
  /** Plain rows above the curve. */
  readonly plainRows: number;
}

/**
 * One armhole: about a third of its stitches are bound off at once, the rest is taken on right-side rows
 * while half the depth is worked (common practice). Undefined where the rows do not suffice.
 */
export function planArmhole(stitches: number, rows: number): ArmholePlan | undefined {
  const boundOff = Math.round(stitches / 3);
  const rest = stitches - boundOff;
  const curve = Math.max(2 * rest, 2 * Math.round(rows / 4));
  if (curve > rows) return undefined;
  const edge = alongCurve(rest, curve / 2, (height) => Math.sqrt(1 - (1 - height) ** 2)).flatMap(
    (each) => [each, 0],
  );
  return { boundOff, edge, plainRows: rows - curve };
}

// ---------------------------------------------------------------- shoulders

/** Shoulder slope by short rows or bind-offs: `stitches` in `steps` groups, the larger ones first. */
export function slopeSteps(stitches: number, steps: number): number[] {
  assert(steps > 0, 'a slope has steps');
  const small = Math.floor(stitches / steps);
  const larger = stitches - small * steps;
  return Array.from({ length: steps }, (_, index) => small + (index < larger ? 1 : 0));
}

export interface ShoulderPlan {
  /** Rows in all: each step takes two. */
  readonly rows: number;
  /** Stitches left unworked more at each turn; the last group is worked across at the end. */
  readonly steps: readonly number[];
  /** Stitches worked before each turn. */
  readonly turns: readonly number[];
  readonly dropInches: number;
}

/** A shoulder of so many stitches that falls by a length, in short rows: two rows for each step. */
export function planShoulder(
  stitches: number,
  dropInches: number,
  gauge: Gauge,
): ShoulderPlan | undefined {
  const steps = Math.round(dropInches / lengthInches(2, gauge)) + 1;
  if (steps < 2 || steps > stitches) return undefined;
  const groups = slopeSteps(stitches, steps);
  let left = stitches;
  const turns = groups.slice(0, -1).map((group) => (left -= group));
  const rows = 2 * (steps - 1);
  return { rows, steps: groups, turns, dropInches: lengthInches(rows, gauge) };
}
