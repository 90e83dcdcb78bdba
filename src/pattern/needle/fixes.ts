/**
 * Corrections. One is suggested only where working the piece again in every size proves it: the line
 * then comes out, the lines after it as far as the next stated count come out, and no other single
 * number of the line would do as well.
 */
import { NEEDLE_LIMITS } from '../../base/limits.ts';
import type { Sized } from '../bundle/size-list.ts';
import type { Line } from '../notation/ast.ts';
import { type Env, numberIn, sizesOfLine } from './env.ts';
import { type Group, isHard, type LineRun, workGroup } from './piece.ts';
import type { Problem } from './problem.ts';
import { lineSay } from './say.ts';
import { type Held, type State, startState } from './state.ts';
import { type LineNumber, numbersOfLine, withValues } from './vary.ts';

/** A correction in words, and the line that it gives where a row is corrected. */
export interface Fix {
  readonly said: string;
  readonly row?: { readonly group: number; readonly line: Line; readonly sizes: readonly number[] };
}

/** A piece that was worked in all sizes, as far as it came. */
export interface Worked {
  readonly env: Env;
  readonly groups: readonly Group[];
  /** By size, then by group. */
  readonly runs: readonly (readonly LineRun[])[];
  /** What was on hold before the piece, by size. */
  readonly start: readonly ReadonlyMap<string, Held>[];
}

interface Search {
  readonly env: Env;
  readonly worked: Worked;
  /** Index of the group where the problem was found. */
  readonly at: number;
  readonly affected: readonly number[];
  /** Changes that may still be tried. */
  readonly trials: { left: number };
}

/** A written number with the group whose line it stands in. */
interface Suspect extends LineNumber {
  readonly group: number;
  readonly line: Line;
}

type Found = readonly { readonly size: number; readonly problem: Problem }[];

/** The correction of what was found at a group, proven in every size; undefined where there is none. */
export function findFix(worked: Worked, at: number, same: Found): Fix | undefined {
  const { env } = worked;
  if (!env.lines[worked.groups[at]?.first ?? -1]?.line) return undefined;
  if (worked.runs.some((runs) => runs[at]?.unsure)) return undefined;
  const affected = same.map(({ size }) => size);
  const trials = { left: NEEDLE_LIMITS.correctionTrials };
  const search: Search = { env, worked, at, affected, trials };
  if (same[0]?.problem.code !== 'count/stated') return fixRow(search);
  const verdicts = affected.map((size) => worked.runs[size]?.[at]?.verdict);
  const decided = verdicts.every((verdict) => verdict?.otherFailsAt !== undefined);
  const from = new Set(verdicts.map((verdict) => verdict?.from));
  if (decided && from.size === 1)
    return from.has('worked') ? fixStated(search, same) : fixRow(search);
  // Nothing that follows decides. The stated number is the slip where other sizes agree with the row,
  // and no number of the row could be it.
  const others = affected.length < worked.runs.length;
  return others && !someRowWorks(search) ? fixStated(search, same) : undefined;
}

// ---------------------------------------------------------------- the stated count is wrong

function fixStated(search: Search, same: Found): Fix | undefined {
  const { worked, at } = search;
  const until = agreeUntil(search);
  if (until === undefined) return undefined;
  const changes = same.map(({ problem }) => ({
    from: problem.numbers['stated'],
    to: problem.numbers['worked'],
  }));
  return { said: `change ${changesSay(changes)}: ${thenSay(worked, search.env, at, until)}` };
}

/** The last group, up to the next stated count, through which every size comes out as worked. */
function agreeUntil({ worked, at, affected }: Search): number | undefined {
  let last = at;
  for (let next = at + 1; next < worked.groups.length; next += 1) {
    const runs = affected.map((size) => worked.runs[size]?.[next]);
    if (runs.some((run) => run?.problems.some(isHard))) return undefined;
    last = next;
    if (runs.every((run) => run?.result.stated !== undefined || run?.result.skipped)) break;
  }
  return last;
}

// ---------------------------------------------------------------- the row is wrong

/**
 * Looks for the one number that, changed, makes every size come out: in the row, or in a row before it
 * back to the last count that was stated and agreed.
 */
function fixRow(search: Search): Fix | undefined {
  const { worked, env, at, affected } = search;
  const found = suspects(search).flatMap((number) => {
    const values = valuesThatWork(search, number);
    return values === 'none' ? [] : [{ number, values }];
  });
  const [only, ...more] = found;
  if (!only || more.length > 0 || only.values === 'several' || search.trials.left <= 0) {
    return undefined;
  }
  const { number, values } = only;
  const changes = affected.map((size) => ({
    from: valueOf(search, number, size),
    to: values[indexIn(search, number, size)] ?? null,
  }));
  const place = number.group === at ? '' : ` in ${groupSay(worked, env, number.group)}`;
  const until = nextStated(worked, at);
  const said = `change ${changesSay(changes)}${place}: ${thenSay(worked, env, at, until)}`;
  const { group, line, sized } = number;
  const sizes = sized.values.length === 1 ? allSizes(search) : affected;
  return { said, row: { group, line: withValues(line, number, values), sizes } };
}

/** True where some number of the rows could be the slip just as well. */
const someRowWorks = (search: Search): boolean =>
  suspects(search).some((number) => {
    const { sized } = number;
    if (sized.values.length === 1) return false;
    return search.affected.every((size) => {
      const index = indexIn(search, number, size);
      return candidates(sized, index).some((to) => {
        const trial = sized.values.map((value, at) => (at === index ? to : value));
        search.trials.left -= 1;
        return search.trials.left > 0 && comesOut(search, number, trial, size);
      });
    });
  });

function suspects({ env, worked, at, affected }: Search): readonly Suspect[] {
  const found: Suspect[] = [];
  for (let group = at; group >= 0; group -= 1) {
    const runs = affected.map((size) => worked.runs[size]?.[group]);
    const agreed = runs.every(
      (run) => run?.result.stated !== undefined && run.problems.length === 0,
    );
    if (group < at && agreed) break;
    const line = env.lines[worked.groups[group]?.first ?? -1]?.line;
    if (!line) break;
    const numbers = numbersOfLine(line).filter(({ path }) => path[0] === 'sentences');
    found.push(...numbers.map((number) => ({ ...number, group, line })));
  }
  return found;
}

const REACH = 12;

/**
 * The list with the affected values changed so that every size comes out; `none` where that cannot be,
 * `several` where more than one number would do.
 */
function valuesThatWork(
  search: Search,
  number: Suspect,
): readonly (number | null)[] | 'none' | 'several' {
  const { sized } = number;
  let values = [...sized.values];
  let several = false;
  const forAll = sized.values.length === 1;
  const groups = forAll ? [allSizes(search)] : search.affected.map((size) => [size]);
  for (const sizes of groups) {
    const [size = 0] = sizes;
    const index = indexIn(search, number, size);
    const good = candidates(sized, index).filter((to) => {
      search.trials.left -= 1;
      if (search.trials.left <= 0) return false;
      const trial = values.map((value, at) => (at === index ? to : value));
      return sizes.every((each) => comesOut(search, number, trial, each));
    });
    const [to, ...others] = good;
    if (to === undefined) return 'none';
    several ||= others.length > 0;
    values = values.map((value, at) => (at === index ? to : value));
  }
  return several ? 'several' : values;
}

const allSizes = ({ env }: Search): readonly number[] => env.sizes.map((_, size) => size);

/** Numbers near the old one. A 0 stands in lists of sizes only: nobody writes what is not worked. */
function candidates({ values }: Sized, index: number): readonly number[] {
  const old = values[index];
  const near: number[] = [];
  if (typeof old !== 'number') return near;
  const least = values.length > 1 ? 0 : 1;
  for (let by = 1; by <= REACH; by += 1) {
    if (old - by >= least) near.push(old - by);
    near.push(old + by);
  }
  return near;
}

function indexIn({ env }: Search, { sized, line }: Suspect, size: number): number {
  if (sized.values.length === 1) return 0;
  if (sized.values.length === env.sizes.length) return size;
  return sizesOfLine(line, env.sizes)?.indexOf(size) ?? size;
}

const valueOf = ({ env }: Search, { sized, line }: Suspect, size: number): number | null =>
  numberIn(sized, size, env.sizes.length, sizesOfLine(line, env.sizes));

/** Works the changed line and all up to the next stated count again, in one size. */
function comesOut(
  { env, worked, at }: Search,
  suspect: Suspect,
  values: readonly (number | null)[],
  size: number,
): boolean {
  const { group, line } = suspect;
  const first = worked.groups[group]?.first ?? 0;
  const changed = withValues(line, suspect, values);
  const lines = env.lines.map((written, index) =>
    index === first ? { ...written, line: changed } : written,
  );
  const trial: Env = { ...env, lines };
  let state = stateBefore(worked, env, group, size);
  const until = nextStated(worked, at);
  for (let next = group; next <= until; next += 1) {
    const here = worked.groups[next];
    if (!here) return true;
    const result = workGroup(state, here, trial, size);
    if (result.problems.some(isHard)) return false;
    state = result.state;
  }
  return true;
}

function stateBefore(worked: Worked, env: Env, at: number, size: number): State {
  const before = worked.runs[size]?.[at - 1]?.after;
  return before ?? startState(env.form, env.firstSide, worked.start[size] ?? new Map());
}

/** The next group that states a count; the last group where none does. */
function nextStated(worked: Worked, at: number): number {
  for (let next = at + 1; next < worked.groups.length; next += 1) {
    if (worked.runs.some((runs) => runs[next]?.result.stated !== undefined)) return next;
  }
  return worked.groups.length - 1;
}

// ---------------------------------------------------------------- wording

interface Change {
  readonly from: number | null | undefined;
  readonly to: number | null | undefined;
}

function changesSay(changes: readonly Change[]): string {
  const said = [...new Set(changes.map(({ from, to }) => `${from} to ${to}`))];
  if (said.length < 2) return said.join('');
  return `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`;
}

function thenSay(worked: Worked, env: Env, at: number, until: number): string {
  const from = groupSay(worked, env, at);
  const to = groupSay(worked, env, until);
  if (until <= at || from === to) return 'it then agrees in every size';
  return `${from} to ${to} then agree in every size`;
}

const groupSay = (worked: Worked, env: Env, group: number): string =>
  lineSay(env.lines[worked.groups[group]?.first ?? -1]?.line);
