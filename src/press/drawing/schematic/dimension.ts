/**
 * Dimension lines in points: a thin line with an arrow head at each end, the letter in a gap in its
 * middle, and extension lines from the measured points. Where a length goes round the body the line is
 * a curve. A line too short for its letter carries it beside.
 */
import type { PathStep, Shape } from '../drawing.ts';
import { closedPath, fillPath, openPath, strokePath, type Point } from '../path.ts';

export interface DimensionInk {
  readonly ink: string;
  readonly letterSizePoints: number;
}

export interface Measured {
  readonly from: Point;
  readonly to: Point;
  readonly side: 'above' | 'below' | 'left' | 'right' | 'inside';
  readonly around: boolean;
  readonly letter: string;
  /** x or y where the line stands; not used inside. */
  readonly place: number;
}

const LINE = 0.55;
const HEAD_LENGTH = 5;
const HEAD_HALF_WIDTH = 1.5;
const REACH = 2.5; // extension lines go past the dimension line
const CLEAR = 2.5; // and begin this far from the piece
/** Depth of the curve of a length that goes round, as a share of the line, at most a few points. */
const SAG_SHARE = 0.07;
const MOST_SAG = 9;

type Line = readonly [Point, Point];

const along = ([from, to]: Line, share: number): Point => [
  from[0] + (to[0] - from[0]) * share,
  from[1] + (to[1] - from[1]) * share,
];

const distance = ([from, to]: Line): number => Math.hypot(to[0] - from[0], to[1] - from[1]);

/** An arrow head whose tip is at `tip`, pointing away from `back`. */
function arrowHead(tip: Point, back: Point, ink: string): Shape {
  const length = Math.hypot(tip[0] - back[0], tip[1] - back[1]) || 1;
  const [ux, uy] = [(tip[0] - back[0]) / length, (tip[1] - back[1]) / length];
  const foot: Point = [tip[0] - ux * HEAD_LENGTH, tip[1] - uy * HEAD_LENGTH];
  const [sx, sy] = [-uy * HEAD_HALF_WIDTH, ux * HEAD_HALF_WIDTH];
  return fillPath(closedPath(tip, [foot[0] + sx, foot[1] + sy], [foot[0] - sx, foot[1] - sy]), ink);
}

const letterAt = ([x, y]: Point, letter: string, style: DimensionInk): Shape => ({
  kind: 'text',
  x,
  y: y + style.letterSizePoints * 0.36,
  text: letter,
  sizePoints: style.letterSizePoints,
  anchor: 'middle',
  weight: 'bold',
  colour: style.ink,
});

const thin = (steps: readonly PathStep[], ink: string): Shape =>
  strokePath(steps, { widthPoints: LINE, colour: ink });

function straight(line: Line, letter: string, style: DimensionInk, beside: Point): Shape[] {
  const [from, to] = line;
  const length = distance(line);
  const { ink, letterSizePoints } = style;
  const gap = letterSizePoints * 0.75;
  if (length >= 2 * (HEAD_LENGTH + gap) + 2) {
    const half = gap / length;
    return [
      thin([...openPath(from, along(line, 0.5 - half)), ...openPath(along(line, 0.5 + half), to)], ink), // prettier-ignore
      arrowHead(from, to, ink),
      arrowHead(to, from, ink),
      letterAt(along(line, 0.5), letter, style),
    ];
  }
  const middle = along(line, 0.5);
  const label = letterAt(
    [middle[0] + beside[0] * letterSizePoints, middle[1] + beside[1] * letterSizePoints],
    letter,
    style,
  );
  if (length >= 2 * HEAD_LENGTH + 1)
    return [
      thin(openPath(from, to), ink),
      arrowHead(from, to, ink),
      arrowHead(to, from, ink),
      label,
    ];
  // Too short for its own heads: they point inwards from outside.
  const out = (HEAD_LENGTH * 1.6) / Math.max(length, 0.01);
  const [before, after] = [along(line, -out), along(line, 1 + out)];
  return [
    thin(openPath(before, after), ink),
    arrowHead(from, before, ink),
    arrowHead(to, after, ink),
    label,
  ];
}

const mix = (a: Point, b: Point, share: number): Point => along([a, b], share);

/** The stretch of a cubic between two parameters (de Casteljau). */
function cubicBetween(curve: readonly [Point, Point, Point, Point], start: number, end: number) {
  const at = (a: number, b: number, c: number): Point => {
    const [p, q, r] = [mix(curve[0], curve[1], a), mix(curve[1], curve[2], a), mix(curve[2], curve[3], a)]; // prettier-ignore
    return mix(mix(p, q, b), mix(q, r, b), c);
  };
  const first = at(start, start, start);
  const [one, two, last] = [at(start, start, end), at(start, end, end), at(end, end, end)];
  return [
    ['M', ...first],
    ['C', ...one, ...two, ...last],
  ] satisfies PathStep[];
}

/** A level line bent downwards, as a tape lies round the front. */
function curved(line: Line, down: 1 | -1, letter: string, style: DimensionInk): Shape[] {
  const [from, to] = line;
  const length = distance(line);
  const sag = sagOf(length) * down;
  const [one, two]: Line = [
    [from[0] + length * 0.25, from[1] + (sag * 4) / 3],
    [to[0] - length * 0.25, to[1] + (sag * 4) / 3],
  ];
  const half = (style.letterSizePoints * 0.75) / length;
  const curve = [from, one, two, to] as const;
  return [
    thin([...cubicBetween(curve, 0, 0.5 - half), ...cubicBetween(curve, 0.5 + half, 1)], style.ink),
    arrowHead(from, one, style.ink),
    arrowHead(to, two, style.ink),
    letterAt([(from[0] + to[0]) / 2, from[1] + sag], letter, style),
  ];
}

/** How deep the curve of a length that goes round hangs. */
export const sagOf = (lengthPoints: number): number => Math.min(MOST_SAG, lengthPoints * SAG_SHARE);

function extension(from: Point, to: Point, ink: string): Shape[] {
  const length = distance([from, to]);
  if (length <= CLEAR) return [];
  const start = along([from, to], CLEAR / length);
  const end = along([from, to], 1 + REACH / length);
  return [strokePath(openPath(start, end), { widthPoints: LINE * 0.7, colour: ink })];
}

export function drawDimension(measured: Measured, style: DimensionInk): Shape[] {
  const { from, to, side, place, letter, around } = measured;
  if (side === 'inside') {
    const isLevel = Math.abs(from[1] - to[1]) < 0.01;
    if (around && isLevel && distance([from, to]) > 4 * style.letterSizePoints)
      return curved([from, to], 1, letter, style);
    return straight([from, to], letter, style, isLevel ? [0, 1] : [1, 0]);
  }
  const isLevel = side === 'above' || side === 'below';
  const line: Line = isLevel
    ? [[from[0], place], [to[0], place]] // prettier-ignore
    : [[place, from[1]], [place, to[1]]]; // prettier-ignore
  const outward: Record<typeof side, Point> = { above: [0, -1], below: [0, 1], left: [-1, 0], right: [1, 0] }; // prettier-ignore
  return [
    ...extension(from, line[0], style.ink),
    ...extension(to, line[1], style.ink),
    ...(around && isLevel && distance(line) > 4 * style.letterSizePoints
      ? curved(line, side === 'below' ? 1 : -1, letter, style)
      : straight(line, letter, style, outward[side])),
  ];
}
