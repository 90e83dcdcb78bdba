/**
 * The abbreviations of a language that are never translated by hand: those that no sentence would use
 * as a word. Takes a glossary and gives term by abbreviation. `RS` and `k2tog` are protected; `rep`,
 * `st(s)` and `work` are words to a reader, so a translator finds them in the terminology file instead.
 */
import { explainTerm, type Language } from '../language/index.ts';

const remembered = new WeakMap<Language, ReadonlyMap<string, string>>();

/** Widths that stitches of any width are written with in prose. */
const WIDTHS = [2, 3, 4, 5, 6, 7, 8, 9];

export function abbreviationsOf(language: Language): ReadonlyMap<string, string> {
  const known = remembered.get(language);
  if (known) return known;
  const found = new Map<string, string>();
  for (const id of termsOf(language)) {
    const term = explainTerm(language, id);
    if (term && isNoWord(term.abbreviation) && !found.has(term.abbreviation))
      found.set(term.abbreviation, id);
  }
  remembered.set(language, found);
  return found;
}

/** Names of all terms of a glossary; stitches of any width once for each usual width. */
export function termsOf({ glossary }: Language, widths: readonly number[] = WIDTHS) {
  const stitches = Object.keys(glossary.stitches).flatMap((key) =>
    key.includes('#') ? widths.map((width) => `stitches:${key}@${width}`) : [`stitches:${key}`],
  );
  return [...Object.keys(glossary.terms), ...stitches];
}

/** Latin letters with a digit or in capitals only, or without a vowel: nothing a sentence says. */
const isNoWord = (abbreviation: string): boolean =>
  /^[A-Za-z0-9&-]{2,16}$/.test(abbreviation) &&
  /[A-Za-z]/.test(abbreviation) &&
  (/\d/.test(abbreviation) ||
    /^[A-Z&]+$/.test(abbreviation) ||
    !/[aeiouyAEIOUY]/.test(abbreviation));
