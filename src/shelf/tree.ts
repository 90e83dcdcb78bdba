/**
 * A bundle frozen at one state, in a store: `files/<sha256>` holds the bytes of a file under their hash,
 * `trees/<state>.json` the paths of the bundle with those hashes; the state is the hash of that list.
 * Both are written once and never change, so that whoever holds a state holds the bundle. Knows no names.
 */
import { z } from 'zod';
import { assert } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { canonicalJson, hashBytes } from '../base/hash.ts';
import { SHELF_LIMITS } from '../base/limits.ts';
import { someAtOnce } from '../base/some-at-once.ts';
import { Intake } from '../pattern/bundle/intake.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import type { Store } from '../store/store.ts';

export const contentHash = z.string().regex(/^[0-9a-f]{64}$/);

const treeFile = z.strictObject({
  path: z.string(),
  hash: contentHash,
  sizeBytes: z.number().int().nonnegative(),
});
const tree = z.strictObject({ files: z.array(treeFile) });

/** A file of a bundle: where it stands there, and what is in it. */
export type TreeFile = z.output<typeof treeFile>;

/** The key of a file of that content; its bytes never change. */
export const fileKey = (hash: string): string => `files/${hash}`;
const treeKey = (state: string): string => `trees/${state}.json`;

/** Writes the bytes unless they are there; gives what a tree says of them. */
export async function keepFile(store: Store, path: string, bytes: Uint8Array): Promise<TreeFile> {
  const hash = hashBytes(bytes);
  const contentType = 'application/octet-stream';
  await store.put(fileKey(hash), bytes, { condition: 'absent', contentType });
  return { path, hash, sizeBytes: bytes.length };
}

export const keepFiles = (store: Store, files: BundleFiles): Promise<readonly TreeFile[]> =>
  someAtOnce([...files], SHELF_LIMITS.concurrency, ([path, bytes]) => keepFile(store, path, bytes));

/** Writes the list, held to the limits of a bundle; its files must be there. Gives the state. */
export async function keepTree(store: Store, files: readonly TreeFile[]): Promise<string> {
  const intake = new Intake('the pattern');
  const named = files.map(({ path, hash, sizeBytes }) => ({
    path: intake.accept(path, { bytes: sizeBytes, packedBytes: sizeBytes }),
    hash,
    sizeBytes,
  }));
  const { state, bytes } = stateOf(named);
  await store.put(treeKey(state), bytes, { condition: 'absent', contentType: 'application/json' });
  return state;
}

/** Names the files for good: two bundles of one state are the same, byte for byte. */
export function stateOf(files: readonly TreeFile[]) {
  const ordered = files.toSorted((a, b) => (a.path < b.path ? -1 : 1));
  const bytes = new TextEncoder().encode(canonicalJson({ files: ordered }));
  return { state: hashBytes(bytes), files: ordered, bytes };
}

/** The files of a state in order of path. A state that nobody kept is a `Fault` of kind `missing`. */
export async function recallTree(store: Store, state: string): Promise<readonly TreeFile[]> {
  const known = contentHash.safeParse(state).success;
  const kept = known ? await store.get(treeKey(state)) : undefined;
  if (kept === undefined)
    throw new Fault('missing', 'this state of the pattern was never kept', { place: state });
  assert(hashBytes(kept.bytes) === state, `the tree ${state} is the one it is named for`);
  return tree.parse(JSON.parse(new TextDecoder().decode(kept.bytes))).files;
}

/** The bytes of some files of a tree, by path. */
export async function recallFiles(store: Store, files: readonly TreeFile[]): Promise<BundleFiles> {
  return new Map(
    await someAtOnce(files, SHELF_LIMITS.concurrency, async ({ path, hash }) => [
      path,
      await recallFile(store, hash),
    ]),
  );
}

export async function recallFile(store: Store, hash: string): Promise<Uint8Array> {
  const kept = await store.get(fileKey(hash));
  if (kept !== undefined && hashBytes(kept.bytes) === hash) return kept.bytes;
  throw new Fault('store', 'a file of the pattern is not the one that was kept', {
    place: fileKey(hash),
    remedy: 'fetch it back from the earlier versions of the store',
  });
}

/** A bundle frozen at one state. */
export const readTree = async (store: Store, state: string): Promise<BundleFiles> =>
  recallFiles(store, await recallTree(store, state));
