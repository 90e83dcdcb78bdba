/**
 * Names of sizes, in the same order and grouping as every number that differs by size:
 * `S (M, L) [XL, 2XL]`. Takes the bundle's names, gives spoken parts.
 */
import type { Language, Spoken } from './language.ts';
import { spoken } from './message.ts';
import { listOver } from './numbers.ts';

export function saySizeNames(language: Language, sizes: readonly string[], size?: number): Spoken {
  if (size !== undefined) return spoken(sizes[size] ?? '', 'strong');
  return listOver(language, sizes, 'strong');
}
