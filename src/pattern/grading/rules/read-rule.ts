/**
 * Reads a rule as a designer writes it. Takes its text, gives the tree or the first problem with its
 * place. Names are not looked up and units not compared here: that needs the bundle.
 *
 *     (body bust + 4 in) / 2 at body + 2 sts, nearest odd, within ½ in
 *     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^  ^^^^^^^^^^^  ^^^^^^^^^^^
 *     sum                                    rounding     bound
 */
import { RULE_LIMITS } from '../../../base/limits.ts';
import { cover, type Span } from '../../../base/span.ts';
import { readSizeList, type Sized, sizedOf } from '../../bundle/size-list.ts';
import type {
  Expression,
  Grid,
  LiteralUnit,
  Operator,
  Rounding,
  Rule,
  RuleProblem,
} from './rule.ts';

interface Reader {
  readonly text: string;
  at: number;
  depth: number;
}

/** Leaves the recursive descent; never seen outside this module. */
class Stop extends Error {
  readonly problem: RuleProblem;
  constructor(problem: RuleProblem) {
    super(problem.kind);
    this.problem = problem;
  }
}

export function readRule(text: string): { rule: Rule } | { problem: RuleProblem } {
  const reader: Reader = { text, at: 0, depth: 0 };
  try {
    return { rule: readWhole(reader) };
  } catch (error) {
    if (error instanceof Stop) return { problem: error.problem };
    throw error;
  }
}

function readWhole(reader: Reader): Rule {
  const expression = readSum(reader);
  let rounding: Rounding | undefined;
  let within: Rule['within'];
  while (takeSign(reader, ',')) {
    if (peekWord(reader) === 'within' && !within) within = readWithin(reader);
    else if (!rounding && !within) rounding = readRounding(reader);
    else fail(reader, 'nothing more');
  }
  skipSpace(reader);
  if (reader.at < reader.text.length) fail(reader, 'an operator, “at” and a gauge, or a comma');
  return {
    text: reader.text,
    expression,
    ...(rounding && { rounding }),
    ...(within && { within }),
  };
}

// ---------------------------------------------------------------- sums

/** From left to right; “at” takes all that stands before it through the gauge. */
function readSum(reader: Reader): Expression {
  let left = readProduct(reader);
  for (;;) {
    const operator = takeOperator(reader, SUM_SIGNS);
    if (operator) left = binary(operator, left, readProduct(reader));
    else if (takeWord(reader, 'at')) left = readThrough(reader, left);
    else return left;
  }
}

function readThrough(reader: Reader, of: Expression): Expression {
  const gauge = readName(reader, 'the name of a gauge');
  const toward = (['sts', 'rows'] as const).find((unit) => takeUnit(reader, unit));
  const span = { start: of.span.start, end: reader.at };
  return {
    kind: 'through',
    of,
    gauge: gauge.name,
    gaugeSpan: gauge.span,
    span,
    ...(toward && { toward }),
  };
}

function readProduct(reader: Reader): Expression {
  let left = readFactor(reader);
  for (;;) {
    const operator = takeOperator(reader, PRODUCT_SIGNS) ?? takeTimesWord(reader);
    if (!operator) return left;
    left = binary(operator, left, readFactor(reader));
  }
}

const binary = (operator: Operator, left: Expression, right: Expression): Expression => ({
  kind: 'binary',
  operator,
  left,
  right,
  span: cover(left.span, right.span),
});

function readFactor(reader: Reader): Expression {
  skipSpace(reader);
  const start = reader.at;
  if (takeSign(reader, '(')) {
    reader.depth += 1;
    if (reader.depth > RULE_LIMITS.depth) fail(reader, `at most ${RULE_LIMITS.depth} brackets`);
    const inner = readSum(reader);
    if (!takeSign(reader, ')')) fail(reader, 'a closing bracket');
    reader.depth -= 1;
    return { ...inner, span: { start, end: reader.at } };
  }
  const literal = readLiteral(reader);
  if (literal) return literal;
  const { name, span } = readName(reader, 'a number, a length or a name');
  if (name !== 'body' || !/^[ ][A-Za-z]/.test(reader.text.slice(reader.at)) || isWord(reader))
    return { kind: 'name', name, span };
  const part = readName(reader, 'a part of the body');
  return { kind: 'body', part: part.name, span: cover(span, part.span) };
}

/** After `body`: “at”, “of”, “x” go on with the sum, so that a number may be called body as well. */
const isWord = (reader: Reader): boolean => ['at', 'of', 'x'].includes(peekWord(reader) ?? '');

// ---------------------------------------------------------------- numbers and names

const NUMBER_START = /[\d¼½¾⅓⅔⅛⅜⅝⅞]/;
const UNIT_WORDS: Readonly<Record<Exclude<LiteralUnit, 'plain'>, readonly string[]>> = {
  in: ['in', 'inch', 'inches'],
  cm: ['cm'],
  sts: ['sts', 'st', 'stitch', 'stitches'],
  rows: ['rows', 'row', 'rnds', 'rnd', 'rounds', 'round'],
};

function readLiteral(reader: Reader): Extract<Expression, { kind: 'literal' }> | undefined {
  skipSpace(reader);
  const start = reader.at;
  if (!NUMBER_START.test(reader.text[start] ?? '')) return undefined;
  const read = readSizeList(reader.text, start);
  if ('problem' in read) {
    reader.at = read.problem.span.start;
    fail(reader, 'a number for each size, like 2 (2, 3, 4)');
  }
  reader.at = read.end;
  const percent = takeSign(reader, '%');
  const values = percent ? scaled(read.sized, 1 / 100) : read.sized;
  const unit = percent ? 'plain' : readUnit(reader);
  return { kind: 'literal', values, unit, span: { start, end: reader.at } };
}

const scaled = ({ values, spans }: Sized, by: number): Sized => ({
  values: values.map((value) => (value === null ? null : value * by)),
  spans,
});

function readUnit(reader: Reader): LiteralUnit {
  const units = Object.keys(UNIT_WORDS) as (keyof typeof UNIT_WORDS)[];
  return units.find((unit) => takeUnit(reader, unit)) ?? 'plain';
}

const takeUnit = (reader: Reader, unit: keyof typeof UNIT_WORDS): boolean =>
  UNIT_WORDS[unit].some((word) => takeWord(reader, word));

const NAME = /[A-Za-z][\w-]*/y;

function readName(reader: Reader, expected: string): { name: string; span: Span } {
  skipSpace(reader);
  const name = matchAt(NAME, reader);
  if (name === undefined) fail(reader, expected);
  const start = reader.at;
  reader.at += name.length;
  return { name, span: { start, end: reader.at } };
}

// ---------------------------------------------------------------- the clauses at the end

function readRounding(reader: Reader): Rounding {
  skipSpace(reader);
  const start = reader.at;
  const way = (['nearest', 'up', 'down', 'exactly'] as const).find((word) =>
    takeWord(reader, word),
  );
  if (!way) fail(reader, 'nearest, up to, down to, exactly or within');
  takeWord(reader, 'to');
  takeWord(reader, 'a');
  const grid = readGrid(reader);
  return { way, grid, span: { start, end: reader.at } };
}

const PLAIN_GRIDS: Readonly<Record<string, Grid>> = {
  even: { kind: 'multiple', multiple: sizedOf(2), plus: sizedOf(0) },
  odd: { kind: 'multiple', multiple: sizedOf(2), plus: sizedOf(1) },
  whole: { kind: 'multiple', multiple: sizedOf(1), plus: sizedOf(0) },
};

function readGrid(reader: Reader): Grid {
  for (const [word, grid] of Object.entries(PLAIN_GRIDS)) {
    if (!takeWord(reader, word)) continue;
    takeWord(reader, 'number');
    return grid;
  }
  if (takeWord(reader, 'multiple')) {
    if (!takeWord(reader, 'of')) fail(reader, 'of, as in multiple of 4');
    return readMultiple(reader);
  }
  const step = readLiteral(reader);
  const value = step?.values.values[0];
  if (
    !step ||
    typeof value !== 'number' ||
    value <= 0 ||
    (step.unit !== 'in' && step.unit !== 'cm')
  )
    fail(reader, 'even, odd, whole, multiple of 4 + 2, or a step of length like ¼ in');
  return { kind: 'length', step: value, unit: step.unit };
}

function readMultiple(reader: Reader): Grid {
  skipSpace(reader);
  if (!NUMBER_START.test(reader.text[reader.at] ?? '')) {
    const { name, span } = readName(reader, 'a number, or the name of a stitch pattern');
    return { kind: 'pattern', id: name, span };
  }
  const multiple = readWholeNumbers(reader, 1);
  const plus = takeOperator(reader, { '+': '+' }) ? readWholeNumbers(reader, 0) : sizedOf(0);
  return { kind: 'multiple', multiple, plus };
}

/** `12`, or one for each size: `12 (12, 10)`. */
function readWholeNumbers(reader: Reader, least: number): Sized {
  skipSpace(reader);
  const read = readSizeList(reader.text, reader.at);
  const isCount = (value: number | null) =>
    value !== null && Number.isInteger(value) && value >= least && value <= RULE_LIMITS.multiple;
  if ('problem' in read || !read.sized.values.every(isCount)) fail(reader, 'a whole number');
  reader.at = read.end;
  return read.sized;
}

function readWithin(reader: Reader): NonNullable<Rule['within']> {
  skipSpace(reader);
  const start = reader.at;
  takeWord(reader, 'within');
  const literal = readLiteral(reader);
  const amount = literal?.values.values[0];
  if (!literal || typeof amount !== 'number' || literal.unit === 'plain')
    fail(reader, 'a length or a count, like ½ in or 2 sts');
  return { amount, unit: literal.unit, span: { start, end: reader.at } };
}

// ---------------------------------------------------------------- letters

const SUM_SIGNS: Readonly<Record<string, Operator>> = { '+': '+', '−': '-', '–': '-', '-': '-' };
const PRODUCT_SIGNS: Readonly<Record<string, Operator>> = {
  '×': '*',
  '*': '*',
  '·': '*',
  '÷': '/',
  '/': '/',
};

function takeOperator(
  reader: Reader,
  signs: Readonly<Record<string, Operator>>,
): Operator | undefined {
  skipSpace(reader);
  const operator = signs[reader.text[reader.at] ?? ''];
  if (operator) reader.at += 1;
  return operator;
}

/** `8% of body` and `2 x sleeve` multiply. */
const takeTimesWord = (reader: Reader): Operator | undefined =>
  takeWord(reader, 'of') || takeWord(reader, 'x') ? '*' : undefined;

function takeSign(reader: Reader, sign: string): boolean {
  skipSpace(reader);
  if (reader.text[reader.at] !== sign) return false;
  reader.at += 1;
  return true;
}

function peekWord(reader: Reader): string | undefined {
  skipSpace(reader);
  return matchAt(NAME, reader);
}

function takeWord(reader: Reader, word: string): boolean {
  if (peekWord(reader) !== word) return false;
  reader.at += word.length;
  return true;
}

function matchAt(sticky: RegExp, reader: Reader): string | undefined {
  sticky.lastIndex = reader.at;
  return sticky.exec(reader.text)?.[0];
}

function skipSpace(reader: Reader): void {
  while (/\s/.test(reader.text[reader.at] ?? 'x')) reader.at += 1;
}

function fail(reader: Reader, expected: string): never {
  skipSpace(reader);
  const word = /^[\w¼½¾-]+|^./u.exec(reader.text.slice(reader.at))?.[0];
  const span = { start: reader.at, end: reader.at + (word?.length ?? 1) };
  const found = word === undefined ? 'the end of the rule' : `“${word}”`;
  throw new Stop({ kind: 'text', found, expected, span });
}
