/**
 * The list of artifacts that are to go. It is the meeting point of publishers and of clearing up: an
 * artifact is condemned first, and deleted a term of grace later by one owner; a publisher that needs a
 * condemned one strikes it off the list before storing it anew. All changes are conditional writes.
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import type { Store } from '../store/store.ts';
import { parseJson } from './manifest.ts';

export const CONDEMNED_KEY = 'tidy/condemned.json';
const PARDON_ATTEMPTS = 20;

const list = z.strictObject({
  /** `listed`: may still be pardoned. `deleting`: its owner is taking them away. */
  state: z.enum(['listed', 'deleting']),
  /** When this state began. */
  since: z.iso.datetime(),
  /** Who deletes; empty while listed. */
  owner: z.string(),
  keys: z.array(z.string()),
});
export type CondemnedList = z.output<typeof list>;

export interface StoredList {
  readonly list: CondemnedList;
  readonly tag: string;
}

export async function readCondemned(store: Store): Promise<StoredList | undefined> {
  const stored = await store.get(CONDEMNED_KEY);
  if (!stored) return undefined;
  const parsed = list.safeParse(parseJson(stored.bytes));
  if (parsed.success) return { list: parsed.data, tag: stored.tag };
  throw new Fault('store', 'the list of condemned artifacts cannot be read', {
    place: CONDEMNED_KEY,
    remedy: 'delete it while nobody publishes; clearing up begins anew',
  });
}

/** False where somebody else changed the list meanwhile. */
export async function writeCondemned(
  store: Store,
  value: CondemnedList,
  earlier: StoredList | undefined,
): Promise<boolean> {
  const bytes = new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`);
  const condition = earlier === undefined ? 'absent' : { tag: earlier.tag };
  const options = { condition, contentType: 'application/json' } as const;
  return (await store.put(CONDEMNED_KEY, bytes, options)).ok;
}

/** Takes an artifact off the list, so that it may be stored and stays. */
export async function pardon(store: Store, key: string): Promise<void> {
  for (let attempt = 0; attempt < PARDON_ATTEMPTS; attempt += 1) {
    const stored = await readCondemned(store);
    if (stored === undefined || !stored.list.keys.includes(key)) return;
    if (stored.list.state === 'deleting') break;
    const keys = stored.list.keys.filter((each) => each !== key);
    if (await writeCondemned(store, { ...stored.list, keys }, stored)) return;
  }
  throw new Fault('store', `${key} is just being cleared up`, {
    place: key,
    retryable: true,
    remedy: 'publish again in a minute',
  });
}
