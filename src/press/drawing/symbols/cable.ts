/**
 * Cables by rule: from the width of the two groups and the lean follow both strands for any
 * crossing, so no cable is ever drawn by hand. The strand in front is unbroken from bottom to top,
 * the one behind stops short of it on both sides; strokes leaning as the knitted strands lean
 * (JIS L 0201, crossings: "long crossed strokes, the upper unbroken"). Purled stitches behind carry
 * the purl bar; a strand worked through the back loop is filled.
 */
import type { Crossing } from '../../../pattern/stitches/stitch.ts';
import { closedPath, openPath, type Point } from '../path.ts';
import { fill, stroke, type Glyph, type GlyphPart } from './glyph.ts';

/** A strand: where it enters at the bottom of the cell and leaves at the top, in columns. */
interface Strand {
  readonly bottom: readonly [number, number];
  readonly top: readonly [number, number];
}

/** Clear space between a strand's edge and the edge of its columns. */
const INSET = 0.16;
/** Clear space between the strand behind and the one in front, in columns along the row. */
const GAP = 0.2;

/** A stretch of the strand behind that is lower than this would be a speck. */
const LEAST_STRETCH = 0.16;

const edge = (strand: Strand, side: 0 | 1, y: number): number =>
  strand.top[side] + (strand.bottom[side] - strand.top[side]) * y;

const inset = ({ bottom, top }: Strand): Strand => ({
  bottom: [bottom[0] + INSET, bottom[1] - INSET],
  top: [top[0] + INSET, top[1] - INSET],
});

const corners = ({ bottom, top }: Strand): readonly [Point, Point, Point, Point] => [
  [bottom[0], 1],
  [top[0], 0],
  [top[1], 0],
  [bottom[1], 1],
];

/** Where `behind`'s edge stands level with `front`'s edge moved by `gap`, between 0 and 1. */
function meeting(behind: Strand, side: 0 | 1, front: Strand, frontSide: 0 | 1, gap: number) {
  const atTop = edge(behind, side, 0) - (edge(front, frontSide, 0) + gap);
  const atBottom = edge(behind, side, 1) - (edge(front, frontSide, 1) + gap);
  return Math.min(1, Math.max(0, atTop / (atTop - atBottom)));
}

/** The two visible stretches of one edge of the strand behind. */
function brokenEdge(behind: Strand, side: 0 | 1, front: Strand): GlyphPart[] {
  const leftMeeting = meeting(behind, side, front, 0, -GAP);
  const rightMeeting = meeting(behind, side, front, 1, GAP);
  const [upper, lower] = [Math.min(leftMeeting, rightMeeting), Math.max(leftMeeting, rightMeeting)];
  const at = (y: number): Point => [edge(behind, side, y), y];
  const parts: GlyphPart[] = [];
  if (upper > LEAST_STRETCH) parts.push(stroke(...openPath(at(0), at(upper))));
  if (lower < 1 - LEAST_STRETCH) parts.push(stroke(...openPath(at(lower), at(1))));
  return parts;
}

/** Level with this height from the lower or upper end of the cell a purl bar stands. */
const BAR_HEIGHT = 0.13;

/** Purl bars where the strand behind is seen, between its outer edge and the strand in front. */
function purlBars(behind: Strand, front: Strand): GlyphPart[] {
  const goesRight = behind.top[0] > behind.bottom[0];
  const bar = (y: number, outer: 0 | 1): GlyphPart[] => {
    const near: 0 | 1 = outer === 0 ? 0 : 1;
    const [a, b] = [edge(behind, outer, y), edge(front, near, y)];
    const half = Math.min(0.24, Math.abs(b - a) / 2 - 0.13);
    const middle = (a + b) / 2;
    return half > 0.05 ? [stroke(...openPath([middle - half, y], [middle + half, y]))] : [];
  };
  return goesRight
    ? [...bar(1 - BAR_HEIGHT, 0), ...bar(BAR_HEIGHT, 1)]
    : [...bar(1 - BAR_HEIGHT, 1), ...bar(BAR_HEIGHT, 0)];
}

/** Stitches that keep their place between the two strands show where they enter and leave. */
function middleMarks({ left, right, middle = 0, purlBehind }: Crossing): GlyphPart[] {
  if (middle === 0) return [];
  const mark = (centre: number, y: number) =>
    purlBehind
      ? stroke(...openPath([centre - 0.2, y], [centre + 0.2, y]))
      : stroke(...openPath([centre, y - 0.08], [centre, y + 0.08]));
  return [mark(right + middle / 2, 1 - BAR_HEIGHT), mark(left + middle / 2, BAR_HEIGHT)];
}

/** The symbol of a crossing, as many columns wide as it has stitches. */
export function cableGlyph(crossing: Crossing): Glyph {
  const { left, right, middle = 0 } = crossing;
  const width = left + middle + right;
  const toLeft: Strand = { bottom: [right + middle, width], top: [0, left] };
  const toRight: Strand = { bottom: [0, right], top: [left + middle, width] };
  const [front, behind] = crossing.lean === 'left' ? [toLeft, toRight] : [toRight, toLeft];
  const [frontInset, behindInset] = [inset(front), inset(behind)];
  const [bottomLeft, topLeft, topRight, bottomRight] = corners(frontInset);
  return [
    ...brokenEdge(behindInset, 0, frontInset),
    ...brokenEdge(behindInset, 1, frontInset),
    ...(crossing.purlBehind ? purlBars(behindInset, frontInset) : []),
    ...middleMarks(crossing),
    ...(crossing.twisted
      ? [fill(...closedPath(bottomLeft, topLeft, topRight, bottomRight))]
      : [stroke(...openPath(bottomLeft, topLeft)), stroke(...openPath(bottomRight, topRight))]),
  ];
}
