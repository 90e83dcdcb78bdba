/**
 * Rules as spreadsheet formulas, in the functions every spreadsheet program has (ISO/IEC 29500 and
 * OpenDocument 1.3: ROUND, ROUNDUP, ROUNDDOWN, IF, MAX). Takes a rule and where its names stand in the
 * sheet, gives the formula. Lengths are asked for in the unit of the gauge they go through, as the
 * reckoning itself does.
 */
import { assertNever } from '../../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import type { GaugeData, NumberData } from '../../bundle/schema.ts';
import { valueFor } from '../../bundle/size-list.ts';
import { readBase } from '../gauge.ts';
import type { Expression, Rounding, Rule } from '../rules/rule.ts';

type LengthUnit = 'in' | 'cm';

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
  const want = number.unit === 'in' || number.unit === 'cm' ? number.unit : undefined;
  const exact = formulaIn(rule.expression, number.unit, cells, want);
  return exact === undefined ? undefined : rounded(exact, rule.rounding, cells, want !== undefined);
}

/** The amount before rounding, as a formula of its own. */
export function exactFormulaOf(rule: Rule, number: NumberData, cells: Cells): string | undefined {
  const want = number.unit === 'in' || number.unit === 'cm' ? number.unit : undefined;
  return formulaIn(rule.expression, number.unit, cells, want);
}

function formulaIn(
  expression: Expression,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): string | undefined {
  switch (expression.kind) {
    case 'literal': {
      const value = valueFor(expression.values, cells.size);
      if (value === null) return undefined;
      const { unit } = expression;
      return unit === 'in' || unit === 'cm' ? inUnit(say(value), unit, want ?? unit) : say(value);
    }
    case 'name':
      return nameFormula(expression.name, cells, want);
    case 'body':
      return lengthFormula((unit) => cells.body(expression.part, unit), want ?? 'in');
    case 'through':
      return throughFormula(expression, counts, cells, want);
    case 'binary':
      return binaryFormula(expression, counts, cells, want);
    default:
      return assertNever(expression);
  }
}

function nameFormula(name: string, cells: Cells, want: LengthUnit | undefined): string | undefined {
  const cell = cells.number(name);
  const unit = cells.unitOf(name);
  if (cell !== undefined && unit !== undefined)
    return unit === 'in' || unit === 'cm' ? inUnit(cell, unit, want ?? unit) : cell;
  return lengthFormula((each) => cells.measurement(name, each), want ?? 'in');
}

/** The cell in this unit, else the other one converted. */
function lengthFormula(
  cell: (unit: LengthUnit) => string | undefined,
  want: LengthUnit,
): string | undefined {
  const own = cell(want);
  if (own !== undefined) return own;
  const unit = want === 'in' ? 'cm' : 'in';
  const other = cell(unit);
  return other === undefined ? undefined : inUnit(other, unit, want);
}

function inUnit(formula: string, from: LengthUnit, to: LengthUnit): string {
  if (from === to) return formula;
  return to === 'cm'
    ? `(${formula}*${CENTIMETRES_PER_INCH})`
    : `(${formula}/${CENTIMETRES_PER_INCH})`;
}

type Through = Extract<Expression, { kind: 'through' }>;

function throughFormula(
  { of, gauge: id, toward }: Through,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): string | undefined {
  const gauge = cells.gaugeData(id);
  if (!gauge) return undefined;
  const { amount, unit } = readBase(gauge.over);
  const isLength = isLengthSum(of, cells);
  const inner = formulaIn(of, counts, cells, isLength ? unit : undefined);
  const rows = isLength ? (toward ?? counts) === 'rows' : countsRows(of, cells);
  const per = cells.gauge(id, rows ? 'rows' : 'stitches');
  if (inner === undefined || per === undefined) return undefined;
  if (isLength) return `(${inner}*${per}/${amount})`;
  return inUnit(`(${inner}*${amount}/${per})`, unit, want ?? unit);
}

function binaryFormula(
  { operator, left, right }: Extract<Expression, { kind: 'binary' }>,
  counts: NumberData['unit'],
  cells: Cells,
  want: LengthUnit | undefined,
): string | undefined {
  // A length over a length is a plain number, in whichever unit both are taken.
  const unit = want ?? (isLengthSum(left, cells) && isLengthSum(right, cells) ? 'in' : undefined);
  const one = formulaIn(left, counts, cells, isLengthSum(left, cells) ? unit : undefined);
  const other = formulaIn(right, counts, cells, isLengthSum(right, cells) ? unit : undefined);
  if (one === undefined || other === undefined) return undefined;
  if (operator === '/' && right.kind !== 'literal') return `IF(${other}=0,0,${one}/${other})`;
  return `(${one}${operator}${other})`;
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
  up: 'ROUNDUP',
  down: 'ROUNDDOWN',
};

function rounded(
  exact: string,
  rounding: Rounding | undefined,
  cells: Cells,
  isLength: boolean,
): string | undefined {
  const way = rounding?.way ?? 'nearest';
  if (way === 'exactly' || (isLength && !rounding)) return exact;
  const round = (inner: string) => `${ROUND[way]}(ROUND(${inner},9),0)`;
  const grid = rounding?.grid ?? { kind: 'multiple', multiple: 1, plus: 0 };
  if (grid.kind === 'length') return `${round(`${exact}/${say(grid.step)}`)}*${say(grid.step)}`;
  const multiple = grid.kind === 'pattern' ? cells.pattern(grid.id) : grid;
  if (!multiple) return undefined;
  const { multiple: each, plus } = multiple;
  if (each === 1 && plus === 0) return `MAX(0,${round(exact)})`;
  const shifted = plus === 0 ? exact : `(${exact}-${plus})`;
  const repeats = `MAX(0,${round(`${shifted}/${each}`)})*${each}`;
  return plus === 0 ? repeats : `${repeats}+${plus}`;
}

/** A number as a formula writes it: no thousands, a full stop, enough figures to be the same number. */
const say = (value: number): string => String(value);
