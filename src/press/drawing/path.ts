/**
 * Small builders of paths: lines, polygons, circles and boxes as steps of `drawing.ts`. They take
 * plain coordinates and know neither stitches nor garments, so that charts and schematics are written
 * as geometry and every shape is built the same way.
 */
import type { PathStep, Shape, Stroke } from './drawing.ts';

export type Point = readonly [x: number, y: number];

/** Handle length of a cubic that follows a quarter circle: 4/3 · (√2 − 1). */
const QUARTER = 0.5522847498;

export function openPath(...points: readonly Point[]): PathStep[] {
  return points.map(([x, y], index) => [index === 0 ? 'M' : 'L', x, y] as const);
}

export function closedPath(...points: readonly Point[]): PathStep[] {
  return [...openPath(...points), ['Z']];
}

export function boxPath(x: number, y: number, width: number, height: number): PathStep[] {
  return closedPath([x, y], [x + width, y], [x + width, y + height], [x, y + height]);
}

/** An ellipse as four cubics, clockwise from the top. */
export function ellipsePath(x: number, y: number, radiusX: number, radiusY = radiusX): PathStep[] {
  const [handleX, handleY] = [radiusX * QUARTER, radiusY * QUARTER];
  const [left, right, top, bottom] = [x - radiusX, x + radiusX, y - radiusY, y + radiusY];
  return [
    ['M', x, top],
    ['C', x + handleX, top, right, y - handleY, right, y],
    ['C', right, y + handleY, x + handleX, bottom, x, bottom],
    ['C', x - handleX, bottom, left, y + handleY, left, y],
    ['C', left, y - handleY, x - handleX, top, x, top],
    ['Z'],
  ];
}

/** Every coordinate of a path through `place`. */
export function movePath(steps: readonly PathStep[], place: (point: Point) => Point): PathStep[] {
  return steps.map((step): PathStep => {
    switch (step[0]) {
      case 'Z':
        return step;
      case 'C': {
        const [first, second, end] = [
          place([step[1], step[2]]),
          place([step[3], step[4]]),
          place([step[5], step[6]]),
        ];
        return ['C', ...first, ...second, ...end];
      }
      default:
        return [step[0], ...place([step[1], step[2]])];
    }
  });
}

export const strokePath = (steps: readonly PathStep[], stroke: Stroke): Shape => ({
  kind: 'path',
  steps,
  stroke,
});

export const fillPath = (steps: readonly PathStep[], fill: string): Shape => ({
  kind: 'path',
  steps,
  fill,
});

/** A shape moved by a distance. */
export function moveShape(shape: Shape, dx: number, dy: number): Shape {
  if (shape.kind !== 'path') return { ...shape, x: shape.x + dx, y: shape.y + dy };
  return { ...shape, steps: movePath(shape.steps, ([x, y]) => [x + dx, y + dy]) };
}
