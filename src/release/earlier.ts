/**
 * Earlier releases of a pattern: which there are, and the bundle each was made from. Takes a store and a
 * pattern; a release from before bundles were kept is passed over, since nothing can be compared with it.
 */
import { Fault } from '../base/fault.ts';
import type { Bundle } from '../pattern/pattern.ts';
import type { Store } from '../store/store.ts';
import { findRelease } from './commit.ts';
import { artifactKey } from './keys.ts';
import { compareVersions, type Manifest } from './manifest.ts';
import { readRecord, RECORD_PATH } from './record.ts';

/** More versions than these are not compared one by one. */
const MOST_VERSIONS = 20;

/** Released versions below this one that can still give their bundle, the newest first. */
export async function earlierVersions(
  store: Store,
  pattern: string,
  version: string,
): Promise<readonly string[]> {
  const found: string[] = [];
  for await (const { key } of store.list(`releases/${pattern}/`)) {
    const [, , each = '', name] = key.split('/');
    if (name !== 'manifest.json' || !/^\d+\.\d+\.\d+$/.test(each)) continue;
    if (compareVersions(each, version) < 0) found.push(each);
  }
  const newest = found.sort((a, b) => compareVersions(b, a)).slice(0, MOST_VERSIONS);
  const kept: string[] = [];
  for (const each of newest) {
    const manifest = await findRelease(store, pattern, each);
    if (manifest && recordOf(manifest)) kept.push(each);
  }
  return kept;
}

/** The bundle of one release, without the bytes of its photographs. */
export async function recallRelease(
  store: Store,
  pattern: string,
  version: string,
): Promise<Bundle> {
  const manifest = await findRelease(store, pattern, version);
  const place = `${store.name}: ${pattern} ${version}`;
  if (!manifest) throw new Fault('missing', `${pattern} ${version} is not released`, { place });
  const record = recordOf(manifest);
  const stored = record && (await store.get(artifactKey(record.artifact, record.mediaType)));
  if (!stored) {
    throw new Fault('missing', `${pattern} ${version} was released without its bundle`, {
      place,
      remedy: 'give the bundle itself: its folder or zip',
    });
  }
  return readRecord(stored.bytes, place);
}

const recordOf = (manifest: Manifest) => manifest.files.find(({ path }) => path === RECORD_PATH);
