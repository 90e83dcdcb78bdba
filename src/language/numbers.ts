/**
 * Numbers as a language writes them: whole numbers, decimals, fractions of an inch, and size lists with
 * the language's brackets. Takes values, gives spoken parts with the role `count`; the value itself is
 * never changed except by the rounding that its unit asks for.
 */
import { isAll, type Sized } from '../pattern/bundle/size-list.ts';
import type { Language, Spoken } from './language.ts';
import { joinParts } from './message.ts';
import type { SpokenPart } from './spoken.ts';

/** Prints one value. */
export type Print = (value: number) => string;

/** A number with the language's decimal sign; `digits` is the most it keeps. */
export function decimal(language: Language, value: number, digits = 2): string {
  const { decimal: sign, group } = language.settings.numbers;
  const [whole = '0', part = ''] = Math.abs(value).toFixed(digits).split('.');
  const kept = part.replace(/0+$/, '');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, group) : whole;
  const minus = value < 0 && !/^0*$/.test(whole + kept) ? '\u2212' : '';
  return minus + (kept === '' ? grouped : `${grouped}${sign}${kept}`);
}

const QUARTERS = ['', '¼', '½', '¾'];

/** Rounded to the nearest quarter: `14½`. Half a quarter goes up. */
export function quarters(language: Language, value: number): string {
  const rounded = Math.floor(Math.abs(value) * 4 + 0.5 + 1e-9) / 4;
  if (language.settings.numbers.inches === 'decimals')
    return decimal(language, Math.sign(value) * rounded);
  const whole = Math.floor(rounded);
  const part = QUARTERS[Math.round((rounded - whole) * 4)] ?? '';
  const minus = value < 0 && rounded > 0 ? '\u2212' : '';
  return minus + (whole === 0 && part !== '' ? part : `${whole}${part}`);
}

/** Rounded to the nearest half: `35,5`. */
export const halves = (language: Language, value: number): string =>
  decimal(language, (Math.sign(value) * Math.floor(Math.abs(value) * 2 + 0.5 + 1e-9)) / 2, 1);

/** Keeps the value of one size, for a one-size edition; all sizes without `size`. */
export function choose(sized: Sized, size: number | undefined): Sized {
  if (size === undefined || sized.values.length === 1) return sized;
  return { values: [sized.values[size] ?? null], spans: [] };
}

/** True where a list says the same for every size and is printed as one number. */
const isUniform = (values: readonly (number | null)[]): boolean => new Set(values).size <= 1;

const LONGEST_PLAIN_GROUP = 5;
const GROUP = 4;

/** Sizes of the bracketed groups after the first value: few and as equal as may be. */
export function groupSizes(rest: number): readonly number[] {
  if (rest <= LONGEST_PLAIN_GROUP) return rest === 0 ? [] : [rest];
  const groups = Math.min(3, Math.ceil(rest / GROUP));
  const small = Math.floor(rest / groups);
  const extra = rest % groups;
  return Array.from({ length: groups }, (_, index) => small + (index < extra ? 1 : 0));
}

/**
 * A list over the sizes: `80 (88, 96) [104, 112]`. Values that are the same in all sizes stand once.
 * Each bracketed group is one unbroken part, so that a line never ends inside it.
 */
export function listOver(
  language: Language,
  values: readonly string[],
  role: SpokenPart['role'] = 'count',
): Spoken {
  const { brackets, before, isolate, ...style } = language.settings.sizes;
  const sign = language.settings.numbers.decimal;
  const separator =
    sign === ',' && values.some((value) => value.includes(','))
      ? style.separatorWithDecimals
      : style.separator;
  const wrap = (text: string) => (isolate ? `\u2067${text}\u2069` : text);
  const parts: SpokenPart[] = [{ text: values[0] ?? '', role }];
  let at = 1;
  for (const [index, size] of groupSizes(values.length - 1).entries()) {
    const [open, close] = brackets[index] ?? ['(', ')'];
    const group = values.slice(at, at + size).join(separator);
    if (before !== '') parts.push({ text: before, role: 'plain' });
    parts.push({ text: wrap(`${open}${group}${close}`), role, unbroken: true });
    at += size;
  }
  return parts;
}

/** The same for phrases that differ by size: `k1 (k2tog, –)`. */
export function groupOver(language: Language, phrases: readonly Spoken[]): Spoken {
  const { brackets, before, separator } = language.settings.sizes;
  const parts: SpokenPart[] = [...(phrases[0] ?? [])];
  let at = 1;
  for (const [index, size] of groupSizes(phrases.length - 1).entries()) {
    const [open, close] = brackets[index] ?? ['(', ')'];
    const group = phrases.slice(at, at + size);
    parts.push({ text: before + open, role: 'plain' });
    parts.push(...joinParts(group, separator), { text: close, role: 'plain' });
    at += size;
  }
  return parts;
}

/** A sized number: `80 (88, 96)`, `80` where all sizes agree, `–` where it does not apply. */
export function sayNumber(
  language: Language,
  sized: Sized,
  print: Print = (value) => decimal(language, value),
): Spoken {
  const { none } = language.settings.sizes;
  const said = sized.values.map((value) => (value === null ? none : print(value)));
  if (isUniform(said.map((_, index) => sized.values[index] ?? null))) {
    return [{ text: said[0] ?? none, role: 'count' }];
  }
  return listOver(language, said);
}

/** Stands for "several" where a list has no plural value of its own: `0 (1, 0)`. */
const SEVERAL = 2;

/**
 * The number that a word after a size list agrees with: the value itself where all sizes agree, else the
 * last one whose category is not `one`, because "1 (2, 3) rows" is plural in every language.
 */
export function agreement(language: Language, sized: Sized): number {
  const [first] = sized.values;
  if (isUniform(sized.values)) return first ?? 0;
  const plural = sized.values.filter(
    (value) => value !== null && language.messages.category(value) !== 'one',
  );
  return plural.at(-1) ?? SEVERAL;
}

/** `1`, `2`: an exact number that some messages have words of their own for ("once", "twice"). */
export function exactly(sized: Sized): string | undefined {
  const [first] = sized.values;
  return typeof first === 'number' && isAll(sized, first) ? String(first) : undefined;
}
