/** Outlines of plain pieces: rectangle, trapezoid and triangle, from their edges and depth. */
import { closedPath, type Point } from '../path.ts';
import { given, within, type Border, type Lengths, type Outline } from './outline.ts';

export function rectangle(lengths: Lengths): Outline {
  const width = lengths['width'];
  const outline = trapezoid({ ...lengths, bottom: width, top: width }, 'width');
  return { ...outline, dimensions: given(lengths, outline.dimensions) };
}

/** Upright, the lower edge below; also the body of every plain sleeve. */
export function trapezoid(lengths: Lengths, bottomRole = 'bottom'): Outline {
  const bottom = lengths['bottom'] ?? 1;
  const top = lengths['top'] ?? bottom;
  const length = lengths['length'] ?? 1;
  const width = Math.max(bottom, top);
  const [low, high] = [(width - bottom) / 2, (width - top) / 2];
  const corners: Point[] = [
    [low, length],
    [high, 0],
    [width - high, 0],
    [width - low, length],
  ];
  const hemDepth = within(lengths['hemDepth'] ?? 0, 0, length);
  return {
    widthInches: width,
    heightInches: length,
    steps: closedPath(...corners),
    details: [],
    borders: borderAtFoot(hemDepth, length, [low, width - low], [high, width - high]),
    dimensions: given(lengths, [
      { role: bottomRole, from: [low, length], to: [width - low, length], side: 'below' },
      { role: 'top', from: [high, 0], to: [width - high, 0], side: 'above' },
      { role: 'length', from: [width - high, 0], to: [width - low, length], side: 'right' },
      { role: 'hemDepth', from: [low, length - hemDepth], to: [low, length], side: 'left' },
    ]),
  };
}

/**
 * A border between straight sides that run from `foot` (at `length`) to `head` (at 0), all of it
 * `below` the top of the drawing.
 */
export function borderAtFoot(
  depth: number,
  length: number,
  foot: readonly [number, number],
  head: readonly [number, number],
  below = 0,
): Border[] {
  if (depth <= 0) return [];
  const share = depth / length;
  const at = (side: 0 | 1) => foot[side] + (head[side] - foot[side]) * share;
  const [low, high] = [below + length, below + length - depth];
  return [
    {
      corners: [
        [foot[0], low],
        [at(0), high],
        [at(1), high],
        [foot[1], low],
      ],
    },
  ];
}

/** The long edge above, the tip below. */
export function triangle(lengths: Lengths): Outline {
  const width = lengths['width'] ?? 1;
  const length = lengths['length'] ?? 1;
  return {
    widthInches: width,
    heightInches: length,
    steps: closedPath([0, 0], [width, 0], [width / 2, length]),
    details: [],
    borders: [],
    dimensions: given(lengths, [
      { role: 'width', from: [0, 0], to: [width, 0], side: 'above' },
      { role: 'length', from: [width, 0], to: [width / 2, length], side: 'right' },
    ]),
  };
}
