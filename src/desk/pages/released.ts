/**
 * What was released of a pattern whose bundle does not lie here: handed in through the API, put straight into
 * the store, or taken off the shelf since. One release at a time, and ways to the others; nothing is changed.
 */
import { Fault } from '../../base/fault.ts';
import { madeName } from '../../release/made.ts';
import { type Answer, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import { releaseView } from '../release-view.ts';
import { copiesView } from './made.ts';

export async function showReleased(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { say, render, list } = wording;
  const pattern = words['pattern'] ?? '';
  const { releases } = desk;
  const [versions, copies, known] = await Promise.all([
    releases.versions(pattern),
    releases.copies(pattern),
    desk.languages(),
  ]);
  const names = [...versions, ...copies];
  const name = names.find((each) => each === call.query.get('made')) ?? names[0];
  if (name === undefined)
    throw new Fault('missing', 'there is no such release', { place: pattern });
  const manifest = await releases.manifest(pattern, name);
  const earlier = versions[versions.indexOf(name) + 1];
  const before = versions.includes(name) && earlier !== undefined ? await releases.manifest(pattern, earlier) : undefined; // prettier-ignore
  const nameOf = (tag: string) => known.get(tag)?.settings.name ?? tag;
  const wanted = manifest.languages;
  const release = await releaseView({ releases, manifest, before, wanted, nameOf, wording });
  const view = {
    ...release,
    heading: release.title,
    title: say('released.title', { pattern }),
    unreviewed: list((manifest.unreviewed ?? []).map(nameOf)),
    others: copiesView(names, (each) => `/released/${pattern}?made=${each}`, say).filter(
      (each) => each.name !== madeName(manifest),
    ),
  };
  return page(render('released', view));
}

/** Patterns of which something is released and whose bundle is not among these. */
export async function releasedElsewhere(
  { releases }: Pick<Desk, 'releases'>,
  here: ReadonlySet<string>,
): Promise<readonly { readonly pattern: string; readonly address: string }[]> {
  const all = await releases.patterns();
  return all
    .filter((pattern) => !here.has(pattern))
    .map((pattern) => ({ pattern, address: `/released/${pattern}` }));
}
