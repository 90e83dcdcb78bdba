/**
 * Names of sizes, in the same order and grouping as every number that differs by size:
 * `S (M, L) [XL, 2XL]`. Takes the bundle's names, gives spoken parts.
 */
import type { Language, Spoken } from './language.ts';
import { spoken } from './message.ts';
import { listOver } from './numbers.ts';

const LEFT_TO_RIGHT = '\u2066';
const END = '\u2069';

/**
 * The name of a size. Where the language runs from right to left each name stands in an isolate, or
 * `S, M, L` would turn round as one while the numbers below keep the other order.
 */
export const sizeName = (language: Language, name: string): string =>
  language.settings.sizes.isolate ? `${LEFT_TO_RIGHT}${name}${END}` : name;

/** `S, M, L`: without the grouping of numbers. */
export const listSizeNames = (language: Language, sizes: readonly string[]): string =>
  sizes.map((name) => sizeName(language, name)).join(language.settings.separators.list);

export function saySizeNames(language: Language, sizes: readonly string[], size?: number): Spoken {
  if (size !== undefined) return spoken(sizes[size] ?? '', 'strong');
  return listOver(
    language,
    sizes.map((name) => sizeName(language, name)),
    'strong',
  );
}
