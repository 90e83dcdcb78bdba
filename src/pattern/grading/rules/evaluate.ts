/**
 * Reckons a rule in one size. Takes a rule whose units are right and the amounts its names stand for,
 * gives the exact amount before rounding, the length that was wanted, and the count that keeps the
 * rule's grid. Lengths are carried in inches and in centimetres side by side, so that a gauge counted
 * over 10 cm never meets a number that was converted from inches.
 */
import { assertNever } from '../../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import type { GaugeData, NumberData } from '../../bundle/schema.ts';
import { valueFor } from '../../bundle/size-list.ts';
import { perCentimetre, perInch, readBase } from '../gauge.ts';
import { roundRepeats, roundToRule } from '../counts.ts';
import type { Expression, Grid, Operator, Rule } from './rule.ts';

/** A length in both units; equal where only one was given, else as stated in each. */
export interface LengthAmount {
  readonly inches: number;
  readonly centimetres: number;
}

/** An amount on its way through a rule. */
export type Amount =
  | ({ readonly unit: 'length' } & LengthAmount)
  | {
      readonly unit: 'sts' | 'rows' | 'plain';
      readonly value: number;
      /** The gauge that last made it from a length, and that length. */
      readonly gauge?: GaugeData;
      readonly wanted?: LengthAmount;
    };

export interface Amounts {
  readonly size: number;
  /** Null: does not apply to this size. */
  name(name: string): Amount | null;
  body(part: string): Amount | null;
  gauge(id: string): GaugeData | undefined;
  pattern(id: string): { readonly multiple: number; readonly plus: number } | undefined;
}

export const inInches = (inches: number): Amount => ({
  unit: 'length',
  inches,
  centimetres: inches * CENTIMETRES_PER_INCH,
});

export const inCentimetres = (centimetres: number): Amount => ({
  unit: 'length',
  inches: centimetres / CENTIMETRES_PER_INCH,
  centimetres,
});

/** The exact amount of a sum; null where a part of it does not apply to the size. */
export function amountOf(
  expression: Expression,
  counts: NumberData['unit'],
  amounts: Amounts,
): Amount | null {
  switch (expression.kind) {
    case 'literal': {
      const value = valueFor(expression.values, amounts.size);
      if (value === null) return null;
      if (expression.unit === 'in') return inInches(value);
      if (expression.unit === 'cm') return inCentimetres(value);
      return { unit: expression.unit, value };
    }
    case 'name':
      return amounts.name(expression.name);
    case 'body':
      return amounts.body(expression.part);
    case 'through':
      return throughGauge(expression, counts, amounts);
    case 'binary': {
      const left = amountOf(expression.left, counts, amounts);
      const right = amountOf(expression.right, counts, amounts);
      return left && right && combined(expression.operator, left, right);
    }
    default:
      return assertNever(expression);
  }
}

type Through = Extract<Expression, { kind: 'through' }>;

function throughGauge(
  { of, gauge: id, toward }: Through,
  counts: NumberData['unit'],
  amounts: Amounts,
): Amount | null {
  const amount = amountOf(of, counts, amounts);
  const gauge = amounts.gauge(id);
  if (!amount || !gauge) return null;
  if (amount.unit === 'length') {
    const unit = toward ?? (counts === 'rows' ? 'rows' : 'sts');
    const { inches, centimetres } = amount;
    const value = countThrough(amount, gauge, unit);
    return { unit, value, gauge, wanted: { inches, centimetres } };
  }
  const over = readBase(gauge.over);
  const count = amount.unit === 'rows' ? gauge.rows : gauge.stitches;
  return over.unit === 'in'
    ? inInches(amount.value / perInch(count, over))
    : inCentimetres(amount.value / perCentimetre(count, over));
}

/** Stitches or rows of a length: by the inches or the centimetres, as the gauge was counted. */
export function countThrough(
  { inches, centimetres }: LengthAmount,
  gauge: GaugeData,
  unit: 'sts' | 'rows',
): number {
  const over = readBase(gauge.over);
  const count = unit === 'rows' ? gauge.rows : gauge.stitches;
  return over.unit === 'in'
    ? inches * perInch(count, over)
    : centimetres * perCentimetre(count, over);
}

const RECKON: Readonly<Record<Operator, (left: number, right: number) => number>> = {
  '+': (left, right) => left + right,
  '-': (left, right) => left - right,
  '*': (left, right) => left * right,
  '/': (left, right) => (right === 0 ? 0 : left / right),
};

function combined(operator: Operator, left: Amount, right: Amount): Amount {
  const reckon = RECKON[operator];
  if (left.unit === 'length') {
    if (right.unit !== 'length') return lengthTimes(reckon, left, right.value);
    const inches = reckon(left.inches, right.inches);
    if (operator === '/') return { unit: 'plain', value: inches };
    return { unit: 'length', inches, centimetres: reckon(left.centimetres, right.centimetres) };
  }
  if (right.unit === 'length') return lengthTimes(reckon, right, left.value);
  return counted(operator, left, right, reckon);
}

type Counted = Exclude<Amount, { unit: 'length' }>;

function lengthTimes(
  reckon: (left: number, right: number) => number,
  { inches, centimetres }: LengthAmount,
  by: number,
): Amount {
  return { unit: 'length', inches: reckon(inches, by), centimetres: reckon(centimetres, by) };
}

/** A sum keeps the gauge and the lengths of its parts, so that its deviation can be told as a length. */
function counted(
  operator: Operator,
  left: Counted,
  right: Counted,
  reckon: (left: number, right: number) => number,
): Amount {
  const value = reckon(left.value, right.value);
  if (operator === '/' && right.unit === left.unit) return { unit: 'plain', value };
  const unit = left.unit === 'plain' ? right.unit : left.unit;
  const gauge = left.gauge ?? right.gauge;
  const isSum = operator === '+' || operator === '-';
  const wanted = isSum ? wantedOf(left.wanted, right.wanted, reckon) : undefined;
  return { unit, value, ...(gauge && { gauge }), ...(wanted && { wanted }) };
}

const NO_LENGTH: LengthAmount = { inches: 0, centimetres: 0 };

function wantedOf(
  left: LengthAmount | undefined,
  right: LengthAmount | undefined,
  reckon: (left: number, right: number) => number,
): LengthAmount | undefined {
  if (!left && !right) return undefined;
  const [one, other] = [left ?? NO_LENGTH, right ?? NO_LENGTH];
  return {
    inches: reckon(one.inches, other.inches),
    centimetres: reckon(one.centimetres, other.centimetres),
  };
}

// ---------------------------------------------------------------- rounding

/** The counts a rule allows, as a multiple with edge stitches; undefined where it gives a length. */
export function gridOf(
  rule: Rule,
  amounts: Amounts,
): { multiple: number; plus: number } | undefined {
  const grid = rule.rounding?.grid;
  if (!grid) return { multiple: 1, plus: 0 };
  if (grid.kind === 'pattern') return amounts.pattern(grid.id);
  return grid.kind === 'multiple' ? gridIn(grid, amounts.size) : undefined;
}

/** Of one size. */
export const gridIn = (
  { multiple, plus }: Extract<Grid, { kind: 'multiple' }>,
  size: number,
): { multiple: number; plus: number } => ({
  multiple: valueFor(multiple, size) ?? 1,
  plus: valueFor(plus, size) ?? 0,
});

/** The exact amount rounded as the rule says; `exactly` leaves it as it is. */
export function roundedBy(rule: Rule, exact: number, amounts: Amounts): number {
  const grid = gridOf(rule, amounts);
  const way = rule.rounding?.way ?? 'nearest';
  if (way === 'exactly') return exact;
  if (grid) return roundToRule(exact, { ...grid, selvedges: 0, rounding: way });
  const step = rule.rounding?.grid.kind === 'length' ? rule.rounding.grid.step : 0;
  return step === 0 ? exact : roundRepeats(exact / step, way) * step;
}
