/**
 * Symbols that stand over several stitches without crossing them: stitches gathered together and
 * worked several times, stitches bound by a wrap of yarn, and two stitches twisted without a needle.
 * All follow from the number of stitches, so any width has its picture.
 */
import { ellipsePath, openPath } from '../path.ts';
import { mirrored, stroke, type Glyph } from './glyph.ts';

/** `count` stitches drawn into one knot and fanned out again. */
export function gather(count: number): Glyph {
  const middle = count / 2;
  const feet = Array.from(
    { length: count },
    (_, place) => place + 0.5 + (middle - place - 0.5) * 0.3,
  );
  return [
    ...feet.flatMap((x) => [
      stroke(...openPath([x, 0.82], [middle, 0.5])),
      stroke(...openPath([middle, 0.5], [x, 0.18])),
    ]),
    stroke(...openPath([middle - 0.26, 0.5], [middle + 0.26, 0.5])),
  ];
}

/** `count` stitches with the yarn wrapped round them. */
export const wrapped = (count: number): Glyph => [
  ...Array.from({ length: count }, (_, place) =>
    stroke(...openPath([place + 0.5, 0.18], [place + 0.5, 0.82])),
  ),
  stroke(...ellipsePath(count / 2, 0.56, Math.max(0.3, count / 2 - 0.18), 0.17)),
];

/** Two stitches twisted, the one in front leaning right: crossed strokes, the upper unbroken. */
export const TWIST_RIGHT: Glyph = [
  stroke(...openPath([0.4, 0.86], [1.6, 0.14])),
  stroke(...openPath([0.4, 0.14], [0.82, 0.39])),
  stroke(...openPath([1.18, 0.61], [1.6, 0.86])),
];
export const TWIST_LEFT: Glyph = mirrored(TWIST_RIGHT, 2);

/** The purl behind a twist, in the two corners where the stitch behind is seen. */
export const TWIST_PURL_RIGHT: Glyph = [
  ...TWIST_RIGHT,
  stroke(...openPath([0.1, 0.42], [0.42, 0.42])),
  stroke(...openPath([1.58, 0.58], [1.9, 0.58])),
];
export const TWIST_PURL_LEFT: Glyph = mirrored(TWIST_PURL_RIGHT, 2);
