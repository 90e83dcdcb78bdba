/**
 * What the front answers for objects and buckets, in memory: conditions, versions, ranges, copies,
 * listing in pages. Follows the Amazon S3 API Reference; what it does not know it refuses with 501.
 */
import { createHash } from 'node:crypto';
import type { Body } from './body.ts';
import { S3Error, escapeXml } from './errors.ts';

export interface Version extends Body {
  readonly etag: string;
  readonly id: string;
  readonly modified: Date;
  readonly headers: Readonly<Record<string, string>>;
}

export interface Bucket {
  readonly versions: Map<string, Version[]>;
  versioned: boolean;
}

export interface Conditions {
  readonly ifMatch?: string | undefined;
  readonly ifNoneMatch?: string | undefined;
}

const latest = (bucket: Bucket, key: string): Version | undefined =>
  bucket.versions.get(key)?.at(-1);

export function requireObject(bucket: Bucket, key: string, versionId?: string | null): Version {
  const versions = bucket.versions.get(key);
  const found = versionId ? versions?.find(({ id }) => id === versionId) : versions?.at(-1);
  if (!found) throw new S3Error(404, versionId ? 'NoSuchVersion' : 'NoSuchKey');
  return found;
}

/** If-None-Match takes only `*` on a write; If-Match on nothing is 404. */
export function requireConditions(bucket: Bucket, key: string, conditions: Conditions): void {
  const current = latest(bucket, key);
  const { ifMatch, ifNoneMatch } = conditions;
  if (ifNoneMatch !== undefined && ifNoneMatch !== '*') throw new S3Error(501, 'NotImplemented');
  if (ifNoneMatch === '*' && current) throw new S3Error(412, 'PreconditionFailed');
  if (ifMatch !== undefined && !current) throw new S3Error(404, 'NoSuchKey');
  if (ifMatch !== undefined && current?.etag !== ifMatch) {
    throw new S3Error(412, 'PreconditionFailed');
  }
}

let written = 0;

export function writeObject(
  bucket: Bucket,
  key: string,
  body: Body,
  headers: Readonly<Record<string, string>>,
  now: Date,
): Version {
  written += 1;
  const etag = `"${createHash('md5').update(body.bytes).digest('hex')}"`;
  const id = bucket.versioned ? `v${written}` : 'null';
  const version = { ...body, etag, id, modified: now, headers };
  const earlier = bucket.versioned ? (bucket.versions.get(key) ?? []) : [];
  bucket.versions.set(key, [...earlier, version]);
  return version;
}

export function listObjects(bucket: Bucket, name: string, query: URLSearchParams): string {
  const prefix = query.get('prefix') ?? '';
  const delimiter = query.get('delimiter') ?? '';
  const most = Math.min(Number(query.get('max-keys') ?? 1000), 1000);
  const after = decodeToken(query.get('continuation-token')) ?? query.get('start-after') ?? '';
  const encode = query.get('encoding-type') === 'url' ? encodeURIComponent : escapeXml;
  const rows = new Map<string, string>();
  for (const key of [...bucket.versions.keys()].sort(byBytes)) {
    if (!key.startsWith(prefix) || byBytes(key, after) <= 0) continue;
    const version = requireObject(bucket, key);
    const cut = delimiter === '' ? -1 : key.indexOf(delimiter, prefix.length);
    const common = cut < 0 ? undefined : key.slice(0, cut + delimiter.length);
    rows.set(
      common ?? key,
      common === undefined ? contents(encode(key), version) : commonPrefix(encode(common)),
    );
  }
  const page = [...rows].slice(0, most);
  const last = rows.size > page.length ? page.at(-1)?.[0] : undefined;
  const next =
    last === undefined
      ? ''
      : `<NextContinuationToken>${Buffer.from(last).toString('base64')}</NextContinuationToken>`;
  return `<ListBucketResult><Name>${name}</Name><Prefix>${encode(prefix)}</Prefix><KeyCount>${page.length}</KeyCount><MaxKeys>${most}</MaxKeys>${query.has('encoding-type') ? '<EncodingType>url</EncodingType>' : ''}<IsTruncated>${last !== undefined}</IsTruncated>${next}${page.map(([, row]) => row).join('')}</ListBucketResult>`;
}

const contents = (key: string, { etag, bytes, modified }: Version): string =>
  `<Contents><Key>${key}</Key><LastModified>${modified.toISOString()}</LastModified><ETag>${escapeXml(etag)}</ETag><Size>${bytes.length}</Size></Contents>`;
const commonPrefix = (prefix: string): string =>
  `<CommonPrefixes><Prefix>${prefix}</Prefix></CommonPrefixes>`;

const byBytes = (a: string, b: string): number => Buffer.compare(Buffer.from(a), Buffer.from(b));
const decodeToken = (token: string | null): string | undefined =>
  token === null ? undefined : Buffer.from(token, 'base64').toString('utf8');
