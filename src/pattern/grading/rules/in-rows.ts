/**
 * Numbers named in the rows: `cast on {back} sts` is read as `cast on 87 (97, 107) sts`. Takes a line
 * and the values of all numbers, gives the line as the knitter will read it, and the names that stand
 * for nothing. What the line does with the number is not known here.
 */
import type { Span } from '../../../base/span.ts';
import type { BundleData, NumberData } from '../../bundle/schema.ts';
import { resolveNumbers, type Resolved } from './resolve.ts';
import { settleNumbers } from './settle.ts';

export interface NumbersForRows {
  readonly texts: ReadonlyMap<string, string>;
  readonly names: readonly string[];
}

export interface MissingNumber {
  readonly name: string;
  readonly span: Span;
}

/** Every number of the bundle as a row says it; without those that cannot be reckoned. */
export function numbersForRows(data: BundleData): NumbersForRows {
  const numbers = data.numbers ?? [];
  if (numbers.length === 0) return { texts: new Map(), names: [] };
  const resolved = resolveNumbers(data);
  const values = settledValues(data, resolved);
  const texts = new Map<string, string>();
  for (const { id, unit } of numbers) {
    const own = values.get(id);
    if (own && own.some((value) => value !== null)) texts.set(id, printSizes(own, unit));
  }
  return { texts, names: numbers.map(({ id }) => id) };
}

/** Every number in every size, open ones filled so that all demands are kept. */
export function settledValues(
  data: BundleData,
  resolved: Resolved,
): ReadonlyMap<string, readonly (number | null)[]> {
  const settled = settleNumbers(data, resolved);
  return new Map(
    resolved.numbers.map(({ data: { id } }) => [
      id,
      settled.map(({ values }) => values.get(id) ?? null),
    ]),
  );
}

const NAMED = /\{([a-z][a-z0-9-]{0,63})\}/g;

export function writeNumbers(
  text: string,
  numbers: NumbersForRows,
): { readonly text: string; readonly missing: readonly MissingNumber[] } {
  if (!text.includes('{')) return { text, missing: [] };
  const missing: MissingNumber[] = [];
  const written = text.replaceAll(NAMED, (whole, name: string, start: number) => {
    const value = numbers.texts.get(name);
    if (value === undefined) missing.push({ name, span: { start, end: start + whole.length } });
    return value ?? whole;
  });
  return { text: written, missing };
}

// ---------------------------------------------------------------- size lists

const GROUPS = ['()', '[]', '{}'] as const;
/** Longer lists nest groups of so many, so that the eye can find its place (common practice). */
const GROUP = 4;
const SHORT_LIST = 7;

/** `87`, `87 (97, 107)`, `87 (97, 107, 117, 127) [137, 147, 157, 167]`; lengths in inches as fractions. */
export function printSizes(values: readonly (number | null)[], unit: NumberData['unit']): string {
  const words = values.map((value) => printValue(value, unit));
  const [first = '–', ...rest] = words;
  if (rest.every((word) => word === first)) return first;
  const each = words.length <= SHORT_LIST ? rest.length : GROUP;
  const groups: string[] = [];
  for (let at = 0; at < rest.length; at += each) {
    const [open, close] = GROUPS[groups.length % GROUPS.length] ?? '()';
    groups.push(`${open}${rest.slice(at, at + each).join(', ')}${close}`);
  }
  return [first, ...groups].join(' ');
}

const FRACTIONS: Readonly<Record<string, string>> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

function printValue(value: number | null, unit: NumberData['unit']): string {
  if (value === null) return '–';
  const rounded = Math.round(value * 1000) / 1000;
  const whole = Math.floor(rounded);
  const glyph = unit === 'in' ? FRACTIONS[String(rounded - whole)] : undefined;
  if (glyph === undefined) return String(rounded);
  return whole === 0 ? glyph : `${whole}${glyph}`;
}
