/**
 * Colour in a chart. A yarn colour is never told by colour alone: each one after the first has a mark
 * of its own, in the middle of a knit cell and in the corner beside any other symbol. Ink on a dark
 * cell turns white, by the contrast ratio of WCAG 2.2 (relative luminance).
 */
import { contrastRatio } from '../../../base/contrast.ts';
import { closedPath, boxPath, openPath, ellipsePath } from '../path.ts';
import { fill, shrunk, stroke, type Glyph } from '../symbols/glyph.ts';

/** None of these is a stitch symbol. */
const MARKS: readonly Glyph[] = [
  [],
  [fill(...boxPath(0.32, 0.32, 0.36, 0.36))],
  [
    stroke(...openPath([0.26, 0.26], [0.74, 0.74])),
    stroke(...openPath([0.74, 0.26], [0.26, 0.74])),
  ],
  [fill(...closedPath([0.5, 0.24], [0.8, 0.74], [0.2, 0.74]))],
  [stroke(...openPath([0.5, 0.22], [0.5, 0.78])), stroke(...openPath([0.22, 0.5], [0.78, 0.5]))],
  [fill(...ellipsePath(0.3, 0.5, 0.12)), fill(...ellipsePath(0.7, 0.5, 0.12))],
  [stroke(...openPath([0.14, 0.86], [0.86, 0.14]))],
  [fill(...closedPath([0.5, 0.2], [0.8, 0.5], [0.5, 0.8], [0.2, 0.5]))],
  [stroke(...boxPath(0.28, 0.28, 0.44, 0.44))],
  [stroke(...openPath([0.38, 0.2], [0.38, 0.8])), stroke(...openPath([0.62, 0.2], [0.62, 0.8]))],
  [fill(...closedPath([0.5, 0.76], [0.8, 0.26], [0.2, 0.26]))],
  [0.28, 0.5, 0.72].map((y) => fill(...ellipsePath(0.5, y, 0.08))),
];

/** The mark of the colour at a place in the list of colours; after twelve they begin again, doubled. */
export function colourMark(place: number): Glyph {
  const mark = MARKS[place % MARKS.length] ?? [];
  const turn = Math.floor(place / MARKS.length);
  if (turn === 0) return mark;
  const tally = Array.from({ length: turn }, (_, index) =>
    fill(...boxPath(0.08 + index * 0.14, 0.84, 0.09, 0.09)),
  );
  return [...mark, ...tally];
}

/** The mark beside a stitch symbol: small, at the lower right. */
export const cornerMark = (place: number): Glyph =>
  place === 0 ? [] : shrunk(colourMark(place), 0.34, 0.82, 0.82);

/** Whether white ink reads better than black on a colour. */
export const isDark = (colour: string): boolean =>
  contrastRatio(colour, '#ffffff') > contrastRatio(colour, '#000000');
