/**
 * All sizes of one piece, one inside the other, to one scale. Takes the outline of each size in inches,
 * lays them on a common corner or middle line, and names each with a line to a dot on its edge, so that
 * neither colour nor dashes alone tell them apart.
 */
import type { Drawing, Shape } from '../drawing.ts';
import {
  closedPath,
  ellipsePath,
  fillPath,
  moveShape,
  openPath,
  type Point,
  strokePath,
} from '../path.ts';
import { SCHEMATIC_STYLE, type SchematicOptions } from './schematic.ts';

export interface NestedSize {
  readonly name: string;
  /** Closed outline in inches, y down, the top left corner at 0, 0. */
  readonly edge: readonly Point[];
}

/** Size of a size's name, unless another is asked for. */
const NAME_POINTS = 8;
/** From one name to the next, in sizes of the type. */
const LEAD = 1.02;
const NAME_GAP = 4;
/** Width of a letter of a name at most, in sizes of the type; names are set bold. */
const LETTER_WIDTH = 0.68;
const WIDEST_NAMES = 0.4;
const EDGE = 2;
const DASHES: readonly (readonly number[] | undefined)[] = [undefined, [4, 1.6], [1.4, 1.4]];

interface Placed extends NestedSize {
  readonly edge: readonly Point[];
}

export function drawNested(sizes: readonly NestedSize[], options: SchematicOptions): Drawing {
  const placed = onCommonPlace(sizes);
  const bounds = boundsOf(placed.flatMap(({ edge }) => edge));
  const [width, height] = [bounds.right - bounds.left, bounds.bottom - bounds.top];
  const size = options.letterSizePoints ?? NAME_POINTS;
  const longest = Math.max(...sizes.map(({ name }) => name.length));
  const forNames = Math.min(
    2 * NAME_GAP + longest * size * LETTER_WIDTH,
    options.maxWidthPoints * WIDEST_NAMES,
  );
  const scale =
    options.pointsPerInch ??
    Math.min(
      (options.maxWidthPoints - forNames - 2 * EDGE) / width,
      (options.maxHeightPoints - 2 * EDGE) / height,
    );
  const style = { ...SCHEMATIC_STYLE, ...options.style };
  const place = ([x, y]: Point): Point => [(x - bounds.left) * scale, (y - bounds.top) * scale];
  const scaled = placed.map(({ name, edge }) => ({ name, edge: edge.map(place) }));
  const right = width * scale;
  const edges = scaled.map(({ edge }, at) => outlineShape(edge, at, scaled.length, style.ink));
  const largest = scaled.at(-1);
  const shapes = [
    ...(largest ? [fillPath(closedPath(...largest.edge), style.fabric)] : []),
    ...edges.toReversed(),
    ...namesOf(scaled, [right, height * scale], size, style.ink),
  ];
  return {
    widthPoints: right + forNames + 2 * EDGE,
    heightPoints: Math.max(height * scale, (scaled.length * LEAD + 1) * size) + 2 * EDGE,
    symbols: {},
    shapes: shapes.map((shape) => moveShape(shape, EDGE, EDGE)),
  };
}

/** Pieces that are alike on both sides share their middle, others their left edge; all share the foot. */
function onCommonPlace(sizes: readonly NestedSize[]): readonly Placed[] {
  const mirrored = sizes.every(({ edge }) => isMirrored(edge));
  return sizes.map(({ name, edge }) => {
    const { left, right, bottom } = boundsOf(edge);
    const origin = mirrored ? (left + right) / 2 : left;
    return { name, edge: edge.map(([x, y]): Point => [x - origin, y - bottom]) };
  });
}

/** The middle of the piece is at one place at every height. */
function isMirrored(edge: readonly Point[]): boolean {
  const { left, right, top, bottom } = boundsOf(edge);
  return [0.1, 0.3, 0.5, 0.7, 0.9, 0.97].every((share) => {
    const cut = cutAt(edge, top + (bottom - top) * share);
    return !cut || Math.abs(cut.left + cut.right - left - right) < 0.4;
  });
}

function outlineShape(edge: readonly Point[], at: number, sizes: number, ink: string): Shape {
  const outermost = at === 0 || at === sizes - 1;
  const dash = outermost ? undefined : DASHES[at % DASHES.length];
  return strokePath(closedPath(...edge), {
    widthPoints: outermost ? 1.1 : 0.7,
    colour: ink,
    join: 'round',
    ...(dash && { dash }),
  });
}

/** The largest size is named lowest, so that the lines to smaller ones pass above it. */
function namesOf(
  sizes: readonly NestedSize[],
  [right, height]: Point,
  size: number,
  ink: string,
): Shape[] {
  const lead = LEAD * size;
  const lowest = height - size / 2 - (sizes.length - 1) * lead;
  const highest = whereDotsPart(sizes, lead, size / 2, lowest);
  return sizes.flatMap(({ name, edge }, at): Shape[] => {
    const y = highest + at * lead;
    const [dotX, dotY] = dotOn(edge, y);
    return [
      strokePath(openPath([dotX, dotY], [right + NAME_GAP, y]), { widthPoints: 0.35, colour: ink }),
      fillPath(ellipsePath(dotX, dotY, 1.3), ink),
      {
        kind: 'text',
        x: right + NAME_GAP + 2,
        y: y + size * 0.36,
        text: name,
        sizePoints: size,
        anchor: 'start',
        weight: 'bold',
        colour: ink,
      },
    ];
  });
}

/** The right-hand edge at a height, or where the piece ends if it does not reach so far. */
function dotOn(edge: readonly Point[], y: number): Point {
  const { right, top, bottom } = boundsOf(edge);
  const dotY = Math.min(Math.max(y, top + 2), bottom);
  return [cutAt(edge, dotY)?.right ?? right, dotY];
}

/** Dots further apart than this, in points, are told apart as well as any. */
const FAR_APART = 8;
const PLACES_TRIED = 24;
/** A line that is not level costs as much as so many points between dots. */
const TILT = 3;

/**
 * How high the first name stands so that the dots lie furthest apart and every line to a name is level;
 * the lowest of equals.
 */
function whereDotsPart(
  sizes: readonly NestedSize[],
  lead: number,
  top: number,
  lowest: number,
): number {
  if (lowest <= top) return top;
  const scored = Array.from({ length: PLACES_TRIED + 1 }, (_, at) => {
    const highest = lowest - ((lowest - top) * at) / PLACES_TRIED;
    const dots = sizes.map(({ edge }, index) => dotOn(edge, highest + index * lead));
    const gaps = dots
      .slice(1)
      .map(([x], index) => Math.min(x - (dots[index]?.[0] ?? x), FAR_APART));
    const tilted = dots.filter(([, y], index) => Math.abs(y - highest - index * lead) > 0.5).length;
    return { highest, score: Math.min(...gaps) - TILT * tilted };
  });
  return scored.reduce((best, each) => (each.score > best.score + 0.1 ? each : best)).highest;
}

function cutAt(edge: readonly Point[], y: number): { left: number; right: number } | undefined {
  const cuts = edge.flatMap(([x, top], at): number[] => {
    const [nextX, nextTop] = edge[(at + 1) % edge.length] ?? [x, top];
    const [low, high] = [Math.min(top, nextTop), Math.max(top, nextTop)];
    if (y < low - 1e-6 || y > high + 1e-6) return [];
    if (high - low < 1e-6) return [x, nextX];
    return [x + ((y - top) / (nextTop - top)) * (nextX - x)];
  });
  return cuts.length === 0 ? undefined : { left: Math.min(...cuts), right: Math.max(...cuts) };
}

function boundsOf(points: readonly Point[]) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}
