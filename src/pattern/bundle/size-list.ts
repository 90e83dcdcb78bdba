/**
 * Numbers that differ by size, as the trade writes them: `80 (88, 96) [104, 112] {120, 128}`. Takes
 * text, gives one value or one per size with the span of each; knows nothing of what is counted.
 * A dash means "does not apply" and is kept as null; a single number holds for every size.
 */
import type { Span } from '../../base/span.ts';

export interface Sized {
  /** One value for all sizes, or one per size. Null stands for "–": does not apply. */
  readonly values: readonly (number | null)[];
  /** Where each value stands in its text; same length as `values`. Empty where not read from text. */
  readonly spans: readonly Span[];
}

/** The value for one size. A single value holds for every size. */
export function valueFor(sized: Sized, size: number): number | null {
  const value = sized.values.length === 1 ? sized.values[0] : sized.values[size];
  return value ?? null;
}

/** Where the value for one size stands in its text. */
export function spanFor(sized: Sized, size: number): Span | undefined {
  return sized.spans.length === 1 ? sized.spans[0] : sized.spans[size];
}

export const sizedOf = (...values: (number | null)[]): Sized => ({ values, spans: [] });

/** True where every size has this one value. */
export const isAll = (sized: Sized, value: number): boolean =>
  sized.values.every((each) => each === value);

export type SizeListProblem = {
  readonly kind: 'not-a-number' | 'unbalanced' | 'empty' | 'trailing';
  readonly span: Span;
};

const FRACTIONS: Readonly<Record<string, number>> = {
  '¼': 1 / 4, '½': 1 / 2, '¾': 3 / 4, '⅓': 1 / 3, '⅔': 2 / 3,
  '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8,
}; // prettier-ignore

const NUMBER = /(\d+(?:\.\d+)?)?(?:[ \u00a0]?([¼½¾⅓⅔⅛⅜⅝⅞])|[ \u00a0](\d+)\/(\d+))?/y;
const DASHES = new Set(['–', '—', '-']);
const CLOSES: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };

/**
 * Reads one size list from `offset`. Stops after the list (a following word is not its business).
 * Decimal sign is the full stop: notation is a source form, not a localised one.
 */
export function readSizeList(
  text: string,
  offset = 0,
): { sized: Sized; end: number } | { problem: SizeListProblem } {
  const values: (number | null)[] = [];
  const spans: Span[] = [];
  let at = skipSpace(text, offset);
  const first = readValue(text, at);
  if (!first) return { problem: { kind: 'not-a-number', span: { start: at, end: at + 1 } } };
  values.push(first.value);
  spans.push({ start: at, end: first.end });
  at = first.end;
  for (;;) {
    const open = skipSpace(text, at);
    const close = CLOSES[text[open] ?? ''];
    if (!close || !readValue(text, skipSpace(text, open + 1))) break;
    const group = readGroup(text, open, close);
    if ('problem' in group) return group;
    values.push(...group.values);
    spans.push(...group.spans);
    at = group.end;
  }
  return { sized: { values, spans }, end: at };
}

type Group = { values: (number | null)[]; spans: Span[]; end: number };

function readGroup(
  text: string,
  open: number,
  close: string,
): Group | { problem: SizeListProblem } {
  const values: (number | null)[] = [];
  const spans: Span[] = [];
  let at = open + 1;
  for (;;) {
    at = skipSpace(text, at);
    const value = readValue(text, at);
    if (!value) return { problem: { kind: 'not-a-number', span: { start: at, end: at + 1 } } };
    values.push(value.value);
    spans.push({ start: at, end: value.end });
    at = skipSpace(text, value.end);
    if (text[at] === ',') at += 1;
    else if (text[at] === close) return { values, spans, end: at + 1 };
    else return { problem: { kind: 'unbalanced', span: { start: open, end: at + 1 } } };
  }
}

function readValue(text: string, at: number): { value: number | null; end: number } | undefined {
  if (DASHES.has(text[at] ?? '')) return { value: null, end: at + 1 };
  NUMBER.lastIndex = at;
  const match = NUMBER.exec(text);
  if (!match || match[0] === '') return undefined;
  const [whole, units, glyph, over, under] = match;
  if (units === undefined && glyph === undefined) return undefined;
  const part = glyph ? (FRACTIONS[glyph] ?? 0) : over ? Number(over) / Number(under) : 0;
  return { value: Number(units ?? 0) + part, end: at + whole.length };
}

function skipSpace(text: string, at: number): number {
  while (text[at] === ' ' || text[at] === '\u00a0') at += 1;
  return at;
}

/** Writes a size list back in the trade's form; long lists nest groups of `group` values. */
export function printSizeList(sized: Sized, print: (value: number) => string = String): string {
  const [first, ...rest] = sized.values.map((value) => (value === null ? '–' : print(value)));
  return rest.length === 0 ? (first ?? '') : `${first} (${rest.join(', ')})`;
}
