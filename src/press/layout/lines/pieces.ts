/**
 * Flat text cut into shaped pieces: words, spaces and drawings that each have one look, one direction
 * and no place inside where a line may end. Words are the unit of shaping because the measuring
 * interface keeps them. Gives widths in points; knows no measure of a line.
 */
import type { Run } from '../../fonts/face.ts';
import type { Setting } from '../setting.ts';
import { embeddingLevels } from './direction.ts';
import { DRAWING_PLACE, FORCED_BREAK, type FlatText, type Stretch } from './flat-text.ts';
import type { Shaped } from './measuring.ts';
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

const isSpaceCode = (code: number): boolean => code === 0x20 || code === 0xa0;
const FORCED_CODE = FORCED_BREAK.charCodeAt(0);
const DRAWING_CODE = DRAWING_PLACE.charCodeAt(0);

/** For each position whether a piece ends there. */
function endsOf(flat: FlatText, levels: Uint8Array, { usual, spare }: Opportunities): Uint8Array {
  const { text, stretches } = flat;
  const ends = new Uint8Array(text.length + 1);
  for (const { position } of usual) ends[position] = 1;
  for (const position of spare) ends[position] = 1;
  for (const { start, end } of stretches) ends[start] = ends[end] = 1;
  let before = text.charCodeAt(0);
  for (let index = 0; index < text.length; index++) {
    const here = text.charCodeAt(index);
    if (here === FORCED_CODE || here === DRAWING_CODE) ends[index] = ends[index + 1] = 1;
    if (index > 0 && levels[index] !== levels[index - 1]) ends[index] = 1;
    if (isSpaceCode(here) !== isSpaceCode(before)) ends[index] = 1;
    before = here;
  }
  ends[text.length] = 1;
  return ends;
}

function kindOf(code: number): Piece['kind'] {
  if (code === FORCED_CODE) return 'break';
  if (code === DRAWING_CODE) return 'drawing';
  return isSpaceCode(code) ? 'space' : 'word';
}

const NOTHING: Shaped = { runs: [], width: 0 };

/** Cuts and shapes a flat text. */
export function prepare(flat: FlatText, setting: Setting): Prepared {
  if (flat.text === '') return { flat, pieces: [], opportunities: { usual: [], spare: [] } };
  const levels = embeddingLevels(flat);
  const opportunities = breakOpportunities(flat);
  const ends = endsOf(flat, levels, opportunities);
  const pieces: Piece[] = [];
  let start = 0;
  let at = 0;
  for (let end = 1; end <= flat.text.length; end++) {
    if (ends[end] === 0) continue;
    while (at + 1 < flat.stretches.length && (flat.stretches[at] as Stretch).end <= start) at++;
    const stretch = flat.stretches[at] as Stretch;
    const kind = kindOf(flat.text.charCodeAt(start));
    const level = levels[start] ?? 0;
    const { runs, width } =
      kind === 'word' || kind === 'space'
        ? setting.measuring.shape(flat.text.slice(start, end), stretch.style, level)
        : NOTHING;
    const points =
      kind === 'drawing' ? (stretch.drawing?.widthPoints ?? 0) : (width * stretch.size) / 1000;
    pieces.push({ start, end, kind, stretch, level, runs, width: points });
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
