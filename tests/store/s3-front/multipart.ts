/**
 * Uploads in parts, as the Amazon S3 API Reference tells of CreateMultipartUpload, UploadPart and
 * CompleteMultipartUpload: parts are told apart by number, all but the last have 5 MiB at least, and the
 * object is there when it is whole and not before.
 */
import { createHash } from 'node:crypto';
import type { Body } from './body.ts';
import { S3Error } from './errors.ts';

/** "Amazon S3 multipart upload limits", User Guide. */
const LEAST_PART_BYTES = 5 * 1024 * 1024;
const MOST_PARTS = 10_000;

interface Upload {
  readonly key: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly parts: Map<number, { readonly bytes: Buffer; readonly etag: string }>;
}

/** What a request tells of an upload in parts. */
export interface PartCall {
  readonly method: string;
  readonly key: string;
  readonly query: URLSearchParams;
  readonly body: Body;
  /** To be kept with the object. */
  readonly headers: Readonly<Record<string, string>>;
}

export interface PartAnswer {
  /** Of a part that was kept. */
  readonly etag?: string;
  /** What was begun. */
  readonly begun?: string;
  /** The object, once it is whole. */
  readonly whole?: { readonly body: Body; readonly headers: Readonly<Record<string, string>> };
}

/** The unfinished uploads of one bucket. */
export class Multipart {
  readonly #uploads = new Map<string, Upload>();
  #begun = 0;

  answer({ method, key, query, body, headers }: PartCall): PartAnswer {
    if (method === 'POST' && query.has('uploads')) {
      const id = `upload-${(this.#begun += 1)}`;
      this.#uploads.set(id, { key, headers, parts: new Map() });
      return { begun: id };
    }
    const id = query.get('uploadId') ?? '';
    const upload = this.#uploads.get(id);
    if (upload?.key !== key) throw new S3Error(404, 'NoSuchUpload');
    if (method === 'PUT') {
      return { etag: keepPart(upload, Number(query.get('partNumber')), body.bytes) };
    }
    if (method !== 'POST') throw new S3Error(501, 'NotImplemented');
    const bytes = joinParts(upload, body.bytes.toString('utf8'));
    this.#uploads.delete(id);
    return { whole: { body: { bytes, checksums: {} }, headers: upload.headers } };
  }
}

/** Gives the tag of the part. */
function keepPart({ parts }: Upload, number: number, bytes: Buffer): string {
  if (!Number.isInteger(number) || number < 1 || number > MOST_PARTS)
    throw new S3Error(400, 'InvalidArgument', 'part number');
  const etag = `"${createHash('md5').update(bytes).digest('hex')}"`;
  parts.set(number, { bytes, etag });
  return etag;
}

/** `told` is the list of parts as XML; each must be there under its tag, in order. */
function joinParts({ parts }: Upload, told: string): Buffer {
  const named = [...told.matchAll(/<Part>(.*?)<\/Part>/gs)].map(([, part = '']) => ({
    number: Number(/<PartNumber>(\d+)</.exec(part)?.[1]),
    etag: (/<ETag>([^<]*)</.exec(part)?.[1] ?? '').replaceAll('&quot;', '"'),
  }));
  if (named.length === 0) throw new S3Error(400, 'MalformedXML');
  const bytes = named.map(({ number, etag }, each) => {
    const part = parts.get(number);
    if (part?.etag !== etag) throw new S3Error(400, 'InvalidPart');
    if (number <= (named[each - 1]?.number ?? 0)) throw new S3Error(400, 'InvalidPartOrder');
    if (each < named.length - 1 && part.bytes.length < LEAST_PART_BYTES)
      throw new S3Error(400, 'EntityTooSmall');
    return part.bytes;
  });
  return Buffer.concat(bytes);
}
