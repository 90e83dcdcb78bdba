/**
 * Chance that is the same every time: a seeded generator, and smooth noise over a line and a plane.
 * Everything irregular in a rendered picture (tension, fibres, grain of the table) comes from here.
 */

/** Whole numbers scattered over 32 bits; the finaliser of MurmurHash3 (public domain). */
function scatter(value: number): number {
  let bits = value | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}

/** A number from 0 up to 1 for a lattice point. */
export const lattice = (x: number, y: number, seed: number): number =>
  scatter(Math.imul(x, 374761393) + Math.imul(y, 668265263) + Math.imul(seed, 2246822519)) /
  4294967296;

/** Numbers from 0 up to 1, one after another. */
export function newRandom(seed: number): () => number {
  let step = 0;
  return () => lattice(step++, seed, 7919);
}

const smooth = (t: number): number => t * t * (3 - 2 * t);

/** From −1 to 1, smooth, one bump to the unit. */
export function noise1(x: number, seed: number): number {
  const cell = Math.floor(x);
  const share = smooth(x - cell);
  const from = lattice(cell, 0, seed);
  return 2 * (from + (lattice(cell + 1, 0, seed) - from) * share) - 1;
}

export function noise2(x: number, y: number, seed: number): number {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  const [sx, sy] = [smooth(x - column), smooth(y - row)];
  const a = lattice(column, row, seed);
  const b = lattice(column + 1, row, seed);
  const c = lattice(column, row + 1, seed);
  const d = lattice(column + 1, row + 1, seed);
  const top = a + (b - a) * sx;
  return 2 * (top + (c + (d - c) * sx - top) * sy) - 1;
}

/** Noise of several scales laid over each other, each half as strong as the one before. */
export function clouds(x: number, y: number, seed: number, octaves: number): number {
  let [sum, weight, scale] = [0, 0.5, 1];
  for (let octave = 0; octave < octaves; octave += 1) {
    sum += weight * noise2(x * scale, y * scale, seed + octave);
    weight /= 2;
    scale *= 2.03;
  }
  return sum;
}
