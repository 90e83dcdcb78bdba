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

/** The segments of one text. */
export const segmentsOfText = (key: string, value: ProseData[string]): readonly Segment[] =>
  Array.isArray(value)
    ? value.map((text, at) => segmentAt(key, at, text))
    : [segmentAt(key, undefined, value)];

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
  return Object.fromEntries(kept.map(([key, value]) => [key, hashesOf(value)]));
}

export const hashesOf = (value: ProseData[string]): string | string[] =>
  Array.isArray(value) ? value.map(hashSource) : hashSource(value);

/** A text or list as paragraphs. */
export const paragraphsOf = <Part extends string>(value: Part | readonly Part[] | undefined) =>
  value === undefined ? [] : typeof value === 'string' ? [value] : value;
