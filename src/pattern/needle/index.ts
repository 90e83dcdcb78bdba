/**
 * The needle as other rooms see it: works every piece of a pattern in every size, in the order of the
 * pieces, and gives what was worked with what did not follow. Held stitches pass from piece to piece.
 */
import type { Finding } from '../../findings/finding.ts';
import { present } from '../../base/assert.ts';
import type { FabricMove, FabricRow, Pattern, Piece, PieceTrace } from '../pattern.ts';
import { envOf, type Shelf, shelfOf } from './build.ts';
import type { Env } from './env.ts';
import { correct } from './corrections.ts';
import { gatherFindings, type PieceRuns } from './gather.ts';
import { type Group, groupsOf, type LineRun, workPiece } from './piece.ts';
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
  const findings = worked.flatMap((piece) => gatherFindings(pattern, piece, piece.fixes));
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
  /** Corrections in words, by group of lines. */
  readonly fixes: ReadonlyMap<number, string>;
  /** What is on hold before and after the piece, by size. */
  readonly start: readonly ReadonlyMap<string, Held>[];
  readonly holders: readonly ReadonlyMap<string, Held>[];
}

function workOne(
  shelf: Shelf,
  index: number,
  start: readonly ReadonlyMap<string, Held>[],
): WorkedPiece {
  const piece = present(shelf.pattern.pieces[index], 'a piece of the pattern');
  const env = envOf(shelf, piece);
  const groups = groupsOf(env.lines);
  const first = workSizes(shelf, start, groups, () => env);
  const { runs, fixes } = correct({ env, groups, runs: first, start });
  const holders = runs.map((each, size) => each.at(-1)?.after.holders ?? start[size] ?? new Map());
  const lines = tracesOf(piece, groups, runs);
  const trace = withFabric({ piece, lines }, () => recordFabric(shelf, piece, start));
  return { piece, groups, runs, fixes, trace, start, holders };
}

function workSizes(
  shelf: Shelf,
  start: readonly ReadonlyMap<string, Held>[],
  groups: readonly Group[],
  envFor: (size: number) => Env,
): readonly (readonly LineRun[])[] {
  return shelf.pattern.sizes.map((_, size) => {
    const env = envFor(size);
    const state = startState(env.form, env.firstSide, start[size] ?? new Map<string, Held>());
    return workPiece(env, groups, size, state);
  });
}

type Fabric = Pick<PieceTrace, 'fabric' | 'moves'>;

/**
 * Rows for outlines are asked for by few rooms and make most of the work, so that the piece is worked
 * a second time, with somebody listening, when they are first asked for.
 */
function withFabric(worked: Pick<PieceTrace, 'piece' | 'lines'>, record: () => Fabric): PieceTrace {
  let recorded: Fabric | undefined;
  const told = (): Fabric => (recorded ??= record());
  return {
    ...worked,
    get fabric() {
      return told().fabric;
    },
    get moves() {
      return told().moves;
    },
  };
}

function recordFabric(
  shelf: Shelf,
  piece: Piece,
  start: readonly ReadonlyMap<string, Held>[],
): Fabric {
  const fabric: FabricRow[][] = shelf.pattern.sizes.map(() => []);
  const moves: FabricMove[][] = shelf.pattern.sizes.map(() => []);
  const groups = groupsOf(piece.sections.flatMap((section) => section.lines));
  workSizes(shelf, start, groups, (size) =>
    envOf(shelf, piece, recorderOf(fabric[size] ?? [], moves[size] ?? [])),
  );
  return { fabric, moves };
}
