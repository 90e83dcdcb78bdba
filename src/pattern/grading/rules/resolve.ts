/**
 * Every named number of a bundle, in every size: what its rule gives, what is stated, and which of the
 * two goes on into the numbers that build on it (a stated value, where there is one). Takes the bundle's
 * data alone; what the rows work is compared elsewhere.
 */
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import { pointerTo } from '../../../base/span.ts';
import type { BundleData, NumberData } from '../../bundle/schema.ts';
import { type Sized, valueFor } from '../../bundle/size-list.ts';
import { readSized } from '../../bundle/sized-data.ts';
import {
  type Amount,
  type Amounts,
  amountOf,
  inCentimetres,
  inInches,
  roundedBy,
} from './evaluate.ts';
import { readRule } from './read-rule.ts';
import type { Expression, Rule, RuleProblem } from './rule.ts';
import { type RuleNames, unitOfNumber, unitProblem } from './units.ts';

/** What a rule gives in one size. */
export interface Derived {
  /** Before rounding, in the unit of the number. */
  readonly exact: number;
  readonly count: number;
  /** The amount before rounding, with its gauge and the length that was wanted. */
  readonly amount: Amount;
}

export interface ResolvedNumber {
  readonly data: NumberData;
  readonly pointer: string;
  readonly rule?: Rule;
  readonly problem?: RuleProblem;
  readonly stated?: Sized;
  /** By size; null where the rule does not apply or cannot be reckoned. */
  readonly derived: readonly (Derived | null)[];
}

export interface Resolved {
  readonly numbers: readonly ResolvedNumber[];
  readonly byId: ReadonlyMap<string, ResolvedNumber>;
  /** Ids in an order in which each comes after those it builds on. */
  readonly order: readonly string[];
}

/** The value others build on: as stated, else as derived; null where it does not apply. */
export function valueOf(number: ResolvedNumber | undefined, size: number): number | null {
  if (!number) return null;
  return number.stated ? valueFor(number.stated, size) : (number.derived[size]?.count ?? null);
}

export const nameOf = ({ id, name }: NumberData): string => name ?? id.replaceAll('-', ' ');

export function resolveNumbers(data: BundleData): Resolved {
  const numbers = data.numbers ?? [];
  const read = new Map(numbers.map((each, at) => [each.id, openNumber(data, each, at)]));
  const { order, circles } = orderOf(read);
  const byId = new Map<string, ResolvedNumber>();
  for (const id of order) {
    const number = read.get(id);
    if (!number) continue;
    const circle = circles.get(id);
    const problem = number.problem ?? circle;
    byId.set(id, problem ? { ...number, problem } : derive(data, number, byId));
  }
  const inOrder = numbers.flatMap(({ id }) => byId.get(id) ?? []);
  return { numbers: inOrder, byId, order };
}

/** The number with its rule read and its units compared; nothing reckoned yet. */
function openNumber(data: BundleData, number: NumberData, at: number): ResolvedNumber {
  const stated = number.value === undefined ? undefined : readSized(number.value);
  const read = number.rule === undefined ? undefined : readRule(number.rule);
  const rule = read && 'rule' in read ? read.rule : undefined;
  const problem =
    read && 'problem' in read
      ? read.problem
      : rule && unitProblem(rule, number.unit, namesFor(data, number.id));
  return {
    data: number,
    pointer: pointerTo('', 'numbers', at),
    derived: data.sizes.map(() => null),
    ...(stated && { stated }),
    ...(rule && { rule }),
    ...(problem && { problem }),
  };
}

function derive(
  data: BundleData,
  number: ResolvedNumber,
  known: ReadonlyMap<string, ResolvedNumber>,
): ResolvedNumber {
  const { rule } = number;
  if (!rule) return number;
  const derived = data.sizes.map((_, size) => {
    const value = (id: string) => valueOf(known.get(id), size);
    return derivedIn(rule, number.data, amountsFor(data, number.data.id, size, value));
  });
  return { ...number, derived };
}

/** What one rule gives from these amounts. */
export function derivedIn(rule: Rule, number: NumberData, amounts: Amounts): Derived | null {
  const amount = amountOf(rule.expression, number.unit, amounts);
  if (!amount) return null;
  const exact =
    amount.unit !== 'length'
      ? amount.value
      : number.unit === 'cm'
        ? amount.centimetres
        : amount.inches;
  return { exact, count: roundedBy(rule, exact, amounts), amount };
}

// ---------------------------------------------------------------- what names stand for

/** Within its own rule a number's id means the measurement of that name. */
function namesFor(data: BundleData, own: string): RuleNames {
  const numbers = new Map(
    (data.numbers ?? []).filter(({ id }) => id !== own).map((each) => [each.id, each.unit]),
  );
  const measurements = new Set(data.measurements.map(({ id }) => id));
  return {
    unitOf(name) {
      const unit = numbers.get(name);
      if (unit) return unitOfNumber(unit);
      return measurements.has(name) ? 'length' : undefined;
    },
    names: [...numbers.keys(), ...measurements],
    bodyParts: data.body.map(({ part }) => part),
    gauges: data.gauges.map(({ id }) => id),
    patterns: data.stitchPatterns.map(({ id }) => id),
    sizes: data.sizes.length,
  };
}

/** Amounts for the rule of number `own` in one size, where other numbers have these values. */
export function amountsFor(
  data: BundleData,
  own: string,
  size: number,
  valueOfNumber: (id: string) => number | null,
): Amounts {
  const units = new Map((data.numbers ?? []).map(({ id, unit }) => [id, unit]));
  const length = (part: { readonly size: LengthData } | undefined) =>
    part ? lengthIn(part.size, size) : null;
  return {
    size,
    name(name) {
      const unit = name === own ? undefined : units.get(name);
      if (!unit) return length(data.measurements.find(({ id }) => id === name));
      const value = valueOfNumber(name);
      return value === null ? null : amountIn(unit, value);
    },
    body: (part) => length(data.body.find((each) => each.part === part)),
    gauge: (id) => data.gauges.find((gauge) => gauge.id === id),
    pattern: (id) => data.stitchPatterns.find((pattern) => pattern.id === id),
  };
}

function amountIn(unit: NumberData['unit'], value: number): Amount {
  if (unit === 'in') return inInches(value);
  if (unit === 'cm') return inCentimetres(value);
  return { unit: unit === 'times' ? 'plain' : unit, value };
}

type LengthData = BundleData['body'][number]['size'];

/** Inches and centimetres as stated, each; where one is missing it is converted from the other. */
function lengthIn(length: LengthData, size: number): Amount | null {
  const inches = statedIn(length.in, size);
  const centimetres = statedIn(length.cm, size);
  if (inches === null && centimetres === null) return null;
  return {
    unit: 'length',
    inches: inches ?? (centimetres ?? 0) / CENTIMETRES_PER_INCH,
    centimetres: centimetres ?? (inches ?? 0) * CENTIMETRES_PER_INCH,
  };
}

function statedIn(data: LengthData['in'], size: number): number | null {
  const sized = data === undefined ? undefined : readSized(data);
  return sized ? valueFor(sized, size) : null;
}

// ---------------------------------------------------------------- order

/** Names of numbers in a rule, each with the span where it stands first. */
export function namesIn(expression: Expression): ReadonlyMap<string, Expression['span']> {
  const names = new Map<string, Expression['span']>();
  const look = (node: Expression): void => {
    if (node.kind === 'name' && !names.has(node.name)) names.set(node.name, node.span);
    if (node.kind === 'through') look(node.of);
    if (node.kind === 'binary') {
      look(node.left);
      look(node.right);
    }
  };
  look(expression);
  return names;
}

function orderOf(numbers: ReadonlyMap<string, ResolvedNumber>) {
  const order: string[] = [];
  const circles = new Map<string, RuleProblem>();
  const open: string[] = [];
  const done = new Set<string>();
  const visit = (id: string): void => {
    if (done.has(id)) return;
    open.push(id);
    const rule = numbers.get(id)?.rule;
    for (const [name, span] of rule ? namesIn(rule.expression) : []) {
      if (name === id || !numbers.has(name)) continue;
      if (open.includes(name)) {
        const names = [...open.slice(open.indexOf(name)), name];
        circles.set(id, { kind: 'circle', names, span });
      } else visit(name);
    }
    open.pop();
    done.add(id);
    order.push(id);
  };
  for (const id of numbers.keys()) visit(id);
  return { order, circles };
}
