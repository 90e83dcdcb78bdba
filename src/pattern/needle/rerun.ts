/**
 * Works a pattern again with one line changed, in one size, from where that line stands: everything
 * before it is taken from the first run, and pieces after it are worked again only where they take up
 * stitches that are now others. Thousands of variants are tried this way.
 */
import { present } from '../../base/assert.ts';
import type { Line } from '../notation/ast.ts';
import type { Outcome, Pattern } from '../pattern.ts';
import { envOf, type Shelf, shelfOf } from './build.ts';
import type { Env } from './env.ts';
import { workPieces, type WorkedPiece } from './index.ts';
import { type LineRun, workGroup } from './piece.ts';
import { type Held, startState, type State } from './state.ts';
import { sameStrands } from './strands.ts';
import { outcomeOf } from './trace.ts';

export interface Baseline {
  readonly shelf: Shelf;
  readonly pieces: readonly WorkedPiece[];
  readonly envs: readonly Env[];
}

export function baselineOf(pattern: Pattern): Baseline {
  const shelf = shelfOf(pattern);
  const pieces = workPieces(shelf);
  return { shelf, pieces, envs: pieces.map(({ piece }) => envOf(shelf, piece)) };
}

/** What a changed line does in one size. */
export interface Rerun {
  /** A problem the first run does not have: the change is noticed by the needle. */
  readonly noticed: boolean;
  /** Outcomes that are others now; the rest is as in the first run. */
  outcome(piece: number, line: number): Outcome | undefined;
}

const NOTICED: Rerun = { noticed: true, outcome: () => undefined };

/** `line`: index of the line in its piece. */
export function rerun(
  baseline: Baseline,
  piece: number,
  line: number,
  changed: Line,
  size: number,
): Rerun {
  const env = present(baseline.envs[piece], 'a piece of the pattern');
  const lines = env.lines.map((written, at) =>
    at === line ? { ...written, line: changed } : written,
  );
  const outcomes = new Map<number, ReadonlyMap<number, Outcome>>();
  const first = runFrom(
    baseline,
    piece,
    { ...env, lines },
    size,
    groupOfLine(baseline, piece, line),
  );
  if (!first) return NOTICED;
  outcomes.set(piece, first.outcomes);
  let { holders } = first;
  for (let next = piece + 1; next < baseline.pieces.length; next += 1) {
    const start = baseline.pieces[next]?.start[size];
    if (start && sameHolders(start, holders)) break;
    const run = runFrom(baseline, next, present(baseline.envs[next], 'a piece'), size, 0, holders);
    if (!run) return NOTICED;
    outcomes.set(next, run.outcomes);
    holders = run.holders;
  }
  return { noticed: false, outcome: (at, index) => outcomes.get(at)?.get(index) };
}

function groupOfLine({ pieces }: Baseline, piece: number, line: number): number {
  const groups = pieces[piece]?.groups ?? [];
  return groups.findIndex(({ first, followers }) => first === line || followers.includes(line));
}

interface PartRun {
  readonly outcomes: ReadonlyMap<number, Outcome>;
  readonly holders: ReadonlyMap<string, Held>;
}

/** Works a piece from a group on; undefined as soon as a problem turns up that was not there before. */
function runFrom(
  baseline: Baseline,
  piece: number,
  env: Env,
  size: number,
  from: number,
  holders?: ReadonlyMap<string, Held>,
): PartRun | undefined {
  const worked = present(baseline.pieces[piece], 'a piece of the pattern');
  const runs = worked.runs[size] ?? [];
  let state: State =
    (from > 0 ? runs[from - 1]?.after : undefined) ??
    startState(env.form, env.firstSide, holders ?? worked.start[size] ?? new Map());
  const outcomes = new Map<number, Outcome>();
  for (let at = from; at < worked.groups.length; at += 1) {
    const group = present(worked.groups[at], 'a group of lines');
    const result = workGroup(state, group, env, size);
    if (result.problems.length > (runs[at]?.problems.length ?? 0)) return undefined;
    const run: LineRun = { result, after: result.state, problems: [], unsure: false };
    const inches = state.inches;
    outcomes.set(group.first, outcomeOf(run, true, inches));
    for (const line of group.followers) outcomes.set(line, outcomeOf(run, false, inches));
    state = result.state;
  }
  return { outcomes, holders: state.holders };
}

function sameHolders(one: ReadonlyMap<string, Held>, other: ReadonlyMap<string, Held>): boolean {
  if (one === other) return true;
  if (one.size !== other.size) return false;
  return [...one].every(([name, held]) => {
    const twin = other.get(name);
    return twin !== undefined && twin.sets === held.sets && sameStrands(twin.strands, held.strands);
  });
}
