/**
 * The needle as other rooms see it: works every piece of a pattern in every size, in the order of the
 * pieces, and gives what was worked with what did not follow. Held stitches pass from piece to piece.
 */
import type { Finding } from '../../findings/finding.ts';
import type { FabricRow, LineTrace, Outcome, Pattern, PieceTrace } from '../pattern.ts';
import { envOf, type Shelf, shelfOf } from './build.ts';
import { findFix } from './fixes.ts';
import { gatherFindings, type PieceRuns } from './gather.ts';
import { groupsOf, isHard, type LineRun, workPiece } from './piece.ts';
import { type Held, startState, stitchesOn } from './state.ts';

export interface WorkedPattern {
  readonly pieces: readonly PieceTrace[];
  readonly findings: readonly Finding[];
}

export function workPattern(pattern: Pattern): WorkedPattern {
  const shelf = shelfOf(pattern);
  let holders: readonly ReadonlyMap<string, Held>[] = pattern.sizes.map(() => new Map());
  const pieces: PieceTrace[] = [];
  const findings: Finding[] = [];
  for (const [index] of pattern.pieces.entries()) {
    const worked = workOne(shelf, index, holders);
    holders = worked.holders;
    pieces.push(worked.trace);
    const fix = findFix(shelf, worked);
    findings.push(...gatherFindings(pattern, worked, fix));
  }
  return { pieces, findings };
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
  const runs = pattern.sizes.map((_, size) => {
    const rows: FabricRow[] = [];
    fabric.push(rows);
    const env = envOf(shelf, piece, (row, times) => {
      for (let each = 0; each < times; each += 1) rows.push({ ...row, row: row.row + each });
    });
    const groups = groupsOf(env.lines);
    const state = startState(env.form, env.firstSide, start[size] ?? new Map<string, Held>());
    return workPiece(env, groups, size, state);
  });
  const groups = groupsOf(piece.sections.flatMap((section) => section.lines));
  const holders = runs.map((each, size) => each.at(-1)?.after.holders ?? start[size] ?? new Map());
  const trace: PieceTrace = { piece, lines: tracesOf(piece, groups, runs), fabric };
  return { piece, groups, runs, trace, start, holders };
}

function tracesOf(
  piece: PieceTrace['piece'],
  groups: PieceRuns['groups'],
  runs: PieceRuns['runs'],
): readonly LineTrace[] {
  const lines = piece.sections.flatMap((section) => section.lines);
  const groupOf = new Map(
    groups.flatMap(({ first, followers }, at) => [first, ...followers].map((line) => [line, at])),
  );
  const doubts = runs.map(doubtsOf);
  return lines.map((line, index) => {
    const at = groupOf.get(index) ?? 0;
    const leads = groups[at]?.first === index;
    const outcomes = runs.map((each, size) => {
      const run = each[at];
      const before = at === 0 ? 0 : (each[at - 1]?.after.inches ?? 0);
      if (!run) return NOTHING;
      const outcome = outcomeOf(run, leads, before);
      return doubts[size]?.[at] ? { ...outcome, doubtful: true } : outcome;
    });
    return { line, outcomes };
  });
}

/**
 * Lines whose count a later problem calls in question: back to the last count that was stated and
 * agreed. Where the stated number itself is the slip, the lines before it stand.
 */
function doubtsOf(runs: readonly LineRun[]): readonly boolean[] {
  const doubts = runs.map(() => false);
  let doubt = false;
  for (let at = runs.length - 1; at >= 0; at -= 1) {
    const run = runs[at];
    if (!run) continue;
    const hard = run.problems.some(isHard);
    if (hard) {
      const onlyStated = run.verdict?.from === 'worked' && !run.result.failed;
      doubt = !(onlyStated && run.verdict?.otherFailsAt !== undefined);
      doubts[at] = doubt;
    } else {
      if (run.result.stated !== undefined && !run.result.skipped) doubt = false;
      doubts[at] = doubt;
    }
  }
  return doubts;
}

const NOTHING: Outcome = {
  before: 0,
  after: 0,
  rows: 0,
  lengthInches: 0,
  rowAfter: 0,
  skipped: true,
  failed: true,
};

/** A line worked together with the one before it has no rows of its own. */
function outcomeOf({ result, after }: LineRun, leads: boolean, inchesBefore: number): Outcome {
  const { state } = result;
  const patternRow = [...state.fabricRows.values()].find((each) => each.row === state.row);
  // A cast-on begins a new length; what was worked before it is not undone.
  const grown = state.inches - (state.row < result.rows ? 0 : inchesBefore);
  return {
    before: leads ? result.before : stitchesOn(after),
    after: stitchesOn(after),
    rows: leads ? result.rows : 0,
    lengthInches: leads && result.rows > 0 ? Math.max(0, grown) : 0,
    rowAfter: state.row,
    ...(patternRow && { patternRow: patternRow.patternRow }),
    skipped: result.skipped,
    failed: result.failed,
  };
}
