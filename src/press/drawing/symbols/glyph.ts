/**
 * A chart symbol before it has a size: strokes and filled forms on a cell one unit wide and one unit
 * high (`columns` units wide where it covers several), y down. `inkGlyph` brings it to points. One
 * stroke weight for all symbols keeps a chart even and legible down to cells of 3 mm.
 */
import type { PathStep, Shape, Stroke } from '../drawing.ts';
import { movePath } from '../path.ts';

export type GlyphPaint = 'stroke' | 'fill' | 'fine'; // a stroke of half the weight

export interface GlyphPart {
  readonly steps: readonly PathStep[];
  readonly paint: GlyphPaint;
}

export type Glyph = readonly GlyphPart[];

export interface CellSize {
  readonly widthPoints: number;
  readonly heightPoints: number;
}

/** Share of the cell height that a stroke is wide: 0.8 pt in a cell of 3 mm. */
const STROKE_SHARE = 0.092;

export const stroke = (...steps: readonly PathStep[]): GlyphPart => ({ steps, paint: 'stroke' });
export const fine = (...steps: readonly PathStep[]): GlyphPart => ({ steps, paint: 'fine' });
export const fill = (...steps: readonly PathStep[]): GlyphPart => ({ steps, paint: 'fill' });

/** The symbol seen in a mirror, for stitches that differ by their lean only. */
export function mirrored(glyph: Glyph, columns = 1): Glyph {
  return glyph.map((part) => ({
    ...part,
    steps: movePath(part.steps, ([x, y]) => [columns - x, y]),
  }));
}

/** The symbol made smaller about a point of the cell. */
export function shrunk(glyph: Glyph, share: number, x: number, y: number): Glyph {
  return glyph.map((part) => ({
    ...part,
    steps: movePath(part.steps, ([px, py]) => [x + (px - 0.5) * share, y + (py - 0.5) * share]),
  }));
}

/** A symbol of `from` columns set into `to` columns: centred in more, pressed into fewer. */
export function fitted(glyph: Glyph, from: number, to: number): Glyph {
  if (from === to) return glyph;
  const place = (x: number) => (from < to ? x + (to - from) / 2 : (x * to) / from);
  return glyph.map((part) => ({
    ...part,
    steps: movePath(part.steps, ([x, y]) => [place(x), y]),
  }));
}

/** The symbol in points, its cell's top left corner at the origin. */
export function inkGlyph(glyph: Glyph, cell: CellSize, ink: string): Shape[] {
  const weight = Math.min(cell.widthPoints, cell.heightPoints) * STROKE_SHARE;
  return glyph.map((part): Shape => {
    const steps = movePath(part.steps, ([x, y]) => [x * cell.widthPoints, y * cell.heightPoints]);
    if (part.paint === 'fill') return { kind: 'path', steps, fill: ink };
    const line: Stroke = {
      widthPoints: part.paint === 'fine' ? weight / 2 : weight,
      colour: ink,
      cap: 'round',
      join: 'round',
    };
    return { kind: 'path', steps, stroke: line };
  });
}
