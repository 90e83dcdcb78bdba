/**
 * The box around the shapes of a symbol, which a form must state and outside of which nothing shows.
 * Curves count with their handles and strokes with a generous edge: too large a box costs nothing.
 */
import { assertNever } from '../../base/assert.ts';
import type { Drawing, Shape } from '../drawing/drawing.ts';
import type { Fonts } from '../fonts/face.ts';
import { placeText } from './drawing-text.ts';

/** Left, top, right, bottom. */
export type Bounds = readonly [number, number, number, number];

const EMPTY: Bounds = [Infinity, Infinity, -Infinity, -Infinity];
/** A mitred corner reaches beyond half the line. */
const MITRE = 2;

export function joinBounds(a: Bounds, b: Bounds): Bounds {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

/** Rounded outwards to whole points; empty shapes have a box of no size. */
export function boundsOf(
  shapes: readonly Shape[],
  symbols: Drawing['symbols'],
  language: string,
  fonts: Fonts,
): Bounds {
  const boundsOfShape = (shape: Shape): Bounds => {
    switch (shape.kind) {
      case 'path':
        return pathBounds(shape);
      case 'use': {
        const [left, top, right, bottom] = join(symbols[shape.symbol] ?? []);
        return [left + shape.x, top + shape.y, right + shape.x, bottom + shape.y];
      }
      case 'text':
        return textBounds(shape, language, fonts);
      default:
        return assertNever(shape);
    }
  };
  const join = (list: readonly Shape[]): Bounds =>
    list.map(boundsOfShape).reduce(joinBounds, EMPTY);
  const [left, top, right, bottom] = join(shapes);
  if (left > right) return [0, 0, 0, 0];
  return [Math.floor(left), Math.floor(top), Math.ceil(right), Math.ceil(bottom)];
}

function pathBounds({ steps, stroke }: Extract<Shape, { kind: 'path' }>): Bounds {
  const edge = (stroke?.widthPoints ?? 0) * MITRE;
  let bounds = EMPTY;
  for (const [, ...values] of steps) {
    for (let at = 0; at + 1 < values.length; at += 2) {
      const [x = 0, y = 0] = [values[at], values[at + 1]];
      bounds = joinBounds(bounds, [x - edge, y - edge, x + edge, y + edge]);
    }
  }
  return bounds;
}

function textBounds(
  shape: Extract<Shape, { kind: 'text' }>,
  language: string,
  fonts: Fonts,
): Bounds {
  const { y, sizePoints } = shape;
  return placeText(shape, language, fonts)
    .map(({ run, x }): Bounds => [
      x - sizePoints / 2,
      y - sizePoints * 1.5,
      x + ((run.width + 500) * sizePoints) / 1000,
      y + sizePoints,
    ])
    .reduce(joinBounds, EMPTY);
}
