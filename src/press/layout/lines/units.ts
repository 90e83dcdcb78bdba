/**
 * The parts of one line in the order of the text: whole shaped pieces where a line holds them whole,
 * pieces shaped anew where it ends inside them, the hyphen it ends with, and the space that is lost at
 * its end (kept as a mark of no ink, so that a reader of the file finds the words apart).
 */
import type { Drawing } from '../../drawing/drawing.ts';
import type { Run } from '../../fonts/face.ts';
import type { Setting } from '../setting.ts';
import { type Atom, hyphenShape } from './atoms.ts';
import type { Stretch } from './flat-text.ts';
import { type Piece, type Prepared } from './pieces.ts';

export interface Unit {
  readonly kind: 'word' | 'space' | 'trailing' | 'drawing';
  readonly stretch: Stretch;
  readonly level: number;
  readonly run: Run | undefined;
  readonly drawing: Drawing | undefined;
  readonly width: number;
  /** Position in the text where the unit ends. */
  readonly end: number;
}

const SOFT_HYPHEN = '\u00ad';

/** Units of the line that holds the atoms `from` up to `to`. */
export function unitsOf(
  prepared: Prepared,
  atoms: readonly Atom[],
  from: number,
  to: number,
  setting: Setting,
): Unit[] {
  const first = atoms[from] as Atom;
  const last = atoms[to - 1] as Atom;
  const next = atoms[to]?.start ?? prepared.flat.text.length;
  const base = prepared.flat.direction === 'rtl' ? 1 : 0;
  const units: Unit[] = [];
  for (let index = firstPiece(prepared.pieces, first.start); ; index++) {
    const piece = prepared.pieces[index];
    if (piece === undefined || piece.start >= next) break;
    const start = Math.max(piece.start, first.start);
    const end = Math.min(piece.end, piece.start >= last.end ? next : last.end);
    if (end > start) units.push(...unitsOfPiece(prepared, piece, start, end, setting));
  }
  const seen = units.map((unit) =>
    unit.end > last.end ? { ...unit, kind: 'trailing' as const, level: base } : unit,
  );
  if (last.hyphen !== 'added') return seen;
  const before = seen.findLast(({ kind }) => kind === 'word');
  return before === undefined ? seen : [...seen, ...hyphenAfter(before, setting)];
}

function firstPiece(pieces: readonly Piece[], position: number): number {
  let low = 0;
  let high = pieces.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((pieces[middle] as Piece).end <= position) low = middle + 1;
    else high = middle;
  }
  return low;
}

function unitsOfPiece(
  { flat }: Prepared,
  piece: Piece,
  start: number,
  end: number,
  setting: Setting,
): Unit[] {
  const { stretch, level, kind } = piece;
  if (kind === 'break') return [breakSpace(stretch, level, end, setting)];
  const whole = start === piece.start && end === piece.end;
  const { drawing } = stretch;
  if (kind === 'drawing') {
    return [{ kind, stretch, level, run: undefined, drawing, width: piece.width, end }];
  }
  const runs = whole
    ? piece.runs
    : setting.measuring.shape(flat.text.slice(start, end), stretch.style, level).runs;
  return runs.map((run) => {
    const width = (run.width * stretch.size) / 1000;
    return { kind, stretch, level, run, drawing: undefined, width, end };
  });
}

/** A line that the document ends is read with a space behind it, like any other line's end. */
function breakSpace(stretch: Stretch, level: number, end: number, setting: Setting): Unit {
  const [run] = setting.measuring.shape(' ', stretch.style, level).runs;
  return { kind: 'trailing', stretch, level, run, drawing: undefined, width: 0, end };
}

/** The hyphen is read as a soft one: whoever takes the text out again must not find it there. */
function hyphenAfter(unit: Unit, setting: Setting): Unit[] {
  const { stretch, level, end } = unit;
  return hyphenShape(stretch, setting, level).runs.map((run) => ({
    ...unit,
    kind: 'word',
    end,
    run: {
      ...run,
      text: SOFT_HYPHEN,
      glyphs: run.glyphs.map((glyph) => ({ ...glyph, text: SOFT_HYPHEN })),
    },
    width: (run.width * stretch.size) / 1000,
  }));
}
