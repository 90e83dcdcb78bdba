/**
 * What was put away in an object store: a mark `away/<name>.json` that says since when. The bundle itself
 * stays where it is, so that neither a crash nor two at once can lose it, its name stays its own, and the
 * right to delete is needed for marks alone. Where the mark is, the bundle is not on the shelf.
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS, SHELF_LIMITS } from '../base/limits.ts';
import { someAtOnce } from '../base/some-at-once.ts';
import type { Store } from '../store/store.ts';
import { isPlainName } from './free-name.ts';
import type { PutAway } from './shelf.ts';

const AWAY = 'away/';
const END = '.json';
const markKey = (name: string): string => `${AWAY}${name}${END}`;

const markRecord = z.strictObject({ at: z.iso.datetime() });

/** `name` is a plain one. */
export const isAway = (store: Store, name: string): Promise<boolean> => store.has(markKey(name));

export async function awayNames(store: Store): Promise<ReadonlySet<string>> {
  const names = new Set<string>();
  for await (const { key } of store.list(AWAY)) names.add(key.slice(AWAY.length, -END.length));
  return names;
}

/** Where somebody else was faster, the first mark stands. */
export async function mark(store: Store, name: string, at: Date): Promise<PutAway> {
  const put = { at: at.toISOString() };
  const bytes = new TextEncoder().encode(JSON.stringify(put));
  const contentType = 'application/json';
  const { ok } = await store.put(markKey(name), bytes, { condition: 'absent', contentType });
  return { name, ...(ok ? put : ((await readMark(store, name)) ?? put)) };
}

/** The latest first. */
export async function listAway(store: Store): Promise<readonly PutAway[]> {
  const names = [...(await awayNames(store))].slice(0, DESK_LIMITS.patterns);
  const marks = await someAtOnce(names, SHELF_LIMITS.concurrency, async (name) => {
    const read = await readMark(store, name);
    return read ? [{ name, ...read }] : [];
  });
  return marks.flat().sort((a, b) => (a.at < b.at ? 1 : -1));
}

export async function unmark(store: Store, name: string): Promise<string> {
  if (!isPlainName(name) || !(await isAway(store, name))) throw notAway(name);
  await store.delete(markKey(name));
  return name;
}

async function readMark(
  store: Store,
  name: string,
): Promise<z.output<typeof markRecord> | undefined> {
  const kept = await store.get(markKey(name));
  return kept && markRecord.parse(JSON.parse(new TextDecoder().decode(kept.bytes)));
}

const notAway = (name: string): Fault =>
  new Fault('missing', 'no pattern of that name was put away', { place: name });
