/** Releases of one pattern: its versions, the files of one of them, and the way to each file. */
import { releaseView } from '../../src/desk/release-view.ts';
import type { Asked } from './pages.ts';
import type { Served } from './request.ts';
import { nameOf, shown } from './shelf.ts';
import { led } from './sign-in.ts';

/** The version that the address names, or the latest. */
export async function showRelease({ request, api, wording }: Asked): Promise<Served> {
  const { pattern = '', version: wanted } = request.words;
  const versions = await api.versions(pattern);
  const version = wanted ?? versions.at(-1) ?? '';
  const before = versions[versions.indexOf(version) - 1];
  const [manifest, earlier] = await Promise.all([
    api.manifest(pattern, version),
    before === undefined ? undefined : api.manifest(pattern, before),
  ]);
  const names = new Intl.DisplayNames([wording.language], { type: 'language' });
  const release = await releaseView({
    manifest,
    before: earlier,
    wanted: manifest.languages,
    nameOf: (tag) => names.of(tag) ?? tag,
    wording,
  });
  const view = {
    title: `${nameOf(pattern)} ${version}`,
    heading: nameOf(pattern),
    release,
    versions: versions.toReversed().map((each) => ({
      address: `/patterns/${pattern}/${each}`,
      version: each,
      here: each === version,
    })),
  };
  return shown(wording.render('cloud-release', view));
}

/** The store itself serves the file, at an address that is good for a quarter of an hour. */
export async function fetchFile({ request, api }: Asked): Promise<Served> {
  const { pattern = '', version = '', path = '' } = request.words;
  return led(await api.download(pattern, version, path));
}
