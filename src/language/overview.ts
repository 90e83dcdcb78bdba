/**
 * What languages there are and how far each goes: reviewed or not and by what source, how many terms,
 * and for one pattern how much of what it needs is there. Data for a table; the command line prints it.
 */
import type { CheckedPattern } from '../pattern/pattern.ts';
import { checkNames } from './needs.ts';
import type { Language } from './language.ts';

export interface LanguageOverview {
  readonly tag: string;
  readonly name: string;
  readonly englishName: string;
  readonly review: 'checked' | 'unreviewed';
  readonly source: string;
  /** Stitches, crossings and terms with an entry; how many of them come from a named source. */
  readonly terms: number;
  readonly confirmed: number;
  /** For a pattern: findings that keep it from being published in this language. */
  readonly lacking?: number;
}

export function overviewOf(
  languages: ReadonlyMap<string, Language>,
  checked?: CheckedPattern,
): readonly LanguageOverview[] {
  return [...languages.values()].map((language) => {
    const { terms, stitches, crossings } = language.glossary;
    const entries = [terms, stitches, crossings].flatMap((each) => Object.values(each));
    return {
      tag: language.tag,
      name: language.settings.name,
      englishName: language.settings.englishName,
      review: language.settings.review.state,
      source: language.settings.review.source,
      terms: entries.length,
      confirmed: entries.filter((entry) => entry.status !== 'from memory').length,
      ...(checked && { lacking: checkNames(checked, language).length }),
    };
  });
}
