/**
 * Reading what was uploaded to a bucket: one version of an object, whole under a limit, or only looked at
 * for its hash and its metadata. Apart from the store, which knows no versions.
 */
import { GetObjectCommand, type S3Client } from '@aws-sdk/client-s3';
import { createHash } from 'node:crypto';
import type { ReadableStream } from 'node:stream/web';
import { present } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { toFault } from './s3-errors.ts';
import type { Upload } from './upload.ts';
import { writeUpload } from './upload.ts';

/** One version of an uploaded object, refused unread where it is larger than `limitBytes`. */
export async function fetchVersion(
  client: S3Client,
  upload: Upload,
  limitBytes: number,
): Promise<Uint8Array> {
  try {
    const found = await openVersion(client, upload);
    if (found.sizeBytes > limitBytes) {
      await found.body.cancel();
      throw new Fault('input', `the upload has ${found.sizeBytes} bytes; at most ${limitBytes}`, {
        place: writeUpload(upload),
        remedy: 'export the photographs smaller',
      });
    }
    const chunks: Uint8Array[] = [];
    for await (const chunk of found.body) chunks.push(chunk);
    return Buffer.concat(chunks);
  } catch (error) {
    throw toFault(error, writeUpload(upload));
  }
}

/** The upload as it is now; nothing where there is none. */
export const fetchIfThere = async (
  client: S3Client,
  upload: Upload,
  limitBytes: number,
): Promise<Uint8Array | undefined> =>
  fetchVersion(client, upload, limitBytes).catch((error: unknown) => {
    if (error instanceof Fault && error.kind === 'missing') return undefined;
    throw error;
  });

export interface Seen {
  readonly hash: string;
  /** What was said of the object when it was uploaded, by name in small letters. */
  readonly metadata: Readonly<Record<string, string>>;
}

/**
 * SHA-256 of one version of an uploaded object, read in pieces and never held, and its metadata. Of one
 * that is too large only the first `limitBytes` are read: enough to name it, and it is refused later.
 */
export async function lookAtVersion(
  client: S3Client,
  upload: Upload,
  limitBytes: number,
): Promise<Seen> {
  try {
    const { body, metadata } = await openVersion(client, upload);
    const hash = createHash('sha256');
    let sizeBytes = 0;
    for await (const chunk of body) {
      hash.update(chunk);
      sizeBytes += chunk.length;
      if (sizeBytes > limitBytes) break;
    }
    return { hash: hash.digest('hex'), metadata };
  } catch (error) {
    throw toFault(error, writeUpload(upload));
  }
}

async function openVersion(
  client: S3Client,
  { bucket: Bucket, key: Key, version }: Upload,
): Promise<{
  readonly body: ReadableStream<Uint8Array>;
  readonly sizeBytes: number;
  readonly metadata: Readonly<Record<string, string>>;
}> {
  const VersionId = version === undefined ? {} : { VersionId: version };
  const found = await client.send(new GetObjectCommand({ Bucket, Key, ...VersionId }));
  const body = present(found.Body, 'the body of an answer').transformToWebStream();
  const { ContentLength = 0, Metadata = {} } = found;
  return {
    body: body as ReadableStream<Uint8Array>,
    sizeBytes: ContentLength,
    metadata: Metadata,
  };
}
