/**
 * Bundles in an object store. `bundles/<name>/head.json` names the state a bundle is in and tells its
 * history; the states lie beside it (`tree.ts`). Files and tree are written first and the head last, only
 * where it is as it was read, so that a reader or a crash meets the old bundle or the new, never a mixture.
 * What was put away stays where it is, and a mark in `away/` says so (`store-away.ts`).
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS, SHELF_LIMITS } from '../base/limits.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import type { Store } from '../store/store.ts';
import { changeRecord } from './change-record.ts';
import { freeNames, isPlainName } from './free-name.ts';
import type { BundleRoom, Made, Now } from './room.ts';
import { type Change, tagOf } from './shelf.ts';
import { awayNames, isAway, listAway, mark, unmark } from './store-away.ts';
import {
  contentHash,
  keepFile,
  keepFiles,
  keepTree,
  readTree,
  recallFile,
  recallFiles,
  recallTree,
  type TreeFile,
} from './tree.ts';

const entry = changeRecord.extend({
  was: contentHash.optional().describe('The file before the change; absent where there was none'),
});
type Entry = z.output<typeof entry>;

const headRecord = z.strictObject({ state: contentHash, history: z.array(entry) });

interface Head extends z.output<typeof headRecord> {
  /** Of the head as it was read: it is replaced only where nobody else has. */
  readonly version: string;
}

/** A bundle as it is listed: without the bytes of its files. */
export interface Listing {
  readonly state: string;
  /** In order of path. */
  readonly files: readonly TreeFile[];
  /** Oldest first. */
  readonly history: readonly Change[];
}

export function storeRoom(store: Store): BundleRoom {
  return {
    names: () => listNames(store),
    state: async (name) => (await readHead(store, name)).state,
    files: async (name) => readTree(store, (await readHead(store, name)).state),
    file: async (name, path) => {
      const files = await recallTree(store, (await readHead(store, name)).state);
      const found = files.find((each) => each.path === path);
      return found && recallFile(store, found.hash);
    },
    history: async (name) => (await readHead(store, name)).history.map(withoutWas),
    keep: (wanted, files) => keep(store, wanted, files),
    change: (name, at, make) => change(store, name, at, make),
    putAway: async (name, at) => {
      await readHead(store, name);
      return mark(store, name, at);
    },
    away: () => listAway(store),
    takeBack: (name) => unmark(store, name),
  };
}

/** Everything of a bundle but its bytes, as it was at one moment. */
export async function listBundle(store: Store, name: string): Promise<Listing> {
  const { state, history } = await readHead(store, name);
  return { state, files: await recallTree(store, state), history: history.map(withoutWas) };
}

const BUNDLES = 'bundles/';
const HEAD = '/head.json';
const headKey = (name: string): string => `${BUNDLES}${name}${HEAD}`;

async function listNames(store: Store): Promise<readonly string[]> {
  const away = await awayNames(store);
  const names: string[] = [];
  for await (const { key } of store.list(BUNDLES)) {
    if (names.length === DESK_LIMITS.patterns) break;
    const name = key.slice(BUNDLES.length, -HEAD.length);
    if (key.endsWith(HEAD) && !away.has(name)) names.push(name);
  }
  return names.sort();
}

async function readHead(store: Store, name: string): Promise<Head> {
  const [kept, away] = isPlainName(name)
    ? await Promise.all([store.get(headKey(name)), isAway(store, name)])
    : [];
  if (kept === undefined || away === true)
    throw new Fault('missing', 'no pattern of that name lies on the desk', { place: name });
  const head = headRecord.parse(JSON.parse(new TextDecoder().decode(kept.bytes)));
  return { ...head, version: kept.tag };
}

/** False where somebody else was there in the meantime; then nothing was written. */
async function writeHead(
  store: Store,
  name: string,
  { state, history }: Pick<Head, 'state' | 'history'>,
  condition: 'absent' | { readonly tag: string },
): Promise<boolean> {
  const bytes = new TextEncoder().encode(JSON.stringify({ state, history: newest(history) }));
  const contentType = 'application/json';
  return (await store.put(headKey(name), bytes, { condition, contentType })).ok;
}

/** The oldest changes fall off a history that has grown too long to be read at each change. */
function newest(history: readonly Entry[]): readonly Entry[] {
  let letters = 0;
  const from = history.findLastIndex((each) => {
    letters += JSON.stringify(each).length;
    return letters > SHELF_LIMITS.historyLetters;
  });
  return history.slice(Math.min(from + 1, history.length - 1));
}

async function keep(store: Store, wanted: string, files: BundleFiles): Promise<string> {
  const state = await keepTree(store, await keepFiles(store, files));
  // Names of what was put away are taken too: their heads are there, so that the write says no.
  const taken = new Set(await listNames(store));
  let tries = 0;
  for (const name of freeNames(wanted)) {
    if (taken.has(name)) continue;
    if (await writeHead(store, name, { state, history: [] }, 'absent')) return name;
    if ((tries += 1) === SHELF_LIMITS.tries) break;
  }
  throw busy(wanted);
}

// ---------------------------------------------------------------- changes

const withoutWas = ({ was: _was, ...change }: Entry): Change => change;

async function change(
  store: Store,
  name: string,
  at: Date,
  make: (now: Now) => Promise<Made>,
): Promise<Change> {
  for (let tries = 0; tries < SHELF_LIMITS.tries; tries += 1) {
    const head = await readHead(store, name);
    const tree = await recallTree(store, head.state);
    const made = await make(await nowIn(store, head.history, tree));
    const state = await keepChanged(store, tree, made);
    const next = entryOf(made, { at, tree, history: head.history });
    const history = [...head.history, next];
    if (await writeHead(store, name, { state, history }, { tag: head.version }))
      return withoutWas(next);
  }
  throw busy(name);
}

/** Photographs stay where they are: no change of a page is about them, and they are large. */
async function nowIn(
  store: Store,
  history: readonly Entry[],
  tree: readonly TreeFile[],
): Promise<Now> {
  const texts = tree.filter(({ path }) => path.endsWith('.json'));
  return {
    files: await recallFiles(store, texts),
    history: history.map(withoutWas),
    before: async ({ number }) => {
      const was = history.find((each) => each.number === number)?.was;
      return was === undefined ? undefined : recallFile(store, was);
    },
  };
}

async function keepChanged(
  store: Store,
  tree: readonly TreeFile[],
  { file, bytes }: Made,
): Promise<string> {
  const others = tree.filter(({ path }) => path !== file);
  if (bytes === undefined) return keepTree(store, others);
  return keepTree(store, [...others, await keepFile(store, file, bytes)]);
}

interface Moment {
  readonly at: Date;
  readonly tree: readonly TreeFile[];
  readonly history: readonly Entry[];
}

function entryOf({ bytes, ...told }: Made, { at, tree, history }: Moment): Entry {
  const was = tree.find(({ path }) => path === told.file)?.hash;
  return {
    number: (history.at(-1)?.number ?? 0) + 1,
    at: at.toISOString(),
    tag: tagOf(bytes ?? new Uint8Array()),
    ...told,
    ...(was !== undefined && { was }),
  };
}

const busy = (name: string): Fault =>
  new Fault('conflict', 'others are changing this pattern at this very moment', {
    place: name,
    remedy: 'look at the pattern as it is now, then make the change again',
  });
