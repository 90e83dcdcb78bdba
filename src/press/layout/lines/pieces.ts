/**
 * Flat text cut into shaped pieces: words, spaces and drawings that each have one look, one direction
 * and no place inside where a line may end. Words are the unit of shaping because the measuring
 * interface keeps them. Gives widths in points; knows no measure of a line.
 */
import type { Run } from '../../fonts/face.ts';
import type { Setting } from '../setting.ts';
import { embeddingLevels } from './direction.ts';
import { DRAWING_PLACE, FORCED_BREAK, type FlatText, type Stretch } from './flat-text.ts';
import { closeSigns } from './square-signs.ts';
import { breakOpportunities, type Opportunities } from './opportunities.ts';

export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly kind: 'word' | 'space' | 'drawing' | 'break';
  readonly stretch: Stretch;
  readonly level: number;
  readonly runs: readonly Run[];
  readonly width: number;
}

/** A paragraph measured once; lines of any measure are set from it. */
export interface Prepared {
  readonly flat: FlatText;
  readonly pieces: readonly Piece[];
  readonly opportunities: Opportunities;
}

export const isSpace = (character: string): boolean => character === ' ' || character === '\u00a0';

export function shapedWidth(runs: readonly Run[], size: number): number {
  return (runs.reduce((sum, run) => sum + run.width, 0) * size) / 1000;
}

/** Sorted positions where a piece must end. */
function cuts(flat: FlatText, levels: Uint8Array, { usual, spare }: Opportunities): number[] {
  const at = new Set<number>([...usual.map(({ position }) => position), ...spare]);
  for (const { start, end } of flat.stretches) at.add(start).add(end);
  for (let index = 0; index < flat.text.length; index++) {
    const here = flat.text[index] as string;
    if (here === FORCED_BREAK || here === DRAWING_PLACE) at.add(index).add(index + 1);
    const before = flat.text[index - 1];
    if (before === undefined) continue;
    if (levels[index] !== levels[index - 1] || isSpace(here) !== isSpace(before)) at.add(index);
  }
  at.delete(0);
  at.add(flat.text.length);
  return [...at].sort((a, b) => a - b);
}

function kindOf(text: string): Piece['kind'] {
  if (text === FORCED_BREAK) return 'break';
  if (text === DRAWING_PLACE) return 'drawing';
  return isSpace(text[0] ?? '') ? 'space' : 'word';
}

/** Cuts and shapes a flat text. */
export function prepare(flat: FlatText, setting: Setting): Prepared {
  if (flat.text === '') return { flat, pieces: [], opportunities: { usual: [], spare: [] } };
  const levels = embeddingLevels(flat);
  const opportunities = breakOpportunities(flat);
  const pieces: Piece[] = [];
  let start = 0;
  let at = 0;
  for (const end of cuts(flat, levels, opportunities)) {
    while (at + 1 < flat.stretches.length && (flat.stretches[at] as Stretch).end <= start) at++;
    const stretch = flat.stretches[at] as Stretch;
    const text = flat.text.slice(start, end);
    const kind = kindOf(text);
    const level = levels[start] ?? 0;
    const shaped = kind === 'word' || kind === 'space';
    const runs = shaped ? setting.fonts.shape(text, stretch.style, level) : [];
    const width =
      kind === 'drawing' ? (stretch.drawing?.widthPoints ?? 0) : shapedWidth(runs, stretch.size);
    pieces.push({ start, end, kind, stretch, level, runs, width });
    start = end;
  }
  return { flat, pieces: closeSigns(pieces, flat.text), opportunities };
}

/** Width of the first `length` UTF-16 units of a piece, from its clusters. */
export function widthUpTo(piece: Piece, length: number): number {
  if (length <= 0) return 0;
  if (length >= piece.end - piece.start) return piece.width;
  let seen = 0;
  let advance = 0;
  for (const run of piece.runs) {
    for (const glyph of run.glyphs) {
      if (seen >= length && glyph.text !== '') return (advance * piece.stretch.size) / 1000;
      const inside = Math.min(1, (length - seen) / Math.max(1, glyph.text.length));
      advance += glyph.text === '' ? glyph.advance : glyph.advance * inside;
      seen += glyph.text.length;
    }
  }
  return (advance * piece.stretch.size) / 1000;
}

/** The same paragraph in smaller type, without shaping it again. */
export function scaled(prepared: Prepared, scale: number): Prepared {
  if (scale === 1) return prepared;
  const made = new Map<Stretch, Stretch>();
  const smaller = (stretch: Stretch): Stretch => {
    const known = made.get(stretch) ?? { ...stretch, size: stretch.size * scale };
    made.set(stretch, known);
    return known;
  };
  const { flat, pieces, opportunities } = prepared;
  return {
    flat: { ...flat, stretches: flat.stretches.map(smaller) },
    pieces: pieces.map((piece) => ({
      ...piece,
      stretch: smaller(piece.stretch),
      width: piece.width * scale,
    })),
    opportunities,
  };
}
