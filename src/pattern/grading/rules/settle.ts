/**
 * Fills numbers that are left open, so that every demand of the bundle is kept: where a rule says
 * `exactly`, the open counts it builds on are moved by as little as possible, size by size. Takes the
 * resolved numbers, gives a value for each with what was moved and why; what is stated is never moved.
 */
import { RULE_LIMITS } from '../../../base/limits.ts';
import type { BundleData } from '../../bundle/schema.ts';
import { perInch, readBase } from '../gauge.ts';
import { type Choice, type Chosen, type Fit, solveCounts, type Unknown } from '../solve.ts';
import { gridOf } from './evaluate.ts';
import {
  amountsFor,
  type Derived,
  derivedIn,
  namesIn,
  type Resolved,
  type ResolvedNumber,
  resolveNumbers,
  valueOf,
} from './resolve.ts';

/** A count that the search took instead of the nearest one. */
export interface Moved {
  readonly id: string;
  readonly nearest: number;
  readonly count: number;
  readonly deviationInches: number;
}

export interface SettledSize {
  /** Every number in this size; null where it does not apply. */
  readonly values: ReadonlyMap<string, number | null>;
  readonly derived: ReadonlyMap<string, Derived | null>;
  readonly moved: readonly Moved[];
  /** Other fits, the next best first, as what they would move. */
  readonly others: readonly (readonly Moved[])[];
  /** Demands that no choice keeps. */
  readonly unmet: readonly string[];
  readonly gaveUp: boolean;
}

export function settleNumbers(data: BundleData, resolved: Resolved): readonly SettledSize[] {
  return data.sizes.map((_, size) => settleSize(data, resolved, size));
}

/** As if every number that carries a rule were left open. */
export function settleAfresh(data: BundleData): readonly SettledSize[] {
  const numbers = (data.numbers ?? []).map((number) => {
    if (number.rule === undefined) return number;
    const { value: _, ...open } = number;
    return open;
  });
  const opened = { ...data, numbers };
  return settleNumbers(opened, resolveNumbers(opened));
}

/** Counts that keep every demand of the bundle: the best, and those of the next best fits. */
export const fittingCounts = (settled: SettledSize | undefined, id: string): readonly number[] =>
  [settled?.values.get(id), ...(settled?.others ?? []).map((moves) => countIn(moves, id))].filter(
    (count): count is number => typeof count === 'number',
  );

const countIn = (moves: readonly Moved[], id: string): number | undefined =>
  moves.find((move) => move.id === id)?.count;

/** True where a derived amount keeps what its rule demands: a whole count, on the grid. */
export function keepsDemand(
  data: BundleData,
  { rule, data: number }: ResolvedNumber,
  size: number,
  exact: number,
): boolean {
  if (rule?.rounding?.way !== 'exactly') return true;
  const grid = gridOf(
    rule,
    amountsFor(data, number.id, size, () => null),
  );
  if (!grid) return true;
  const repeats = (exact - grid.plus) / grid.multiple;
  return repeats > -1e-9 && Math.abs(repeats - Math.round(repeats)) < 1e-9;
}

function settleSize(data: BundleData, resolved: Resolved, size: number): SettledSize {
  const asTheyAre = new Map(resolved.numbers.map((each) => [each.data.id, valueOf(each, size)]));
  const broken = resolved.numbers.filter((each) => isBroken(data, each, size));
  const involved = ancestorsOf(resolved, broken);
  const movable = involved.filter((each) => isMovable(each, size));
  const unmet = broken.map((each) => each.data.id);
  const derived = derivedAt(data, resolved, size, asTheyAre);
  const still = { values: asTheyAre, derived, moved: [], others: [], unmet, gaveUp: false };
  if (broken.length === 0 || movable.length === 0) return still;
  const search = searchFits(data, resolved, involved, size);
  const [best, ...others] = search.fits;
  if (!best) return { ...still, gaveUp: search.gaveUp };
  const values = valuesWith(data, resolved, size, best.counts);
  return {
    values,
    derived: derivedAt(data, resolved, size, values),
    moved: movedIn(data, movable, size, best),
    others: others.map((fit) => movedIn(data, movable, size, fit)),
    unmet: [],
    gaveUp: search.gaveUp,
  };
}

const isBroken = (data: BundleData, number: ResolvedNumber, size: number): boolean => {
  const derived = number.derived[size];
  return (
    derived !== undefined && derived !== null && !keepsDemand(data, number, size, derived.exact)
  );
};

/** Only an open count that was made from a length has neighbours that serve as well. */
function isMovable({ stated, rule, derived }: ResolvedNumber, size: number): boolean {
  const amount = derived[size]?.amount;
  if (stated || !rule || rule.rounding?.way === 'exactly') return false;
  return amount !== undefined && amount.unit !== 'length' && amount.wanted !== undefined;
}

/** The numbers and all they build on, each after those it builds on. */
function ancestorsOf(resolved: Resolved, numbers: readonly ResolvedNumber[]): ResolvedNumber[] {
  const found = new Set<string>();
  const visit = (number: ResolvedNumber | undefined): void => {
    if (!number || found.has(number.data.id)) return;
    found.add(number.data.id);
    if (!number.rule || number.stated) return;
    for (const name of namesIn(number.rule.expression).keys())
      if (name !== number.data.id) visit(resolved.byId.get(name));
  };
  for (const number of numbers) visit(number);
  return resolved.order.flatMap((id) => (found.has(id) ? (resolved.byId.get(id) ?? []) : []));
}

// ---------------------------------------------------------------- the search

function searchFits(
  data: BundleData,
  resolved: Resolved,
  involved: readonly ResolvedNumber[],
  size: number,
) {
  const known = (chosen: Chosen) => (id: string) =>
    chosen.get(id) ?? valueOf(resolved.byId.get(id), size);
  const unknowns = involved.map((number): Unknown => ({
    id: number.data.id,
    choices: (chosen) => choicesOf(data, number, size, known(chosen)),
  }));
  const demands = involved
    .filter(({ rule }) => rule?.rounding?.way === 'exactly')
    .map((number) => ({
      of: [number.data.id],
      holds: (chosen: Chosen) => {
        const { rule, data: own } = number;
        const amounts = amountsFor(data, own.id, size, known(chosen));
        const exact = rule && derivedIn(rule, own, amounts)?.exact;
        return typeof exact !== 'number' || keepsDemand(data, number, size, exact);
      },
    }));
  return solveCounts(unknowns, demands);
}

function choicesOf(
  data: BundleData,
  number: ResolvedNumber,
  size: number,
  known: (id: string) => number | null,
): readonly Choice[] {
  const stay = valueOf(number, size) ?? 0;
  const { rule, data: own } = number;
  if (!rule || number.stated) return [{ count: stay, deviation: 0 }];
  const amounts = amountsFor(data, own.id, size, known);
  const derived = derivedIn(rule, own, amounts);
  const grid = gridOf(rule, amounts);
  if (!derived) return [{ count: stay, deviation: 0 }];
  if (!grid || !isMovable(number, size)) return [{ count: derived.count, deviation: 0 }];
  const reach = RULE_LIMITS.searchReach;
  return Array.from(
    { length: 2 * reach + 1 },
    (_, at) => derived.count + (at - reach) * grid.multiple,
  )
    .filter((count) => count > 0 && isAllowed(number, derived, count))
    .map((count) => ({ count, deviation: deviationInches(derived, count) }))
    .sort((one, other) => Math.abs(one.deviation) - Math.abs(other.deviation));
}

function isAllowed({ rule }: ResolvedNumber, derived: Derived, count: number): boolean {
  const way = rule?.rounding?.way;
  if (way === 'up' && count < derived.exact - 1e-9) return false;
  if (way === 'down' && count > derived.exact + 1e-9) return false;
  return isWithin(rule?.within, derived, count);
}

/** Is the count as near to what was wanted as the rule demands? */
export function isWithin(
  within: NonNullable<ResolvedNumber['rule']>['within'],
  derived: Derived,
  count: number,
): boolean {
  if (!within) return true;
  const { amount, unit } = within;
  const inches = Math.abs(deviationInches(derived, count));
  if (unit === 'in') return inches <= amount + 1e-9;
  if (unit === 'cm') return inches * 2.54 <= amount + 1e-9;
  return Math.abs(count - derived.exact) <= amount + 1e-9;
}

/** Count less exact amount, as a length through the gauge the count came from; 0 without one. */
export function deviationInches({ exact, amount }: Derived, count: number): number {
  if (amount.unit === 'length' || !amount.gauge) return 0;
  const over = readBase(amount.gauge.over);
  const per = perInch(amount.unit === 'rows' ? amount.gauge.rows : amount.gauge.stitches, over);
  return (count - exact) / per;
}

// ---------------------------------------------------------------- what came of it

function valuesWith(
  data: BundleData,
  resolved: Resolved,
  size: number,
  chosen: Chosen,
): ReadonlyMap<string, number | null> {
  const values = new Map<string, number | null>();
  for (const id of resolved.order) {
    const number = resolved.byId.get(id);
    if (!number) continue;
    const { rule, stated, data: own, problem } = number;
    const picked = chosen.get(id);
    if (stated || !rule || problem) values.set(id, valueOf(number, size));
    else if (picked !== undefined) values.set(id, picked);
    else {
      const amounts = amountsFor(data, own.id, size, (name) => values.get(name) ?? null);
      values.set(id, derivedIn(rule, own, amounts)?.count ?? null);
    }
  }
  return values;
}

function derivedAt(
  data: BundleData,
  resolved: Resolved,
  size: number,
  values: ReadonlyMap<string, number | null>,
): ReadonlyMap<string, Derived | null> {
  return new Map(
    resolved.numbers.map(({ data: own, rule, problem }) => {
      const amounts = amountsFor(data, own.id, size, (name) => values.get(name) ?? null);
      return [own.id, rule && !problem ? derivedIn(rule, own, amounts) : null];
    }),
  );
}

function movedIn(
  data: BundleData,
  movable: readonly ResolvedNumber[],
  size: number,
  fit: Fit,
): readonly Moved[] {
  return movable.flatMap((number) => {
    const { id } = number.data;
    const count = fit.counts.get(id);
    const known = (name: string) => fit.counts.get(name) ?? null;
    const derived =
      number.rule && derivedIn(number.rule, number.data, amountsFor(data, id, size, known));
    if (!derived || count === undefined || count === derived.count) return [];
    return [
      { id, nearest: derived.count, count, deviationInches: deviationInches(derived, count) },
    ];
  });
}
