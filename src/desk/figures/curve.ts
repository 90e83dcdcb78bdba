/**
 * How one measurement grows over the sizes: a line with a dot for each size, the body it is worn on as a
 * dashed line below, and a ring where the grade falls or jumps. Sizes stand as far apart as they follow
 * each other; nothing is said of the spaces between.
 */
import { figure, shape, words } from './svg.ts';

export interface Curve {
  readonly sizes: readonly string[];
  readonly values: readonly (number | null)[];
  readonly body?: readonly (number | null)[];
  /** Indexes of sizes at which the grade is remarked on. */
  readonly remarked: readonly number[];
}

const WIDTH = 260;
const HEIGHT = 120;
const EDGE = { left: 34, right: 10, top: 10, bottom: 20 };

export function gradeCurve({ sizes, values, body = [], remarked }: Curve, said: string): string {
  const all = [...values, ...body].filter((each) => each !== null);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const span = high - low || 1;
  const across = WIDTH - EDGE.left - EDGE.right;
  const up = HEIGHT - EDGE.top - EDGE.bottom;
  const x = (at: number) => EDGE.left + (sizes.length < 2 ? across / 2 : (at / (sizes.length - 1)) * across); // prettier-ignore
  const y = (value: number) => EDGE.top + up - ((value - low) / span) * up;
  const line = (kind: string, points: readonly (number | null)[]) => {
    const steps = points.flatMap((value, at) =>
      value === null
        ? []
        : [`${at === 0 || points[at - 1] === null ? 'M' : 'L'}${round(x(at))} ${round(y(value))}`],
    );
    return steps.length === 0 ? '' : shape('path', { class: kind, d: steps.join('') });
  };
  const dots = values.flatMap((value, at) =>
    value === null ? [] : [shape('circle', { class: 'dot', cx: x(at), cy: y(value), r: 2.6 })],
  );
  const rings = remarked.flatMap((at) => {
    const value = values[at];
    return typeof value === 'number'
      ? [shape('circle', { class: 'ring', cx: x(at), cy: y(value), r: 6.5 })]
      : [];
  });
  const names = [0, sizes.length - 1].map((at) => words({ class: 'tick', x: x(at), y: HEIGHT - 5, 'text-anchor': at === 0 ? 'start' : 'end' }, sizes[at] ?? '')); // prettier-ignore
  const marks = [low, high].map((value) => words({ class: 'tick', x: EDGE.left - 6, y: y(value) + 4, 'text-anchor': 'end' }, String(round(value)))); // prettier-ignore
  const parts = [line('body', body), line('grade', values), ...dots, ...rings, ...names, ...marks];
  return figure({ width: WIDTH, height: HEIGHT, kind: 'curve' }, parts, said);
}

const round = (value: number): number => Math.round(value * 10) / 10;
