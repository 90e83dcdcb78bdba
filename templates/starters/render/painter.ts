/**
 * Paints strands into a band of the picture as tubes with depth: for every pixel the nearest yarn, its
 * height, the way its surface faces and where on the yarn it lies. Light comes later (`light.ts`).
 * A band at a time keeps the memory small.
 */
import type { Strand } from './yarn.ts';

export const EMPTY = -1e9;

/** What is known of each pixel of a band; sizes are those of the band, margins included. */
export interface Band {
  readonly width: number;
  readonly height: number;
  /** Picture row (finer pixels) of the band's first row. */
  readonly top: number;
  readonly z: Float32Array;
  readonly normalX: Float32Array;
  readonly normalY: Float32Array;
  /** Along the yarn in radii. */
  readonly along: Float32Array;
  /** Across the yarn, −1 to 1. */
  readonly across: Float32Array;
  readonly tangentX: Float32Array;
  readonly tangentY: Float32Array;
  /** Index of the strand. */
  readonly strand: Int32Array;
}

export function newBand(width: number, height: number, top: number): Band {
  const plane = () => new Float32Array(width * height);
  const z = plane().fill(EMPTY);
  return { width, height, top, z, normalX: plane(), normalY: plane(), along: plane(), across: plane(), tangentX: plane(), tangentY: plane(), strand: new Int32Array(width * height).fill(-1) }; // prettier-ignore
}

/** The rows of the picture that a strand touches, to skip it in other bands. */
export function reachOf({ points, yarn }: Strand): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let index = 1; index < points.length; index += 3) {
    const y = points[index] ?? 0;
    if (y < low) low = y;
    if (y > high) high = y;
  }
  return [low - yarn.radiusPixels, high + yarn.radiusPixels];
}

/** Lays one strand into the band. `scale`: finer pixels to one of the finished picture. */
export function paintStrand(band: Band, strand: Strand, index: number, scale: number): void {
  const { points, yarn } = strand;
  const radius = yarn.radiusPixels * scale;
  let length = strand.startPixels * scale;
  for (let at = 0; at + 5 < points.length; at += 3) {
    const x = (points[at] ?? 0) * scale;
    const y = (points[at + 1] ?? 0) * scale - band.top;
    const z = (points[at + 2] ?? 0) * scale;
    const dx = (points[at + 3] ?? 0) * scale - x;
    const dy = (points[at + 4] ?? 0) * scale - band.top - y;
    const dz = (points[at + 5] ?? 0) * scale - z;
    const step = Math.hypot(dx, dy, dz);
    const flat = Math.hypot(dx, dy) || 1;
    if (y > -radius && y < band.height + radius)
      stamp(band, index, x, y, z, radius, dx / flat, dy / flat, length / radius);
    length += step;
  }
}

/** A ball of the yarn's radius: balls close together make the tube. */
function stamp(
  band: Band, strand: number, x: number, y: number, z: number, radius: number,
  tangentX: number, tangentY: number, along: number,
): void {
  const { width, height } = band;
  const [left, right] = [Math.max(0, Math.ceil(x - radius)), Math.min(width - 1, Math.floor(x + radius))];
  const [top, foot] = [Math.max(0, Math.ceil(y - radius)), Math.min(height - 1, Math.floor(y + radius))];
  const square = radius * radius;
  for (let row = top; row <= foot; row += 1) {
    const dy = row - y;
    for (let column = left; column <= right; column += 1) {
      const dx = column - x;
      const rest = square - dx * dx - dy * dy;
      if (rest <= 0) continue;
      const level = z + Math.sqrt(rest);
      const at = row * width + column;
      if (level <= (band.z[at] ?? 0)) continue;
      band.z[at] = level;
      band.normalX[at] = dx / radius;
      band.normalY[at] = dy / radius;
      band.across[at] = (dy * tangentX - dx * tangentY) / radius;
      band.along[at] = along + (dx * tangentX + dy * tangentY) / radius;
      band.tangentX[at] = tangentX;
      band.tangentY[at] = tangentY;
      band.strand[at] = strand;
    }
  }
} // prettier-ignore
