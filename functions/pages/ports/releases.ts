/**
 * Releases over the API: manifests as they are written, files at addresses that a browser fetches itself. What
 * a page shows of a file itself is fetched once while this process lives, and a few at a time.
 */
import { Fault } from '../../../src/base/fault.ts';
import { hashBytes } from '../../../src/base/hash.ts';
import type { Releases } from '../../../src/desk/releases.ts';
import { madeName } from '../../../src/release/made.ts';
import { type Manifest, readManifest, type ReleasedFile } from '../../../src/release/manifest.ts';
import type { Api } from '../client.ts';
import type { Wire } from '../request.ts';
import type { FileMemory } from './file-memory.ts';
import { openTurns } from './turns.ts';

/** The page of a release in twenty languages asks for a hundred texts. */
const AT_ONCE = 6;

export interface ReleasesOrder {
  readonly api: Api;
  readonly fetch: Wire;
  readonly memory: FileMemory;
}

export function apiReleases({ api, fetch: send, memory }: ReleasesOrder): Releases {
  const inTurn = openTurns(AT_ONCE);
  const asked = new Map<string, Promise<Uint8Array>>();
  const fetchFile = async (manifest: Manifest, { path, artifact }: ReleasedFile) => {
    const kept = memory.get(artifact);
    const bytes =
      kept ??
      (await inTurn(async () => {
        const address = await api.download(manifest.pattern, madeName(manifest), path);
        return fetchArtifact(send, address, artifact);
      }));
    memory.keep(artifact, bytes);
    return bytes;
  };
  return {
    patterns: () => api.patterns(),
    versions: async (pattern) => (await api.versions(pattern)).toReversed(),
    copies: (pattern) => api.copies(pattern),
    async manifest(pattern, version) {
      const text = await api.manifest(pattern, version);
      return readManifest(new TextEncoder().encode(text), `${pattern} ${version}`);
    },
    async file(manifest, wanted) {
      const file = manifest.files.find(({ path }) => path === wanted);
      if (!file)
        throw new Fault('missing', 'there is no such file in the release', { place: wanted });
      const bytes = asked.get(file.artifact) ?? fetchFile(manifest, file);
      asked.set(file.artifact, bytes);
      return { file, bytes: await bytes };
    },
    link: (manifest, wanted) => api.download(manifest.pattern, madeName(manifest), wanted),
    async linkAll(manifest) {
      const address = await api.downloadAll(manifest.pattern, madeName(manifest));
      return address === undefined ? 'later' : new URL(address);
    },
  };
}

async function fetchArtifact(send: Wire, address: string, artifact: string): Promise<Uint8Array> {
  const answer = await send(address, { method: 'GET' });
  const bytes = answer.ok ? new Uint8Array(await answer.arrayBuffer()) : undefined;
  if (bytes && hashBytes(bytes) === artifact) return bytes;
  throw new Fault('store', 'a file of the release cannot be fetched just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause: answer.status,
  });
}
