/**
 * A bucket as a store. `absent` is If-None-Match, a change against a tag is If-Match, the tag is the
 * ETag. The SDK repeats a request whose answer was lost; where the repetition is refused because the
 * first one had arrived, that is told from a refusal. Takes a client, so that tests may bring theirs.
 */
import {
  DeleteObjectCommand,
  GetObjectCommand,
  HeadObjectCommand,
  ListObjectsV2Command,
  type ListObjectsV2CommandInput,
  type ListObjectsV2CommandOutput,
  PutObjectCommand,
  type S3Client,
} from '@aws-sdk/client-s3';
import { setTimeout as pause } from 'node:timers/promises';
import { requireKey } from './key.ts';
import { attemptsOf, nameOf, statusOf, toFault } from './s3-errors.ts';
import type { Listed, PutOptions, PutResult, Store, StoredObject } from './store.ts';

export interface S3Place {
  readonly bucket: string;
  /** Without slashes at its ends; empty for the whole bucket. */
  readonly prefix: string;
}

/** Two conditional writes at the same moment: S3 asks the later one to try again with 409. */
const CONFLICT_ATTEMPTS = 8;
const CONFLICT_PAUSE_MILLISECONDS = 50;

export function s3Store(client: S3Client, place: S3Place): Store {
  const { bucket: Bucket, prefix } = place;
  const start = prefix === '' ? '' : `${prefix}/`;
  const named = (key: string) => ({ Bucket, Key: start + requireKey(key) });
  const name = `s3://${Bucket}/${prefix}`.replace(/\/$/, '');

  const get = async (key: string): Promise<StoredObject | undefined> => {
    try {
      const found = await client.send(new GetObjectCommand(named(key)));
      const bytes = (await found.Body?.transformToByteArray()) ?? new Uint8Array();
      return { bytes, tag: found.ETag ?? '' };
    } catch (error) {
      if (nameOf(error) === 'NoSuchKey') return undefined;
      throw toFault(error, `${name}/${key}`);
    }
  };

  const has = async (key: string): Promise<boolean> => {
    try {
      await client.send(new HeadObjectCommand(named(key)));
      return true;
    } catch (error) {
      if (statusOf(error) === 404) return false;
      throw toFault(error, `${name}/${key}`);
    }
  };

  const put = async (
    key: string,
    bytes: Uint8Array,
    options: PutOptions = {},
  ): Promise<PutResult> => {
    const { condition, contentType } = options;
    const request = {
      ...named(key),
      Body: bytes,
      ...(contentType !== undefined && { ContentType: contentType }),
      ...(condition === 'absent' && { IfNoneMatch: '*' }),
      ...(typeof condition === 'object' && { IfMatch: condition.tag }),
    };
    for (let attempt = 1; ; attempt += 1) {
      try {
        const written = await client.send(new PutObjectCommand(request));
        return { ok: true, tag: written.ETag ?? '' };
      } catch (error) {
        if (condition === undefined) throw toFault(error, `${name}/${key}`);
        if (isRefused(error)) {
          return attemptsOf(error) > 1 || attempt > 1 ? ownWrite(await get(key), bytes) : REFUSED;
        }
        if (statusOf(error) !== 409 || attempt === CONFLICT_ATTEMPTS) {
          throw toFault(error, `${name}/${key}`);
        }
        await pause(CONFLICT_PAUSE_MILLISECONDS * attempt);
      }
    }
  };

  return {
    name,
    get,
    has,
    put,
    list: (from, after) =>
      listBucket(
        client,
        {
          Bucket,
          Prefix: start + from,
          ...(after !== undefined && { StartAfter: start + after }),
        },
        { start, name },
      ),
    delete: async (key) => {
      try {
        await client.send(new DeleteObjectCommand(named(key)));
      } catch (error) {
        throw toFault(error, `${name}/${key}`);
      }
    },
  };
}

const REFUSED = { ok: false } as const;

/** 412: the condition does not hold. 404: If-Match on an object that is gone. */
const isRefused = (error: unknown): boolean =>
  statusOf(error) === 412 || (statusOf(error) === 404 && nameOf(error) === 'NoSuchKey');

/** After a repeated request: what is there now may be what the first one wrote. */
const ownWrite = (current: StoredObject | undefined, bytes: Uint8Array): PutResult =>
  current !== undefined && Buffer.compare(current.bytes, bytes) === 0
    ? { ok: true, tag: current.tag }
    : REFUSED;

async function* listBucket(
  client: S3Client,
  request: ListObjectsV2CommandInput,
  { start, name }: { readonly start: string; readonly name: string },
): AsyncGenerator<Listed> {
  for await (const page of pagesOf(client, request, name)) {
    for (const { Key = '', Size = 0, LastModified = new Date(0) } of page.Contents ?? []) {
      yield { key: Key.slice(start.length), sizeBytes: Size, modified: LastModified };
    }
  }
}

/** Names of the topmost folders of a bucket: the studios that have a room there. */
export async function* listTopFolders(client: S3Client, bucket: string): AsyncGenerator<string> {
  const request = { Bucket: bucket, Delimiter: '/' };
  for await (const page of pagesOf(client, request, `s3://${bucket}`)) {
    for (const { Prefix = '' } of page.CommonPrefixes ?? []) yield Prefix.slice(0, -1);
  }
}

async function* pagesOf(
  client: S3Client,
  request: ListObjectsV2CommandInput,
  name: string,
): AsyncGenerator<ListObjectsV2CommandOutput> {
  let token: string | undefined;
  do {
    const more = token === undefined ? {} : { ContinuationToken: token };
    const page = await client
      .send(new ListObjectsV2Command({ ...request, ...more }))
      .catch((error: unknown) => {
        throw toFault(error, name);
      });
    yield page;
    token = page.NextContinuationToken;
  } while (token !== undefined);
}
