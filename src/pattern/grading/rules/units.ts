/**
 * Units of a rule: stitches are not added to rows, and a length becomes stitches only through a gauge.
 * Takes a rule and what its names stand for, gives the first problem, with its place, before a single
 * number is reckoned. What the numbers are is not known here.
 */
import { assertNever } from '../../../base/assert.ts';
import { nearestWords } from '../../../base/nearest.ts';
import type { Span } from '../../../base/span.ts';
import type { NumberData } from '../../bundle/schema.ts';
import type { Expression, Rule, RuleProblem } from './rule.ts';

export type Unit = 'length' | 'sts' | 'rows' | 'plain';

/** What the names in a rule stand for. */
export interface RuleNames {
  /** Unit of a number or measurement; undefined where there is none of that name. */
  unitOf(name: string): Unit | undefined;
  readonly names: readonly string[];
  readonly bodyParts: readonly string[];
  readonly gauges: readonly string[];
  readonly patterns: readonly string[];
  /** How many sizes there are. */
  readonly sizes: number;
}

export const unitOfNumber = (unit: NumberData['unit']): Unit =>
  unit === 'in' || unit === 'cm' ? 'length' : unit === 'times' ? 'plain' : unit;

/** Leaves the recursion; never seen outside this module. */
class Stop extends Error {
  readonly problem: RuleProblem;
  constructor(problem: RuleProblem) {
    super(problem.kind);
    this.problem = problem;
  }
}

export function unitProblem(
  rule: Rule,
  counts: NumberData['unit'],
  names: RuleNames,
): RuleProblem | undefined {
  try {
    const unit = unitIn(rule.expression, counts, names);
    demandUnit(unit, counts, rule.expression.span);
    demandGrid(rule, counts, names);
    return undefined;
  } catch (error) {
    if (error instanceof Stop) return error.problem;
    throw error;
  }
}

function unitIn(expression: Expression, counts: NumberData['unit'], names: RuleNames): Unit {
  switch (expression.kind) {
    case 'literal':
      return expression.unit === 'in' || expression.unit === 'cm' ? 'length' : expression.unit;
    case 'name':
      return (
        names.unitOf(expression.name) ?? unknown('number or measurement', expression, names.names)
      );
    case 'body':
      if (names.bodyParts.includes(expression.part)) return 'length';
      return unknown('body measurement', { ...expression, name: expression.part }, names.bodyParts);
    case 'through':
      return unitThrough(expression, counts, names);
    case 'binary':
      return unitOfBinary(
        expression,
        unitIn(expression.left, counts, names),
        unitIn(expression.right, counts, names),
      );
    default:
      return assertNever(expression);
  }
}

type Through = Extract<Expression, { kind: 'through' }>;
type Binary = Extract<Expression, { kind: 'binary' }>;

function unitThrough(expression: Through, counts: NumberData['unit'], names: RuleNames): Unit {
  const { of, gauge, gaugeSpan, toward, span } = expression;
  if (!names.gauges.includes(gauge))
    unknown('gauge', { name: gauge, span: gaugeSpan }, names.gauges);
  const unit = unitIn(of, counts, names);
  if (unit === 'length') return toward ?? (counts === 'rows' ? 'rows' : 'sts');
  if (unit === 'plain')
    refuse(
      span,
      'only a length or a count goes through a gauge',
      'name a measurement, or write the number with in, cm, sts or rows',
    );
  return 'length';
}

const SAY: Readonly<Record<Unit, string>> = {
  length: 'a length',
  sts: 'stitches',
  rows: 'rows',
  plain: 'a plain number',
};

function unitOfBinary({ operator, span }: Binary, left: Unit, right: Unit): Unit {
  if (operator === '*') {
    if (left === 'plain') return right;
    if (right === 'plain') return left;
    return refuse(
      span,
      `${SAY[left]} cannot be multiplied by ${SAY[right]}`,
      'multiply by a plain number',
    );
  }
  if (operator === '/') {
    if (right === 'plain') return left;
    if (left === right) return 'plain';
    return refuse(
      span,
      `${SAY[left]} cannot be divided by ${SAY[right]}`,
      'take one of them through a gauge, or divide by a plain number',
    );
  }
  if (left === right) return left;
  const [length, counted] = [
    left === 'length' || right === 'length',
    left === 'plain' || right === 'plain',
  ];
  if (!length && counted) return left === 'plain' ? right : left;
  const word = operator === '+' ? 'added to' : 'taken from';
  const [first, second] = operator === '+' ? [left, right] : [right, left];
  const remedy =
    length && counted
      ? 'write the number with its unit, like 2 in'
      : 'take the length through a gauge first: “at” and its name';
  return refuse(span, `${SAY[first]} cannot be ${word} ${SAY[second]}`, remedy);
}

/** A plain result may count anything; how often something is done may be counted in stitches or rows. */
function demandUnit(unit: Unit, counts: NumberData['unit'], span: Span): void {
  const wanted = unitOfNumber(counts);
  if (unit === wanted || (wanted === 'plain' && unit !== 'length')) return;
  if (wanted !== 'length' && unit === 'plain') return;
  const remedy =
    unit === 'length'
      ? 'end the sum with “at” and the name of a gauge'
      : `give the number the unit ${unit === 'rows' ? 'rows' : unit === 'sts' ? 'sts' : 'times'}, or change the rule`;
  refuse(span, `the rule gives ${SAY[unit]}, and the number counts ${SAY[wanted]}`, remedy);
}

function demandGrid(
  { rounding, within }: Rule,
  counts: NumberData['unit'],
  names: RuleNames,
): void {
  const isLength = unitOfNumber(counts) === 'length';
  if (rounding?.grid.kind === 'pattern' && !names.patterns.includes(rounding.grid.id))
    unknown('stitch pattern', { name: rounding.grid.id, span: rounding.grid.span }, names.patterns);
  if (rounding?.grid.kind === 'multiple')
    for (const { values } of [rounding.grid.multiple, rounding.grid.plus])
      if (values.length > 1 && values.length !== names.sizes)
        refuse(
          rounding.span,
          `the multiple is given for ${values.length} sizes, and there are ${names.sizes}`,
          'write one number for all sizes, or one for each',
        );
  if (rounding && isLength !== (rounding.grid.kind === 'length'))
    refuse(
      rounding.span,
      isLength ? 'a length is rounded to a step of length' : 'a count is rounded to whole numbers',
      isLength
        ? 'write nearest ¼ in, or nearest ½ cm'
        : 'write nearest even, odd, whole or multiple of 4 + 2',
    );
  const unit = within && (within.unit === 'in' || within.unit === 'cm' ? 'length' : within.unit);
  if (within && unit !== 'length' && unit !== unitOfNumber(counts))
    refuse(
      within.span,
      `the bound is in ${within.unit}, and the number counts ${SAY[unitOfNumber(counts)]}`,
      'give the bound as a length',
    );
}

function unknown(
  what: string,
  { name, span }: { readonly name: string; readonly span: Span },
  known: readonly string[],
): never {
  throw new Stop({ kind: 'name', what, name, nearest: nearestWords(name, known), span });
}

function refuse(span: Span, says: string, remedy: string): never {
  throw new Stop({ kind: 'units', says, remedy, span });
}
