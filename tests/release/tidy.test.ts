import { mkdir, mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { publish } from '../../src/pipeline/publish.ts';
import { CONDEMNED_KEY, readCondemned } from '../../src/release/condemned.ts';
import { tidyFolders } from '../../src/release/tidy-folder.ts';
import { tidyStore } from '../../src/release/tidy.ts';
import { WORK_FOLDER } from '../../src/store/folder.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { failingStore } from '../store/failing-store.ts';
import { Turnstile } from './turnstile.ts';
import { contentOf, witness } from './witness.ts';

const PATTERN = 'skerry-hat';
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** A store whose clock the test turns. */
function clockedStore(): { readonly store: Store; readonly at: (milliseconds: number) => Date } {
  let now = new Date(0);
  return {
    store: memoryStore(() => now),
    at: (milliseconds) => (now = new Date(milliseconds)),
  };
}

const release = (store: Store, version: string) =>
  publish(
    { bundle: zipSync(Object.fromEntries(skerryFiles({ version }))), releases: store },
    { rooms: studioRooms(), token: 't', sleep: async () => undefined, random: () => 0 },
  );

/** A publisher that dies at its n-th operation. */
const dying = (store: Store, version: string, at: number) =>
  release(failingStore(store, { at, when: 'before', forGood: true }), version).catch(
    () => undefined,
  );

const keysOf = async (store: Store) => [...(await contentOf(store)).keys()];
const tidy = (store: Store, now: Date, owner = 'a') =>
  tidyStore(store, { now, owner, recipeDays: 30 });

describe('clearing up a store', () => {
  it('leaves a store alone in which everything is needed', async () => {
    const { store, at } = clockedStore();
    await release(store, '1.0.0');
    const before = await contentOf(store);
    expect(await tidy(store, at(2 * DAY))).toEqual({ deleted: 0, deletedBytes: 0, condemned: 0 });
    expect(await contentOf(store)).toEqual(before);
  });

  it('remembers work for thirty days, then condemns it, then deletes it a day later', async () => {
    const { store, at } = clockedStore();
    await release(store, '1.0.0');
    at(DAY);
    await dying(store, '1.1.0', 32);
    const made = (await keysOf(store)).length;
    expect(await tidy(store, at(20 * DAY))).toMatchObject({ condemned: 0 });
    const first = await tidy(store, at(40 * DAY));
    expect(first.deleted).toBe(0);
    expect(first.condemned).toBeGreaterThan(0);
    expect(first.notBefore).toEqual(new Date(41 * DAY));
    expect(await tidy(store, at(40 * DAY + HOUR))).toEqual(first);
    const second = await tidy(store, at(41 * DAY));
    expect(second).toMatchObject({ deleted: first.condemned, condemned: 0 });
    expect(second.deletedBytes).toBeGreaterThan(0);
    expect((await keysOf(store)).length).toBeLessThan(made);
    expect(await readCondemned(store)).toBeUndefined();
    expect(await witness(store, PATTERN)).toBe('1.0.0');
    await release(store, '1.1.0');
    expect(await witness(store, PATTERN)).toBe('1.1.0');
  });

  it('spares what is released while it is condemned', async () => {
    const { store, at } = clockedStore();
    await dying(store, '1.0.0', 22);
    const { condemned } = await tidy(store, at(40 * DAY));
    expect(condemned).toBeGreaterThan(0);
    at(40 * DAY + HOUR);
    await release(store, '1.0.0');
    const list = await readCondemned(store);
    expect(list?.list.keys.length).toBeLessThan(condemned);
    await tidy(store, at(42 * DAY));
    expect(await witness(store, PATTERN)).toBe('1.0.0');
  });

  it('stops where a manifest cannot be read, and where somebody else is at it', async () => {
    const { store, at } = clockedStore();
    await dying(store, '1.0.0', 22);
    await tidy(store, at(40 * DAY));
    const sealed = {
      state: 'deleting',
      since: new Date(41 * DAY).toISOString(),
      owner: 'b',
      keys: [],
    };
    await store.put(CONDEMNED_KEY, new TextEncoder().encode(JSON.stringify(sealed)));
    await expect(tidy(store, at(41 * DAY + HOUR))).rejects.toMatchObject({ kind: 'conflict' });
    expect(await tidy(store, at(41 * DAY + 3 * HOUR))).toMatchObject({ condemned: 0 });
    await store.put('releases/x/1.0.0/manifest.json', new TextEncoder().encode('{'));
    await expect(tidy(store, at(80 * DAY))).rejects.toMatchObject({
      message: 'the manifest cannot be read',
    });
  });

  it('may die anywhere, and a later run finishes', async () => {
    let points = 0;
    for (let operation = 1; ; operation += 1) {
      for (const when of ['before', 'after'] as const) {
        const { store, at } = clockedStore();
        await release(store, '1.0.0');
        await dying(store, '1.1.0', 26);
        const troubled = failingStore(store, { at: operation, when, forGood: true });
        await tidy(troubled, at(40 * DAY)).catch(() => undefined);
        if (!troubled.failed()) await tidy(troubled, at(41 * DAY + HOUR)).catch(() => undefined);
        const reached = troubled.failed();
        for (const day of [45, 50, 55]) await tidy(store, at(day * DAY));
        expect(await witness(store, PATTERN)).toBe('1.0.0');
        expect(await readCondemned(store)).toBeUndefined();
        if (!reached) {
          console.log(`clearing up died at ${points} points`);
          return;
        }
        points += 1;
      }
    }
  });
});

type Clocked = ReturnType<typeof clockedStore>;

/** How matters stand when a publisher and a clearing up meet, and at which hour. */
const MEETINGS = {
  'while it condemns': async ({ store }: Clocked) => {
    await dying(store, '1.0.0', 30);
    return 40 * DAY;
  },
  'while it deletes': async ({ store, at }: Clocked) => {
    await dying(store, '1.0.0', 30);
    await tidy(store, at(40 * DAY));
    return 41 * DAY;
  },
  'while it deletes, after one that died': async ({ store, at }: Clocked) => {
    await dying(store, '1.0.0', 30);
    for (let operation = 1; (await readCondemned(store)) === undefined; operation += 1) {
      const dead = failingStore(store, { at: operation, when: 'after', forGood: true });
      await tidy(dead, at(40 * DAY)).catch(() => undefined);
    }
    return 41 * DAY;
  },
} as const;

/** The same objects with the same dates in a store of its own. */
async function copyOf(store: Store): Promise<Clocked> {
  const copy = clockedStore();
  for await (const { key, modified } of store.list('')) {
    copy.at(modified.getTime());
    await copy.store.put(key, (await store.get(key))?.bytes ?? new Uint8Array());
  }
  return copy;
}

type Party = 'publisher' | 'tidier';

/** The one does `first` operations, the other `second`, then each goes on to its end. */
async function meet(
  { store, at }: Clocked,
  now: Date,
  parties: readonly [Party, Party],
  first: number,
  second: number,
): Promise<'all turns taken' | 'over'> {
  const turns = new Turnstile();
  const published = turns.ends('publisher', release(turns.store('publisher', store), '1.0.0'));
  const tidied = turns.ends('tidier', tidy(turns.store('tidier', store), now));
  const done = (await turns.let(parties[0], first)) + (await turns.let(parties[1], second));
  await turns.let(parties[0], Infinity);
  await turns.let(parties[1], Infinity);
  const [publishing, tidying] = [await published, await tidied];
  if (tidying.status === 'rejected') expect(tidying.reason).toMatchObject({ kind: 'conflict' });
  if (publishing.status === 'rejected') {
    expect(publishing.reason).toMatchObject({ retryable: true });
    await release(store, '1.0.0');
  }
  expect(await witness(store, PATTERN), `${parties.join()} ${first} ${second}`).toBe('1.0.0');
  for (const day of [43, 45, 47]) await tidy(store, at(day * DAY));
  expect(await witness(store, PATTERN), `${parties.join()} ${first} ${second}`).toBe('1.0.0');
  return done < first + second ? 'over' : 'all turns taken';
}

describe('clearing up beside a publisher', () => {
  it.each(Object.keys(MEETINGS) as (keyof typeof MEETINGS)[])(
    '%s takes nothing from a release, whoever waits for whom',
    async (moment) => {
      let orders = 0;
      const start = clockedStore();
      const hour = await MEETINGS[moment](start);
      for (const parties of [
        ['publisher', 'tidier'],
        ['tidier', 'publisher'],
      ] as const) {
        for (let first = 0; first < 60; first += 2) {
          for (let second = 1; second < 80; second += 3) {
            orders += 1;
            const copy = await copyOf(start.store);
            const met = await meet(copy, copy.at(hour), parties, first, second);
            if (met === 'over') break;
          }
        }
      }
      console.log(`${moment}: ${orders} orders`);
    },
  );
});

describe('clearing up folders', () => {
  it('removes what a crash left half done, and nothing a person can see', async () => {
    const root = await mkdtemp(join(tmpdir(), 'castoff-tidy-'));
    const store = join(root, '.store');
    const old = ['skerry/.building-1.0.0-x', 'skerry/1.0.0', `.store/${WORK_FOLDER}`];
    for (const path of old) await mkdir(join(root, path), { recursive: true });
    await writeFile(join(root, 'skerry/.building-1.0.0-x/a.pdf'), 'half');
    await writeFile(join(store, WORK_FOLDER, 'x.part'), 'half');
    await mkdir(join(root, 'skerry/.building-1.1.0-y'));
    for (const path of [
      'skerry/.building-1.0.0-x',
      `.store/${WORK_FOLDER}/x.part`,
      'skerry/1.0.0',
    ]) {
      await utimes(join(root, path), new Date(0), new Date(0));
    }
    const removed = await tidyFolders({ handedOver: root, store }, new Date(1000));
    expect(removed.map((path) => path.slice(root.length + 1))).toEqual([
      'skerry/.building-1.0.0-x',
      `.store/${WORK_FOLDER}/x.part`,
    ]);
    expect((await readdir(join(root, 'skerry'))).sort()).toEqual(['.building-1.1.0-y', '1.0.0']);
    await rm(root, { recursive: true });
  });
});
