/** Releases over the API: manifests as they are written, files at addresses that a browser fetches itself. */
import { Fault } from '../../../src/base/fault.ts';
import type { Releases } from '../../../src/desk/releases.ts';
import { madeName } from '../../../src/release/made.ts';
import { readManifest } from '../../../src/release/manifest.ts';
import type { Api } from '../client.ts';
import type { Wire } from '../request.ts';

export function apiReleases(api: Api, send: Wire): Releases {
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
      const address = await api.download(manifest.pattern, madeName(manifest), wanted);
      const answer = await send(address, { method: 'GET' });
      if (answer.ok) return { file, bytes: new Uint8Array(await answer.arrayBuffer()) };
      throw new Fault('store', 'a file of the release cannot be fetched just now', {
        remedy: 'try again in a minute',
        retryable: true,
        cause: answer.status,
      });
    },
    link: (manifest, wanted) => api.download(manifest.pattern, madeName(manifest), wanted),
    linkAll: async (manifest) =>
      (await api.downloadAll(manifest.pattern, madeName(manifest))) ?? ('later' as const),
  };
}
