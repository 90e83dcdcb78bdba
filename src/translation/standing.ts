/**
 * Where every translation of one language stands towards its source: it holds, the source has changed
 * since, or it is missing. Takes the source prose, the translation and its record of source hashes;
 * paragraphs that only moved are found again by their hash. Knows no XML and no command.
 */
import type { ProseData, SourceRecord } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import {
  hashesOf,
  hashSource,
  paragraphsOf,
  type Segment,
  segmentsOfText,
  translatable,
} from './segments.ts';

/**
 * `holds`: translated from the source as it is. `untied`: there is a translation and no record of its
 * source. `moved`: it holds, and its list has other paragraphs round it now. `outdated`: the source has
 * changed since; the old translation is given. `missing`: there is none.
 */
export type Standing = 'holds' | 'untied' | 'moved' | 'outdated' | 'missing';

export interface StandingSegment extends Segment {
  readonly standing: Standing;
  /** The translation as it is; for `outdated` the one of the earlier source. */
  readonly translation: string | undefined;
}

/** One language of a bundle beside its source. */
export interface Texts {
  readonly source: ProseData;
  readonly translation: ProseData;
  /** Undefined where nothing is recorded. */
  readonly record: SourceRecord | undefined;
}

/** The texts of one language; an empty translation where the bundle has none yet. */
export const textsFor = ({ data, prose, sources }: Bundle, language: string): Texts => ({
  source: prose.get(data.language) ?? {},
  translation: prose.get(language) ?? {},
  record: sources?.get(language),
});

/** Every segment of the source with its standing, in the order of the source. */
export const standingOf = (texts: Texts): readonly StandingSegment[] =>
  Object.entries(texts.source).flatMap(([key, value]) => standingOfText(texts, key, value));

function standingOfText(
  { translation, record }: Texts,
  key: string,
  source: ProseData[string],
): readonly StandingSegment[] {
  const segments = segmentsOfText(key, source);
  const own = Object.hasOwn(translation, key) ? translation[key] : undefined;
  if (own === undefined) return segments.map((each) => stand(each, 'missing', undefined));
  const texts = paragraphsOf(translatable(key, own));
  const recorded = record && Object.hasOwn(record, key) ? record[key] : undefined;
  if (recorded === undefined) return segments.map((each, at) => stand(each, 'untied', texts[at]));
  if (JSON.stringify(recorded) === JSON.stringify(hashesOf(key, source)))
    return segments.map((each, at) => stand(each, 'holds', texts[at]));
  return compareHashes(segments, texts, paragraphsOf(recorded));
}

/** By hash: at its own place first, then wherever its source stood. */
function compareHashes(
  segments: readonly Segment[],
  texts: readonly string[],
  recorded: readonly string[],
): readonly StandingSegment[] {
  const sameLength = recorded.length === segments.length && texts.length === segments.length;
  return segments.map((segment, at) => {
    const hash = hashSource(segment.text);
    const from = recorded[at] === hash ? at : recorded.indexOf(hash);
    if (from >= 0 && texts[from] !== undefined)
      return stand(segment, sameLength && from === at ? 'holds' : 'moved', texts[from]);
    return stand(segment, 'outdated', sameLength ? texts[at] : undefined);
  });
}

/** A paragraph that was left open is an empty text: it is missing, whatever is recorded. */
const stand = (
  segment: Segment,
  standing: Standing,
  translation: string | undefined,
): StandingSegment => {
  const lacks = translation === '' && segment.text !== '';
  const there = translation !== undefined || standing === 'outdated';
  return { ...segment, standing: lacks || !there ? 'missing' : standing, translation };
};

/** True where a segment is sent to a translator unasked: it is new, or its source has changed. */
export const needsWork = ({ standing }: StandingSegment): boolean =>
  standing === 'missing' || standing === 'outdated';

/** How many segments of a language stand how. */
export function countStandings(
  segments: readonly StandingSegment[],
): Readonly<Record<Standing, number>> {
  const counts = { holds: 0, untied: 0, moved: 0, outdated: 0, missing: 0 };
  for (const { standing } of segments) counts[standing] += 1;
  return counts;
}
