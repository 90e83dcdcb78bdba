import { mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { replaceFile, undoLast } from '../../src/shelf/changes.ts';
import { folderRoom } from '../../src/shelf/folder-room.ts';
import { tagOf } from '../../src/shelf/shelf.ts';
import { listBundle, storeRoom } from '../../src/shelf/store-room.ts';
import { fileKey, readTree } from '../../src/shelf/tree.ts';
import { folderStore } from '../../src/store/folder.ts';
import { memoryStore } from '../../src/store/memory.ts';
import { s3Store } from '../../src/store/s3.ts';
import type { Store } from '../../src/store/store.ts';
import { pngOf, skerryFiles } from '../pipeline/studio.ts';
import { clientOf } from '../store/client.ts';
import { failingStore } from '../store/failing-store.ts';
import type { S3Front } from '../store/s3-front/server.ts';
import { startS3Front } from '../store/s3-front/server.ts';
import { AT, encode, retitle, roomContract } from './room.ts';

let root: string;
let front: S3Front;
let opened = 0;
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'castoff-shelf-'));
  front = await startS3Front();
});
afterAll(async () => {
  await front.close();
  await rm(root, { recursive: true, force: true });
});

const folder = async (): Promise<string> => {
  const path = join(root, String((opened += 1)));
  await mkdir(path);
  return path;
};
const bucket = (): Store => {
  const name = `bucket-${(opened += 1)}`;
  front.createBucket(name);
  return s3Store(clientOf(front), { bucket: name, prefix: 'ada' });
};

describe('a folder of bundles', () => {
  roomContract(async () => folderRoom(await folder()));
});
describe('bundles in memory', () => {
  roomContract(async () => storeRoom(memoryStore()));
});
describe('bundles in a folder that is a store', () => {
  roomContract(async () => storeRoom(folderStore(await folder())));
});
describe('bundles in a bucket', () => {
  roomContract(async () => storeRoom(bucket()));
});

const GERMAN = 'prose/de.json';
const germanTag = tagOf(skerryFiles().get(GERMAN) ?? encode(''));
const keysOf = async (store: Store): Promise<readonly string[]> => {
  const keys: string[] = [];
  for await (const { key } of store.list('')) keys.push(key);
  return keys;
};

describe('a store of bundles', () => {
  it('keeps equal files once, and a state for whoever holds it', async () => {
    const store = memoryStore();
    const room = storeRoom(store);
    for (const name of ['skerry', 'tern']) await room.keep(name, skerryFiles());
    const keys = await keysOf(store);
    expect(keys.filter((key) => key.startsWith('files/'))).toHaveLength(skerryFiles().size);
    expect(keys.filter((key) => key.startsWith('trees/'))).toHaveLength(1);
    const state = await room.state('skerry');
    await retitle(room, 'skerry', 'Schäre', germanTag);
    expect(await room.state('tern')).toBe(state);
    const frozen = await readTree(store, state);
    expect(frozen).toEqual(skerryFiles());
    const { files, history } = await listBundle(store, 'skerry');
    expect(history).toHaveLength(1);
    for (const { path, hash, sizeBytes } of files) {
      const kept = await store.get(fileKey(hash));
      expect([path, kept?.bytes.length]).toEqual([path, sizeBytes]);
    }
  });

  it.each(['', 'f'.repeat(64), '../bo/trees/x', `${'f'.repeat(64)}.json`])(
    'knows no state %j',
    async (state) => {
      await expect(readTree(memoryStore(), state)).rejects.toMatchObject({ kind: 'missing' });
    },
  );

  it('looks at no photograph for a change', async () => {
    const inner = memoryStore();
    const read: string[] = [];
    const store: Store = { ...inner, get: (key) => (read.push(key), inner.get(key)) };
    const room = storeRoom(store);
    await room.keep('skerry', skerryFiles());
    const { files } = await listBundle(store, 'skerry');
    const photo = files.find(({ path }) => path === 'photos/cover.png');
    read.length = 0;
    await retitle(room, 'skerry', 'Schäre', germanTag);
    expect(read.length).toBeGreaterThan(3);
    expect(read).not.toContain(fileKey(photo?.hash ?? ''));
  });

  it('tells of a file that is not the one that was kept', async () => {
    const store = memoryStore();
    const room = storeRoom(store);
    await room.keep('skerry', skerryFiles());
    const [first] = (await listBundle(store, 'skerry')).files;
    await store.put(fileKey(first?.hash ?? ''), encode('something else'));
    await expect(room.files('skerry')).rejects.toMatchObject({ kind: 'store' });
    await store.delete(fileKey(first?.hash ?? ''));
    await expect(room.files('skerry')).rejects.toMatchObject({ kind: 'store' });
  });

  it.each([
    ['one that climbs out', ['../x.json', encode('{}')]],
    ['one that looks like another', ['Photos/cover.png', pngOf(1, 1)]],
    ['one that is too large', ['prose/fr.json', new Uint8Array(5 * 1024 * 1024)]],
  ] as const)('keeps no bundle with a file too many: %s', async (_title, [name, bytes]) => {
    const room = storeRoom(memoryStore());
    const files = new Map([...skerryFiles(), [name, bytes]]);
    await expect(room.keep('skerry', files)).rejects.toMatchObject({ kind: 'input' });
    expect(await room.names()).toEqual([]);
  });

  it('lets the oldest changes fall off a history that grows too long', async () => {
    const room = storeRoom(memoryStore());
    await room.keep('skerry', skerryFiles());
    const said = 'x'.repeat(300_000);
    const rewrite = async () => {
      const now = (await room.files('skerry')).get(GERMAN) ?? encode('');
      const bytes = encode(`${new TextDecoder().decode(now)}\n`);
      const change = replaceFile({ file: GERMAN, tag: tagOf(now), bytes, said });
      return room.change('skerry', AT, change);
    };
    for (let each = 0; each < 5; each += 1) await rewrite();
    const history = await room.history('skerry');
    expect(history.map(({ number }) => number)).toEqual([3, 4, 5]);
    await room.change('skerry', AT, undoLast);
    expect((await room.history('skerry')).at(-1)).toMatchObject({ number: 6, undoes: 5 });
  });

  it('gives eight that are taken in under one name at once eight names', async () => {
    const room = storeRoom(bucket());
    const all = Array.from({ length: 8 }, () => room.keep('skerry', skerryFiles()));
    const names = await Promise.all(all);
    expect(new Set(names).size).toBe(8);
    expect(await room.names()).toEqual(names.toSorted());
  });

  it('gives up where somebody else is always faster, and writes nothing', async () => {
    const inner = memoryStore();
    await storeRoom(inner).keep('skerry', skerryFiles());
    const before = await storeRoom(inner).state('skerry');
    const store: Store = {
      ...inner,
      put: async (key, bytes, options) =>
        key.endsWith('head.json') ? { ok: false } : inner.put(key, bytes, options),
    };
    const room = storeRoom(store);
    await expect(retitle(room, 'skerry', 'Schäre', germanTag)).rejects.toMatchObject({
      kind: 'conflict',
    });
    await expect(room.keep('tern', skerryFiles())).rejects.toMatchObject({ kind: 'conflict' });
    expect(await storeRoom(inner).state('skerry')).toBe(before);
    expect(await storeRoom(inner).names()).toEqual(['skerry']);
  });
});

/** Every head names a tree that is there, whose files are there, or reading throws. */
async function readWhole(store: Store): Promise<ReadonlyMap<string, string>> {
  const room = storeRoom(store);
  const whole = new Map<string, string>();
  for (const name of await room.names()) {
    const files = await room.files(name);
    whole.set(name, `${files.size} ${(await room.history(name)).length}`);
  }
  return whole;
}

/** Does the same against every point of failure until one is beyond the last operation. */
async function everyPoint(
  when: 'before' | 'after',
  work: (store: Store) => Promise<unknown>,
  look: (store: Store) => Promise<void>,
): Promise<number> {
  for (let at = 1; ; at += 1) {
    const store = memoryStore();
    await storeRoom(store).keep('skerry', skerryFiles());
    const failing = failingStore(store, { at, when, forGood: true });
    await work(failing).catch(() => undefined);
    if (!failing.failed()) return at - 1;
    await look(store);
  }
}

describe.each(['before', 'after'] as const)('a store that fails %s the effect', (when) => {
  const size = skerryFiles().size;

  it('in the middle of a change leaves the old bundle or the new', async () => {
    const points = await everyPoint(
      when,
      (store) => retitle(storeRoom(store), 'skerry', 'Schäre', germanTag),
      async (store) => {
        const seen = (await readWhole(store)).get('skerry');
        expect([`${size} 0`, `${size} 1`]).toContain(seen);
        const again = retitle(storeRoom(store), 'skerry', 'Schäre', germanTag);
        if (seen === `${size} 0`) await again;
        else await expect(again).rejects.toMatchObject({ kind: 'conflict' });
        expect((await readWhole(store)).get('skerry')).toBe(`${size} 1`);
      },
    );
    expect(points).toBeGreaterThan(6);
  });

  it('in the middle of taking something in leaves all of it or nothing', async () => {
    const points = await everyPoint(
      when,
      (store) => storeRoom(store).keep('tern', skerryFiles({ version: '2.0.0' })),
      async (store) => {
        const seen = await readWhole(store);
        expect([undefined, `${size} 0`]).toContain(seen.get('tern'));
        expect(seen.get('skerry')).toBe(`${size} 0`);
      },
    );
    expect(points).toBeGreaterThan(5);
  });
});

describe.each(['before', 'after'] as const)('a store that fails %s the effect', (when) => {
  it.each(['putting away', 'taking back'])(
    'in the middle of %s leaves the bundle whole, on the shelf or beside it',
    async (what) => {
      const points = await everyPoint(
        when,
        async (store) => {
          const room = storeRoom(store);
          await room.putAway('skerry', AT);
          if (what === 'taking back') await room.takeBack('skerry');
        },
        async (store) => {
          const room = storeRoom(store);
          const [names, away] = [await room.names(), await room.away()];
          expect([...names, ...away.map(({ name }) => name)]).toEqual(['skerry']);
          if (names.length === 0) await room.takeBack('skerry');
          expect(await room.files('skerry')).toEqual(skerryFiles());
        },
      );
      expect(points).toBeGreaterThan(2);
    },
  );
});

describe('a folder of bundles that somebody else works in too', () => {
  it('gives back under the next free name where the own one was taken by hand', async () => {
    const path = await folder();
    const room = folderRoom(path);
    await room.keep('skerry', skerryFiles());
    await room.putAway('skerry', AT);
    await mkdir(join(path, 'skerry'));
    await writeFile(join(path, 'skerry', 'notes.txt'), 'wool');
    expect(await room.takeBack('skerry')).toBe('skerry-2');
    expect((await room.files('skerry-2')).size).toBe(skerryFiles().size);
  });

  it('keeps a name no bundle of ours would have', async () => {
    const path = await folder();
    const room = folderRoom(path);
    await room.keep('skerry', skerryFiles());
    await rename(join(path, 'skerry'), join(path, 'Grüße aus Skerry'));
    await room.putAway('Grüße aus Skerry', AT);
    expect(await room.takeBack('Grüße aus Skerry')).toBe('Grüße aus Skerry');
  });
});

describe('a bucket that loses answers', () => {
  it('makes each change once', async () => {
    const room = storeRoom(bucket());
    const asked = new Map<string, number>();
    front.trouble = (request) => {
      const times = (asked.get(request) ?? 0) + 1;
      asked.set(request, times);
      return request.startsWith('PUT') && times % 2 === 1 ? { kind: 'lostAnswer' } : undefined;
    };
    await room.keep('skerry', skerryFiles());
    await retitle(room, 'skerry', 'Schäre', germanTag);
    await room.change('skerry', AT, undoLast);
    front.trouble = () => undefined;
    expect(await room.names()).toEqual(['skerry']);
    expect(await room.history('skerry')).toHaveLength(2);
  });
});
