/**
 * Decides what an upload starts. Takes the event that EventBridge sends for a new object (at least
 * once, in any order, its key not URL-encoded) and gives the run: its studio from the first step of the
 * key, its name from the content of the bundle and the version of the upload, so that a repeated event
 * names the same run.
 */
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { hashBytes } from '../../src/base/hash.ts';
import type { Settings } from '../../src/pipeline/payloads.ts';
import { settings, studioName } from '../../src/pipeline/payloads.ts';
import type { Upload } from '../../src/store/upload.ts';
import { writeUpload } from '../../src/store/upload.ts';
import type { RunInput } from '../machines.ts';

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

/** An item of `listObjectsV2`, as a Distributed Map hands it to each of its runs. */
const listedObject = z.object({
  object: z.object({ Key: z.string(), Size: z.number(), Etag: z.string() }),
});

export interface Arrival {
  readonly studio: string;
  readonly upload: Upload;
  readonly sizeBytes: number;
  /** What tells this upload from a later one under the same key. */
  readonly mark: string;
}

/**
 * Bundles under `<studio>/batches/` wait until somebody publishes them all together; those under
 * `<studio>/desk/` until they are laid on the shelf.
 */
const WAITING: readonly string[] = ['batches', 'desk'];

/** The upload an event tells of; nothing where it is no bundle, or waits. */
export function readArrival(event: unknown): Arrival | undefined {
  const { bucket, object } = objectCreated.parse(event).detail;
  if (!isBundle(object.key) || WAITING.includes(object.key.split('/')[1] ?? '')) return undefined;
  const version = object['version-id'];
  return {
    studio: studioOf(object.key),
    upload: { bucket: bucket.name, key: object.key, version },
    sizeBytes: object.size,
    mark: version ?? object.sequencer ?? '',
  };
}

/** One bundle of a batch; nothing where the object is none. */
export function readListed(event: unknown, bucket: string): Arrival | undefined {
  const { Key, Size, Etag } = listedObject.parse(event).object;
  if (!isBundle(Key)) return undefined;
  return { studio: studioOf(Key), upload: { bucket, key: Key }, sizeBytes: Size, mark: Etag };
}

const isBundle = (key: string): boolean => key.toLowerCase().endsWith('.zip');

function studioOf(key: string): string {
  const [first, ...rest] = key.split('/');
  const studio = studioName.safeParse(first);
  if (studio.success && rest.length > 0) return studio.data;
  throw new Fault('input', `the upload ${key} lies in no studio’s folder`, {
    place: key,
    remedy: 'upload it as <studio>/<name>.zip: small letters, digits, hyphens',
  });
}

export interface Start {
  /** Up to 80 characters, unique to content and upload. */
  readonly name: string;
  readonly input: RunInput;
}

/**
 * The run for an upload. The content hash comes first, so that runs of one bundle stand together; the
 * upload follows, so that handing the same bundle in again after a failure is a new run.
 */
export function planStart(
  { studio, upload, mark }: Arrival,
  contentHash: string,
  wanted: Settings,
): Start {
  const source = writeUpload(upload);
  const uploadHash = hashBytes(`${source} ${mark}`);
  return {
    name: `${contentHash.slice(0, 48)}-${uploadHash.slice(0, 16)}`,
    input: { studio, source, settings: wanted },
  };
}

/** The name under which an upload carries what was ordered with it. */
export const SETTINGS_NAME = 'castoff-settings';

/** Metadata is plain ASCII, and names of sizes are not. */
export const writeSettings = (value: Settings): string =>
  Buffer.from(JSON.stringify(value)).toString('base64url');

/** What was ordered with the upload: everything, where nothing was said. */
export function readSettings(metadata: Readonly<Record<string, string>>): Settings {
  const said = metadata[SETTINGS_NAME];
  if (said === undefined) return {};
  try {
    return settings.parse(JSON.parse(Buffer.from(said, 'base64url').toString('utf8')));
  } catch (cause) {
    throw new Fault('input', 'the order of languages and editions cannot be read', {
      place: SETTINGS_NAME,
      remedy: 'upload the bundle again through the API, or without this metadata',
      cause,
    });
  }
}
