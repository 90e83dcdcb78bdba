/**
 * One release, proof or test copy as a page: its files, and one of its documents page by page. Takes the
 * name it was made under; what it does not hold cannot be opened from here.
 */
import { Fault } from '../../base/fault.ts';
import { madeName, readMadeName } from '../../release/made.ts';
import type { Manifest } from '../../release/manifest.ts';
import { type Answer, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import { releaseView } from '../release-view.ts';
import { sayMade } from '../stages-view.ts';
import type { Say } from '../wording.ts';
import { frameOf } from './frame.ts';

/** Copies as a list: each with its page and its zip. */
export const copiesView = (
  names: readonly string[],
  addressOf: (name: string) => string,
  say: Say,
) =>
  names.map((name) => {
    const made = readMadeName(name) ?? { version: name };
    return { name, title: sayMade(made, say), address: addressOf(name) };
  });

export async function showMade(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const pattern = looked.bundle?.data.id;
  const version = words['version'] ?? '';
  if (pattern === undefined)
    throw new Fault('missing', 'there is no such release', { place: version });
  const [manifest, known] = await Promise.all([
    desk.releases.manifest(pattern, version),
    desk.languages(),
  ]);
  const before = await beforeOf(desk, manifest);
  const release = await releaseView({
    releases: desk.releases,
    manifest,
    before,
    wanted: manifest.languages,
    nameOf: (tag) => known.get(tag)?.settings.name ?? tag,
    wording,
  });
  const asked = call.query.get('document');
  const document = release.documents.find(({ path }) => path === asked) ?? release.documents[0];
  const view = {
    ...frameOf(looked, name, 'release', say),
    ...release,
    document,
    made: madeName(manifest),
    all: release.documents.map((each) => ({ ...each, chosen: each === document })),
    unreviewed: wording.list((manifest.unreviewed ?? []).map((tag) => known.get(tag)?.settings.name ?? tag)), // prettier-ignore
  };
  return page(render('made-page', view));
}

/** What it is compared with: the copy of the same stage before it, or the version before it. */
async function beforeOf(desk: Desk, manifest: Manifest): Promise<Manifest | undefined> {
  const { pattern, stage } = manifest;
  const names =
    stage === undefined
      ? await desk.releases.versions(pattern)
      : (await desk.releases.copies(pattern)).filter((name) => readMadeName(name)?.stage === stage);
  const before = names[names.indexOf(madeName(manifest)) + 1];
  return before === undefined ? undefined : desk.releases.manifest(pattern, before);
}
