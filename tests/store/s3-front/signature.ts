/**
 * Checks AWS Signature Version 4 as a server does ("Authenticating Requests", Amazon S3 API Reference):
 * the canonical request is rebuilt from what arrived and signed anew. Headers or a presigned address.
 */
import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { S3Error } from './errors.ts';

export interface Keys {
  readonly accessKeyId: string;
  readonly secretAccessKey: string;
}

const ALGORITHM = 'AWS4-HMAC-SHA256';
const LONGEST_SKEW_MILLISECONDS = 15 * 60 * 1000;

interface Claim {
  readonly credential: string;
  readonly signedHeaders: string;
  readonly signature: string;
  readonly date: string;
  readonly payloadHash: string;
  readonly query: URLSearchParams;
}

/** Gives whose key it was: the part behind the first hyphen of its name, empty for the owner's. */
export function requireSignature(
  request: IncomingMessage,
  url: URL,
  keys: Keys,
  now: Date,
): string {
  const claim = url.searchParams.has('X-Amz-Signature')
    ? presignedClaim(url, now)
    : headerClaim(request, url, now);
  const [keyId, day, region, service, end] = claim.credential.split('/');
  const [owner, ...holder] = (keyId ?? '').split('-');
  if (owner !== keys.accessKeyId) throw new S3Error(403, 'InvalidAccessKeyId');
  if (service !== 's3' || end !== 'aws4_request' || !claim.date.startsWith(day ?? '-')) {
    throw new S3Error(400, 'AuthorizationHeaderMalformed');
  }
  const scope = [day, region, service, end].join('/');
  const canonical = [
    request.method,
    (request.url ?? '/').split('?')[0],
    canonicalQuery(claim.query),
    canonicalHeaders(request, claim.signedHeaders),
    claim.signedHeaders,
    claim.payloadHash,
  ].join('\n');
  const toSign = [ALGORITHM, claim.date, scope, sha256(canonical)].join('\n');
  const key = [day, region, service, end].reduce<string | Buffer>(
    (secret, part) => hmac(secret, part ?? ''),
    `AWS4${keys.secretAccessKey}`,
  );
  const expected = createHmac('sha256', key).update(toSign).digest();
  const given = Buffer.from(claim.signature, 'hex');
  if (given.length !== expected.length || !timingSafeEqual(given, expected)) {
    throw new S3Error(403, 'SignatureDoesNotMatch');
  }
  return holder.join('-');
}

function headerClaim(request: IncomingMessage, url: URL, now: Date): Claim {
  const header = request.headers.authorization ?? '';
  const match =
    /^AWS4-HMAC-SHA256 Credential=(\S+), SignedHeaders=(\S+), Signature=([0-9a-f]{64})$/.exec(
      header,
    );
  if (!match) throw new S3Error(403, 'AccessDenied');
  const [, credential = '', signedHeaders = '', signature = ''] = match;
  const date = String(request.headers['x-amz-date'] ?? '');
  if (Math.abs(instantOf(date) - now.getTime()) > LONGEST_SKEW_MILLISECONDS) {
    throw new S3Error(403, 'RequestTimeTooSkewed');
  }
  requireSigned(request, signedHeaders);
  const payloadHash = String(request.headers['x-amz-content-sha256'] ?? '');
  return { credential, signedHeaders, signature, date, payloadHash, query: url.searchParams };
}

function presignedClaim(url: URL, now: Date): Claim {
  const query = new URLSearchParams(url.searchParams);
  const take = (name: string) => query.get(`X-Amz-${name}`) ?? '';
  const signature = take('Signature');
  query.delete('X-Amz-Signature');
  const date = take('Date');
  const age = now.getTime() - instantOf(date);
  if (age > Number(take('Expires')) * 1000 || age < -LONGEST_SKEW_MILLISECONDS) {
    throw new S3Error(403, 'AccessDenied');
  }
  const signedHeaders = take('SignedHeaders');
  return {
    credential: take('Credential'),
    signedHeaders,
    signature,
    date,
    payloadHash: 'UNSIGNED-PAYLOAD',
    query,
  };
}

/** Every header that changes what is done must be under the signature. */
function requireSigned(request: IncomingMessage, signedHeaders: string): void {
  const signed = new Set(signedHeaders.split(';'));
  const needed = Object.keys(request.headers).filter(
    (name) => name === 'host' || name.startsWith('x-amz-') || name.startsWith('if-'),
  );
  const unsigned = needed.filter((name) => !signed.has(name));
  if (unsigned.length > 0) throw new S3Error(403, 'AccessDenied', `not signed: ${unsigned.join()}`);
}

/** `20260201T120000Z` as milliseconds. */
function instantOf(date: string): number {
  const match = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(date);
  if (!match) throw new S3Error(403, 'AccessDenied');
  const [, year, month, day, hour, minute, second] = match.map(Number);
  return Date.UTC(year ?? 0, (month ?? 1) - 1, day, hour, minute, second);
}

const encode = (text: string): string =>
  encodeURIComponent(text).replaceAll(
    /[!'()*]/g,
    (mark) => `%${mark.charCodeAt(0).toString(16).toUpperCase()}`,
  );

const canonicalQuery = (query: URLSearchParams): string =>
  [...query]
    .map(([name, value]) => `${encode(name)}=${encode(value)}`)
    .sort()
    .join('&');

const canonicalHeaders = (request: IncomingMessage, signedHeaders: string): string =>
  signedHeaders
    .split(';')
    .map(
      (name) =>
        `${name}:${String(request.headers[name] ?? '')
          .trim()
          .replaceAll(/ +/g, ' ')}\n`,
    )
    .join('');

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
const hmac = (key: string | Buffer, text: string): Buffer =>
  createHmac('sha256', key).update(text).digest();
