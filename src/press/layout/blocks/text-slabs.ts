/**
 * Lines made into slabs: a line box as high as the leading, its baseline where the face's height and
 * depth leave equal room, and the costs that keep two lines of a paragraph together at the foot and at
 * the head of a page.
 */
import type { Mark } from '../frames.ts';
import type { SetLine } from '../lines/set-line.ts';
import type { Setting } from '../setting.ts';
import { FORBIDDEN, lowered, slab, type Slab } from '../slab.ts';
import type { TypeStyle } from '../style.ts';

/** Cost of turning the page in the middle of a paragraph. */
const INNER_BREAK = 40;
/** White space above a drawing in a line. */
const DRAWING_AIR = 1.5;

/** Distance from the top of a line box to its baseline. */
export function baselineOf(type: TypeStyle, setting: Setting): number {
  return setting.measuring.baseline(type, setting.language);
}

/** How much higher than the leading a line is, for the drawing that stands on its baseline. */
export function lineGrowth(line: SetLine, type: TypeStyle, setting: Setting): number {
  if (line.drawingHeight === 0) return 0;
  return Math.max(0, line.drawingHeight + DRAWING_AIR - baselineOf(type, setting));
}

export function lineSlab(line: SetLine, type: TypeStyle, setting: Setting): Slab {
  const growth = lineGrowth(line, type, setting);
  return slab(type.leading + growth, lowered(line.marks, baselineOf(type, setting) + growth));
}

/** Cost of a page that begins with line `index` of `count`: never one line alone on either side. */
export function lineBreakCost(index: number, count: number, inner = INNER_BREAK): number {
  if (index === 0) return 0;
  return index === 1 || index === count - 1 ? FORBIDDEN : inner;
}

/** One slab for each line, kept by twos. */
export function lineSlabs(lines: readonly SetLine[], type: TypeStyle, setting: Setting): Slab[] {
  return lines.map((line, index) => ({
    ...lineSlab(line, type, setting),
    breakBefore: lineBreakCost(index, lines.length),
  }));
}

/** A horizontal rule across a column. */
export function ruleMark(
  x: number,
  y: number,
  width: number,
  weight: number,
  colour: string,
): Mark {
  return {
    kind: 'rule',
    x1: x,
    y1: y,
    x2: x + width,
    y2: y,
    widthPoints: weight,
    colour,
    tag: 'artifact',
  };
}
