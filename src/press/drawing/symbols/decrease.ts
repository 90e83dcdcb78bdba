/**
 * Decreases: as many legs as stitches are taken, meeting in the stitch on top, whose stroke runs
 * through unbroken. A long stroke from top right to lower left with a short leg at the lower right
 * is a decrease that leans right; its mirror leans left; a vertical stroke with two shoulders is the
 * centred one (JIS L 0201, 左上, 右上 and 中上). From four stitches on a figure says how many.
 */
import { openPath, type Point } from '../path.ts';
import { figures } from './digits.ts';
import { mirrored, shrunk, stroke, type Glyph } from './glyph.ts';

const FOOT = 0.82;
const MOST_LEGS = 3;

const MEETING: Point = [0.5, 0.48];
const LONG_STROKE = stroke(...openPath([0.72, 0.16], [0.22, FOOT]));
const SHORT_LEG = stroke(...openPath(MEETING, [0.78, FOOT]));
const MIDDLE_LEG = stroke(...openPath(MEETING, [0.5, FOOT]));

/** A two-legged decrease made small, with the number of stitches beside its foot. */
const counted = (glyph: Glyph, takes: number): Glyph =>
  takes > 9
    ? [...shrunk(glyph, 0.6, 0.3, 0.32), ...figures(takes, 0.66, 0.72, 0.4)]
    : [...shrunk(glyph, 0.74, 0.36, 0.4), ...figures(takes, 0.78, 0.72, 0.4)];

/** `takes` stitches into one, the leftmost on top: leans right. */
export function decreaseRight(takes: number): Glyph {
  if (takes > MOST_LEGS) return counted(decreaseRight(2), takes);
  return takes === MOST_LEGS ? [LONG_STROKE, SHORT_LEG, MIDDLE_LEG] : [LONG_STROKE, SHORT_LEG];
}

/** `takes` stitches into one, the rightmost on top: leans left. The figure is not mirrored. */
export function decreaseLeft(takes: number): Glyph {
  const strokes = mirrored(decreaseRight(Math.min(takes, MOST_LEGS - 1)));
  if (takes > MOST_LEGS) return counted(strokes, takes);
  return takes === MOST_LEGS ? [...strokes, mirrored([MIDDLE_LEG])[0] ?? MIDDLE_LEG] : strokes;
}

/** `takes` stitches into one, the middle one on top. */
export function decreaseCentred(takes: number): Glyph {
  const shoulders = stroke(...openPath([0.2, FOOT], [0.5, 0.42], [0.8, FOOT]));
  const centred = [stroke(...openPath([0.5, 0.16], [0.5, FOOT])), shoulders];
  return takes > MOST_LEGS ? counted(centred, takes) : centred;
}
