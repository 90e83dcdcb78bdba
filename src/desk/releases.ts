/**
 * What was released: versions of a pattern, their manifests, and single files by the paths of the
 * manifest. A path that the manifest does not hold leads nowhere, so that no address can climb out of a
 * release. Over any store here; the cloud's pages ask the API for the same.
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
  /** Latest first. */
  versions(pattern: string): Promise<readonly string[]>;
  manifest(pattern: string, version: string): Promise<Manifest>;
  file(manifest: Manifest, path: string): Promise<{ file: ReleasedFile; bytes: Uint8Array }>;
  /** An address from which a browser fetches the file itself; nothing where the desk hands it on. */
  link(manifest: Manifest, path: string): Promise<string | undefined>;
  /** The same for all files as one zip; `later` while it is being made elsewhere. */
  linkAll(manifest: Manifest): Promise<string | 'later' | undefined>;
}

/** Releases in a folder of this machine. */
export const folderReleases = (folder: string): Releases =>
  storeReleases(folderStore(path.join(folder, '.store')));

export function storeReleases(store: Store): Releases {
  return {
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
    link: () => Promise.resolve(undefined),
    linkAll: () => Promise.resolve(undefined),
  };
}
