/**
 * The bundle of a release, kept beside its documents: data and texts as one file, photographs by their
 * hash. Takes a bundle and gives bytes, and back; so that years later a released version can still say
 * what it said, and be compared with a newer one.
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { canonicalJson } from '../base/hash.ts';
import { bareProse, hashBundle } from '../pattern/bundle/load.ts';
import { bundleSchema, proseSchema, sourceRecordSchema } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { parseJson } from './manifest.ts';

/** Where it lies in a release. */
export const RECORD_PATH = 'record/bundle.json';

const record = z.strictObject({
  format: z.literal('castoff-record/1'),
  /** The hash the bundle was released under. */
  hash: z.string(),
  data: bundleSchema,
  prose: z.record(z.string(), proseSchema),
  sources: z.record(z.string(), sourceRecordSchema).optional(),
  photos: z.record(z.string(), z.string()),
});

/** Bytes of the record: the same for the same bundle. */
export function writeRecord(
  { data, prose, sources, hash }: Bundle,
  photoHashes: ReadonlyMap<string, string>,
): Uint8Array {
  const value = {
    format: 'castoff-record/1',
    hash,
    data,
    prose: Object.fromEntries(prose),
    ...(sources && { sources: Object.fromEntries(sources) }),
    photos: Object.fromEntries(photoHashes),
  };
  return new TextEncoder().encode(`${canonicalJson(value)}\n`);
}

/** The bundle without the bytes of its photographs. A record that was changed is a `Fault`. */
export function readRecord(bytes: Uint8Array, place: string): Bundle {
  const parsed = record.safeParse(parseJson(bytes));
  if (!parsed.success) {
    throw new Fault('store', 'the record of a release cannot be read', {
      place,
      remedy: 'was it changed by hand, or written by a newer version of the program?',
      cause: parsed.error,
    });
  }
  const { data, hash, photos } = parsed.data;
  const prose = new Map(
    Object.entries(parsed.data.prose).map(([tag, texts]) => [tag, bareProse(texts)]),
  );
  const sources = new Map(Object.entries(parsed.data.sources ?? {}));
  if (hashBundle(data, prose, new Map(Object.entries(photos)), sources) !== hash) {
    throw new Fault('store', 'the record of a release is not the one it was released with', {
      place,
      remedy: 'publish that version again from its bundle',
    });
  }
  return { data, prose, photos: new Map(), hash, ...(sources.size > 0 && { sources }) };
}
