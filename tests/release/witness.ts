/**
 * What a reader of a store may rely on at any moment, as a check: every manifest is whole, every
 * artifact is what its name says, the pointer names a release that is there.
 */
import { expect } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { currentVersion, findRelease } from '../../src/release/commit.ts';
import { artifactKey } from '../../src/release/keys.ts';
import { readManifest } from '../../src/release/manifest.ts';
import type { Store } from '../../src/store/store.ts';

/** Reads as a stranger would; fails the test where a promise is broken. Gives the current version. */
export async function witness(store: Store, pattern: string): Promise<string | undefined> {
  for await (const { key } of store.list('releases/')) {
    if (!key.endsWith('/manifest.json')) continue;
    const manifest = readManifest((await store.get(key))?.bytes ?? new Uint8Array(), key);
    for (const { artifact, mediaType, sizeBytes } of manifest.files) {
      const stored = await store.get(artifactKey(artifact, mediaType));
      expect(stored && hashBytes(stored.bytes)).toBe(artifact);
      expect(stored?.bytes).toHaveLength(sizeBytes);
    }
  }
  const version = await currentVersion(store, pattern);
  if (version !== undefined) expect(await findRelease(store, pattern, version)).toBeDefined();
  return version;
}

/** Every object with its content: equal for equal stores. */
export async function contentOf(store: Store): Promise<ReadonlyMap<string, string>> {
  const content = new Map<string, string>();
  for await (const { key } of store.list('')) {
    content.set(key, hashBytes((await store.get(key))?.bytes ?? new Uint8Array()));
  }
  return content;
}
