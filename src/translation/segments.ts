/**
 * Prose cut into segments, the smallest texts that are translated by themselves: a text, or one
 * paragraph of a list. Takes the prose of one language and gives segments with names that stay the same
 * from version to version, and the hash that ties a translation to its source. Knows no XML.
 */
import { hashBytes } from '../base/hash.ts';
import { pointerTo } from '../base/span.ts';
import type { ProseData, SourceRecord } from '../pattern/bundle/schema.ts';

export interface Segment {
  readonly key: string;
  /** Place in a list of paragraphs, from 0; undefined where the text stands alone. */
  readonly at: number | undefined;
  /** Name in files for translators: `title`, `story:1`. A key holds no colon, so names never clash. */
  readonly id: string;
  /** JSON pointer into the prose file. */
  readonly pointer: string;
  readonly text: string;
}

/** All segments of a prose file, in its order. */
export const segmentsOf = (prose: ProseData): readonly Segment[] =>
  Object.entries(prose).flatMap(([key, value]) => segmentsOfText(key, value));

/**
 * Lists of words that people search for. They are not translated one by one: a language has its own
 * words, and as many as it needs, so that such a list is one segment.
 */
const WORD_LISTS = new Set(['listing.tags']);

export const isWordList = (key: string): boolean => WORD_LISTS.has(key);

/** A text, or a list of paragraphs that are translated each by itself. */
export const translatable = (key: string, value: ProseData[string]): ProseData[string] =>
  isWordList(key) && Array.isArray(value) ? value.join(', ') : value;

/** Words of a list that came as one text; languages separate them each in their way. */
export const wordsOfList = (text: string): string[] =>
  text
    .split(/\s*[,、，]\s*/u)
    .map((word) => word.trim())
    .filter((word) => word !== '');

/** The segments of one text. */
export function segmentsOfText(key: string, value: ProseData[string]): readonly Segment[] {
  const texts = translatable(key, value);
  return Array.isArray(texts)
    ? texts.map((text, at) => segmentAt(key, at, text))
    : [segmentAt(key, undefined, texts)];
}

const segmentAt = (key: string, at: number | undefined, text: string): Segment => ({
  key,
  at,
  id: at === undefined ? key : `${key}:${at + 1}`,
  pointer: at === undefined ? pointerTo('', key) : pointerTo('', key, at),
  text,
});

const HASH_DIGITS = 12;

/** Names a source text. Line breaks and runs of spaces do not count: nobody translates those. */
export const hashSource = (text: string): string =>
  hashBytes(tidySpace(text)).slice(0, HASH_DIGITS);

/** Normal form C, with single spaces and none at the ends. */
export const tidySpace = (text: string): string =>
  text.normalize('NFC').replaceAll(/\s+/g, ' ').trim();

/** The record that says: these texts are translated from this source as it stands. */
export function recordFor(source: ProseData, translation: ProseData): SourceRecord {
  const kept = Object.entries(source).filter(([key]) => Object.hasOwn(translation, key));
  return Object.fromEntries(kept.map(([key, value]) => [key, hashesOf(key, value)]));
}

/** The hash of a source text, or one for each of its paragraphs. */
export function hashesOf(key: string, value: ProseData[string]): string | string[] {
  const texts = translatable(key, value);
  return Array.isArray(texts) ? texts.map(hashSource) : hashSource(texts);
}

/** A text or list as paragraphs. */
export const paragraphsOf = <Part extends string>(value: Part | readonly Part[] | undefined) =>
  value === undefined ? [] : typeof value === 'string' ? [value] : value;
