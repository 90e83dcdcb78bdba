/**
 * Figures as strokes, for symbols that would need more legs or arms than the eye can count. Each is
 * drawn in a box one unit wide and two high, so that a number in a symbol needs no font.
 */
import type { PathStep } from '../drawing.ts';
import { ellipsePath, movePath, openPath } from '../path.ts';
import { fine, type GlyphPart } from './glyph.ts';

const FIGURES: readonly (readonly PathStep[])[] = [
  ellipsePath(0.5, 1, 0.5, 1),
  openPath([0.1, 0.45], [0.6, 0], [0.6, 2]),
  [
    ['M', 0, 0.5],
    ['C', 0, -0.2, 1, -0.2, 1, 0.55],
    ['C', 1, 1.1, 0.1, 1.5, 0, 2],
    ['L', 1, 2],
  ],
  [['M', 0, 0], ['L', 1, 0], ['L', 0.45, 0.8], ['C', 1.2, 0.8, 1.2, 2, 0.4, 2], ['C', 0.2, 2, 0.05, 1.9, 0, 1.75]], // prettier-ignore
  openPath([0.75, 2], [0.75, 0], [0, 1.4], [1.05, 1.4]),
  [['M', 0.95, 0], ['L', 0.15, 0], ['L', 0.08, 0.9], ['C', 0.5, 0.6, 1, 0.8, 1, 1.35], ['C', 1, 2, 0.3, 2.2, 0, 1.75]], // prettier-ignore
  [['M', 0.85, 0], ['C', 0.3, 0.3, 0, 0.9, 0, 1.4], ['C', 0, 2.2, 1, 2.2, 1, 1.4], ['C', 1, 0.8, 0.2, 0.7, 0.03, 1.2]], // prettier-ignore
  openPath([0, 0], [1, 0], [0.35, 2]),
  [...ellipsePath(0.5, 0.47, 0.4, 0.47), ...ellipsePath(0.5, 1.47, 0.5, 0.53)],
  [['M', 0.15, 2], ['C', 0.7, 1.7, 1, 1.1, 1, 0.6], ['C', 1, -0.2, 0, -0.2, 0, 0.6], ['C', 0, 1.2, 0.8, 1.3, 0.97, 0.8]], // prettier-ignore
];

/** A whole number about a point, `height` of the cell high. */
export function figures(value: number, x: number, y: number, height: number): GlyphPart[] {
  const digits = Array.from(String(Math.abs(Math.trunc(value))));
  const unit = height / 2;
  const advance = unit * 1.75;
  const left = x - (digits.length * advance - (advance - unit)) / 2;
  return digits.map((digit, place) =>
    fine(
      ...movePath(FIGURES[Number(digit)] ?? [], ([px, py]) => [
        left + place * advance + px * unit,
        y - height / 2 + py * unit,
      ]),
    ),
  );
}
