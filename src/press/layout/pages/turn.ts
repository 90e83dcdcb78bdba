/**
 * Turns a page over for text that runs from right to left: everything was set from the start edge, and
 * the start edge is then the right one. Pictures and letters keep their own sides.
 */
import type { Mark } from '../frames.ts';

/** The mark at the same distance from the other edge of a page of this width. */
export function turned(mark: Mark, pageWidth: number): Mark {
  switch (mark.kind) {
    case 'rule':
      return { ...mark, x1: pageWidth - mark.x2, x2: pageWidth - mark.x1 };
    case 'run':
      return { ...mark, x: pageWidth - mark.x - (mark.run.width * mark.sizePoints) / 1000 };
    case 'drawing':
      return { ...mark, x: pageWidth - mark.x - mark.drawing.widthPoints * mark.scale };
    case 'box':
    case 'picture':
    case 'link':
      return { ...mark, x: pageWidth - mark.x - mark.width };
  }
}
