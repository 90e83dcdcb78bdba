/**
 * What was made of a pattern, under the name its folder has: `1.0.0` is for sale, `1.0.0-proof-2` is the
 * second proof of that version. Takes such names and a store; gives manifests and the list of copies. A
 * word that is no such name leads nowhere, so that no address can reach another key.
 */
import type { Store } from '../store/store.ts';
import { copyKey, manifestKey } from './keys.ts';
import { compareVersions, type Manifest, readManifest } from './manifest.ts';
import type { MarkedStage } from './stage.ts';

export interface Made {
  readonly version: string;
  /** Where it is not for sale. */
  readonly stage?: MarkedStage | undefined;
  /** Of a proof or a test copy: the first of its version is 1. */
  readonly copy?: number | undefined;
}

export type Copy = Made & { readonly stage: MarkedStage; readonly copy: number };

const NAME = /^(\d{1,4}\.\d{1,4}\.\d{1,4})(?:-(proof|test)-([1-9]\d{0,3}))?$/;

export const madeName = ({ version, stage, copy = 1 }: Made): string =>
  stage === undefined ? version : `${version}-${stage}-${copy}`;

export function readMadeName(name: string): Made | undefined {
  const [, version, stage, copy] = NAME.exec(name) ?? [];
  if (version === undefined) return undefined;
  return stage === 'proof' || stage === 'test'
    ? { version, stage, copy: Number(copy) }
    : { version };
}

/** A release or a copy by its name; nothing where the name names none. */
export async function findMade(
  store: Store,
  pattern: string,
  name: string,
): Promise<Manifest | undefined> {
  const made = readMadeName(name);
  if (!made) return undefined;
  const { version, stage, copy = 1 } = made;
  const key =
    stage === undefined ? manifestKey(pattern, version) : copyKey(pattern, version, stage, copy);
  const stored = await store.get(key);
  return stored && readManifest(stored.bytes, key);
}

/** Patterns of which something is for sale, in order, as many as are wanted. */
export async function listPatterns(store: Store, most: number): Promise<readonly string[]> {
  const found = new Set<string>();
  for await (const { key } of store.list('releases/')) {
    const [, pattern = '', , file] = key.split('/');
    if (file === 'manifest.json') found.add(pattern);
    if (found.size === most) break;
  }
  return [...found].sort();
}

/** Versions for sale and copies, the latest version first, of each the copy made last. */
export async function listMade(
  store: Store,
  pattern: string,
): Promise<{ readonly versions: readonly string[]; readonly copies: readonly Copy[] }> {
  const versions: string[] = [];
  const copies: Copy[] = [];
  for await (const { key } of store.list(`releases/${pattern}/`)) {
    const [, , version = '', ...rest] = key.split('/');
    if (rest.at(-1) !== 'manifest.json') continue;
    const made = readMadeName([version, ...rest.slice(0, -1)].join('-'));
    if (made?.stage !== undefined)
      copies.push({ ...made, stage: made.stage, copy: made.copy ?? 1 });
    else if (made) versions.push(made.version);
  }
  return {
    versions: versions.sort((a, b) => compareVersions(b, a)),
    copies: copies.sort(byCopy),
  };
}

/** Of one version test copies come before proofs: they were made after them. */
const byCopy = (a: Copy, b: Copy): number =>
  compareVersions(b.version, a.version) || (a.stage === b.stage ? b.copy - a.copy : a.stage === 'test' ? -1 : 1); // prettier-ignore
