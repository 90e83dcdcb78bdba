/**
 * Increases: the opposite picture of a decrease, one foot and as many arms as stitches are made. An
 * increase from the strand between two stitches stands on that strand; one from the stitch of the row
 * below is a bar with a small branch at the side where the new stitch comes (JIS L 0201, 右増目).
 */
import { ellipsePath, openPath } from '../path.ts';
import { figures } from './digits.ts';
import { mirrored, shrunk, stroke, type Glyph } from './glyph.ts';

const STRAND = stroke(...openPath([0.16, 0.82], [0.84, 0.82]));

/** From the strand between, upright: no lean is asked for. */
export const FROM_STRAND: Glyph = [STRAND, stroke(...openPath([0.5, 0.82], [0.5, 0.2]))];
export const FROM_STRAND_RIGHT: Glyph = [STRAND, stroke(...openPath([0.32, 0.82], [0.7, 0.2]))];
export const FROM_STRAND_LEFT: Glyph = mirrored(FROM_STRAND_RIGHT);

/** From the stitch of the row below. */
export const LIFTED_RIGHT: Glyph = [
  stroke(...openPath([0.42, 0.82], [0.42, 0.18])),
  stroke(...openPath([0.42, 0.58], [0.74, 0.26])),
];
export const LIFTED_LEFT: Glyph = mirrored(LIFTED_RIGHT);

/** From the strand between, left open so that it shows as a hole. */
export const FROM_STRAND_OPEN: Glyph = [STRAND, stroke(...ellipsePath(0.5, 0.46, 0.2))];

const MOST_ARMS = 3;

/** `makes` stitches out of one: a fork with as many arms; from four on a figure says how many. */
export function fork(makes: number): Glyph {
  const stem = stroke(...openPath([0.5, 0.84], [0.5, 0.56]));
  const arms = stroke(...openPath([0.22, 0.2], [0.5, 0.56], [0.78, 0.2]));
  if (makes > MOST_ARMS)
    return [...shrunk([stem, arms], 0.74, 0.36, 0.6), ...figures(makes, makes > 9 ? 0.7 : 0.78, 0.28, 0.4)]; // prettier-ignore
  return makes === MOST_ARMS ? [stem, arms, stroke(...openPath([0.5, 0.56], [0.5, 0.16]))] : [stem, arms]; // prettier-ignore
}
