/**
 * Room around a drawing: several drawings of one width keep one scale when a page sets them to the
 * width of a column. Takes drawings, gives the same ones in the middle of wider frames.
 */
import type { Drawing } from './drawing.ts';
import { moveShape } from './path.ts';

/** All drawings as wide as the widest, each in the middle of its frame. */
export function toOneWidth(drawings: readonly Drawing[]): readonly Drawing[] {
  const widest = Math.max(...drawings.map(({ widthPoints }) => widthPoints));
  return drawings.map((drawing) => {
    const shift = (widest - drawing.widthPoints) / 2;
    const shapes = drawing.shapes.map((shape) => moveShape(shape, shift, 0));
    return { ...drawing, widthPoints: widest, shapes };
  });
}
