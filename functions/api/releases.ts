/**
 * What a studio has released: the list in pages, one pattern with its versions, one manifest, and the
 * address of one of its files. A file is found only by its path in a manifest of the studio, so no word of
 * a request reaches a key of the store.
 */
import path from 'node:path';
import { API_LIMITS } from '../../src/base/limits.ts';
import { currentVersion } from '../../src/release/commit.ts';
import { artifactKey, manifestKey } from '../../src/release/keys.ts';
import { findMade, listMade, madeName } from '../../src/release/made.ts';
import type { Manifest } from '../../src/release/manifest.ts';
import { isShown } from '../../src/release/shown.ts';
import type { Store } from '../../src/store/store.ts';
import { patternId, readPath, readReleasesQuery } from '../../src/desk/api/asked.ts';
import { type Answer, answer, type Call, notFound } from './call.ts';
import type { Desk } from './desk.ts';

interface Release {
  readonly pattern: string;
  readonly version: string;
}

export async function listReleases({ query }: Call, { releases }: Desk): Promise<Answer> {
  const { after, limit } = readReleasesQuery(query);
  const found: Release[] = [];
  for await (const release of releasesIn(releases, 'releases/', after)) {
    if (found.length === limit) {
      const last = found.at(-1);
      return answer({ releases: found, next: `${last?.pattern ?? ''}/${last?.version ?? ''}` });
    }
    found.push(release);
  }
  return answer({ releases: found });
}

export async function showPattern({ path: words }: Call, { releases }: Desk): Promise<Answer> {
  const pattern = patternId.safeParse(words['pattern']);
  if (!pattern.success) throw notFound('pattern');
  const made = await listMade(releases, pattern.data);
  if (made.versions.length + made.copies.length === 0) throw notFound('pattern');
  const current = await currentVersion(releases, pattern.data);
  const versions = made.versions.slice(0, API_LIMITS.versions).toReversed();
  const copies = made.copies.slice(0, API_LIMITS.copies).map((each) => ({
    name: madeName(each),
    ...each,
  }));
  return answer({ pattern: pattern.data, current, versions, copies });
}

export async function showRelease({ path: words }: Call, { releases }: Desk): Promise<Answer> {
  return answer(await requireRelease(words, releases));
}

export async function openDownload(call: Call, desk: Desk): Promise<Answer> {
  const wanted = readPath(call.query);
  const { files } = await requireRelease(call.path, desk.releases);
  const file = files.find((each) => each.path === wanted);
  if (file === undefined) throw notFound('file');
  const { artifact, mediaType } = file;
  const url = await desk.signDownload(artifactKey(artifact, mediaType), {
    fileName: path.posix.basename(file.path),
    mediaType,
    shown: isShown(mediaType),
    seconds: API_LIMITS.downloadSeconds,
  });
  const expires = new Date(desk.now.getTime() + API_LIMITS.downloadSeconds * 1000).toISOString();
  return answer({ url, expires });
}

export async function requireRelease(words: Call['path'], releases: Store): Promise<Manifest> {
  const pattern = patternId.safeParse(words['pattern']);
  const found = pattern.success
    ? await findMade(releases, pattern.data, words['version'] ?? '')
    : undefined;
  if (found === undefined) throw notFound('release');
  return found;
}

async function* releasesIn(store: Store, prefix: string, after?: string): AsyncGenerator<Release> {
  const [pattern = '', version = ''] = after?.split('/') ?? [];
  const from = after === undefined ? undefined : manifestKey(pattern, version);
  for await (const { key } of store.list(prefix, from)) {
    const [, named, numbered, file] = key.split('/');
    if (file !== 'manifest.json' || named === undefined || numbered === undefined) continue;
    yield { pattern: named, version: numbered };
  }
}
