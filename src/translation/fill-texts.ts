/**
 * New translations put among the old ones. Takes what a language has and the texts that came for its
 * segments; gives its whole prose, in the order of the source, and the record of the sources. Paragraphs
 * that still hold are found by their hash; one that is still open is left empty, so that none is lost.
 */
import type { ProseData, SourceRecord } from '../pattern/bundle/schema.ts';
import {
  hashSource,
  paragraphsOf,
  segmentsOfText,
  tidySpace,
  translatable,
  wordsOfList,
} from './segments.ts';
import { standingOf, type StandingSegment, type Texts } from './standing.ts';

/** Recorded for a paragraph that nothing is known of: no text has this hash. */
const UNKNOWN = '0'.repeat(12);

export interface FilledTexts {
  readonly prose: ProseData;
  readonly record: SourceRecord;
}

export function fillTexts(texts: Texts, came: ReadonlyMap<string, string>): FilledTexts {
  const { source, translation, record = {} } = texts;
  const prose: ProseData = {};
  const recorded: SourceRecord = {};
  const standing = new Map(standingOf(texts).map((each) => [each.id, each]));
  for (const [key, value] of Object.entries(source)) {
    const segments = segmentsOfText(key, value).map(({ id }) => standing.get(id));
    const known = segments.filter((each) => each !== undefined);
    if (known.some(({ id }) => came.has(id))) {
      const filled = known.map((each) => fill(each, came, record));
      const one = filled[0]?.text ?? '';
      const inParts = Array.isArray(translatable(key, value));
      prose[key] = inParts ? filled.map(({ text }) => text) : Array.isArray(value) ? wordsOfList(one) : one; // prettier-ignore
      recorded[key] = inParts ? filled.map(({ hash }) => hash) : (filled[0]?.hash ?? UNKNOWN);
      continue;
    }
    const own = Object.hasOwn(translation, key) ? translation[key] : undefined;
    if (own !== undefined) prose[key] = own;
    const old = Object.hasOwn(record, key) ? record[key] : undefined;
    if (old !== undefined) recorded[key] = old;
  }
  const others = Object.entries(translation).filter(([key]) => !Object.hasOwn(source, key));
  return { prose: { ...prose, ...Object.fromEntries(others) }, record: recorded };
}

/** The text of one segment and the hash of the source it was translated from. */
function fill(
  { id, key, at = 0, text, standing, translation }: StandingSegment,
  came: ReadonlyMap<string, string>,
  record: SourceRecord,
): { readonly text: string; readonly hash: string } {
  const now = hashSource(text);
  const fresh = came.get(id);
  if (fresh !== undefined) return { text: fresh, hash: now };
  if (tidySpace(text) === '') return { text: '', hash: now };
  const old = Object.hasOwn(record, key) ? paragraphsOf(record[key])[at] : undefined;
  switch (standing) {
    case 'holds':
    case 'moved':
      return { text: translation ?? '', hash: now };
    case 'untied':
    case 'outdated':
    case 'missing':
      return { text: translation ?? '', hash: old === now ? UNKNOWN : (old ?? UNKNOWN) };
  }
}
