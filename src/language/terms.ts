/**
 * The list of abbreviations: only those that the said lines use, each with its name and how it is
 * worked, in the alphabetical order of the language. Takes spoken lines and gives terms; knows no page.
 */
import { sayForm, type Language } from './language.ts';
import { spoken } from './message.ts';
import { plainText, type SpokenPart } from './spoken.ts';
import { foundOf, stitchText } from './stitch.ts';
import { entryOf } from './stitch.ts';
import type { Names } from './words.ts';
import { proseLine } from './words.ts';

export interface UsedTerm {
  /** `rep`, `stitches:k2tog`, `crossings:left@2/2`, `own:bramble`. */
  readonly id: string;
  readonly kind: 'term' | 'stitch' | 'crossing' | 'own';
  readonly abbreviation: string;
  readonly name: string;
  /** How to work it, in whole sentences; terms without one need no more than their name. */
  readonly how?: string;
  readonly status: string;
  readonly source?: string;
}

/** What a term of a spoken part stands for, or undefined where the glossary lacks it. */
export function explainTerm(language: Language, id: string): UsedTerm | undefined {
  const found = foundOf(id);
  if (!found) {
    const entry = language.glossary.terms[id];
    if (!entry) return undefined;
    const { abbr, name, how, status, source } = entry;
    return { id, kind: 'term', abbreviation: abbr, name, status, ...given({ how, source }) };
  }
  const entry = entryOf(language, found);
  if (!entry) return undefined;
  const said = (which: 'abbr' | 'name' | 'how') =>
    plainText(stitchText(language, found, which) ?? []);
  return {
    id,
    kind: found.group === 'stitches' ? 'stitch' : 'crossing',
    abbreviation: said('abbr'),
    name: said('name'),
    how: said('how'),
    status: entry.status,
    ...given({ source: entry.source }),
  };
}

/**
 * The full name and how it is worked, with the language's own colon; a name that is the abbreviation
 * itself is not said twice.
 */
export function meaningOfTerm(language: Language, term: UsedTerm): string {
  const { abbreviation, name, how } = term;
  if (how === undefined || how === '') return name;
  if (name === abbreviation) return how;
  const closed = plainText(sayForm(language, 'label.close', { label: spoken(name) }));
  return closed + language.settings.separators.sentences + how;
}

const given = <T extends Record<string, string | undefined>>(values: T) =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [Key in keyof T]?: string;
  };

/** Terms of the parts, once each, in the order of the language's alphabet. */
export function usedTerms(
  language: Language,
  names: Names,
  parts: Iterable<SpokenPart>,
): readonly UsedTerm[] {
  const terms = new Map<string, UsedTerm>();
  for (const part of parts) {
    if (part.term !== undefined && !terms.has(part.term)) {
      const term = explainTerm(language, part.term);
      if (term) terms.set(part.term, term);
    } else if (part.term === undefined && part.role === 'abbreviation') {
      const own = ownStitch(names, part.text);
      if (own) terms.set(own.id, own);
    }
  }
  return sortTerms(language, [...terms.values()]);
}

/** A stitch that the bundle defines: its own name, described in the bundle's prose. */
function ownStitch(names: Names, name: string): UsedTerm | undefined {
  const stitch = names.data.stitches.find((each) => each.id === name);
  if (!stitch) return undefined;
  const how = proseLine(names, stitch.describe);
  return {
    id: `own:${stitch.id}`,
    kind: 'own',
    abbreviation: stitch.id,
    name: stitch.id,
    status: 'confirmed',
    ...given({ how }),
  };
}

export function sortTerms(language: Language, terms: readonly UsedTerm[]): readonly UsedTerm[] {
  const collator = new Intl.Collator(language.tag, { numeric: true });
  return [...terms].sort(
    (a, b) => collator.compare(a.abbreviation, b.abbreviation) || (a.id < b.id ? -1 : 1),
  );
}
