/**
 * The needle as other rooms see it: works every piece of a pattern in every size, in the order of the
 * pieces, and gives what was worked with what did not follow. Held stitches pass from piece to piece.
 */
import type { Finding } from '../../findings/finding.ts';
import type { FabricMove, FabricRow, Pattern, PieceTrace } from '../pattern.ts';
import { envOf, type Shelf, shelfOf } from './build.ts';
import { findFix } from './fixes.ts';
import { gatherFindings, type PieceRuns } from './gather.ts';
import { groupsOf, workPiece } from './piece.ts';
import { recorderOf } from './recording.ts';
import { type Held, startState } from './state.ts';
import { tracesOf } from './trace.ts';

export interface WorkedPattern {
  readonly pieces: readonly PieceTrace[];
  readonly findings: readonly Finding[];
}

export function workPattern(pattern: Pattern): WorkedPattern {
  const shelf = shelfOf(pattern);
  const worked = workPieces(shelf);
  const findings = worked.flatMap((piece) => gatherFindings(pattern, piece, findFix(shelf, piece)));
  return { pieces: worked.map(({ trace }) => trace), findings };
}

/** All pieces in order, each with what earlier ones left on hold. */
export function workPieces(shelf: Shelf): readonly WorkedPiece[] {
  const { pattern } = shelf;
  let holders: readonly ReadonlyMap<string, Held>[] = pattern.sizes.map(() => new Map());
  return pattern.pieces.map((_, index) => {
    const worked = workOne(shelf, index, holders);
    holders = worked.holders;
    return worked;
  });
}

export interface WorkedPiece extends PieceRuns {
  readonly trace: PieceTrace;
  /** What is on hold before and after the piece, by size. */
  readonly start: readonly ReadonlyMap<string, Held>[];
  readonly holders: readonly ReadonlyMap<string, Held>[];
}

function workOne(
  shelf: Shelf,
  index: number,
  start: readonly ReadonlyMap<string, Held>[],
): WorkedPiece {
  const { pattern } = shelf;
  const piece = pattern.pieces[index] as PieceTrace['piece'];
  const fabric: FabricRow[][] = [];
  const moves: FabricMove[][] = [];
  const runs = pattern.sizes.map((_, size) => {
    const rows: FabricRow[] = [];
    const moved: FabricMove[] = [];
    fabric.push(rows);
    moves.push(moved);
    const env = envOf(shelf, piece, recorderOf(rows, moved));
    const groups = groupsOf(env.lines);
    const state = startState(env.form, env.firstSide, start[size] ?? new Map<string, Held>());
    return workPiece(env, groups, size, state);
  });
  const groups = groupsOf(piece.sections.flatMap((section) => section.lines));
  const holders = runs.map((each, size) => each.at(-1)?.after.holders ?? start[size] ?? new Map());
  const trace: PieceTrace = { piece, lines: tracesOf(piece, groups, runs), fabric, moves };
  return { piece, groups, runs, trace, start, holders };
}
