/**
 * Yarn as the painter sees it: a strand is a run of points in the picture with a thickness; its look
 * (colour, plies, fibres) is the yarn's. Lengths are pixels of the finished picture, z towards the eye.
 */

/** Linear light, 0 to 1. */
export type Colour = readonly [red: number, green: number, blue: number];

export interface Yarn {
  readonly colour: Colour;
  readonly radiusPixels: number;
  readonly plies: number;
  /** How strongly plies show, 0 to 1. */
  readonly relief: number;
  /** How much the colour wanders along the strand, 0 to 1. */
  readonly heather: number;
}

export interface Strand {
  /** x, y, z of each point, one after another; neighbours are close together. */
  readonly points: Float32Array;
  readonly yarn: Yarn;
  /** Length of the yarn before this strand, so that plies and colour run on. */
  readonly startPixels: number;
  readonly seed: number;
}

const toLinear = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;

/** Linear light of a colour written `#rrggbb`. */
export function colourOf(text: string): Colour {
  const channel = (start: number) =>
    toLinear(Number.parseInt(text.slice(start, start + 2), 16) / 255);
  return [channel(1), channel(3), channel(5)];
}

/** Points a little apart along a smooth curve through `knots` (Catmull–Rom). */
export function curveThrough(knots: readonly (readonly number[])[], stepPixels: number): number[] {
  const points: number[] = [];
  const knot = (index: number) => knots[Math.min(knots.length - 1, Math.max(0, index))] ?? [];
  for (let index = 0; index + 1 < knots.length; index += 1) {
    const [a, b, c, d] = [knot(index - 1), knot(index), knot(index + 1), knot(index + 2)];
    const span = Math.hypot((c[0] ?? 0) - (b[0] ?? 0), (c[1] ?? 0) - (b[1] ?? 0), (c[2] ?? 0) - (b[2] ?? 0)); // prettier-ignore
    const steps = Math.max(1, Math.ceil(span / stepPixels));
    for (let step = 0; step < steps; step += 1) {
      const t = step / steps;
      for (let axis = 0; axis < 3; axis += 1)
        points.push(catmullRom(a[axis] ?? 0, b[axis] ?? 0, c[axis] ?? 0, d[axis] ?? 0, t));
    }
  }
  const last = knot(knots.length - 1);
  points.push(last[0] ?? 0, last[1] ?? 0, last[2] ?? 0);
  return points;
}

const catmullRom = (a: number, b: number, c: number, d: number, t: number): number =>
  0.5 *
  (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t * t * t);
