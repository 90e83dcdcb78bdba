/**
 * The body of a request as a strict server takes it: chunk framing of `aws-chunked` undone, every
 * stated hash and checksum computed again. A body that is not what its headers say is refused.
 */
import { createHash } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { crc32 } from 'node:zlib';
import { S3Error } from './errors.ts';

export interface Body {
  readonly bytes: Buffer;
  /** Checksum headers to keep and give back: `x-amz-checksum-crc32` and its kin. */
  readonly checksums: Readonly<Record<string, string>>;
}

export function readBody(headers: IncomingHttpHeaders, received: Buffer): Body {
  const stated = String(headers['x-amz-content-sha256'] ?? 'UNSIGNED-PAYLOAD');
  const chunked = stated.startsWith('STREAMING-');
  const { bytes, trailers } = chunked ? undoChunks(received) : { bytes: received, trailers: {} };
  if (/^[0-9a-f]{64}$/.test(stated) && digest('sha256', bytes, 'hex') !== stated) {
    throw new S3Error(400, 'XAmzContentSHA256Mismatch');
  }
  const length = headers['x-amz-decoded-content-length'];
  if (chunked && Number(length) !== bytes.length) throw new S3Error(400, 'IncompleteBody');
  const md5 = headers['content-md5'];
  if (md5 !== undefined && md5 !== digest('md5', bytes, 'base64'))
    throw new S3Error(400, 'BadDigest');
  const promised = String(headers['x-amz-trailer'] ?? '');
  if (promised !== '' && trailers[promised] === undefined)
    throw new S3Error(400, 'MalformedTrailerError');
  return { bytes, checksums: requireChecksums({ ...headers, ...trailers }, bytes) };
}

function requireChecksums(
  stated: Readonly<Record<string, unknown>>,
  bytes: Buffer,
): Readonly<Record<string, string>> {
  const kept: Record<string, string> = {};
  for (const [name, value] of Object.entries(stated)) {
    const kind = /^x-amz-checksum-(crc32|crc32c|crc64nvme|sha1|sha256)$/.exec(name)?.[1];
    if (kind === undefined) continue;
    if (checksum(kind, bytes) !== value) throw new S3Error(400, 'BadDigest', `${name} is wrong`);
    kept[name] = value;
  }
  if (Object.keys(kept).length === 0) kept['x-amz-checksum-crc32'] = checksum('crc32', bytes);
  return kept;
}

function checksum(kind: string, bytes: Buffer): string {
  if (kind === 'sha1' || kind === 'sha256') return digest(kind, bytes, 'base64');
  if (kind !== 'crc32') throw new S3Error(501, 'NotImplemented', kind);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(bytes));
  return sum.toString('base64');
}

const digest = (kind: string, bytes: Buffer, form: 'hex' | 'base64'): string =>
  createHash(kind).update(bytes).digest(form);

/** `<hex length>[;chunk-signature=…]CRLF data CRLF` until a chunk of length 0, then trailers. */
function undoChunks(received: Buffer): { bytes: Buffer; trailers: Record<string, string> } {
  const parts: Buffer[] = [];
  let at = 0;
  for (;;) {
    const end = received.indexOf('\r\n', at);
    if (end < 0) throw new S3Error(400, 'IncompleteBody');
    const length = Number.parseInt(received.toString('latin1', at, end), 16);
    at = end + 2;
    if (length === 0) break;
    parts.push(received.subarray(at, at + length));
    at += length + 2;
  }
  const lines = received.toString('latin1', at).split('\r\n').filter(Boolean);
  const trailers = Object.fromEntries(
    lines.map((line) => {
      const [name = '', ...value] = line.split(':');
      return [name.toLowerCase(), value.join(':').trim()];
    }),
  );
  return { bytes: Buffer.concat(parts), trailers };
}
