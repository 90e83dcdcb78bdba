/** Objects too large to be held, through the SDK, against a front that is strict about parts. */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { s3Store } from '../../src/store/s3.ts';
import { readInPieces, writeInParts } from '../../src/store/s3-streams.ts';
import { clientOf } from './client.ts';
import type { S3Front } from './s3-front/server.ts';
import { startS3Front } from './s3-front/server.ts';

let front: S3Front;
beforeAll(async () => {
  front = await startS3Front();
});
afterAll(() => front.close());
beforeEach(() => {
  front.createBucket('large');
  front.trouble = () => undefined;
});

const PLACE = { bucket: 'large', key: 'zips/a.zip' };
const WRITTEN = { contentType: 'application/zip', fileName: 'a.zip' };

/** Bytes in pieces of an odd size, none like the one before. */
async function* piecesOf(sizeBytes: number, endsAt = Infinity) {
  const piece = 100_003;
  for (let at = 0; at < sizeBytes; at += piece) {
    if (at > endsAt) throw new Error('cut off');
    yield new Uint8Array(Math.min(piece, sizeBytes - at)).fill(at / piece);
  }
}

async function hashOf(pieces: AsyncIterable<Uint8Array>): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of pieces) hash.update(piece);
  return hash.digest('hex');
}

const MIB = 1024 * 1024;

describe('an object written in parts', () => {
  it.each([1, 16 * MIB, 16 * MIB + 1, 40 * MIB])('of %d bytes is what was sent', async (size) => {
    const client = clientOf(front);
    let parts = 0;
    front.trouble = (request) => {
      if (request.startsWith('PUT ')) parts += 1;
      return undefined;
    };
    await writeInParts(client, PLACE, WRITTEN, piecesOf(size));
    expect(parts).toBe(Math.ceil(size / (16 * MIB)));
    expect(await hashOf(readInPieces(client, PLACE))).toBe(await hashOf(piecesOf(size)));
  });

  it('is not there until it is whole, nor ever where its writer is cut off', async () => {
    const client = clientOf(front);
    const store = s3Store(client, { bucket: 'large', prefix: '' });
    const writing = writeInParts(client, PLACE, WRITTEN, piecesOf(40 * MIB, 20 * MIB));
    await expect(writing).rejects.toThrow('cut off');
    expect(await store.has(PLACE.key)).toBe(false);
  });

  it('survives a bucket that is busy now and then, and answers that are lost', async () => {
    const client = clientOf(front);
    let requests = 0;
    front.trouble = () => {
      requests += 1;
      if (requests === 2) return { kind: 'busy', status: 503 };
      return requests === 4 ? { kind: 'lostAnswer' } : undefined;
    };
    await writeInParts(client, PLACE, WRITTEN, piecesOf(20 * MIB));
    expect(requests).toBeGreaterThan(5);
    expect(await hashOf(readInPieces(client, PLACE))).toBe(await hashOf(piecesOf(20 * MIB)));
  });

  it('that is not there is a fault of the store', async () => {
    const read = hashOf(readInPieces(clientOf(front), { ...PLACE, key: 'no' }));
    await expect(read).rejects.toMatchObject({ kind: 'missing' });
  });
});
