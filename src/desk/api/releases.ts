/**
 * Releases over the API of this machine. Nothing is made for a zip and no address expires: both lead to
 * where the pages send a file from.
 */
import { API_LIMITS } from '../../base/limits.ts';
import { madeName, readMadeName } from '../../release/made.ts';
import { type Answer, json } from '../answer.ts';
import type { Desk } from '../desk.ts';
import { readPath, readReleasesQuery } from './asked.ts';
import { Refusal } from './refusal.ts';
import type { Order } from './routes.ts';

export async function listReleases({ releases }: Desk, { query }: Order): Promise<Answer> {
  const { after, limit } = readReleasesQuery(query);
  const patterns = await releases.patterns();
  const made = await Promise.all(
    patterns.map(async (pattern) =>
      (await releases.versions(pattern)).map((version) => ({ pattern, version })),
    ),
  );
  // As keys of a store: in order of their letters.
  const placeOf = ({ pattern, version }: { pattern: string; version: string }) =>
    `${pattern}/${version}`;
  const rest = made
    .flat()
    .sort((a, b) => (placeOf(a) < placeOf(b) ? -1 : 1))
    .filter((each) => after === undefined || placeOf(each) > after);
  const told = rest.slice(0, limit);
  const last = told.at(-1);
  return json({ releases: told, ...(rest.length > limit && last && { next: placeOf(last) }) });
}

export async function showPattern({ releases }: Desk, { words }: Order): Promise<Answer> {
  const pattern = words['pattern'] ?? '';
  const versions = await releases.versions(pattern);
  const names = await releases.copies(pattern);
  if (versions.length + names.length === 0) throw new Refusal(404, 'There is no such pattern');
  const copies = names.slice(0, API_LIMITS.copies).map((name) => ({ name, ...readMadeName(name) }));
  const shown = versions.slice(0, API_LIMITS.versions).toReversed();
  return json({ pattern, current: versions[0], versions: shown, copies });
}

const releaseOf = ({ releases }: Desk, { words }: Order) =>
  releases.manifest(words['pattern'] ?? '', words['version'] ?? '');

export const showRelease = async (desk: Desk, order: Order): Promise<Answer> =>
  json(await releaseOf(desk, order));

export async function openDownload(desk: Desk, order: Order): Promise<Answer> {
  const wanted = readPath(order.query);
  const { files, pattern, ...made } = await releaseOf(desk, order);
  if (!files.some(({ path }) => path === wanted)) throw new Refusal(404, 'There is no such file');
  return json({ url: encodeURI(`/files/${pattern}/${madeName(made)}/${wanted}`) });
}

export async function makeZip(desk: Desk, order: Order): Promise<Answer> {
  await releaseOf(desk, order);
  return json({ since: order.now.toISOString() }, 202);
}

export async function findZip(desk: Desk, order: Order): Promise<Answer> {
  const { pattern, ...made } = await releaseOf(desk, order);
  return json({ url: `/files/${pattern}/${madeName(made)}.zip` });
}
