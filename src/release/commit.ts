/**
 * The moment of release. Takes a manifest whose artifacts are stored; writes it once, then moves the
 * pointer to the current release. A reader who follows the pointer or a manifest finds everything
 * named there, whenever and wherever a publisher stopped.
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import type { Store } from '../store/store.ts';
import { artifactKey, copyKey, currentKey, manifestKey } from './keys.ts';
import type { MarkedStage, Stage } from './stage.ts';
import type { Manifest } from './manifest.ts';
import { compareVersions, parseJson, readManifest, writeManifest } from './manifest.ts';

const POINTER_ATTEMPTS = 50;
const current = z.object({ version: z.string() });

/**
 * Writes the manifest. `released`: now; `already`: the very same release was there. Other content
 * under the same version is refused with a conflict.
 */
export async function commitManifest(
  store: Store,
  manifest: Manifest,
): Promise<'released' | 'already'> {
  await requireArtifacts(store, manifest);
  const key = manifestKey(manifest.pattern, manifest.version);
  const bytes = writeManifest(manifest);
  const written = await store.put(key, bytes, {
    condition: 'absent',
    contentType: 'application/json',
  });
  if (written.ok) return 'released';
  const existing = await store.get(key);
  if (existing && Buffer.compare(existing.bytes, bytes) === 0) return 'already';
  throw existing
    ? versionTaken(manifest, differences(readManifest(existing.bytes, key), manifest))
    : new Fault('store', `${key} vanished while it was compared`, { place: key, retryable: true });
}

/** More proofs of one version than anybody reads. */
const MOST_COPIES = 1000;

/**
 * Writes the manifest of a proof or a test copy under the next free number of its version. Two equal
 * copies are one: the number it was first made under is given again.
 */
export async function commitCopy(
  store: Store,
  manifest: Manifest & { readonly stage: MarkedStage },
): Promise<{ readonly outcome: 'released' | 'already'; readonly manifest: Manifest }> {
  await requireArtifacts(store, manifest);
  for (let copy = 1; copy <= MOST_COPIES; copy += 1) {
    const numbered = { ...manifest, copy };
    const key = copyKey(manifest.pattern, manifest.version, manifest.stage, copy);
    const bytes = writeManifest(numbered);
    const options = { condition: 'absent', contentType: 'application/json' } as const;
    if ((await store.put(key, bytes, options)).ok)
      return { outcome: 'released', manifest: numbered };
    const existing = await store.get(key);
    if (existing && Buffer.compare(existing.bytes, bytes) === 0)
      return { outcome: 'already', manifest: numbered };
  }
  throw new Fault('conflict', `${manifest.version} has ${MOST_COPIES} copies already`, {
    place: manifestKey(manifest.pattern, manifest.version),
    remedy: 'raise "version" in pattern.json',
  });
}

/** Refuses early, before anything is made, where the version holds other content. */
export async function requireFreeVersion(
  store: Store,
  wanted: Pick<Manifest, 'pattern' | 'version' | 'bundle' | 'languages'>,
  stage: Stage = 'sale',
): Promise<void> {
  const existing = await findRelease(store, wanted.pattern, wanted.version);
  if (!existing) return;
  if (existing.bundle !== wanted.bundle) throw versionTaken(wanted, 'the bundle was changed');
  if (stage === 'sale' && existing.languages.join() !== wanted.languages.join()) {
    throw versionTaken(wanted, `it was released in ${existing.languages.join(', ')}`);
  }
}

export async function findRelease(
  store: Store,
  pattern: string,
  version: string,
): Promise<Manifest | undefined> {
  const key = manifestKey(pattern, version);
  const stored = await store.get(key);
  return stored && readManifest(stored.bytes, key);
}

/** The version a reader should take, if any is released. */
export async function currentVersion(store: Store, pattern: string): Promise<string | undefined> {
  return (await readPointer(store, pattern))?.version;
}

/** Moves the pointer forward; it never goes back, however many publishers race. */
export async function movePointer(store: Store, pattern: string, version: string): Promise<void> {
  const bytes = new TextEncoder().encode(`${JSON.stringify({ pattern, version })}\n`);
  for (let attempt = 0; attempt < POINTER_ATTEMPTS; attempt += 1) {
    const pointer = await readPointer(store, pattern);
    if (pointer?.version !== undefined && compareVersions(pointer.version, version) >= 0) return;
    const condition = pointer === undefined ? 'absent' : { tag: pointer.tag };
    const options = { condition, contentType: 'application/json' } as const;
    if ((await store.put(currentKey(pattern), bytes, options)).ok) return;
  }
  throw new Fault('conflict', `others keep changing the current release of ${pattern}`, {
    place: currentKey(pattern),
    retryable: true,
    remedy: 'publish again; the release itself is stored',
  });
}

async function readPointer(
  store: Store,
  pattern: string,
): Promise<{ readonly version: string | undefined; readonly tag: string } | undefined> {
  const stored = await store.get(currentKey(pattern));
  if (!stored) return undefined;
  const parsed = current.safeParse(parseJson(stored.bytes));
  return { version: parsed.success ? parsed.data.version : undefined, tag: stored.tag };
}

async function requireArtifacts(store: Store, manifest: Manifest): Promise<void> {
  for (const { artifact, mediaType, path } of manifest.files) {
    const key = artifactKey(artifact, mediaType);
    if (await store.has(key)) continue;
    throw new Fault('store', `${path} is not in the store, so the release is not complete`, {
      place: key,
      retryable: true,
      remedy: 'publish again; only what is missing is made',
    });
  }
}

function versionTaken(wanted: Pick<Manifest, 'pattern' | 'version'>, difference: string): Fault {
  const { pattern, version } = wanted;
  return new Fault(
    'conflict',
    `${pattern} ${version} is released already with other content: ${difference}`,
    {
      place: manifestKey(pattern, version),
      remedy: `a released version never changes; raise "version" in pattern.json above ${version}`,
    },
  );
}

function differences(before: Manifest, now: Manifest): string {
  const earlier = new Map(before.files.map((file) => [file.path, file.artifact]));
  const later = new Map(now.files.map((file) => [file.path, file.artifact]));
  const paths = [...new Set([...earlier.keys(), ...later.keys()])].sort();
  const changed = paths.filter((path) => earlier.get(path) !== later.get(path));
  if (changed.length === 0) return 'the bundle was changed';
  const more = changed.length > 5 ? ` and ${changed.length - 5} more` : '';
  return `${changed.slice(0, 5).join(', ')}${more} would differ`;
}
