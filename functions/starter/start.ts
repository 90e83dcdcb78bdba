/**
 * Decides what an upload starts. Takes the event that EventBridge sends for a new object (at least
 * once, in any order, its key not URL-encoded) and gives the run: its name from the content of the
 * bundle and the version of the upload, so that a repeated event names the same run.
 */
import { z } from 'zod';
import { hashBytes } from '../../src/base/hash.ts';
import type { Upload } from '../../src/store/upload.ts';
import { writeUpload } from '../../src/store/upload.ts';

/** "Object Created" of Amazon S3 through EventBridge; only what is needed of it. */
const objectCreated = z.object({
  'detail-type': z.literal('Object Created'),
  detail: z.object({
    bucket: z.object({ name: z.string() }),
    object: z.object({
      key: z.string(),
      size: z.number(),
      'version-id': z.string().optional(),
      sequencer: z.string().optional(),
    }),
  }),
});

export interface Arrival {
  readonly upload: Upload;
  readonly sizeBytes: number;
  /** What tells this upload from a later one under the same key. */
  readonly mark: string;
}

/** The upload an event tells of; nothing where it is no bundle. */
export function readArrival(event: unknown): Arrival | undefined {
  const { bucket, object } = objectCreated.parse(event).detail;
  if (!object.key.toLowerCase().endsWith('.zip')) return undefined;
  const version = object['version-id'];
  const mark = version ?? object.sequencer ?? '';
  return {
    upload: { bucket: bucket.name, key: object.key, version },
    sizeBytes: object.size,
    mark,
  };
}

export interface Start {
  /** Up to 80 characters, unique to content and upload. */
  readonly name: string;
  readonly input: { readonly source: string; readonly settings: Record<string, never> };
}

/**
 * The run for an upload. The content hash comes first, so that runs of one bundle stand together; the
 * upload follows, so that handing the same bundle in again after a failure is a new run.
 */
export function planStart({ upload, mark }: Arrival, contentHash: string): Start {
  const source = writeUpload(upload);
  const uploadHash = hashBytes(`${source} ${mark}`);
  return {
    name: `${contentHash.slice(0, 48)}-${uploadHash.slice(0, 16)}`,
    input: { source, settings: {} },
  };
}
