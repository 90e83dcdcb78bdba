/** Zips made while they are sent, read again by yauzl, which shares nothing with their writer. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ZipEntry, zipInPieces, zipSizeBytes } from '../../src/release/zip.ts';
import { unzip } from './unzip.ts';

const entryOf = (path: string, pieces: readonly Uint8Array[]): ZipEntry => ({
  path,
  async *read() {
    yield* pieces;
  },
});

async function zipOf(entries: readonly ZipEntry[]): Promise<Buffer> {
  const pieces: Uint8Array[] = [];
  for await (const piece of zipInPieces(entries)) pieces.push(piece);
  return Buffer.concat(pieces);
}

const FILES: ReadonlyMap<string, Uint8Array> = new Map([
  ['de/skerry-hat-1.0.0-de.pdf', new TextEncoder().encode('%PDF-1.7 …')],
  ['de/listing.txt', new Uint8Array()],
  ['bilder/Mütze.jpg', new Uint8Array(70_000).fill(7)],
]);
const ENTRIES = [...FILES].map(([path, bytes]) => entryOf(path, [bytes]));

describe('a zip that is made while it is sent', () => {
  it('holds every file as it is, in order, with no clock', async () => {
    const found = await unzip(await zipOf(ENTRIES));
    expect([...found.keys()]).toEqual([...FILES.keys()]);
    for (const [path, { bytes, entry }] of found) {
      expect(bytes.equals(FILES.get(path) ?? new Uint8Array([1]))).toBe(true);
      expect(entry.compressionMethod).toBe(0);
      // 2 January 1980: day 2, month 1, year 0 (APPNOTE.TXT 4.4.6).
      expect([entry.lastModFileDate, entry.lastModFileTime]).toEqual([(1 << 5) | 2, 0]);
    }
  });

  it('is the same bytes for the same files, however they come', async () => {
    const inBytes = [...FILES].map(([path, bytes]) =>
      entryOf(
        path,
        Array.from({ length: Math.ceil(bytes.length / 999) }, (_, at) =>
          bytes.subarray(at * 999, (at + 1) * 999),
        ),
      ),
    );
    expect((await zipOf(inBytes)).equals(await zipOf(ENTRIES))).toBe(true);
  });

  it('has the size that was said before, and what was put into it', async () => {
    const path = fc.stringMatching(/^[a-zé]{1,12}(\/[a-z-]{1,12}){0,2}\.pdf$/);
    const content = fc.array(fc.uint8Array({ maxLength: 50 }), { maxLength: 4 });
    await fc.assert(
      fc.asyncProperty(fc.dictionary(path, content, { maxKeys: 6 }), async (files) => {
        const entries = Object.entries(files);
        const zip = await zipOf(entries.map(([name, pieces]) => entryOf(name, pieces)));
        const sizes = entries.map(([name, pieces]) => ({
          path: name,
          sizeBytes: Buffer.concat(pieces).length,
        }));
        expect(zip.length).toBe(zipSizeBytes(sizes));
        const found = await unzip(zip);
        for (const [name, pieces] of entries)
          expect(found.get(name)?.bytes.equals(Buffer.concat(pieces))).toBe(true);
        expect(found.size).toBe(entries.length);
      }),
      { numRuns: 60 },
    );
  });

  it('reads no further than it is read', async () => {
    let readPieces = 0;
    const endless: ZipEntry = {
      path: 'endless',
      async *read() {
        for (;;) {
          readPieces += 1;
          yield new Uint8Array(1000);
        }
      },
    };
    let taken = 0;
    for await (const piece of zipInPieces([endless])) {
      taken += piece.length;
      expect(readPieces * 1000 - taken).toBeLessThanOrEqual(1000);
      if (taken > 20_000) break;
    }
    expect(readPieces).toBeLessThan(25);
  });

  it('ends with the fault of a file that cannot be read', async () => {
    const broken: ZipEntry = {
      path: 'b',
      // eslint-disable-next-line require-yield
      async *read() {
        throw new Error('gone');
      },
    };
    await expect(zipOf([...ENTRIES, broken])).rejects.toThrow('gone');
  });
});
