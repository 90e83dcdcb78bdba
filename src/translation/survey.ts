/**
 * How far the texts of a bundle are in each of its languages: translated, outdated, missing; and which
 * words of the reference language a glossary lacks. Takes languages and a bundle, gives counts; how they
 * are shown is for others.
 */
import type { Language } from '../language/index.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { countStandings, standingOf, textsFor } from './standing.ts';

/** Entries of a reference glossary that another one lacks, as `stitches/ssk`. */
export function lackingEntries(language: Language, reference: Language): readonly string[] {
  const own = new Set(entriesOf(language));
  return entriesOf(reference).filter((entry) => !own.has(entry));
}

const entriesOf = ({ glossary }: Language): readonly string[] =>
  (['stitches', 'crossings', 'terms'] as const).flatMap((group) =>
    Object.keys(glossary[group]).map((key) => `${group}/${key}`),
  );

export interface ProseSurvey {
  readonly tag: string;
  /** `source`: the designer wrote it herself. `held over`: it waits for a later version. */
  readonly role: 'source' | 'translation' | 'held over';
  readonly segments: number;
  /** With a translation of the source as it is, or one whose source is not recorded. */
  readonly translated: number;
  readonly outdated: number;
  readonly missing: number;
  /** Of the translated ones: those without a record of their source. */
  readonly untied: number;
}

/** Each language of the bundle, in its order. */
export const surveyProse = (bundle: Bundle): readonly ProseSurvey[] =>
  bundle.data.languages.map((tag) => {
    const segments = standingOf(textsFor(bundle, tag));
    if (tag === bundle.data.language)
      return { tag, role: 'source', segments: segments.length, translated: segments.length, outdated: 0, missing: 0, untied: 0 };
    const { holds, moved, untied, outdated, missing } = countStandings(segments);
    const held = bundle.data.heldOver?.some(({ language }) => language === tag);
    return {
      tag,
      role: held === true ? 'held over' : 'translation',
      segments: segments.length,
      translated: holds + untied,
      outdated: outdated + moved,
      missing,
      untied,
    };
  }); // prettier-ignore
