/**
 * A ball of yarn, wound as hands wind it: bundles of turns side by side, each bundle across the ones
 * before. Also the loose end that lies on the table.
 */
import { newRandom } from './noise.ts';
import { curveThrough, type Strand, type Yarn } from './yarn.ts';

type Vector = readonly [number, number, number];

const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

const unit = ([x, y, z]: Vector): Vector => {
  const length = Math.hypot(x, y, z) || 1;
  return [x / length, y / length, z / length];
};

export interface Ball {
  /** Centre and radius in pixels. */
  readonly centre: Vector;
  readonly radiusPixels: number;
  readonly yarn: Yarn;
  readonly seed: number;
}

const BUNDLES = 64;
const TURNS = 7;

export function woundBall({ centre, radiusPixels, yarn, seed }: Ball): Strand[] {
  const random = newRandom(seed);
  const strands: Strand[] = [];
  for (let bundle = 0; bundle < BUNDLES; bundle += 1) {
    const axis = unit([random() * 2 - 1, random() * 2 - 1, random() * 1.2 - 0.6]);
    const across = unit(cross(axis, [0.31, 0.83, 0.47]));
    const up = cross(axis, across);
    const layer = radiusPixels * (0.84 + 0.16 * ((bundle + 1) / BUNDLES));
    const lean = (random() - 0.5) * 0.5;
    for (let turn = 0; turn < TURNS; turn += 1) {
      const astray = (random() - 0.5) * yarn.radiusPixels * 1.4 + (random() - 0.5) * radiusPixels * 0.03;
      const away = (turn - (TURNS - 1) / 2) * yarn.radiusPixels * 2.1 + astray;
      const around = Math.sqrt(Math.max(0, layer * layer - away * away));
      const start = random() * 6;
      const knots = Array.from({ length: 41 }, (_, index): Vector => {
        const angle = start + (index / 40) * 2 * Math.PI;
        const drift = away + lean * yarn.radiusPixels * 6 * Math.sin(angle);
        const [c, s] = [Math.cos(angle) * around, Math.sin(angle) * around];
        const wave = 1 + 0.006 * Math.sin(angle * 3 + bundle);
        return [
          centre[0] + (across[0] * c + up[0] * s) * wave + axis[0] * drift,
          centre[1] + (across[1] * c + up[1] * s) * wave + axis[1] * drift,
          centre[2] + (across[2] * c + up[2] * s) * wave + axis[2] * drift,
        ];
      });
      const points = Float32Array.from(curveThrough(knots, yarn.radiusPixels / 5));
      strands.push({ points, yarn, startPixels: bundle * 311 + turn * 97, seed: seed + bundle * 31 + turn });
    }
  }
  return strands;
} // prettier-ignore

/** A strand that lies along knots given in pixels. */
export const looseEnd = (knots: readonly Vector[], yarn: Yarn, seed: number): Strand => ({
  points: Float32Array.from(curveThrough(knots, yarn.radiusPixels / 6)),
  yarn,
  startPixels: 0,
  seed,
});
