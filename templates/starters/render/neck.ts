/** A neckband of ribbing round an oval neck, and buttons: what lies on top of a garment. */
import { knitStrands, liningStrands, type Drape } from './fabric.ts';
import { panelFabric, rib } from './grown.ts';
import type { Put } from './laid.ts';
import { colourOf, curveThrough, type Strand, type Yarn } from './yarn.ts';

export interface Neck {
  /** Half the width of the neck in inches, how far it dips in front, and how far it rises behind. */
  readonly halfWidth: number;
  readonly front: number;
  readonly back: number;
  readonly band: number;
  readonly stitches: number;
  readonly rows: number;
  readonly lift: number;
}

/** Every round an oval inside the one before. The front half lies on the garment, the back half behind. */
export function neckbandStrands(neck: Neck, put: Put, yarn: Yarn, seed: number): Strand[] {
  const { halfWidth, front, back, band, stitches, rows, lift } = neck;
  const drape: Drape = (x, row, z) => {
    const angle = (x / stitches) * 2 * Math.PI;
    const [across, toward] = [Math.sin(angle), Math.cos(angle)];
    const share = Math.min(1, row / rows) * (1 - 0.25 * Math.max(0, -toward));
    const wide = halfWidth - band * share * 0.92;
    const deep = toward > 0 ? front - band * share : back + (band * 0.55 - band * share * 0.2);
    const height = lift + 0.22 * Math.sin(Math.min(1, share) * Math.PI * 0.5) + Math.min(0, toward) * 0.5;
    return put(wide * across, deep * toward, height + z * (halfWidth * 2 * Math.PI / stitches / 1.3) * (toward > -0.1 ? 1 : -1));
  }; // prettier-ignore
  const fabric = panelFabric({
    rows,
    left: () => -stitches / 2,
    right: () => stitches / 2,
    kind: (column) => rib.kind(column),
    depth: (column) => rib.depth(column),
  });
  const options = { drape, yarnAt: () => yarn, seed, unevenness: 0.8 };
  return [
    ...liningStrands(() => [-stitches / 4, stitches / 4], rows - 0.5, 1, options),
    ...knitStrands(fabric, options),
  ];
}

/** A round button with a rim and four holes, of wood or horn. */
export function buttonStrands(
  put: Put,
  at: readonly [number, number, number],
  radius: number,
  colour: string,
  pixelsPerInch: number,
): Strand[] {
  const wood = (size: number): Yarn => ({ colour: colourOf(colour), radiusPixels: size * pixelsPerInch, plies: 1, relief: 0, heather: 0.25 }); // prettier-ignore
  const ring = (distance: number, height: number, thick: number): Strand => {
    const knots = Array.from({ length: 25 }, (_, index) => {
      const angle = (index / 24) * 2 * Math.PI;
      return put(at[0] + Math.cos(angle) * distance, at[1] + Math.sin(angle) * distance, at[2] + height); // prettier-ignore
    });
    const yarn = wood(thick);
    return {
      points: Float32Array.from(curveThrough(knots, Math.max(0.4, yarn.radiusPixels / 5))),
      yarn,
      startPixels: 0,
      seed: 3,
    };
  };
  const thick = radius * 0.24;
  return [
    ring(radius - thick, 0.06, thick),
    ...[0.62, 0.44, 0.27, 0.1].map((share) => ring(radius * share, 0.015, radius * 0.15)),
  ];
}
