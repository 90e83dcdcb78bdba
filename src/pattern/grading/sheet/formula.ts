/**
 * Rules as spreadsheet formulas, in the functions every spreadsheet program has (ISO/IEC 29500 and
 * OpenDocument 1.3: ROUND, CEILING, FLOOR, IF, MAX). Takes a rule and where its names stand in the
 * sheet, gives the formula. Lengths are asked for in the unit of the gauge they go through, as the
 * reckoning itself does.
 */
import { assertNever } from '../../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import type { GaugeData, NumberData } from '../../bundle/schema.ts';
import { valueFor } from '../../bundle/size-list.ts';
import { readBase } from '../gauge.ts';
import { gridIn } from '../rules/evaluate.ts';
import type { Expression, Rounding, Rule } from '../rules/rule.ts';

type LengthUnit = 'in' | 'cm';

/** A part of a formula, and how tightly it binds: brackets stand only where they are needed. */
interface Part {
  readonly text: string;
  readonly binds: 'sum' | 'product' | 'whole';
}

const BINDING = { sum: 0, product: 1, whole: 2 } as const;

const whole = (text: string): Part => ({ text, binds: 'whole' });

const within = ({ text, binds }: Part, least: Part['binds']): string =>
  BINDING[binds] < BINDING[least] ? `(${text})` : text;

/** `a*b`, `a/b`: what is divided by stands in brackets unless it is one thing. */
const times = (left: Part, right: Part): Part => ({
  text: `${within(left, 'product')}*${within(right, 'product')}`,
  binds: 'product',
});
const over = (left: Part, right: Part): Part => ({
  text: `${within(left, 'product')}/${within(right, 'whole')}`,
  binds: 'product',
});
const plus = (left: Part, right: Part): Part => ({
  text: `${left.text}+${right.text}`,
  binds: 'sum',
});
const minus = (left: Part, right: Part): Part => ({
  text: `${left.text}-${within(right, 'product')}`,
  binds: 'sum',
});

/** Cells of the sheet, in the column of one size. */
export interface Cells {
  readonly size: number;
  /** A number of the bundle. */
  number(id: string): string | undefined;
  unitOf(id: string): NumberData['unit'] | undefined;
  /** A measurement or body measurement in the unit, where it is given in it. */
  measurement(id: string, unit: LengthUnit): string | undefined;
  body(part: string, unit: LengthUnit): string | undefined;
  /** Stitches or rows of a gauge, over its base. */
  gauge(id: string, kind: 'stitches' | 'rows'): string | undefined;
  gaugeData(id: string): GaugeData | undefined;
  pattern(id: string): { readonly multiple: number; readonly plus: number } | undefined;
}

/** The formula without its equals sign; undefined where a name has no cell. */
export function formulaOf(rule: Rule, number: NumberData, cells: Cells): string | undefined {
  const exact = exactPart(rule, number, cells);
  const isLength = number.unit === 'in' || number.unit === 'cm';
  return exact && rounded(exact, rule.rounding, cells, isLength)?.text;
}

/** The amount before rounding, as a formula of its own. */
export const exactFormulaOf = (rule: Rule, number: NumberData, cells: Cells): string | undefined =>
  exactPart(rule, number, cells)?.text;

function exactPart(rule: Rule, { unit }: NumberData, cells: Cells): Part | undefined {
  const want = unit === 'in' || unit === 'cm' ? unit : undefined;
  return partOf(rule.expression, unit, cells, want);
}

function partOf(
  expression: Expression,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): Part | undefined {
  switch (expression.kind) {
    case 'literal': {
      const value = valueFor(expression.values, cells.size);
      if (value === null) return undefined;
      const { unit } = expression;
      const part = whole(String(value));
      return unit === 'in' || unit === 'cm' ? inUnit(part, unit, want ?? unit) : part;
    }
    case 'name':
      return namePart(expression.name, cells, want);
    case 'body':
      return lengthPart((unit) => cells.body(expression.part, unit), want ?? 'in');
    case 'through':
      return throughPart(expression, counts, cells, want);
    case 'binary':
      return binaryPart(expression, counts, cells, want);
    default:
      return assertNever(expression);
  }
}

function namePart(name: string, cells: Cells, want: LengthUnit | undefined): Part | undefined {
  const cell = cells.number(name);
  const unit = cells.unitOf(name);
  if (cell === undefined || unit === undefined)
    return lengthPart((each) => cells.measurement(name, each), want ?? 'in');
  return unit === 'in' || unit === 'cm' ? inUnit(whole(cell), unit, want ?? unit) : whole(cell);
}

/** The cell in this unit, else the other one converted. */
function lengthPart(
  cell: (unit: LengthUnit) => string | undefined,
  want: LengthUnit,
): Part | undefined {
  const own = cell(want);
  if (own !== undefined) return whole(own);
  const unit = want === 'in' ? 'cm' : 'in';
  const other = cell(unit);
  return other === undefined ? undefined : inUnit(whole(other), unit, want);
}

function inUnit(part: Part, from: LengthUnit, to: LengthUnit): Part {
  if (from === to) return part;
  const factor = whole(String(CENTIMETRES_PER_INCH));
  return to === 'cm' ? times(part, factor) : over(part, factor);
}

type Through = Extract<Expression, { kind: 'through' }>;

function throughPart(
  { of, gauge: id, toward }: Through,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): Part | undefined {
  const gauge = cells.gaugeData(id);
  if (!gauge) return undefined;
  const { amount, unit } = readBase(gauge.over);
  const isLength = isLengthSum(of, cells);
  const inner = partOf(of, counts, cells, isLength ? unit : undefined);
  const rows = isLength ? (toward ?? counts) === 'rows' : countsRows(of, cells);
  const per = cells.gauge(id, rows ? 'rows' : 'stitches');
  if (!inner || per === undefined) return undefined;
  const base = whole(String(amount));
  if (isLength) return over(times(inner, whole(per)), base);
  return inUnit(over(times(inner, base), whole(per)), unit, want ?? unit);
}

function binaryPart(
  { operator, left, right }: Extract<Expression, { kind: 'binary' }>,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): Part | undefined {
  const [leftIsLength, rightIsLength] = [isLengthSum(left, cells), isLengthSum(right, cells)];
  // A length over a length is a plain number, in whichever unit both are taken.
  const unit = want ?? (leftIsLength && rightIsLength ? 'in' : undefined);
  const one = partOf(left, counts, cells, leftIsLength ? unit : undefined);
  const other = partOf(right, counts, cells, rightIsLength ? unit : undefined);
  if (!one || !other) return undefined;
  switch (operator) {
    case '+':
      return plus(one, other);
    case '-':
      return minus(one, other);
    case '*':
      return times(one, other);
    case '/':
      return right.kind === 'literal'
        ? over(one, other)
        : whole(`IF(${other.text}=0,0,${over(one, other).text})`);
    default:
      return assertNever(operator);
  }
}

// ---------------------------------------------------------------- what a sum is of

function isLengthSum(expression: Expression, cells: Cells): boolean {
  switch (expression.kind) {
    case 'literal':
      return expression.unit === 'in' || expression.unit === 'cm';
    case 'name': {
      const unit = cells.unitOf(expression.name);
      return unit === undefined || unit === 'in' || unit === 'cm';
    }
    case 'body':
      return true;
    case 'through':
      return !isLengthSum(expression.of, cells);
    case 'binary': {
      const [left, right] = [isLengthSum(expression.left, cells), isLengthSum(expression.right, cells)]; // prettier-ignore
      return expression.operator === '/' ? left && !right : left || right;
    }
    default:
      return assertNever(expression);
  }
}

/** Does a count that goes back through a gauge count rows? */
function countsRows(expression: Expression, cells: Cells): boolean {
  switch (expression.kind) {
    case 'literal':
      return expression.unit === 'rows';
    case 'name':
      return cells.unitOf(expression.name) === 'rows';
    case 'body':
      return false;
    case 'through':
      return expression.toward === 'rows';
    case 'binary':
      return countsRows(expression.left, cells) || countsRows(expression.right, cells);
    default:
      return assertNever(expression);
  }
}

// ---------------------------------------------------------------- rounding

const ROUND: Readonly<Record<'nearest' | 'up' | 'down', string>> = {
  nearest: 'ROUND',
  up: 'CEILING',
  down: 'FLOOR',
};

function rounded(
  exact: Part,
  rounding: Rounding | undefined,
  cells: Cells,
  isLength: boolean,
): Part | undefined {
  const way = rounding?.way ?? 'nearest';
  if (way === 'exactly' || (isLength && !rounding)) return exact;
  // ROUND wants the number of decimals, CEILING and FLOOR the step.
  const last = way === 'nearest' ? 0 : 1;
  const round = (inner: Part) => whole(`${ROUND[way]}(ROUND(${inner.text},9),${last})`);
  const grid = rounding?.grid;
  if (grid?.kind === 'length') {
    const step = whole(String(grid.step));
    return times(round(over(exact, step)), step);
  }
  const allowed = !grid
    ? { multiple: 1, plus: 0 }
    : grid.kind === 'pattern'
      ? cells.pattern(grid.id)
      : gridIn(grid, cells.size);
  if (!allowed) return undefined;
  const notNegative = ({ text }: Part) => whole(`MAX(0,${text})`);
  if (allowed.multiple === 1 && allowed.plus === 0) return notNegative(round(exact));
  const [multiple, edge] = [whole(String(allowed.multiple)), whole(String(allowed.plus))];
  const repeats = over(allowed.plus === 0 ? exact : minus(exact, edge), multiple);
  const count = times(notNegative(round(repeats)), multiple);
  return allowed.plus === 0 ? count : plus(count, edge);
}
