/**
 * A picture from strands over a ground: painted band by band at twice the resolution, lit, brought to
 * the finished size and turned into bytes. Also here: the halo of loose fibres and the soft shadow that
 * the piece throws on what it lies on.
 */
import { blurred } from './blur.ts';
import { lattice, newRandom } from './noise.ts';
import { EMPTY, newBand, paintStrand, reachOf } from './painter.ts';
import { newLamp } from './light.ts';
import type { Strand } from './yarn.ts';

const FINE = 2;
const BAND_ROWS = 160;
const MARGIN_ROWS = 72;

/** Linear light of the ground at a pixel; `shade` from 0 (in the light) to 1. */
export type Ground = (x: number, y: number, shade: number, into: Float32Array) => void;

export interface Scene {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly strands: readonly Strand[];
  readonly ground: Ground;
  /** Height of the ground in pixels; strands below it do not show. */
  readonly floor: number;
  /** How far the shadow falls, in pixels, and how soft it is. */
  readonly shadow: { readonly fallX: number; readonly fallY: number; readonly softness: number };
  /** How the film takes the light; lower for pale yarns. */
  readonly exposure: number;
  readonly seed: number;
  /** Loose fibres to a million pixels. */
  readonly fibres: number;
}

/** Shadow on the ground: the covered cells of a coarse grid, moved and blurred. */
function groundShadow({ widthPixels, heightPixels, strands, shadow }: Scene) {
  const cell = 6;
  const [width, height] = [Math.ceil(widthPixels / cell), Math.ceil(heightPixels / cell)];
  const covered = new Float32Array(width * height);
  for (const { points, yarn } of strands) {
    const reach = Math.ceil(yarn.radiusPixels / cell);
    for (let at = 0; at < points.length; at += 9) {
      const x = Math.floor((points[at] ?? 0) / cell);
      const y = Math.floor((points[at + 1] ?? 0) / cell);
      for (let row = y - reach; row <= y + reach; row += 1)
        for (let column = x - reach; column <= x + reach; column += 1)
          if (row >= 0 && column >= 0 && row < height && column < width) covered[row * width + column] = 1; // prettier-ignore
    }
  }
  const blur = (source: Float32Array, reach: number) =>
    [1, 2, 3].reduce((plane) => blurred(plane, width, height, reach), source);
  const wide = blur(covered, Math.max(1, Math.round(shadow.softness / cell)));
  const near = blur(covered, Math.max(1, Math.round(shadow.softness / cell / 4)));
  const sample = (plane: Float32Array, x: number, y: number): number => {
    const [gx, gy] = [Math.max(0, Math.min(width - 1.001, x / cell - 0.5)), Math.max(0, Math.min(height - 1.001, y / cell - 0.5))]; // prettier-ignore
    const [column, row] = [Math.floor(gx), Math.floor(gy)];
    const [sx, sy] = [gx - column, gy - row];
    const at = row * width + column;
    const right = Math.min(column + 1, width - 1) - column;
    const down = (Math.min(row + 1, height - 1) - row) * width;
    const top = (plane[at] ?? 0) * (1 - sx) + (plane[at + right] ?? 0) * sx;
    const foot = (plane[at + down] ?? 0) * (1 - sx) + (plane[at + down + right] ?? 0) * sx;
    return top * (1 - sy) + foot * sy;
  };
  return (x: number, y: number) =>
    Math.min(1, 0.7 * sample(wide, x - shadow.fallX, y - shadow.fallY) + 0.55 * sample(near, x - shadow.fallX * 0.2, y - shadow.fallY * 0.2)); // prettier-ignore
}

/** The picture as linear light, three numbers a pixel. */
export function renderScene(scene: Scene): Float32Array {
  const { widthPixels, heightPixels } = scene;
  const picture = new Float32Array(widthPixels * heightPixels * 3);
  const reaches = scene.strands.map(reachOf);
  const shade = groundShadow(scene);
  for (let top = 0; top < heightPixels; top += BAND_ROWS)
    renderBand(scene, picture, top, Math.min(BAND_ROWS, heightPixels - top), reaches, shade);
  addFibres(scene, picture);
  return picture;
}

function renderBand(
  scene: Scene, picture: Float32Array, top: number, rows: number,
  reaches: readonly (readonly [number, number])[], shade: (x: number, y: number) => number,
): void {
  const { strands, widthPixels } = scene;
  const first = top - MARGIN_ROWS;
  const band = newBand(widthPixels * FINE, (rows + 2 * MARGIN_ROWS) * FINE, first * FINE);
  const present = strands.map((_, index) => index).filter((index) => {
    const [low, high] = reaches[index] ?? [0, 0];
    return high >= first && low <= first + rows + 2 * MARGIN_ROWS;
  });
  let radius = 1;
  for (const index of present) {
    const strand = strands[index];
    if (!strand) continue;
    radius = Math.max(radius, strand.yarn.radiusPixels * FINE);
    paintStrand(band, strand, index, FINE);
  }
  const light = newLamp(band, strands, radius, scene.floor * FINE);
  const colour = new Float32Array(3);
  for (let y = MARGIN_ROWS * FINE; y < (MARGIN_ROWS + rows) * FINE; y += 1)
    for (let x = 0; x < band.width; x += 1) {
      const at = y * band.width + x;
      const level = band.z[at] ?? EMPTY;
      const [px, py] = [x / FINE, (y + band.top) / FINE];
      if (level > scene.floor * FINE) light(at, x, y, colour);
      else scene.ground(px, py, shade(px, py), colour);
      const to = (Math.floor(py) * widthPixels + Math.floor(px)) * 3;
      for (let channel = 0; channel < 3; channel += 1)
        picture[to + channel] = (picture[to + channel] ?? 0) + (colour[channel] ?? 0) / (FINE * FINE);
    }
} // prettier-ignore

/** Loose fibres: short fine curves that start on the yarn, brighter than what they cross. */
function addFibres(scene: Scene, picture: Float32Array): void {
  const { widthPixels: width, heightPixels: height, strands } = scene;
  const random = newRandom(scene.seed);
  const count = Math.round((scene.fibres * width * height) / 1e6);
  const ends: number[] = [];
  for (const { points, yarn } of strands)
    ends.push((ends.at(-1) ?? 0) + points.length * yarn.radiusPixels);
  for (let fibre = 0; fibre < count; fibre += 1) {
    const strand = strands[firstAbove(ends, random() * (ends.at(-1) ?? 0))];
    if (!strand) return;
    const at = Math.floor((random() * strand.points.length) / 3) * 3;
    let [x, y] = [strand.points[at] ?? 0, strand.points[at + 1] ?? 0];
    const radius = strand.yarn.radiusPixels;
    const length = radius * (1 + 3.2 * random());
    let angle = random() * 2 * Math.PI;
    const bend = (random() - 0.5) * (2.4 / length);
    const strength = 0.05 + 0.13 * random();
    x += Math.cos(angle) * radius * 0.6;
    y += Math.sin(angle) * radius * 0.6;
    for (let step = 0; step < length; step += 0.5) {
      angle += bend * 0.5 + (lattice(fibre, step * 2, 5) - 0.5) * 0.12;
      x += Math.cos(angle) * 0.5;
      y += Math.sin(angle) * 0.5;
      dab(picture, width, height, x, y, strength * (1 - step / length) * 0.5, strand);
    }
  }
}

/** The first place in a rising list whose value is above `value`. */
function firstAbove(rising: readonly number[], value: number): number {
  let [low, high] = [0, rising.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] ?? 0) > value) high = middle;
    else low = middle + 1;
  }
  return low;
}

function dab(
  picture: Float32Array, width: number, height: number, x: number, y: number, strength: number, { yarn }: Strand,
): void {
  const [column, row] = [Math.floor(x - 0.5), Math.floor(y - 0.5)];
  if (column < 0 || row < 0 || column + 1 >= width || row + 1 >= height) return;
  const [sx, sy] = [x - 0.5 - column, y - 0.5 - row];
  for (let corner = 0; corner < 4; corner += 1) {
    const share = (corner % 2 ? sx : 1 - sx) * (corner > 1 ? sy : 1 - sy) * strength;
    const to = ((row + (corner > 1 ? 1 : 0)) * width + column + (corner % 2)) * 3;
    for (let channel = 0; channel < 3; channel += 1) {
      const before = picture[to + channel] ?? 0;
      const bright = before * 1.7 + (yarn.colour[channel] ?? 0) * 0.25 + 0.015;
      picture[to + channel] = before + (bright - before) * share * 1.6;
    }
  }
} // prettier-ignore

/** Linear light to bytes: highlights roll off softly, then the sRGB curve, with a breath of grain. */
export function develop(picture: Float32Array, exposure: number, seed: number): Uint8Array {
  const bytes = new Uint8Array(picture.length);
  for (let at = 0; at < picture.length; at += 1) {
    const light = (picture[at] ?? 0) * exposure;
    const rolled = light < 0.7 ? light : 0.7 + 0.3 * (1 - Math.exp(-(light - 0.7) / 0.3));
    const curve = rolled <= 0.0031308 ? rolled * 12.92 : 1.055 * rolled ** (1 / 2.4) - 0.055;
    const grain = (lattice(Math.floor(at / 3), 1, seed) - 0.5) * 0.008;
    bytes[at] = Math.round(255 * Math.min(1, Math.max(0, curve + grain)));
  }
  return bytes;
}
