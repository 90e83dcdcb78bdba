/** Transformation matrices of PDF (ISO 32000-1, 8.3.4): six numbers a b c d e f, points as rows. */
export type Matrix = readonly [number, number, number, number, number, number];

export const UNIT: Matrix = [1, 0, 0, 1, 0, 0];

/** The first, then the second. */
export function multiply(first: Matrix, second: Matrix): Matrix {
  const [a, b, c, d, e, f] = first;
  const [g, h, i, j, k, l] = second;
  return [
    a * g + b * i, a * h + b * j,
    c * g + d * i, c * h + d * j,
    e * g + f * i + k, e * h + f * j + l,
  ]; // prettier-ignore
}

type Box = readonly [number, number, number, number];

/** The upright box around a box that was moved. */
export function transformBox([left, bottom, right, top]: Box, matrix: Matrix): Box {
  const [a, b, c, d, e, f] = matrix;
  const xs = [a * left + c * bottom, a * right + c * bottom, a * left + c * top, a * right + c * top]; // prettier-ignore
  const ys = [b * left + d * bottom, b * right + d * bottom, b * left + d * top, b * right + d * top]; // prettier-ignore
  return [Math.min(...xs) + e, Math.min(...ys) + f, Math.max(...xs) + e, Math.max(...ys) + f];
}
