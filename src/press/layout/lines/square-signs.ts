/**
 * Signs of Japanese and Chinese that fill a square with half of it blank: brackets, commas, full stops.
 * Two of them in a row share one blank, and at the edge of a line the blank stands outside, so that the
 * edge is where the ink is (W3C, Requirements for Japanese Text Layout, 3.1.4 to 3.1.6).
 */
import type { Glyph, Run } from '../../fonts/face.ts';
import type { Piece } from './pieces.ts';

const OPENING = '「『（［｛〈《【〔〖';
const CLOSING = '」』）］｝〉》】〕〗、。，．';
const PAIRS = new RegExp(`[${CLOSING}][${CLOSING}${OPENING}]|[${OPENING}][${OPENING}]`, 'u');
/** A sign this wide fills its square, in thousandths of an em. */
const SQUARE = 990;
const HALF = 500;

const SIGNS = new RegExp(`[${OPENING}${CLOSING}]`, 'u');

export const hasSquareSigns = (text: string): boolean => SIGNS.test(text);

const isIn = (signs: string, character: string | undefined): boolean =>
  character !== undefined && character !== '' && signs.includes(character);

/**
 * Blank half of a closing sign at the end of a line, in points; 0 for anything else. Only at level 0 is
 * the last sign of a line also the last that is seen.
 */
export function blankAtEnd(piece: Piece | undefined): number {
  if (piece === undefined || piece.level !== 0) return 0;
  const glyph = piece.runs.at(-1)?.glyphs.at(-1);
  if (glyph === undefined || glyph.advance < SQUARE) return 0;
  return isIn(CLOSING, glyph.text) ? (HALF * piece.stretch.size) / 1000 : 0;
}

/** Blank half of an opening sign at the start of a line, in points. */
export function blankAtStart(piece: Piece | undefined): number {
  if (piece === undefined || piece.level !== 0) return 0;
  const glyph = piece.runs[0]?.glyphs[0];
  if (glyph === undefined) return 0;
  return isIn(OPENING, glyph.text) ? (HALF * piece.stretch.size) / 1000 : 0;
}

/** Pieces in which signs that follow each other stand closer. */
export function closeSigns(pieces: readonly Piece[], text: string): readonly Piece[] {
  if (!PAIRS.test(text)) return pieces;
  return pieces.map((piece, index) => {
    const next = pieces[index + 1]?.runs[0]?.glyphs[0]?.text;
    const runs = piece.runs.map((run, at) => {
      const after = at + 1 < piece.runs.length ? piece.runs[at + 1]?.glyphs[0]?.text : next;
      return closedRun(run, after);
    });
    if (runs.every((run, at) => run === piece.runs[at])) return piece;
    const width = runs.reduce((sum, run) => sum + run.width, 0);
    return { ...piece, runs, width: (width * piece.stretch.size) / 1000 };
  });
}

function closedRun(run: Run, after: string | undefined): Run {
  let changed = false;
  const glyphs = run.glyphs.map((glyph, index): Glyph => {
    const next = index + 1 < run.glyphs.length ? run.glyphs[index + 1]?.text : after;
    if (glyph.advance < SQUARE || !sharesBlank(glyph.text, next)) return glyph;
    changed = true;
    return { ...glyph, advance: glyph.advance - HALF };
  });
  if (!changed) return run;
  return { ...run, glyphs, width: glyphs.reduce((sum, { advance }) => sum + advance, 0) };
}

function sharesBlank(first: string, second: string | undefined): boolean {
  if (isIn(CLOSING, first)) return isIn(CLOSING, second) || isIn(OPENING, second);
  return isIn(OPENING, first) && isIn(OPENING, second);
}
