/**
 * A small, strict S3 on loopback for tests: signatures, conditional writes, checksums and chunk framing
 * are enforced as Amazon documents them. It exists so that the real SDK can be driven with npm packages
 * only; it can lose answers, be slow or be busy on purpose. What it does not know it refuses.
 */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Body } from './body.ts';
import { readBody } from './body.ts';
import { S3Error, escapeXml } from './errors.ts';
import type { Bucket, Version } from './objects.ts';
import { listObjects, requireConditions, requireObject, writeObject } from './objects.ts';
import { Multipart } from './multipart.ts';
import type { Posted } from './post-policy.ts';
import { readPost } from './post-policy.ts';
import type { Permission, Roles } from './roles.ts';
import { hideMissing, may } from './roles.ts';
import type { Keys } from './signature.ts';
import { type Sharing, sharedHeaders } from './sharing.ts';
import { requireSignature } from './signature.ts';

/** What to do with a request instead of, or after, answering it. */
export type Trouble =
  | { readonly kind: 'busy'; readonly status: 500 | 503 | 409 }
  /** Done, but the answer never arrives. */
  | { readonly kind: 'lostAnswer' };

export interface S3Front {
  readonly endpoint: string;
  readonly keys: Keys;
  /** What holders of other keys may do; the owner of the buckets may do everything. */
  roles: Roles;
  /** What was refused for want of a permission: `Check PUT releases/…`. */
  readonly denied: string[];
  /** The key of a role. */
  keysOf(role: string): Keys;
  /** What browsers of other origins may fetch, by bucket. */
  sharing: Sharing;
  /** Asked for each request: `PUT bucket/key`. */
  trouble: (request: string) => Trouble | undefined;
  createBucket(name: string, options?: { readonly versioned?: boolean }): void;
  close(): Promise<void>;
}

interface Call {
  readonly request: IncomingMessage;
  readonly url: URL;
  readonly bucketName: string;
  readonly key: string;
  readonly body: Body;
}

interface Answer {
  readonly status: number;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: Buffer | string;
}

const OBJECT_QUERY = /^(versionId|x-id|x-amz-.*|response-content-(type|disposition))$/i;
const LARGEST_BODY_BYTES = 64 * 1024 * 1024;

export async function startS3Front(now: () => Date = () => new Date()): Promise<S3Front> {
  const keys = { accessKeyId: 'NORTHFOLD', secretAccessKey: 'a-secret-of-the-tests' };
  const buckets = new Map<string, Bucket>();
  const server = createServer((request, response) => {
    void serve(request, response);
  });
  const front: S3Front = {
    endpoint: '',
    keys,
    roles: new Map(),
    denied: [],
    sharing: new Map(),
    keysOf: (role) => ({ ...keys, accessKeyId: `${keys.accessKeyId}-${role}` }),
    trouble: () => undefined,
    createBucket: (name, options = {}) => {
      buckets.set(name, { versions: new Map(), versioned: options.versioned ?? false });
    },
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };

  async function serve(request: IncomingMessage, response: ServerResponse): Promise<unknown> {
    const received = await receive(request);
    const url = new URL(request.url ?? '/', 'http://localhost');
    const [bucketName = '', ...rest] = decodeURIComponent(url.pathname).slice(1).split('/');
    const key = rest.join('/');
    const trouble = front.trouble(`${request.method ?? ''} ${bucketName}/${key}`);
    let permissions: readonly Permission[] | undefined;
    let answer: Answer;
    let shared: Readonly<Record<string, string>> = {};
    try {
      const { method = '', headers } = request;
      shared = sharedHeaders(front.sharing, { method, bucket: bucketName, headers });
      if (method === 'OPTIONS') return response.writeHead(200, shared).end();
      if (trouble?.kind === 'busy') throw new S3Error(trouble.status, BUSY[trouble.status]);
      const form = request.headers['content-type'] ?? '';
      if (request.method === 'POST' && form.startsWith('multipart/form-data')) {
        const posted = await readPost(form, received, bucketName, keys, now());
        answer = storePosted(posted, buckets.get(bucketName), now());
        return response.writeHead(answer.status, answer.headers).end(answer.body);
      }
      const holder = requireSignature(request, url, keys, now());
      if (holder !== '') permissions = permit(holder, request, url, bucketName, key);
      const body = readBody({ ...sealedChecksums(url), ...request.headers }, received);
      answer = handle({ request, url, bucketName, key, body }, buckets, now());
    } catch (error) {
      answer = errorAnswer(permissions ? hideMissing(error, permissions, bucketName) : error);
    }
    if (trouble?.kind === 'lostAnswer') {
      return response.destroy();
    }
    response.writeHead(answer.status, { 'x-amz-request-id': 'test', ...shared, ...answer.headers });
    return response.end(request.method === 'HEAD' ? undefined : answer.body);
  }

  function permit(
    holder: string,
    request: IncomingMessage,
    url: URL,
    bucket: string,
    key: string,
  ): readonly Permission[] {
    const method = request.method ?? '';
    const permissions = front.roles.get(holder) ?? [];
    if (!may(permissions, { method, bucket, key, hasVersion: url.searchParams.has('versionId') })) {
      front.denied.push(`${holder} ${method} ${bucket}/${key}`);
      throw new S3Error(403, 'AccessDenied');
    }
    return permissions;
  }

  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return Object.assign(front, { endpoint: `http://127.0.0.1:${port}` });
}

function storePosted(posted: Posted, bucket: Bucket | undefined, now: Date): Answer {
  if (!bucket) throw new S3Error(404, 'NoSuchBucket');
  const body = { bytes: posted.bytes, checksums: {} };
  const headers = tagsOf(writeObject(bucket, posted.key, body, posted.headers, now));
  if (posted.leadTo === undefined) return { status: 204, headers };
  const location = new URL(posted.leadTo);
  location.searchParams.set('key', posted.key);
  return { status: 303, headers: { ...headers, location: location.href } };
}

/** A signed address may carry a checksum of what is to be put, in place of a header. */
const sealedChecksums = (url: URL): Record<string, string> =>
  Object.fromEntries(
    [...url.searchParams].filter(([name]) => /^x-amz-checksum-(?!mode)/i.test(name)),
  );

const BUSY = { 500: 'InternalError', 503: 'SlowDown', 409: 'ConditionalRequestConflict' } as const;

async function receive(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request) {
    bytes += (chunk as Buffer).length;
    if (bytes > LARGEST_BODY_BYTES) break;
    chunks.push(chunk as Buffer);
  }
  return Buffer.concat(chunks);
}

function handle(call: Call, buckets: Map<string, Bucket>, now: Date): Answer {
  const { method } = call.request;
  if (call.key === '' && method === 'PUT' && call.url.search === '') {
    buckets.set(call.bucketName, { versions: new Map(), versioned: false });
    return { status: 200 };
  }
  const bucket = buckets.get(call.bucketName);
  if (!bucket) throw new S3Error(404, 'NoSuchBucket');
  if (call.key === '') return handleBucket(call, bucket);
  const query = call.url.searchParams;
  if (query.has('uploads') || query.has('uploadId')) return handleParts(call, bucket, now);
  const strange = [...call.url.searchParams.keys()].find((name) => !OBJECT_QUERY.test(name));
  if (strange !== undefined) throw new S3Error(501, 'NotImplemented', strange);
  switch (method) {
    case 'PUT':
      return putObject(call, buckets, bucket, now);
    case 'GET':
    case 'HEAD':
      return getObject(call, bucket);
    case 'DELETE': {
      const { 'if-match': ifMatch } = call.request.headers;
      requireConditions(bucket, call.key, { ifMatch });
      bucket.versions.delete(call.key);
      return { status: 204 };
    }
    default:
      throw new S3Error(501, 'NotImplemented');
  }
}

function handleBucket(call: Call, bucket: Bucket): Answer {
  const { method } = call.request;
  if (method === 'HEAD') return { status: 200 };
  if (method === 'PUT' && call.url.searchParams.has('versioning')) {
    bucket.versioned = call.body.bytes.includes('Enabled');
    return { status: 200 };
  }
  if (method === 'POST' && call.url.searchParams.has('delete')) {
    const keys = [...call.body.bytes.toString('utf8').matchAll(/<Key>([^<]*)<\/Key>/g)].map(
      ([, key]) => key ?? '',
    );
    for (const key of keys) bucket.versions.delete(key);
    const deleted = keys.map((key) => `<Deleted><Key>${key}</Key></Deleted>`).join('');
    return xml(`<DeleteResult>${deleted}</DeleteResult>`);
  }
  if (method === 'GET' && call.url.searchParams.get('list-type') === '2') {
    return xml(listObjects(bucket, call.bucketName, call.url.searchParams));
  }
  throw new S3Error(501, 'NotImplemented');
}

function putObject(call: Call, buckets: Map<string, Bucket>, bucket: Bucket, now: Date): Answer {
  const { headers } = call.request;
  requireConditions(bucket, call.key, {
    ifMatch: headers['if-match'],
    ifNoneMatch: headers['if-none-match'],
  });
  const source = headers['x-amz-copy-source'];
  if (source !== undefined) {
    const [name = '', ...key] = decodeURIComponent(String(source)).replace(/^\//, '').split('/');
    const from = requireObject(buckets.get(name) ?? bucket, key.join('/'));
    const wanted = headers['x-amz-copy-source-if-match'];
    if (wanted !== undefined && wanted !== from.etag) throw new S3Error(412, 'PreconditionFailed');
    const copied = writeObject(bucket, call.key, from, from.headers, now);
    return xml(`<CopyObjectResult><ETag>${escapeXml(copied.etag)}</ETag></CopyObjectResult>`);
  }
  const version = writeObject(bucket, call.key, call.body, keptHeaders(call.request), now);
  return { status: 200, headers: { ...version.checksums, ...tagsOf(version) } };
}

function handleParts({ request, url, bucketName, key, body }: Call, bucket: Bucket, now: Date) {
  const kept = keptHeaders(request);
  const { method = '' } = request;
  const parts = unfinished.get(bucket) ?? new Multipart();
  unfinished.set(bucket, parts);
  const { etag, begun, whole } = parts.answer({
    method,
    key,
    query: url.searchParams,
    body,
    headers: kept,
  });
  const place = `<Bucket>${bucketName}</Bucket><Key>${escapeXml(key)}</Key>`;
  if (etag !== undefined) return { status: 200, headers: { ...body.checksums, etag } };
  if (begun !== undefined) {
    const result = `${place}<UploadId>${begun}</UploadId>`;
    return xml(`<InitiateMultipartUploadResult>${result}</InitiateMultipartUploadResult>`);
  }
  if (whole === undefined) throw new S3Error(500, 'InternalError');
  const version = writeObject(bucket, key, whole.body, whole.headers, now);
  const result = `${place}<ETag>${escapeXml(version.etag)}</ETag>`;
  return xml(`<CompleteMultipartUploadResult>${result}</CompleteMultipartUploadResult>`);
}

const unfinished = new WeakMap<Bucket, Multipart>();

const keptHeaders = ({ headers }: IncomingMessage): Record<string, string> =>
  Object.fromEntries(
    Object.entries(headers)
      .filter(
        ([name]) => /^content-(type|disposition)$/.test(name) || name.startsWith('x-amz-meta-'),
      )
      .map(([name, value]) => [name, String(value)]),
  );

function getObject(call: Call, bucket: Bucket): Answer {
  const { headers } = call.request;
  const version = requireObject(bucket, call.key, call.url.searchParams.get('versionId'));
  if (headers['if-none-match'] === version.etag) return { status: 304, headers: tagsOf(version) };
  const range = /^bytes=(\d+)-(\d+)$/.exec(headers.range ?? '');
  const bytes = range
    ? version.bytes.subarray(Number(range[1]), Number(range[2]) + 1)
    : version.bytes;
  const whole = headers['x-amz-checksum-mode'] === 'ENABLED' && !range;
  return {
    status: range ? 206 : 200,
    headers: {
      ...version.headers,
      ...wantedHeaders(call.url.searchParams),
      ...(whole && { ...version.checksums, 'x-amz-checksum-type': 'FULL_OBJECT' }),
      ...tagsOf(version),
      'content-length': String(bytes.length),
      'last-modified': version.modified.toUTCString(),
    },
    body: bytes,
  };
}

/** Headers that the asker of a signed address chose. */
const wantedHeaders = (query: URLSearchParams): Record<string, string> =>
  Object.fromEntries(
    ['content-type', 'content-disposition'].flatMap((name) => {
      const value = query.get(`response-${name}`);
      return value === null ? [] : [[name, value]];
    }),
  );

const tagsOf = ({ etag, id }: Version): Record<string, string> =>
  id === 'null' ? { etag } : { etag, 'x-amz-version-id': id };

const xml = (body: string, status = 200): Answer => ({
  status,
  headers: { 'content-type': 'application/xml' },
  body: `<?xml version="1.0" encoding="UTF-8"?>\n${body}`,
});

function errorAnswer(error: unknown): Answer {
  const { status, code, message } =
    error instanceof S3Error ? error : new S3Error(500, 'InternalError', String(error));
  return xml(`<Error><Code>${code}</Code><Message>${escapeXml(message)}</Message></Error>`, status);
}
