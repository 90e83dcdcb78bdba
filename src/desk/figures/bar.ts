/**
 * How far a number lies from what was wanted, as a bar beside it: to the right and solid for more, to
 * the left and hollow for less, so that it reads without colour. The number itself stands in words.
 */
import { figure, shape } from './svg.ts';

const HALF = 22;
const HEIGHT = 8;

/** `off` and `scale` in one unit; a bar of `scale` fills its half. */
export function deviationBar(off: number, scale: number): string {
  const length = Math.min(HALF, (Math.abs(off) / scale) * HALF);
  const more = off > 0;
  const middle = HALF + 1;
  const bar = shape('rect', {
    class: more ? 'more' : 'less',
    x: more ? middle : middle - length,
    y: 1.5,
    width: length,
    height: HEIGHT - 3,
  });
  const mark = shape('path', { class: 'zero', d: `M${middle} 0V${HEIGHT}` });
  return figure({ width: 2 * HALF + 2, height: HEIGHT, kind: 'bar' }, [
    length > 0.3 ? bar : '',
    mark,
  ]);
}
