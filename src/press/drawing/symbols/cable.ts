/**
 * Cables by rule: from the width of the two groups and the lean follow both strands for any
 * crossing, so no cable is ever drawn by hand. The strand in front is unbroken from bottom to top,
 * the one behind stops short of it on both sides; strokes leaning as the knitted strands lean
 * (JIS L 0201, crossings: "long crossed strokes, the upper unbroken"). Purled stitches behind carry
 * the purl bar; a strand worked through the back loop is filled.
 */
import type { Crossing } from '../../../pattern/stitches/stitch.ts';
import { closedPath, ellipsePath, openPath, type Point } from '../path.ts';
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

/** A stretch of the strand behind that is shorter than this would be a speck. */
const LEAST_STRETCH = 0.3;
/** Strokes end a little inside the cell, so that they do not run into the next row. */
const TOP = 0.05;
const FOOT = 0.95;

const edge = (strand: Strand, side: 0 | 1, y: number): number =>
  strand.top[side] + (strand.bottom[side] - strand.top[side]) * y;

const inset = ({ bottom, top }: Strand): Strand => ({
  bottom: [bottom[0] + INSET, bottom[1] - INSET],
  top: [top[0] + INSET, top[1] - INSET],
});

const corners = (strand: Strand): readonly [Point, Point, Point, Point] => [
  [edge(strand, 0, FOOT), FOOT],
  [edge(strand, 0, TOP), TOP],
  [edge(strand, 1, TOP), TOP],
  [edge(strand, 1, FOOT), FOOT],
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
  const stretch = (from: number, to: number): GlyphPart[] => {
    const [x1, x2] = [edge(behind, side, from), edge(behind, side, to)];
    if (to <= from || Math.hypot(x2 - x1, to - from) < LEAST_STRETCH) return [];
    return [stroke(...openPath([x1, from], [x2, to]))];
  };
  return [...stretch(TOP, upper), ...stretch(lower, FOOT)];
}

/** Height of a purl bar above the lower end of the cell, where it stands on its strand. */
const BAR_HEIGHT = 0.13;
/** Height of a bar that finds no room on its strand and stands above it. */
const HIGH_BAR = 0.42;
const LEAST_BAR = 0.14;
/** A strand narrower than this has no room for its bar. */
const LEAST_ROOM = 0.65;
const MOST_BAR = 0.24;

/** The two ends of a crossing look alike turned by half a circle. */
const bothEnds = (x: number, y: number, half: number, width: number): GlyphPart[] => [
  stroke(...openPath([x - half, y], [x + half, y])),
  stroke(...openPath([width - x - half, 1 - y], [width - x + half, 1 - y])),
];

/** Purl bars where the strand behind is seen, between its outer edge and the strand in front. */
function purlBars(behind: Strand, front: Strand, width: number): GlyphPart[] {
  const outer = behind.top[0] > behind.bottom[0] ? 0 : 1;
  const inner = outer === 0 ? 1 : 0;
  const y = 1 - BAR_HEIGHT;
  const from = edge(behind, outer, y);
  const direction = outer === 0 ? 1 : -1;
  const room = Math.min(
    (edge(behind, inner, y) - from) * direction,
    (edge(front, outer, y) - from) * direction,
  );
  if (room >= LEAST_ROOM) {
    const half = Math.min(MOST_BAR, room / 2 - 0.13);
    return bothEnds(from + (direction * room) / 2, y, half, width);
  }
  const side = outer === 0 ? 0 : width;
  const middle = (side + edge(front, outer, 1 - HIGH_BAR)) / 2;
  return bothEnds(middle, 1 - HIGH_BAR, LEAST_BAR, width);
}

/** Stitches that keep their place between the two strands show where they enter and leave. */
function middleMarks({ left, right, middle = 0, purlBehind }: Crossing): GlyphPart[] {
  if (middle === 0) return [];
  const centre = right + middle / 2;
  const width = left + middle + right;
  if (purlBehind)
    return [
      fill(...ellipsePath(centre, 0.89, 0.075)),
      fill(...ellipsePath(width - centre, 0.11, 0.075)),
    ];
  return [
    stroke(...openPath([centre, 0.82], [centre, FOOT])),
    stroke(...openPath([width - centre, 0.18], [width - centre, TOP])),
  ];
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
    ...(crossing.purlBehind ? purlBars(behindInset, frontInset, width) : []),
    ...middleMarks(crossing),
    ...(crossing.twisted
      ? [fill(...closedPath(bottomLeft, topLeft, topRight, bottomRight))]
      : [stroke(...openPath(bottomLeft, topLeft)), stroke(...openPath(bottomRight, topRight))]),
  ];
}
