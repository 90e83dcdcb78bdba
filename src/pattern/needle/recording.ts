/**
 * What the needle tells of a row for outlines: where its markers stand, what a short row worked, and
 * where stitches joined or left. The order of working is turned into places seen from the right side:
 * stitches to the right of them. Counts are not touched here.
 */
import type { Side } from '../notation/ast.ts';
import type { FabricMove, FabricRow } from '../pattern.ts';
import type { Recorder } from './env.ts';
import type { Work } from './row.ts';
import { type State, stitchesOn } from './state.ts';
import { countStitches, isMark, ROUND_START, type Strand } from './strands.ts';

/** Stitches to the right of each marker; the beginning of the round is the edge itself. */
export function marksOn(
  right: readonly Strand[],
  left: readonly Strand[],
  side: Side,
): readonly number[] {
  if (!right.some(isMark) && !left.some(isMark)) return NO_MARKS;
  const marks: number[] = [];
  let passed = 0;
  for (const strand of [...right, ...left.toReversed()]) {
    if (typeof strand === 'number') passed += strand;
    else if (strand.kind === 'marker' && strand.name !== ROUND_START.name) marks.push(passed);
  }
  return side === 'RS' ? marks : marks.map((mark) => passed - mark).reverse();
}

const NO_MARKS: readonly number[] = [];

/** The stitches a row worked, where some lie behind an earlier turn or were left. */
export function shortOf(
  { needles, behind, side }: Work,
  stitches: number,
): { from: number; to: number } | undefined {
  const left = countStitches(needles.left);
  const before = countStitches(needles.right.slice(0, behind));
  if (left === 0 && before === 0) return undefined;
  return side === 'RS'
    ? { from: before, to: stitches - left }
    : { from: left, to: stitches - before };
}

/** Notes that the next stitches in the order of working join or leave; told when the row ends. */
export function noteMove(
  work: Work,
  move: Pick<FabricMove, 'kind' | 'count' | 'holder' | 'from'>,
): void {
  if (!work.env.record || move.count === 0) return;
  const offset = JOINS.has(move.kind)
    ? countStitches(work.needles.right)
    : work.taken - work.added + countStitches(work.needles.right.slice(0, work.behind));
  work.moves.push({ ...move, offset: Math.max(0, offset) });
}

const JOINS = new Set<FabricMove['kind']>(['castOn', 'pickUp', 'resume']);

/** The moves of a row that has ended, seen from the right side. */
export function movesOf({
  moves,
  needles,
  side,
  atStart,
  added,
}: Work): readonly Omit<FabricMove, 'after'>[] {
  const now = countStitches(needles.left) + countStitches(needles.right);
  return moves.map(({ offset, ...move }) => {
    const total = JOINS.has(move.kind) ? now : atStart - added;
    const at = side === 'RS' ? offset : total - offset - move.count;
    return { ...move, inRow: true, at: Math.max(0, at) };
  });
}

/** Stitches that join or leave between two rows: `state` is before the move. */
export function tellMove(
  record: Recorder | undefined,
  state: State,
  move: Pick<FabricMove, 'kind' | 'count' | 'holder' | 'from'>,
): void {
  if (!record || move.count === 0) return;
  const offset = countStitches(state.right);
  const total = stitchesOn(state) + (JOINS.has(move.kind) ? move.count : 0);
  const at = state.side === 'RS' ? offset : Math.max(0, total - offset - move.count);
  record.move({ ...move, inRow: false, at });
}

/**
 * Keeps what is told. Rows that are taken back (a repeat stepped over its count and stopped earlier)
 * are worked again under the same numbers, and then replaced.
 */
export function recorderOf(rows: FabricRow[], moves: FabricMove[]): Recorder {
  let begun = rows.length;
  return {
    row(row, times) {
      while (rows.length > begun && (rows.at(-1)?.row ?? 0) >= row.row) rows.pop();
      for (let each = 0; each < times; each += 1) rows.push({ ...row, row: row.row + each });
    },
    move(move) {
      if (!move.inRow && JOINS.has(move.kind)) begun = rows.length;
      moves.push({ ...move, after: rows.length });
    },
  };
}
