import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { publish } from '../../src/pipeline/publish.ts';
import { currentVersion, findRelease } from '../../src/release/commit.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import type { Failing } from '../store/failing-store.ts';
import { failingStore } from '../store/failing-store.ts';
import { contentOf, witness } from './witness.ts';

const bundleOf = (version: string, summary?: string): Uint8Array =>
  zipSync(Object.fromEntries(skerryFiles({ version, ...(summary && { level: summary }) })));
const PATTERN = 'skerry-hat';

const run = (releases: Store, version: string, work: Store = memoryStore()) =>
  publish(
    { bundle: bundleOf(version), releases, concurrency: 2 },
    { rooms: studioRooms(), token: 't', work, sleep: async () => undefined, random: () => 0 },
  );

async function releasedUpTo(...versions: readonly string[]): Promise<Store> {
  const store = memoryStore();
  for (const version of versions) await run(store, version);
  return store;
}

/** Runs the same publish against every point of failure until one is beyond the last operation. */
async function everyPoint(
  before: readonly string[],
  mode: Pick<Failing, 'when' | 'forGood'>,
  look: (store: Store, failing: Failing, end: 'died' | 'ended') => Promise<void>,
): Promise<number> {
  for (let at = 1; ; at += 1) {
    const store = await releasedUpTo(...before);
    const failing = { at, ...mode };
    const troubled = failingStore(store, failing);
    const end = await run(troubled, '1.0.1').then(
      () => 'ended' as const,
      () => 'died' as const,
    );
    if (!troubled.failed()) return at - 1;
    await look(store, failing, end);
  }
}

describe.each([
  { title: 'a first release', before: [] },
  { title: 'an errata rerun', before: ['1.0.0'] },
])('$title, with a store that fails at operation n', ({ before }) => {
  const old = before.at(-1);

  it.each(['before', 'after'] as const)(
    'and for good, %s its effect: readers see the old or the new, and a rerun ends in the same bytes',
    async (when) => {
      const undisturbed = await contentOf(await releasedUpTo(...before, '1.0.1'));
      const points = await everyPoint(
        before,
        { when, forGood: true },
        async (store, failing, end) => {
          const seen = await witness(store, PATTERN);
          expect([old, '1.0.1'], `operation ${failing.at}`).toContain(seen);
          if (seen === '1.0.1') expect(await findRelease(store, PATTERN, '1.0.1')).toBeDefined();
          if (end === 'died') await run(store, '1.0.1');
          expect(await witness(store, PATTERN)).toBe('1.0.1');
          expect(await contentOf(store)).toEqual(undisturbed);
        },
      );
      expect(points).toBeGreaterThan(25);
      console.log(
        `${points} points of failure ${when} the effect, for good (${before.length} releases before)`,
      );
    },
  );

  it.each(['before', 'after'] as const)(
    'and once, %s its effect: the run itself tries again and ends in the same bytes',
    async (when) => {
      const undisturbed = await contentOf(await releasedUpTo(...before, '1.0.1'));
      const points = await everyPoint(
        before,
        { when, forGood: false },
        async (store, _failing, end) => {
          expect(end).toBe('ended');
          expect(await witness(store, PATTERN)).toBe('1.0.1');
          expect(await contentOf(store)).toEqual(undisturbed);
        },
      );
      expect(points).toBeGreaterThan(25);
    },
  );
});

describe('a work store that fails at operation n', () => {
  it('never lets half a release be seen', async () => {
    for (let at = 1; ; at += 1) {
      const store = await releasedUpTo('1.0.0');
      const work = failingStore(memoryStore(), { at, when: 'before', forGood: true });
      await run(store, '1.0.1', work).catch(() => undefined);
      if (!work.failed()) break;
      expect(['1.0.0', '1.0.1']).toContain(await witness(store, PATTERN));
      await run(store, '1.0.1');
      expect(await witness(store, PATTERN)).toBe('1.0.1');
    }
  });
});

describe('twenty publishers at once', () => {
  const twenty = Array.from({ length: 20 }, (_, each) => each);

  it('of the same bundle all succeed, and one of them released it', async () => {
    const store = memoryStore();
    const ends = await Promise.all(twenty.map(() => run(store, '1.0.0')));
    const outcomes = ends.map(({ outcome }) => outcome).sort();
    expect(outcomes.filter((outcome) => outcome === 'released')).toHaveLength(1);
    expect(outcomes.filter((outcome) => outcome === 'already')).toHaveLength(19);
    expect(await contentOf(store)).toEqual(await contentOf(await releasedUpTo('1.0.0')));
  });

  it('of different bundles under one version: one wins, the others are told', async () => {
    const store = memoryStore();
    const ends = await Promise.allSettled(
      twenty.map((each) => {
        const files = skerryFiles({ sizes: ['S', 'M', `L${each}`] });
        const bundle = zipSync(Object.fromEntries(files));
        return publish({ bundle, releases: store }, { rooms: studioRooms(), token: `t${each}` });
      }),
    );
    expect(ends.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const end of ends) {
      if (end.status === 'rejected') expect(end.reason).toMatchObject({ kind: 'conflict' });
    }
    expect(await witness(store, PATTERN)).toBe('1.0.0');
  });

  it('of twenty versions: all are released and the last is current', async () => {
    const store = memoryStore();
    await Promise.all(twenty.toReversed().map((each) => run(store, `1.${each}.0`)));
    expect(await currentVersion(store, PATTERN)).toBe('1.19.0');
    expect(await witness(store, PATTERN)).toBe('1.19.0');
  });
});
