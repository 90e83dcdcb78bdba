/**
 * Objects that are too large to be held: read in pieces, and written in parts of which only one is held at
 * a time. What was not written to its end is not there; the bucket clears its parts away after a day.
 */
import {
  CompleteMultipartUploadCommand,
  CreateMultipartUploadCommand,
  GetObjectCommand,
  type S3Client,
  UploadPartCommand,
} from '@aws-sdk/client-s3';
import { present } from '../base/assert.ts';
import { toFault } from './s3-errors.ts';
import type { Place } from './s3-signing.ts';

export async function* readInPieces(
  client: S3Client,
  { bucket, key }: Place,
): AsyncGenerator<Uint8Array> {
  try {
    const { Body } = await client.send(new GetObjectCommand({ Bucket: bucket, Key: key }));
    const body = present(Body, 'the body of an answer').transformToWebStream();
    for await (const piece of body as unknown as AsyncIterable<Uint8Array>) yield piece;
  } catch (error) {
    throw toFault(error, `s3://${bucket}/${key}`);
  }
}

export interface Written {
  readonly contentType: string;
  /** Under which a browser keeps it: letters, digits, full stops and hyphens. */
  readonly fileName: string;
}

/** At most 10,000 parts are allowed: 160 GB. At least 5 MiB each, but for the last. */
const PART_BYTES = 16 * 1024 * 1024;

export async function writeInParts(
  client: S3Client,
  { bucket, key }: Place,
  { contentType, fileName }: Written,
  pieces: AsyncIterable<Uint8Array>,
): Promise<void> {
  const place = { Bucket: bucket, Key: key };
  try {
    const { UploadId } = await client.send(
      new CreateMultipartUploadCommand({
        ...place,
        ContentType: contentType,
        ContentDisposition: `attachment; filename="${fileName}"`,
      }),
    );
    const Parts: { readonly PartNumber: number; readonly ETag: string | undefined }[] = [];
    for await (const Body of partsOf(pieces)) {
      const PartNumber = Parts.length + 1;
      const part = new UploadPartCommand({ ...place, UploadId, PartNumber, Body });
      Parts.push({ PartNumber, ETag: (await client.send(part)).ETag });
    }
    await client.send(
      new CompleteMultipartUploadCommand({ ...place, UploadId, MultipartUpload: { Parts } }),
    );
  } catch (error) {
    throw toFault(error, `s3://${bucket}/${key}`);
  }
}

/** Whole parts, and what is left at the end. */
async function* partsOf(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const part = new Uint8Array(PART_BYTES);
  let filled = 0;
  for await (const piece of pieces) {
    for (let at = 0; at < piece.length;) {
      const taken = piece.subarray(at, at + PART_BYTES - filled);
      part.set(taken, filled);
      filled += taken.length;
      at += taken.length;
      if (filled < PART_BYTES) continue;
      // Its upload is awaited before it is filled again.
      yield part;
      filled = 0;
    }
  }
  if (filled > 0) yield part.subarray(0, filled);
}
