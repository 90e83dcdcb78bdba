/**
 * Puts the problems of all sizes together: one slip in four sizes is one finding with four columns.
 * Gives findings with their place, the caret, the numbers of every size and what decided between the
 * worked and the stated count.
 */
import { cover, type Span } from '../../base/span.ts';
import type { Finding, Place } from '../../findings/finding.ts';
import { listed, sizesSay } from '../../findings/families/wording.ts';
import { finding } from '../../findings/register.ts';
import type { Pattern, Piece } from '../pattern.ts';
import type { Group, LineRun } from './piece.ts';
import { isHard } from './piece.ts';
import type { Problem } from './problem.ts';
import { lineSay, placeSay } from './say.ts';
import { stitchesOn } from './state.ts';

export interface PieceRuns {
  readonly piece: Piece;
  readonly groups: readonly Group[];
  /** By size, then by group. */
  readonly runs: readonly (readonly LineRun[])[];
}

interface Found {
  readonly size: number;
  readonly problem: Problem;
  readonly run: LineRun;
}

export function gatherFindings(
  pattern: Pattern,
  worked: PieceRuns,
  fixes: ReadonlyMap<number, string>,
): readonly Finding[] {
  return worked.groups.flatMap((group, at) => {
    const found = worked.runs.flatMap((runs, size): readonly Found[] => {
      const run = runs[at];
      return run ? run.problems.map((problem) => ({ size, problem, run })) : [];
    });
    const kinds = new Map<string, Found[]>();
    for (const each of found) {
      const { code, span } = each.problem;
      const key = code.startsWith('count/stated') ? code : `${code} ${span.start}`;
      kinds.set(key, [...(kinds.get(key) ?? []), each]);
    }
    const apart = [...kinds.values()].filter((same) => !isOfOtherSizes(worked, at, same));
    return folded(apart).map((same) => findingOf(pattern, worked, group, at, same, fixes.get(at)));
  });
}

/** What one size shows as a repeat that does not divide, another may show as a wrong count. */
interface Same {
  readonly main: readonly Found[];
  readonly also: readonly (readonly Found[])[];
}

/** One slip is one finding: hard problems of one line in different sizes belong together. */
function folded(apart: readonly (readonly Found[])[]): readonly Same[] {
  const soft = apart.filter(([first]) => first && !isHard(first.problem));
  const hard = apart.filter(([first]) => first && isHard(first.problem));
  const sizes = hard.flat().map(({ size }) => size);
  const alone = (main: readonly Found[]): Same => ({ main, also: [] });
  if (hard.length < 2 || new Set(sizes).size < sizes.length) return apart.map(alone);
  const ranked = [...hard].sort((a, b) => rankOf(a) - rankOf(b));
  const [main = [], ...also] = ranked;
  return [{ main, also }, ...soft.map(alone)];
}

/** What stops the row says more than what it ends with. */
const rankOf = ([first]: readonly Found[]): number =>
  first?.problem.code.startsWith('count/stated') ? 1 : 0;

/** A row number that is missing here may be written in a line for other sizes. */
function isOfOtherSizes({ runs }: PieceRuns, at: number, same: readonly Found[]): boolean {
  const code = same[0]?.problem.code;
  if (code !== 'count/row-missing' && code !== 'count/row-order') return false;
  const working = runs.filter((each) => each[at]?.result.skipped === false).length;
  return same.length < working || working < runs.length;
}

function findingOf(
  pattern: Pattern,
  worked: PieceRuns,
  group: Group,
  at: number,
  { main: same, also }: Same,
  proven: string | undefined,
): Finding {
  const [first] = same as readonly [Found];
  const { code, words } = first.problem;
  const affected = same.map(({ size }) => size);
  const fix = isHard(first.problem) ? proven : undefined;
  const facts = {
    row: lineSay(lineOf(worked.piece, group.first)?.line),
    sizes: pattern.sizes,
    affected,
    numbers: numbersOf(worked, at, same),
    words,
    notes: [...notesOf(worked, same), ...also.map((other) => alsoSay(pattern, other))],
    ...(fix !== undefined && { fix }),
  };
  const where = placeOf(pattern, worked.piece, group.first, spanOf(same));
  const related = relatedOf(pattern, worked.piece, first.problem);
  return finding(code, where, facts as never, {
    sizes: sizesNamed(pattern, [...affected, ...also.flat().map(({ size }) => size)]),
    ...(related && { related }),
  });
}

const sizesNamed = (pattern: Pattern, affected: readonly number[]): readonly string[] =>
  affected.length === pattern.sizes.length
    ? []
    : [...affected].sort((a, b) => a - b).map((size) => pattern.sizes[size] ?? '');

/** "sizes S and L end with 112 and 120 sts where 110 and 118 are stated": the rest of one slip. */
function alsoSay(pattern: Pattern, other: readonly Found[]): string {
  const { who, one } = sizesSay(
    pattern.sizes,
    other.map(({ size }) => size),
  );
  const all = (name: string) => listed(other.map(({ problem }) => String(problem.numbers[name])));
  const [first] = other;
  if (first?.problem.code === 'count/stated') {
    return `${who} ${one ? 'ends' : 'end'} with ${all('worked')} sts where ${all('stated')} are stated`;
  }
  return `${who} cannot be worked either`;
}

const lineOf = (piece: Piece, index: number) =>
  piece.sections.flatMap((section) => section.lines)[index];

/** Carets stand under the wrong values: under all of them where they are neighbours. */
function spanOf(same: readonly Found[]): Span {
  const spans = same.map(({ problem }) => problem.span).sort((a, b) => a.start - b.start);
  const [first] = spans as [Span];
  const last = spans.at(-1) ?? first;
  return cover(first, last.end > first.end ? last : first);
}

export function placeOf(pattern: Pattern, piece: Piece, index: number, span?: Span): Place {
  let rest = index;
  for (const [at, section] of piece.sections.entries()) {
    const written = section.lines[rest];
    if (!written || rest < 0) {
      rest -= section.lines.length;
      continue;
    }
    const { text, pointer, line } = written;
    const label = placeSay(pattern, piece, at, line);
    return { file: 'pattern.json', pointer, text, label, ...(span && { span }) };
  }
  return { file: 'pattern.json', pointer: piece.pointer };
}

function relatedOf(pattern: Pattern, piece: Piece, { written }: Problem): Finding['related'] {
  if (written === undefined || written < 0) return undefined;
  return [{ where: placeOf(pattern, piece, written), note: 'the row that is worked here' }];
}

/** Numbers by size: those of the problem where it was found, what the needle knows elsewhere. */
function numbersOf(
  { runs }: PieceRuns,
  at: number,
  same: readonly Found[],
): Readonly<Record<string, readonly (number | null)[]>> {
  const [first] = same;
  const names = Object.keys(first?.problem.numbers ?? {});
  const bySize = new Map(same.map((each) => [each.size, each]));
  return Object.fromEntries(
    names.map((name) => [
      name,
      runs.map((run, size) => {
        const found = bySize.get(size)?.problem.numbers[name];
        return found === undefined ? knownNumber(run[at], name) : found;
      }),
    ]),
  );
}

function knownNumber(run: LineRun | undefined, name: string): number | null {
  if (!run || run.result.skipped || run.unsure) return null;
  if (name === 'before') return run.result.before;
  if (name === 'worked') return stitchesOn(run.result.state);
  if (name === 'stated') return run.result.stated ?? null;
  return name === 'leftOver' ? 0 : null;
}

/** What decided between the two counts: the line that only one of them reaches. */
function notesOf({ piece }: PieceRuns, same: readonly Found[]): readonly string[] {
  const [first] = same;
  const notes = [...(first?.problem.notes ?? [])];
  const verdict = first?.run.verdict;
  if (!first || verdict?.otherFailsAt === undefined) return notes;
  const { worked, stated } = first.problem.numbers;
  const chosen = verdict.from === 'stated' ? stated : worked;
  if (typeof chosen !== 'number' || first.problem.code !== 'count/stated') return notes;
  const next = lineSay(lineOf(piece, verdict.otherFailsAt)?.line);
  return [...notes, `${next} can be worked from ${chosen} only`];
}
