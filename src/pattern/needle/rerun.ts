/**
 * Works a pattern again with one line changed, in one size, from where that line stands: everything
 * before it is taken from the first run, and pieces after it are worked again only where they take up
 * stitches that are now others. Thousands of variants are tried this way.
 */
import { present } from '../../base/assert.ts';
import type { CountCode } from '../../findings/families/count.ts';
import type { Line } from '../notation/ast.ts';
import type { Outcome, Pattern } from '../pattern.ts';
import { envOf, type Shelf, shelfOf } from './build.ts';
import type { Env } from './env.ts';
import { workPieces, type WorkedPiece } from './index.ts';
import { isHard, type LineRun, workGroup } from './piece.ts';
import type { Problem } from './problem.ts';
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
  /** A problem the first run does not have: the change is noticed by the needle, and as what. */
  readonly noticed: CountCode | undefined;
  /** Outcomes that are others now; the rest is as in the first run. */
  outcome(piece: number, line: number): Outcome | undefined;
}

const noticedAs = (noticed: CountCode): Rerun => ({ noticed, outcome: () => undefined });

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
  if (typeof first === 'string') return noticedAs(first);
  outcomes.set(piece, first.outcomes);
  let { holders } = first;
  for (let next = piece + 1; next < baseline.pieces.length; next += 1) {
    const start = baseline.pieces[next]?.start[size];
    if (start && sameHolders(start, holders)) break;
    const run = runFrom(baseline, next, present(baseline.envs[next], 'a piece'), size, 0, holders);
    if (typeof run === 'string') return noticedAs(run);
    outcomes.set(next, run.outcomes);
    holders = run.holders;
  }
  return { noticed: undefined, outcome: (at, index) => outcomes.get(at)?.get(index) };
}

function groupOfLine({ pieces }: Baseline, piece: number, line: number): number {
  const groups = pieces[piece]?.groups ?? [];
  return groups.findIndex(({ first, followers }) => first === line || followers.includes(line));
}

interface PartRun {
  readonly outcomes: ReadonlyMap<number, Outcome>;
  readonly holders: ReadonlyMap<string, Held>;
}

/** Works a piece from a group on; ends with the first problem that was not there before. */
function runFrom(
  baseline: Baseline,
  piece: number,
  env: Env,
  size: number,
  from: number,
  holders?: ReadonlyMap<string, Held>,
): PartRun | CountCode {
  const worked = present(baseline.pieces[piece], 'a piece of the pattern');
  const runs = worked.runs[size] ?? [];
  let state: State =
    (from > 0 ? runs[from - 1]?.after : undefined) ??
    startState(env.form, env.firstSide, holders ?? worked.start[size] ?? new Map());
  const outcomes = new Map<number, Outcome>();
  for (let at = from; at < worked.groups.length; at += 1) {
    const group = present(worked.groups[at], 'a group of lines');
    const result = workGroup(state, group, env, size);
    const known = runs[at]?.problems ?? [];
    if (result.problems.length > known.length) return newAmong(result.problems, known);
    const run: LineRun = { result, after: result.state, problems: [], unsure: false };
    const inches = state.inches;
    outcomes.set(group.first, outcomeOf(run, true, inches));
    for (const line of group.followers) outcomes.set(line, outcomeOf(run, false, inches));
    state = result.state;
  }
  return { outcomes, holders: state.holders };
}

/** The problem that stops the row says more than those that only remark on it. */
function newAmong(problems: readonly Problem[], known: readonly Problem[]): CountCode {
  const fresh = problems.filter(({ code }) => !known.some((each) => each.code === code));
  const all = fresh.length > 0 ? fresh : problems;
  return present(all.find(isHard) ?? all[0], 'a problem').code;
}

function sameHolders(one: ReadonlyMap<string, Held>, other: ReadonlyMap<string, Held>): boolean {
  if (one === other) return true;
  if (one.size !== other.size) return false;
  return [...one].every(([name, held]) => {
    const twin = other.get(name);
    return twin !== undefined && twin.sets === held.sets && sameStrands(twin.strands, held.strands);
  });
}
