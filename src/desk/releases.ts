/**
 * What was made: versions of a pattern for sale, proofs and test copies, their manifests, and single files by the paths of the
 * manifest. A path that the manifest does not hold leads nowhere, so that no address can climb out of a
 * release. Over any store here; the cloud's pages ask the API for the same.
 */
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import { artifactKey } from '../release/keys.ts';
import { findMade, listMade, listPatterns, madeName } from '../release/made.ts';
import type { Manifest, ReleasedFile } from '../release/manifest.ts';
import { folderStore } from '../store/folder.ts';
import type { Store } from '../store/store.ts';

export interface Releases {
  /** Patterns of which something is for sale, in order. */
  patterns(): Promise<readonly string[]>;
  /** For sale, the latest first. */
  versions(pattern: string): Promise<readonly string[]>;
  /** Proofs and test copies by their names, such as `1.0.0-proof-2`; the latest version first. */
  copies(pattern: string): Promise<readonly string[]>;
  /** `name`: a version, or the name of a copy. */
  manifest(pattern: string, name: string): Promise<Manifest>;
  file(manifest: Manifest, path: string): Promise<{ file: ReleasedFile; bytes: Uint8Array }>;
  /** An address from which a browser fetches the file itself; nothing where the desk hands it on. */
  link(manifest: Manifest, path: string): Promise<string | undefined>;
  /** The same for all files as one zip; `later` while it is being made elsewhere. */
  linkAll(manifest: Manifest): Promise<URL | 'later' | undefined>;
}

/** Releases in a folder of this machine. */
export const folderReleases = (folder: string): Releases =>
  storeReleases(folderStore(path.join(folder, '.store')));

export function storeReleases(store: Store): Releases {
  return {
    patterns: () => listPatterns(store, DESK_LIMITS.patterns),
    versions: async (pattern) => (await listMade(store, pattern)).versions,
    copies: async (pattern) => (await listMade(store, pattern)).copies.map(madeName),
    async manifest(pattern, name) {
      const found = await findMade(store, pattern, name);
      if (found) return found;
      throw new Fault('missing', 'there is no such release', { place: `${pattern} ${name}` });
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
