import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { handOver } from '../../src/release/hand-over.ts';
import { artifactKey } from '../../src/release/keys.ts';
import type { Manifest } from '../../src/release/manifest.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

async function storeWith(texts: Readonly<Record<string, string>>): Promise<[Store, Manifest]> {
  const store = memoryStore();
  const files: Manifest['files'] = [];
  for (const [path, text] of Object.entries(texts)) {
    const artifact = hashBytes(text);
    await store.put(artifactKey(artifact, 'text/plain'), bytes(text));
    const sizeBytes = text.length;
    files.push({ path, artifact, sizeBytes, mediaType: 'text/plain', role: 'listing' });
  }
  const manifest: Manifest = {
    format: 'castoff-release/1',
    pattern: 'skerry-hat',
    version: '1.0.0',
    issued: '2026-02-01',
    bundle: hashBytes('bundle'),
    languages: ['de'],
    accepted: [],
    files,
  };
  return [store, manifest];
}

let root: string;
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'castoff-hand-over-'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

const TEXTS = { 'de/listing.txt': 'Mütze', 'en-US/listing.txt': 'Hat', 'pictures/a.txt': 'A' };
const folderOf = (): string => join(root, 'skerry-hat', '1.0.0');
const entries = (): Promise<string[]> => readdir(join(root, 'skerry-hat'));

describe('handing a release over', () => {
  it('writes the files of the manifest and nothing else', async () => {
    const [store, manifest] = await storeWith(TEXTS);
    expect(await handOver(store, manifest, root, 't')).toEqual({
      folder: folderOf(),
      written: true,
    });
    for (const [path, text] of Object.entries(TEXTS)) {
      expect(await readFile(join(folderOf(), path), 'utf8')).toBe(text);
    }
    expect(await entries()).toEqual(['1.0.0']);
  });

  it('does nothing where it was done', async () => {
    const [store, manifest] = await storeWith(TEXTS);
    await handOver(store, manifest, root, 't');
    expect(await handOver(store, manifest, root, 'u')).toEqual({
      folder: folderOf(),
      written: false,
    });
  });

  it.each<[string, () => Promise<void>]>([
    ['a changed file', () => writeFile(join(folderOf(), 'de/listing.txt'), 'mine')],
    ['a missing file', () => rm(join(folderOf(), 'de/listing.txt'))],
    ['a file of one’s own', () => writeFile(join(folderOf(), 'notes.txt'), 'mine')],
  ])('writes it anew over %s, and loses nothing of a person’s', async (_title, change) => {
    const [store, manifest] = await storeWith(TEXTS);
    await handOver(store, manifest, root, 't');
    await change();
    const again = await handOver(store, manifest, root, 'u');
    expect(again.written).toBe(true);
    expect(again.setAside).toBe(join(root, 'skerry-hat', '1.0.0-set-aside-u'));
    expect(await readFile(join(folderOf(), 'de/listing.txt'), 'utf8')).toBe('Mütze');
    expect((await entries()).sort()).toEqual(['1.0.0', '1.0.0-set-aside-u']);
  });

  it('shows nothing where an artifact is missing or damaged', async () => {
    const [store, manifest] = await storeWith(TEXTS);
    const key = artifactKey(hashBytes('A'), 'text/plain');
    await store.put(key, bytes('B'));
    await expect(handOver(store, manifest, root, 't')).rejects.toThrow(`${key} is damaged`);
    await store.delete(key);
    await expect(handOver(store, manifest, root, 't')).rejects.toThrow(`${key} is missing`);
    expect((await entries()).filter((name) => !name.startsWith('.'))).toEqual([]);
  });

  it('by twenty at once leaves one whole folder', async () => {
    const [store, manifest] = await storeWith(TEXTS);
    const twenty = Array.from({ length: 20 }, (_, each) =>
      handOver(store, manifest, root, `t${each}`),
    );
    const written = (await Promise.all(twenty)).filter((each) => each.written && !each.setAside);
    expect(written.length).toBeGreaterThanOrEqual(1);
    expect(await entries()).toEqual(['1.0.0']);
  });
});
