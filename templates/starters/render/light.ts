/**
 * Light on a painted band: a soft lamp from the upper left, the sky from above, the dark between
 * strands, shadows that strands throw on each other, and the yarn's own structure (plies, fibres,
 * wandering colour). Gives linear light for each pixel of the band.
 */
import { blurred } from './blur.ts';
import { EMPTY, type Band } from './painter.ts';
import { noise1, noise2 } from './noise.ts';
import type { Strand } from './yarn.ts';

/** Towards the lamp. */
const unit = (x: number, y: number, z: number) => {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length] as const;
};
const [LAMP_X, LAMP_Y, LAMP_Z] = unit(-0.52, -0.62, 0.66);
const LAMP = [1.86, 1.76, 1.62] as const;
const SKY = [0.31, 0.32, 0.335] as const;

/** Turns to one twist of the yarn, in radii of yarn. */
const TWIST = 11;
const PLY_ANGLE = Math.atan((2 * Math.PI) / TWIST);
const [PLY_COS, PLY_SIN] = [Math.cos(PLY_ANGLE), Math.sin(PLY_ANGLE)];

/** How open each pixel is to the sky: lower where its surroundings stand higher. */
function openness(band: Band, floor: number, radius: number): Float32Array {
  const { width, height } = band;
  const level = Float32Array.from(band.z, (z) => (z === EMPTY ? floor : Math.max(z, floor)));
  const open = new Float32Array(level.length).fill(1);
  for (const [reach, strength] of [[radius * 0.8, 0.5], [radius * 2.2, 0.45]] as const) {
    const mean = blurred(level, width, height, Math.max(1, Math.round(reach)));
    for (let at = 0; at < open.length; at += 1) {
      const below = ((mean[at] ?? 0) - (level[at] ?? 0)) / radius;
      open[at] = (open[at] ?? 1) * (1 - strength * Math.min(1, Math.max(0, below * 0.8 + 0.12)));
    }
  } // prettier-ignore
  return open;
}

/** How much of the lamp reaches a pixel past what stands between: 0 dark, 1 free. */
function lampReaches(band: Band, at: number, x: number, y: number, radius: number): number {
  const { width, height } = band;
  const stride = radius / 5;
  let free = 1;
  const start = (band.z[at] ?? 0) + radius * 0.12;
  for (let step = 1; step <= 14; step += 1) {
    const away = step * stride * (1 + step * 0.05);
    const px = Math.round(x + LAMP_X * away);
    const py = Math.round(y + LAMP_Y * away);
    if (px < 0 || py < 0 || px >= width || py >= height) break;
    const over = (band.z[py * width + px] ?? 0) - (start + LAMP_Z * away);
    if (over > 0) free = Math.min(free, 1 - Math.min(1, over / (radius * 0.55)));
  }
  return free;
}

interface Surface {
  nx: number;
  ny: number;
  nz: number;
  tone: number;
}

/** Normal and tone with the plies and fibres of the yarn laid over the smooth tube. */
function yarnSurface(band: Band, at: number, strand: Strand): Surface {
  const { plies, relief, heather } = strand.yarn;
  const [tx, ty] = [band.tangentX[at] ?? 1, band.tangentY[at] ?? 0];
  const across = Math.max(-0.999, Math.min(0.999, band.across[at] ?? 0));
  const along = band.along[at] ?? 0;
  const angle = Math.asin(across);
  const turn = plies * (angle / (2 * Math.PI) + along / TWIST);
  const inPly = 2 * (turn - Math.floor(turn)) - 1;
  const ply = Math.floor(turn);
  const fibreAcross = angle * PLY_COS + along * PLY_SIN;
  const fibreAlong = along * PLY_COS - angle * PLY_SIN;
  const fibre = noise2(fibreAlong * 0.9, fibreAcross * 11, strand.seed) * 0.6 +
    noise2(fibreAlong * 2.1, fibreAcross * 23, strand.seed + 3) * 0.4; // prettier-ignore
  const tilt = relief * (0.5 * inPly + 0.34 * fibre);
  // Across the ply, in the picture plane: mostly across the yarn, a little along it.
  const dirX = -ty * PLY_COS + tx * PLY_SIN;
  const dirY = tx * PLY_COS + ty * PLY_SIN;
  let nx = (band.normalX[at] ?? 0) + tilt * dirX;
  let ny = (band.normalY[at] ?? 0) + tilt * dirY;
  const flat = Math.hypot(nx, ny);
  if (flat > 0.985) [nx, ny] = [(nx / flat) * 0.985, (ny / flat) * 0.985];
  const groove = 1 - relief * 0.42 * Math.abs(inPly) ** 3;
  const colour = 1 + heather * (0.5 * noise1(along / 9, strand.seed + 11) + 0.5 * noise1(ply * 3.7 + along / 30, strand.seed + 12)); // prettier-ignore
  return {
    nx,
    ny,
    nz: Math.sqrt(1 - nx * nx - ny * ny),
    tone: groove * colour * (1 + 0.26 * fibre),
  };
}

/** How the cloth as a whole faces the lamp, from the slope of its smoothed surface. */
function clothFacing(band: Band, floor: number, radius: number): (at: number, x: number, y: number) => number {
  const { width, height } = band;
  const reach = Math.round(radius * 4);
  const soft = (plane: Float32Array) => blurred(blurred(plane, width, height, reach), width, height, Math.max(1, Math.round(reach / 2)));
  // Only what is covered counts, so that the edge of the cloth has the slope of the cloth.
  const covered = soft(Float32Array.from(band.z, (z) => (z > floor ? 1 : 0)));
  const levels = soft(Float32Array.from(band.z, (z) => (z > floor ? z - floor : 0)));
  const step = Math.max(1, Math.round(radius * 1.5));
  const at = (x: number, y: number) => {
    const place = Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x));
    return (levels[place] ?? 0) / Math.max(1e-3, covered[place] ?? 0);
  };
  return (_, x, y) => {
    const slopeX = (at(x + step, y) - at(x - step, y)) / (2 * step);
    const slopeY = (at(x, y + step) - at(x, y - step)) / (2 * step);
    const facing = (-slopeX * LAMP_X - slopeY * LAMP_Y + LAMP_Z) / Math.hypot(slopeX, slopeY, 1);
    return Math.max(0, facing) / LAMP_Z;
  };
} // prettier-ignore

export interface LitPixel {
  (at: number, x: number, y: number, into: Float32Array): void;
}

/** A function that lights one pixel of yarn. `radius`: of the yarn, in the band's pixels. */
export function newLamp(
  band: Band,
  strands: readonly Strand[],
  radius: number,
  floor: number,
): LitPixel {
  const open = openness(band, floor, radius);
  const cloth = clothFacing(band, floor, radius);
  return (at, x, y, into) => {
    const strand = strands[band.strand[at] ?? 0];
    if (!strand) return;
    const { nx, ny, nz, tone } = yarnSurface(band, at, strand);
    const facing = nx * LAMP_X + ny * LAMP_Y + nz * LAMP_Z;
    const free = lampReaches(band, at, x, y, radius);
    const whole = 0.3 + 0.7 * Math.min(1.35, cloth(at, x, y));
    const sky = (0.55 + 0.45 * nz) * (open[at] ?? 1) * (0.6 + 0.4 * whole);
    const direct = whole * (Math.max(0, (facing + 0.28) / 1.28) * (0.25 + 0.75 * free) * (0.35 + 0.65 * (open[at] ?? 1)));
    // Loose fibres catch light at the rim of every strand.
    const rim = 0.16 * (1 - nz) ** 2 * (0.3 + 0.7 * free) * (open[at] ?? 1);
    for (let channel = 0; channel < 3; channel += 1) {
      const albedo = Math.max(0, (strand.yarn.colour[channel] ?? 0) * tone);
      into[channel] = albedo * ((LAMP[channel] ?? 0) * direct + (SKY[channel] ?? 0) * sky) + rim * (0.25 + albedo);
    }
  }; // prettier-ignore
}
