/**
 * What steps leave for each other in the work store: the bundle in a safe form, the pictures of a run,
 * its findings, its failure. Takes and gives typed records; a hand-over between steps only names them.
 */
import { Fault } from '../base/fault.ts';
import { canonicalJson, hashBytes } from '../base/hash.ts';
import type { Finding } from '../findings/finding.ts';
import { bareProse, hashBundle } from '../pattern/bundle/load.ts';
import type { BundleData, ProseData, SourceRecord } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import type { Manifest } from '../release/manifest.ts';
import { parseJson, readManifest } from '../release/manifest.ts';
import type { PutResult, Store, WriteCondition } from '../store/store.ts';
import type { Counts, FailureRecord, PictureRecord } from './payloads.ts';
import { counts, failureRecord, pictureRecords } from './payloads.ts';

const bundleKey = (hash: string): string => `bundles/${hash}/bundle.json`;
const photoKey = (hash: string): string => `photos/${hash}`;
export const findingsKey = (run: string): string => `runs/${run}/findings.json`;
export const failureKey = (run: string): string => `runs/${run}/failure.json`;
export const releasedKey = (run: string): string => `runs/${run}/released.json`;
const countsKey = (run: string): string => `runs/${run}/counts.json`;
export const picturesKey = (run: string): string => `runs/${run}/pictures.json`;

interface StoredBundle {
  readonly data: BundleData;
  readonly prose: Readonly<Record<string, ProseData>>;
  /** By language: what its texts were translated from, where that is recorded. */
  readonly sources?: Readonly<Record<string, SourceRecord>>;
  /** Hash of each photograph by its file name. */
  readonly photos: Readonly<Record<string, string>>;
}

/** Photographs first: a bundle that is named has all its parts. */
export async function keepBundle(work: Store, bundle: Bundle): Promise<void> {
  const photos: Record<string, string> = {};
  for (const [file, bytes] of bundle.photos) {
    const hash = hashBytes(bytes);
    photos[file] = hash;
    await work.put(photoKey(hash), bytes);
  }
  const { data, prose, sources } = bundle;
  const recorded = sources && { sources: Object.fromEntries(sources) };
  const texts = { prose: Object.fromEntries(prose), ...recorded };
  await putJson(work, bundleKey(bundle.hash), { data, ...texts, photos });
}

/**
 * The kept bundle without the bytes of its photographs: no step but the one that prepares them needs
 * those, and they are large.
 */
export async function recallBundle(work: Store, hash: string): Promise<Bundle> {
  const { data, prose, photos, sources } = await readStored(work, hash);
  const bare = new Map(Object.entries(prose).map(([tag, texts]) => [tag, bareProse(texts)]));
  const recorded = new Map(Object.entries(sources ?? {}));
  if (hashBundle(data, bare, new Map(Object.entries(photos)), recorded) !== hash) {
    throw new Fault('store', 'the kept bundle is not the one it is named for', {
      place: bundleKey(hash),
      remedy: 'hand the bundle in again',
    });
  }
  const known = recorded.size > 0 && { sources: recorded };
  return { data, prose: bare, photos: new Map(), hash, ...known };
}

/** Hash of each photograph of a kept bundle, by file name. */
export const recallPhotoHashes = async (
  work: Store,
  hash: string,
): Promise<ReadonlyMap<string, string>> =>
  new Map(Object.entries((await readStored(work, hash)).photos));

export const recallPhoto = (work: Store, photoHash: string): Promise<Uint8Array> =>
  getBytes(work, photoKey(photoHash));

const readStored = async (work: Store, hash: string): Promise<StoredBundle> =>
  (await getJson(work, bundleKey(hash))) as StoredBundle;

export const keepFindings = (
  work: Store,
  run: string,
  findings: readonly Finding[],
): Promise<void> => putJson(work, findingsKey(run), findings);

/** Adds to what the run has found; what is known already is not said twice, as after a second try. */
export async function addFindings(
  work: Store,
  run: string,
  more: readonly Finding[],
): Promise<readonly Finding[]> {
  const all = [...(await recallFindings(work, run)), ...more];
  const findings = [...new Map(all.map((each) => [canonicalJson(each), each])).values()];
  await keepFindings(work, run, findings);
  return findings;
}

export async function recallFindings(work: Store, run: string): Promise<readonly Finding[]> {
  const stored = await work.get(findingsKey(run));
  return stored ? (JSON.parse(new TextDecoder().decode(stored.bytes)) as Finding[]) : [];
}

export const keepPictures = (
  work: Store,
  run: string,
  records: readonly PictureRecord[],
): Promise<void> => putJson(work, picturesKey(run), records);

export const recallPictures = async (work: Store, run: string): Promise<readonly PictureRecord[]> =>
  pictureRecords.parse(await getJson(work, picturesKey(run)));

/** What the run released, for whoever asks about the run. */
export const keepReleased = (work: Store, run: string, manifest: Manifest): Promise<void> =>
  putJson(work, releasedKey(run), manifest);

export async function recallReleased(work: Store, run: string): Promise<Manifest> {
  const key = releasedKey(run);
  return readManifest(await getBytes(work, key), key);
}

/** How much of a release was made for it; what the try said that made it stands. */
export async function keepCounts(work: Store, run: string, value: Counts): Promise<void> {
  await writeJson(work, countsKey(run), value, 'absent');
}

export async function recallCounts(work: Store, run: string): Promise<Counts | undefined> {
  const stored = await work.get(countsKey(run));
  return stored && counts.parse(parseJson(stored.bytes));
}

export const keepFailure = (work: Store, record: FailureRecord): Promise<void> =>
  putJson(work, failureKey(record.run), record);

export async function recallFailure(work: Store, run: string): Promise<FailureRecord | undefined> {
  const stored = await work.get(failureKey(run));
  return stored && failureRecord.parse(parseJson(stored.bytes));
}

/** A record of the work store, on a condition where one is told. */
export function writeJson(
  work: Store,
  key: string,
  value: unknown,
  condition?: WriteCondition,
): Promise<PutResult> {
  const bytes = new TextEncoder().encode(JSON.stringify(value));
  const held = condition !== undefined && { condition };
  return work.put(key, bytes, { contentType: 'application/json', ...held });
}

async function putJson(work: Store, key: string, value: unknown): Promise<void> {
  await writeJson(work, key, value);
}

async function getJson(work: Store, key: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await getBytes(work, key)));
}

async function getBytes(work: Store, key: string): Promise<Uint8Array> {
  const stored = await work.get(key);
  if (stored) return stored.bytes;
  throw new Fault('missing', `${key} is not in the work store`, {
    place: key,
    remedy: 'it was cleared up; hand the bundle in again',
  });
}
