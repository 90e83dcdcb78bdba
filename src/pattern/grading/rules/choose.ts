/**
 * What a chosen rule would do, before it is written: the number in every size as it stands and as it
 * would be, every number that follows it, and the edits of the file. Takes a bundle's data and the
 * choice; writes nothing. A value somebody typed over its rule is never moved, only told.
 */
import { Fault } from '../../../base/fault.ts';
import { pointerTo } from '../../../base/span.ts';
import type { JsonChange } from '../../bundle/edit.ts';
import type { BundleData, NumberData } from '../../bundle/schema.ts';
import { valueFor } from '../../bundle/size-list.ts';
import { editOf, slotsOf } from '../sheet/slots.ts';
import type { LengthAmount } from './evaluate.ts';
import { namesIn, type Resolved, type ResolvedNumber, resolveNumbers } from './resolve.ts';
import type { RuleProblem } from './rule.ts';
import { deviationInches, type Moved, type SettledSize, settleNumbers } from './settle.ts';

export interface RuleChoice {
  readonly id: string;
  /** Empty: the number stands as typed, without a rule. */
  readonly rule: string;
}

export interface ChosenSize {
  readonly before: number | null;
  readonly after: number | null;
  /** What the rule gives before rounding, in the unit of the number. */
  readonly exact: number | null;
  /** The length that was wanted, where the count was made from one. */
  readonly wanted?: LengthAmount;
  /** Count less exact amount, through the gauge; null where no gauge made it. */
  readonly offInches: number | null;
}

export interface ChosenNumber {
  readonly data: NumberData;
  /** `follows`: re-reckoned by its own rule; `stays`: typed over its rule in every size. */
  readonly how: 'chosen' | 'follows' | 'stays';
  readonly sizes: readonly ChosenSize[];
}

export interface Chosen {
  /** The chosen number first, then those that build on it, each after what it builds on. */
  readonly numbers: readonly ChosenNumber[];
  /** Counts that are not the nearest ones, so that a demand of another rule is kept; by size. */
  readonly moved: readonly (readonly Moved[])[];
  /** Demands that no choice keeps, by size. */
  readonly unmet: readonly (readonly string[])[];
  /** None where the file says all this already. */
  readonly edits: readonly JsonChange[];
}

/**
 * `problem`: why the rule cannot be reckoned. Throws a `Fault` of kind `missing` where the bundle has no
 * such number.
 */
export function chooseRule(
  data: BundleData,
  choice: RuleChoice,
): Chosen | { readonly problem: RuleProblem } {
  const at = (data.numbers ?? []).findIndex(({ id }) => id === choice.id);
  if (at < 0) throw new Fault('missing', `no number is called ${choice.id}`, { place: choice.id });
  const rule = choice.rule.trim();
  const before = resolveNumbers(data);
  const standing = settleNumbers(data, before);
  const ruled = withRule(data, at, rule, standing);
  const resolved = resolveNumbers(ruled);
  const problem = problemWith(resolved, choice.id);
  if (problem) return { problem };
  const followers = followersOf(resolved, choice.id);
  const settled = settleChoice(ruled, before, [choice.id, ...followers]);
  const rows = [choice.id, ...followers].flatMap((id) => {
    const number = resolved.byId.get(id);
    return number ? [rowOf(number, standing, settled, id === choice.id)] : [];
  });
  return {
    numbers: rows,
    moved: settled.map(({ moved }) => moved),
    unmet: settled.map(({ unmet }) => unmet),
    edits: editsOf(data, at, rule, rows),
  };
}

function withRule(
  data: BundleData,
  at: number,
  rule: string,
  standing: readonly SettledSize[],
): BundleData {
  const numbers = (data.numbers ?? []).map((number, index) => {
    if (index !== at) return number;
    const { rule: _, ...free } = number;
    const values = standing.map((size) => size.values.get(number.id) ?? null);
    return rule === '' ? { ...free, value: free.value ?? values } : { ...free, rule };
  });
  return { ...data, numbers };
}

/** Of the rule itself, or of the circle it would close. */
function problemWith({ byId, numbers }: Resolved, id: string): RuleProblem | undefined {
  const circle = numbers.find(
    ({ problem }) => problem?.kind === 'circle' && problem.names.includes(id),
  );
  return byId.get(id)?.problem ?? circle?.problem;
}

/** Ids of all numbers that build on this one, in the order in which they are reckoned. */
function followersOf({ order, byId }: Resolved, id: string): readonly string[] {
  const found = new Set([id]);
  for (const each of order) {
    const rule = byId.get(each)?.rule;
    const names = rule ? [...namesIn(rule.expression).keys()] : [];
    if (names.some((name) => name !== each && found.has(name))) found.add(each);
  }
  found.delete(id);
  return [...found];
}

// ---------------------------------------------------------------- reckoning

/**
 * With the chosen number left open, and with it, size by size, every follower whose stated value is
 * what its rule gave. Sizes in which the same numbers are open are reckoned together.
 */
function settleChoice(
  data: BundleData,
  before: Resolved,
  [chosen = '', ...followers]: readonly string[],
): readonly SettledSize[] {
  const openIn = data.sizes.map((_, size) => [
    ...((data.numbers ?? []).some(({ id, rule }) => id === chosen && rule) ? [chosen] : []),
    ...followers.filter((id) => followed(before.byId.get(id), size)),
  ]);
  const reckoned = new Map<string, readonly SettledSize[]>();
  return openIn.flatMap((open, size) => {
    const key = open.join(' ');
    const settled = reckoned.get(key) ?? settleNumbersOpen(data, open);
    reckoned.set(key, settled);
    return settled[size] ?? [];
  });
}

function settleNumbersOpen(data: BundleData, open: readonly string[]): readonly SettledSize[] {
  const numbers = (data.numbers ?? []).map((number) => {
    if (!open.includes(number.id)) return number;
    const { value: _, ...rest } = number;
    return rest;
  });
  const opened = { ...data, numbers };
  return settleNumbers(opened, resolveNumbers(opened));
}

/** Left open, or stated as the rule gives it. */
function followed(number: ResolvedNumber | undefined, size: number): boolean {
  if (!number?.rule) return false;
  if (!number.stated) return true;
  return !differs(valueFor(number.stated, size), number.derived[size]?.count ?? null);
}

/** Values are written with three decimals at most. */
const differs = (one: number | null, other: number | null): boolean =>
  one === null || other === null ? one !== other : Math.abs(one - other) > 5e-4;

// ---------------------------------------------------------------- what came of it

function rowOf(
  { data }: ResolvedNumber,
  standing: readonly SettledSize[],
  settled: readonly SettledSize[],
  chosen: boolean,
): ChosenNumber {
  const sizes = settled.map(({ values, derived }, size): ChosenSize => {
    const here = derived.get(data.id) ?? null;
    const after = values.get(data.id) ?? null;
    const amount = here?.amount;
    const counted = amount !== undefined && amount.unit !== 'length' ? amount : undefined;
    return {
      before: standing[size]?.values.get(data.id) ?? null,
      after,
      exact: here?.exact ?? null,
      offInches: here && counted?.gauge && after !== null ? deviationInches(here, after) : null,
      ...(counted?.wanted && { wanted: counted.wanted }),
    };
  });
  const stays = settled.every(({ derived }, size) => {
    const count = derived.get(data.id)?.count ?? null;
    const own = sizes[size];
    return own !== undefined && !differs(own.before, own.after) && differs(own.after, count);
  });
  return { data, how: chosen ? 'chosen' : stays ? 'stays' : 'follows', sizes };
}

/** A number that was left open stays open; one that loses its rule keeps what the rule gave. */
function editsOf(
  data: BundleData,
  at: number,
  rule: string,
  rows: readonly ChosenNumber[],
): readonly JsonChange[] {
  const number = data.numbers?.[at];
  const pointer = pointerTo('', 'numbers', at, 'rule');
  const slots = slotsOf(data);
  const ruleEdits: readonly JsonChange[] =
    rule === (number?.rule ?? '')
      ? []
      : [{ pointer, value: rule === '' ? undefined : rule, after: 'unit' }];
  const valueEdits = rows.flatMap(({ data: own, sizes }) => {
    const slot = slots.get(`numbers/${own.id}`);
    const losesRule = rule === '' && own.id === number?.id && number?.value === undefined;
    const changes = sizes.some((each) => differs(each.before, each.after));
    if (!slot || !(losesRule || (own.value !== undefined && changes))) return [];
    return [editOf(data, slot, sizes.map(({ after }) => after))]; // prettier-ignore
  });
  return [...ruleEdits, ...valueEdits];
}
