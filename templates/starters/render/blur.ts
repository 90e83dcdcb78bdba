/**
 * Means over squares, from running sums along rows and then columns: the cost does not grow with the
 * reach. Used for soft shadows, for the dark between strands and for the slope of the cloth.
 */

/** One line: `step` from value to value, the ends carried on. */
function blurLine(from: Float32Array, to: Float32Array, start: number, length: number, step: number, reach: number): void {
  const at = (place: number) => from[start + Math.min(length - 1, Math.max(0, place)) * step] ?? 0;
  let sum = 0;
  for (let place = -reach; place <= reach; place += 1) sum += at(place);
  for (let place = 0; place < length; place += 1) {
    to[start + place * step] = sum / (2 * reach + 1);
    sum += at(place + reach + 1) - at(place - reach);
  }
} // prettier-ignore

/** Each value becomes the mean of those up to `reach` away across and down. */
export function blurred(
  source: Float32Array,
  width: number,
  height: number,
  reach: number,
): Float32Array {
  const half = new Float32Array(source.length);
  const whole = new Float32Array(source.length);
  for (let row = 0; row < height; row += 1) blurLine(source, half, row * width, width, 1, reach);
  for (let column = 0; column < width; column += 1)
    blurLine(half, whole, column, height, width, reach);
  return whole;
}
