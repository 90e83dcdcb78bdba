/**
 * The shelf over the API, for one request of one person. Takes the API and a way to fetch; a bundle is
 * asked for once in a request, and a file of one hash is fetched once while this process lives: whoever
 * names a hash was told it by the API, so that nothing of another studio can be reached.
 */
import { hashBytes } from '../../../src/base/hash.ts';
import { Fault } from '../../../src/base/fault.ts';
import { someAtOnce } from '../../../src/base/some-at-once.ts';
import type { BundleFiles } from '../../../src/pattern/bundle/unpack.ts';
import type { Shelf } from '../../../src/shelf/shelf.ts';
import type { Api } from '../client.ts';
import type { Wire } from '../request.ts';
import type { OpenedBundle } from '../told.ts';
import type { FileMemory } from './file-memory.ts';

export interface ShelfOrder {
  readonly api: Api;
  readonly fetch: Wire;
  readonly memory: FileMemory;
}

export function apiShelf({ api, fetch: send, memory }: ShelfOrder): Shelf {
  const asked = new Map<string, Promise<OpenedBundle>>();
  const open = (name: string): Promise<OpenedBundle> => {
    const before = asked.get(name);
    if (before) return before;
    const opened = api.bundle(name);
    asked.set(name, opened);
    return opened;
  };
  /** What was asked before a change is not true after it. */
  const after = async <T>(name: string, change: Promise<T>): Promise<T> => {
    const made = await change;
    asked.delete(name);
    return made;
  };
  return {
    names: () => api.bundles(),
    state: async (name) => (await open(name)).state,
    files: async (name) => fetchFiles((await open(name)).files, send, memory),
    file: async (name, path) => {
      const found = (await open(name)).files.find((each) => each.path === path);
      return found && fetchOnce(found, send, memory);
    },
    history: async (name) => (await open(name)).history,
    starters: () => api.starters(),
    begin: (starter) => api.begin(starter),
    correct: (name, correction) => after(name, api.correct(name, correction)),
    accept: (name, acceptance) => after(name, api.accept(name, acceptance)),
    replace: (name, replacement) => after(name, api.replace(name, replacement)),
    undo: (name) => after(name, api.undo(name)),
    putAway: (name) => after(name, api.putAway(name)),
    away: () => api.away(),
    takeBack: (name) => after(name, api.takeBack(name)),
  };
}

/** Fetched at once; a browser of ours would not open more. */
const AT_ONCE = 8;

async function fetchFiles(
  files: OpenedBundle['files'],
  send: Wire,
  memory: FileMemory,
): Promise<BundleFiles> {
  const fetched = await someAtOnce(files, AT_ONCE, async (file): Promise<[string, Uint8Array]> => [
    file.path,
    await fetchOnce(file, send, memory),
  ]);
  return new Map(fetched);
}

async function fetchOnce(
  { hash, url }: OpenedBundle['files'][number],
  send: Wire,
  memory: FileMemory,
): Promise<Uint8Array> {
  const bytes = memory.get(hash) ?? (await fetchFile(url, hash, send));
  memory.keep(hash, bytes);
  return bytes;
}

async function fetchFile(url: string, hash: string, send: Wire): Promise<Uint8Array> {
  const answer = await send(url, { method: 'GET' }).catch((cause: unknown) => {
    throw fileFault(cause);
  });
  if (!answer.ok) throw fileFault(answer.status);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  if (hashBytes(bytes) === hash) return bytes;
  throw fileFault('another content');
}

const fileFault = (cause: unknown): Fault =>
  new Fault('store', 'a file of the pattern cannot be fetched just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause,
  });
