/**
 * One line of text in a drawing: shaped, put in order where directions mix, and hung on its anchor. The
 * runs come in the order of the text, each with its own place, as everywhere in this room.
 */
import type { Shape } from '../drawing/drawing.ts';
import type { Fonts, Run, TextStyle } from '../fonts/face.ts';
import { directionOf, embeddingLevels, visualOrder } from '../layout/lines/direction.ts';
import type { PlacedRun } from './text-lines.ts';

export type TextShape = Extract<Shape, { kind: 'text' }>;

const BLACK = '#000000';

export function placeText(shape: TextShape, language: string, fonts: Fonts): readonly PlacedRun[] {
  const { sizePoints, y, colour = BLACK } = shape;
  const parts = shapeParts(shape, language, fonts);
  const width = parts.reduce((sum, { run }) => sum + run.width, 0);
  let x = shape.x - (width * sizePoints * share(shape.anchor)) / 1000;
  const starts = parts.map(() => 0);
  for (const part of visualOrder(parts.map(({ level }) => level))) {
    starts[part] = x;
    x += ((parts[part]?.run.width ?? 0) * sizePoints) / 1000;
  }
  return parts.map(({ run }, part) => ({ run, x: starts[part] ?? x, y, sizePoints, colour }));
}

function share(anchor: TextShape['anchor']): number {
  return { start: 0, middle: 0.5, end: 1 }[anchor];
}

/** Runs of one embedding level each, in order of the text. */
function shapeParts(
  { text, weight }: TextShape,
  language: string,
  fonts: Fonts,
): readonly { readonly run: Run; readonly level: number }[] {
  const style: TextStyle = { family: 'text', weight, italic: false, language };
  const direction = directionOf(language);
  const plain = { stretches: [], unbroken: [], isolates: [] };
  const levels = embeddingLevels({ ...plain, text, direction, language });
  const parts: { run: Run; level: number }[] = [];
  let start = 0;
  for (let end = 1; end <= text.length; end++) {
    if (end < text.length && levels[end] === levels[start]) continue;
    const level = levels[start] ?? 0;
    const runs = fonts.shape(text.slice(start, end), style, level);
    parts.push(...runs.map((run) => ({ run, level })));
    start = end;
  }
  return parts;
}
