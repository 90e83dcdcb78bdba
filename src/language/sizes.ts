/**
 * Names of sizes, in the same order and grouping as every number that differs by size:
 * `S (M, L) [XL, 2XL]`. Takes the bundle's names, gives spoken parts. Letters and numbers are the same
 * everywhere; one size and months of age are said in the language.
 */
import { text, type Language, type Spoken } from './language.ts';
import { spoken } from './message.ts';
import { listOver } from './numbers.ts';

const MONTHS = /^(\d+(?:[-–]\d+)?) ?(?:mo|mos|months?)\.?$/i;
const ONE_SIZE = /^one[ -]size$/i;

/** One name as it stands alone, at the head of a column: `1X`, `3 mo`. */
export function sizeName(language: Language, name: string): string {
  if (ONE_SIZE.test(name)) return text(language, 'sizeName.one');
  const [, months] = MONTHS.exec(name) ?? [];
  return months === undefined ? name : text(language, 'sizeName.months', { n: months });
}

const ISOLATE = '\u2068';
const END = '\u2069';

/**
 * A name among others. Where the language runs from right to left each stands in an isolate, or
 * `S, M, L` would turn round as one while the numbers below keep the other order.
 */
export const listedSizeName = (language: Language, name: string): string =>
  language.settings.sizes.isolate
    ? `${ISOLATE}${sizeName(language, name)}${END}`
    : sizeName(language, name);

/** `S, M, L`: without the grouping of numbers. */
export const listSizeNames = (language: Language, sizes: readonly string[]): string =>
  sizes.map((name) => listedSizeName(language, name)).join(language.settings.separators.list);

export function saySizeNames(language: Language, sizes: readonly string[], size?: number): Spoken {
  if (size !== undefined) return spoken(sizeName(language, sizes[size] ?? ''), 'strong');
  return listOver(
    language,
    sizes.map((name) => listedSizeName(language, name)),
    'strong',
  );
}
