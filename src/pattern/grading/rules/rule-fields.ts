/**
 * A rule as the fields of a form, and back. Takes the text of a rule, gives what each field holds; a sum
 * of another shape than a length through a gauge or a share of a number stands whole in one field. Takes
 * fields as they were typed, gives the text of the rule; whether it can be reckoned is not known here.
 */
import { readRule } from './read-rule.ts';
import type { Expression, Rule } from './rule.ts';

export const RULE_KINDS = ['length', 'share', 'sum', 'none'] as const;
export type RuleKind = (typeof RULE_KINDS)[number];

export const ROUNDINGS = ['', 'nearest', 'up', 'down', 'exactly'] as const;
export const STEPS = ['whole', 'even', 'odd', 'multiple', 'pattern', 'length'] as const;

/** All as typed; empty where a part is not there. */
export interface RuleFields {
  /** `length`: through a gauge; `share`: of another number; `sum`: as written; `none`: no rule. */
  readonly kind: RuleKind;
  /** `length`: a measurement, or `body bust`. */
  readonly of: string;
  /** Added to it: `4 in`, `−2 (2, 3) cm`. */
  readonly ease: string;
  /** Of both together: `1/2`, `8%`, `2`. */
  readonly part: string;
  readonly gauge: string;
  /** `share`: the number, and how much of it. */
  readonly number: string;
  readonly share: string;
  /** Stitches or rows added at the end, of either kind: `2`, `−5`. */
  readonly more: string;
  /** `sum`: all that stands before the rounding. */
  readonly sum: string;
  readonly rounding: string;
  readonly step: string;
  readonly multiple: string;
  readonly plus: string;
  readonly pattern: string;
  /** A step of length: `¼ in`. */
  readonly size: string;
  /** `½ in`: how far the count may lie from what was wanted. */
  readonly within: string;
}

export const EMPTY_FIELDS: RuleFields = {
  kind: 'none',
  of: '',
  ease: '',
  part: '',
  gauge: '',
  number: '',
  share: '',
  more: '',
  sum: '',
  rounding: '',
  step: 'whole',
  multiple: '',
  plus: '',
  pattern: '',
  size: '',
  within: '',
};

// ---------------------------------------------------------------- from a rule

/** `numbers`: ids of the numbers of the bundle; any other name is a measurement. */
export function fieldsOfRule(text: string, numbers: readonly string[]): RuleFields {
  if (text.trim() === '') return EMPTY_FIELDS;
  const read = readRule(text);
  if ('problem' in read) return { ...EMPTY_FIELDS, kind: 'sum', sum: text };
  const { rule } = read;
  const { start, end } = rule.expression.span;
  const sum = rule.text.slice(start, end);
  const shape =
    lengthShape(rule, numbers) ?? shareShape(rule, numbers) ?? ({ kind: 'sum' } as const);
  return { ...EMPTY_FIELDS, ...roundingFields(rule), ...shape, sum };
}

const textOf = (rule: Rule, { span }: Expression): string =>
  rule.text.slice(span.start, span.end).trim();

interface Peeled {
  readonly rest: Expression;
  readonly text: string;
}

/** `X + 2 sts` → X and `2`; a sum without such an end is its own rest. */
function withoutEnd(rule: Rule, node: Expression, units: readonly string[]): Peeled {
  if (node.kind !== 'binary' || (node.operator !== '+' && node.operator !== '-'))
    return { rest: node, text: '' };
  const { left, right, operator } = node;
  if (right.kind !== 'literal' || !units.includes(right.unit)) return { rest: node, text: '' };
  return { rest: left, text: `${operator === '-' ? '−' : ''}${textOf(rule, right)}` };
}

/** `X / 2` → X and `1/2`; `8% of X` → X and `8%`. */
function withoutFactor(rule: Rule, node: Expression): Peeled {
  if (node.kind !== 'binary') return { rest: node, text: '' };
  const { left, right, operator } = node;
  if (operator === '/' && isPlain(right)) return { rest: left, text: `1/${textOf(rule, right)}` };
  if (operator === '*' && isPlain(right)) return { rest: left, text: textOf(rule, right) };
  if (operator === '*' && isPlain(left)) return { rest: right, text: textOf(rule, left) };
  return { rest: node, text: '' };
}

const isPlain = (node: Expression): boolean => node.kind === 'literal' && node.unit === 'plain';

const COUNTS = ['plain', 'sts', 'rows'] as const;

/** `(body bust + 4 in) / 2 at body + 2 sts` */
function lengthShape(rule: Rule, numbers: readonly string[]): Partial<RuleFields> | undefined {
  const outer = withoutEnd(rule, rule.expression, COUNTS);
  const through = outer.rest;
  if (through.kind !== 'through' || through.toward) return undefined;
  const factor = withoutFactor(rule, through.of);
  const { rest, text: ease } = withoutEnd(rule, factor.rest, ['in', 'cm']);
  const isLength = rest.kind === 'body' || (rest.kind === 'name' && !numbers.includes(rest.name));
  if (!isLength) return undefined;
  const of = rest.kind === 'body' ? `body ${rest.part}` : rest.name;
  return { kind: 'length', of, ease, part: factor.text, gauge: through.gauge, more: outer.text };
}

/** `leg-sts / 4 + 2 sts` */
function shareShape(rule: Rule, numbers: readonly string[]): Partial<RuleFields> | undefined {
  const outer = withoutEnd(rule, rule.expression, COUNTS);
  const { rest, text: share } = withoutFactor(rule, outer.rest);
  if (rest.kind !== 'name' || !numbers.includes(rest.name)) return undefined;
  return { kind: 'share', number: rest.name, share, more: outer.text };
}

function roundingFields({ text, rounding, within }: Rule): Partial<RuleFields> {
  const bound = within ? text.slice(within.span.start, within.span.end).replace(/^within\s*/, '') : ''; // prettier-ignore
  if (!rounding) return { within: bound };
  const { way, grid, span } = rounding;
  const own = { rounding: way, within: bound };
  if (grid.kind === 'pattern') return { ...own, step: 'pattern', pattern: grid.id };
  const written = text.slice(span.start, span.end);
  if (grid.kind === 'length')
    return { ...own, step: 'length', size: written.replace(/^\w+\s+(?:to\s+)?(?:an?\s+)?/, '') };
  const plain = /\b(whole|even|odd)\b/.exec(written)?.[1];
  if (plain !== undefined) return { ...own, step: plain };
  const [multiple = '', plus = ''] = written.replace(/^.*\bof\b/, '').split('+');
  return { ...own, step: 'multiple', multiple: multiple.trim(), plus: plus.trim() };
}

// ---------------------------------------------------------------- to a rule

/** Empty for a number without a rule. */
export function ruleOfFields(fields: RuleFields): string {
  const trimmed = Object.fromEntries(
    Object.entries(fields).map(([key, value]: [string, string]) => [key, value.trim()]),
  ) as unknown as RuleFields;
  const sum = sumOf(trimmed);
  if (sum === '') return '';
  const { within } = trimmed;
  return [sum, ...roundingOf(trimmed), ...(within === '' ? [] : [`within ${within}`])].join(', ');
}

function sumOf(fields: RuleFields): string {
  switch (fields.kind) {
    case 'none':
      return '';
    case 'sum':
      return fields.sum;
    case 'share':
      return added(timesPart(fields.number, fields.share), fields.more);
    case 'length': {
      const { of, ease, part, gauge, more } = fields;
      const length = timesPart(ease === '' ? of : `(${added(of, ease)})`, part);
      return added(`${length} at ${gauge}`, more);
    }
  }
}

const MINUS = /^[-−–]\s*/;

const added = (sum: string, more: string): string => {
  if (more === '') return sum;
  return MINUS.test(more) ? `${sum} − ${more.replace(MINUS, '')}` : `${sum} + ${more.replace(/^\+\s*/, '')}`; // prettier-ignore
};

function timesPart(whole: string, part: string): string {
  if (part === '' || part === '1') return whole;
  const under = /^1\s*\/\s*(.+)$/.exec(part)?.[1];
  if (under !== undefined) return `${whole} / ${under}`;
  return part.endsWith('%') ? `${part} of ${whole}` : `${whole} × ${part}`;
}

function roundingOf({
  rounding,
  step,
  multiple,
  plus,
  pattern,
  size,
}: RuleFields): readonly string[] {
  // prettier-ignore
  if (rounding === '') return [];
  const lead = rounding === 'up' || rounding === 'down' ? `${rounding} to ` : `${rounding} `;
  const article = rounding === 'up' || rounding === 'down' ? 'a ' : '';
  switch (step) {
    case 'multiple':
      return [`${lead}${article}multiple of ${multiple}${plus === '' || plus === '0' ? '' : ` + ${plus}`}`]; // prettier-ignore
    case 'pattern':
      return [`${lead}${article}multiple of ${pattern}`];
    case 'length':
      return [`${lead}${size}`];
    default:
      return [`${lead}${step}`];
  }
}
