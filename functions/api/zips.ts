/**
 * All files of a release as one zip: ordered by one request, asked for until it is there, fetched by an
 * address that is lent. It is made beside the API (`functions/zip`), for it takes longer than an answer may,
 * and kept for two weeks; after that it is ordered again.
 */
import { API_LIMITS } from '../../src/base/limits.ts';
import { parseJson } from '../../src/release/manifest.ts';
import { zipSizeBytes } from '../../src/release/zip.ts';
import type { Store } from '../../src/store/store.ts';
import { type ZipOrder, zipKey, zipOrder, zipOrderKey } from '../zip/order.ts';
import { Refusal } from '../../src/desk/api/refusal.ts';
import { type Answer, answer, type Call, notFound } from './call.ts';
import type { Desk } from './desk.ts';
import { requireRelease } from './releases.ts';

export async function makeZip({ path }: Call, desk: Desk): Promise<Answer> {
  const { order, files } = await requireOrder(path, desk);
  if (zipSizeBytes(files) > API_LIMITS.zipBytes) {
    throw new Refusal(409, 'The release is too large for one zip', 'fetch its files one by one');
  }
  const { work, now } = desk;
  const [isThere, standing] = await Promise.all([
    work.has(zipKey(order)),
    recallOrder(order, work),
  ]);
  if (standing && (isThere || isYoung(standing.since, now))) {
    return answer({ since: standing.since }, 202);
  }
  const since = now.toISOString();
  const bytes = new TextEncoder().encode(JSON.stringify({ since }));
  // Where somebody else was faster, his order stands.
  const condition = standing ? { tag: standing.tag } : 'absent';
  await work.put(zipOrderKey(order), bytes, { contentType: 'application/json', condition });
  return answer({ since }, 202);
}

export async function findZip({ path }: Call, desk: Desk): Promise<Answer> {
  const { order } = await requireOrder(path, desk);
  const { work, now } = desk;
  if (await work.has(zipKey(order))) {
    const url = await desk.signFetch('work', zipKey(order));
    const expires = new Date(now.getTime() + API_LIMITS.downloadSeconds * 1000).toISOString();
    return answer({ url, expires });
  }
  const standing = await recallOrder(order, work);
  if (standing && isYoung(standing.since, now)) return answer({ since: standing.since }, 202);
  throw notFound('zip');
}

/** Only what is there can be ordered, so that no word of a request becomes a key. */
async function requireOrder(words: Call['path'], { releases }: Desk) {
  const { files, pattern } = await requireRelease(words, releases);
  return { files, order: { pattern, version: words['version'] ?? '' } };
}

async function recallOrder(
  order: ZipOrder,
  work: Store,
): Promise<{ readonly since: string; readonly tag: string } | undefined> {
  const stored = await work.get(zipOrderKey(order));
  return stored && { ...zipOrder.parse(parseJson(stored.bytes)), tag: stored.tag };
}

/** Somebody is at work on it, as far as can be known. */
const isYoung = (since: string, now: Date): boolean =>
  now.getTime() - Date.parse(since) < API_LIMITS.zipSeconds * 1000;
