/**
 * Releases that lie in the folder: versions of a pattern, their manifests, and single files by the
 * paths of the manifest. A path that the manifest does not hold leads nowhere, so that no address can
 * climb out of a release.
 */
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { artifactKey, manifestKey } from '../release/keys.ts';
import {
  compareVersions,
  type Manifest,
  readManifest,
  type ReleasedFile,
} from '../release/manifest.ts';
import { folderStore } from '../store/folder.ts';
import type { Store } from '../store/store.ts';

export interface Releases {
  /** Where they lie: documents to open, and the store beside them. */
  readonly folder: string;
  /** Latest first. */
  versions(pattern: string): Promise<readonly string[]>;
  manifest(pattern: string, version: string): Promise<Manifest>;
  file(manifest: Manifest, path: string): Promise<{ file: ReleasedFile; bytes: Uint8Array }>;
}

export function openReleases(folder: string): Releases {
  const store: Store = folderStore(path.join(folder, '.store'));
  return {
    folder,
    async versions(pattern) {
      const found: string[] = [];
      for await (const { key } of store.list(`releases/${pattern}/`)) {
        const [, version] = /\/(\d+\.\d+\.\d+)\/manifest\.json$/.exec(key) ?? [];
        if (version !== undefined) found.push(version);
      }
      return found.sort((a, b) => compareVersions(b, a));
    },
    async manifest(pattern, version) {
      const key = manifestKey(pattern, version);
      const stored = await store.get(key);
      if (stored) return readManifest(stored.bytes, key);
      throw new Fault('missing', 'there is no such release', { place: `${pattern} ${version}` });
    },
    async file(manifest, wanted) {
      const file = manifest.files.find((each) => each.path === wanted);
      const stored = file && (await store.get(artifactKey(file.artifact, file.mediaType)));
      if (file && stored) return { file, bytes: stored.bytes };
      throw new Fault('missing', 'there is no such file in the release', { place: wanted });
    },
  };
}
