/**
 * Runs through the API while they are at work: listed, followed document by document, and stopped at every
 * turn, with the state machine, the functions and the store on loopback. That no order of single
 * operations breaks the protocol is shown in `tests/pipeline/stop.test.ts`.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { decideEnding } from '../../src/pipeline/ends.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { findRelease } from '../../src/release/commit.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { type Callers, openCallers } from './callers.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';

let cloud: Cloud;
let callers: Callers;
const ask: Callers['ask'] = (...asked) => callers.ask(...asked);

beforeAll(async () => {
  cloud = await startCloud();
  callers = await openCallers();
});
afterAll(() => cloud.close());
beforeEach(() => {
  cloud.clear();
  cloud.front.trouble = () => undefined;
});

interface ToldRun {
  readonly run: string;
  readonly state: string;
}

/** Holds the rooms at one of their works; `reached` tells when they are there. */
function gate() {
  let arrive = () => undefined as void;
  let open = () => undefined as void;
  const reached = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  const pass = async (): Promise<void> => {
    arrive();
    await opened;
  };
  return { pass, reached, open: () => open() };
}

/** An upload whose run is at work. */
const begin = async () => ({ ended: cloud.endOf(await cloud.upload('ada/skerry.zip')) });

const latest = async (): Promise<ToldRun> => {
  const { value } = await ask('GET /runs?limit=1');
  const [first] = (value as { readonly runs: readonly ToldRun[] }).runs;
  return first ?? { run: '', state: '' };
};

const stateOf = async (run: string) =>
  ((await ask(`GET /runs/${run}`)).value as { readonly state: string }).state;

const isReleased = async () =>
  (await findRelease(cloud.studio('ada').releases, 'skerry-hat', '1.0.0')) !== undefined;

describe('a run that is stopped', () => {
  it('before its release is made releases nothing, and is told as stopped', async () => {
    const { pass, reached, open } = gate();
    const rooms = studioRooms();
    cloud.rooms = {
      ...rooms,
      compose: async (...order) => {
        await pass();
        return rooms.compose(...order);
      },
    };
    const { ended } = await begin();
    await reached;
    const { run, state } = await latest();
    expect(state).toBe('working');
    expect(await ask(`POST /runs/${run}/stop`)).toEqual({ status: 202, value: { run } });
    expect(await stateOf(run)).toBe('cancelled');
    open();
    expect((await ended).end).toMatchObject({ status: 'failed', error: 'ABORTED' });
    expect(await stateOf(run)).toBe('cancelled');
    expect([await isReleased(), cloud.topic.told]).toEqual([false, []]);
    expect(await latest()).toMatchObject({ run, state: 'cancelled', pattern: 'skerry-hat' });
  });

  it('while its files are staged releases nothing: the last step asks before it does', async () => {
    const { pass, reached, open } = gate();
    const rooms = studioRooms();
    cloud.rooms = {
      ...rooms,
      companions: (order) =>
        rooms.companions(order).map((each) => ({
          ...each,
          make: async () => {
            await pass();
            return each.make();
          },
        })),
    };
    const { ended } = await begin();
    await reached;
    const { run } = await latest();
    expect((await ask(`POST /runs/${run}/stop`)).status).toBe(202);
    open();
    await ended;
    expect([await stateOf(run), await isReleased()]).toEqual(['cancelled', false]);
  });

  it.each([
    ['while the release is being made', /^PUT releases\/ada\/releases\/skerry-hat\/1.0.0\//],
    ['after it was made and before that is told', /^GET work\/ada\/runs\/[^/]+\/released\.json/],
  ])('%s cannot be stopped any more, and is told as released', async (_title, moment) => {
    let answered: Promise<number> | undefined;
    let isOver = false;
    // The store is busy at that very moment until the stop has been answered.
    cloud.front.trouble = (request) => {
      if (!moment.test(request) || isOver) return undefined;
      answered ??= latest().then(async ({ run }) => {
        const { status } = await ask(`POST /runs/${run}/stop`);
        isOver = true;
        return status;
      });
      return { kind: 'busy', status: 503 };
    };
    const { run, end } = await (await begin()).ended;
    expect(await answered).toBe(409);
    expect(end).toMatchObject({ state: 'Released' });
    expect([await stateOf(run), await isReleased()]).toEqual(['released', true]);
  });

  it('after its end is told that it has ended', async () => {
    const { run } = await (await begin()).ended;
    expect(await ask(`POST /runs/${run}/stop`)).toMatchObject({
      status: 409,
      value: { title: 'The run has ended' },
    });
    expect(await stateOf(run)).toBe('released');
  });

  it('twice, or by two people at once, is stopped once', async () => {
    const { work } = cloud.studio('ada');
    const at = new Date().toISOString();
    // Written down, and not started yet.
    await keepStart(work, { run: 'young', at, source: 'shelf:0', settings: {} });
    const both = await Promise.all([ask('POST /runs/young/stop'), ask('POST /runs/young/stop')]);
    const again = await ask('POST /runs/young/stop');
    expect([...both, again].map(({ status }) => status)).toEqual([202, 202, 202]);
    expect(await stateOf('young')).toBe('cancelled');
  });

  it('stays stopped where whoever stopped it died before the machine was told', async () => {
    const { pass, reached, open } = gate();
    const rooms = studioRooms();
    cloud.rooms = {
      ...rooms,
      checkLanguage: async (...asked) => {
        await pass();
        return rooms.checkLanguage(...asked);
      },
    };
    const { ended } = await begin();
    await reached;
    const { run } = await latest();
    await decideEnding(cloud.studio('ada').work, run, 'stop');
    open();
    expect((await ended).end).toMatchObject({ status: 'failed', error: 'Castoff.Refused' });
    expect([await stateOf(run), await isReleased()]).toEqual(['cancelled', false]);
    expect(cloud.topic.told).toEqual([]);
  });

  it('long after its hour is told that it has ended', async () => {
    const { work } = cloud.studio('ada');
    await keepStart(work, { run: 'old', at: new Date(0).toISOString(), source: 'x', settings: {} });
    expect(await stateOf('old')).toBe('lost');
    expect((await ask('POST /runs/old/stop')).status).toBe(409);
    expect(await stateOf('old')).toBe('lost');
  });

  it('by another studio is not there', async () => {
    const { run } = await (await begin()).ended;
    expect(await ask(`POST /runs/${run}/stop`, 'bo')).toEqual(
      await ask('POST /runs/no-such-run/stop', 'bo'),
    );
    expect((await ask(`POST /runs/${run}/stop`, 'bo')).status).toBe(404);
  });
});

describe('the list of runs', () => {
  const START = Date.parse('2026-11-25T09:00:00Z');
  const started = (each: number, bundle?: string) => ({
    run: `r${each}`,
    at: new Date(START + each * 60_000).toISOString(),
    source: 'x',
    settings: {},
    ...(bundle !== undefined && { bundle }),
  });
  const listed = async (query: string, studio?: string) => {
    const { value } = await ask(`GET /runs${query}`, studio);
    return (value as { readonly runs: readonly ToldRun[] }).runs.map(({ run }) => run);
  };

  it('tells the latest first, of the studio or of one bundle of its shelf', async () => {
    const { work } = cloud.studio('ada');
    for (const [each, bundle] of ['skerry', 'fleet', undefined, 'skerry'].entries())
      await keepStart(work, started(each, bundle));
    expect(await listed('')).toEqual(['r3', 'r2', 'r1', 'r0']);
    expect(await listed('?limit=2')).toEqual(['r3', 'r2']);
    expect(await listed('?bundle=skerry')).toEqual(['r3', 'r0']);
    expect(await listed('?bundle=skerry&limit=1')).toEqual(['r3']);
    expect(await listed('?bundle=all')).toEqual([]);
    expect(await listed('', 'bo')).toEqual([]);
  });

  it('holds a run once, where its event came twice', async () => {
    const event = await cloud.upload('ada/skerry.zip', skerryFiles());
    const { run } = await cloud.endOf(event);
    await cloud.endOf(event);
    expect(await listed('')).toEqual([run]);
  });

  it.each(['?limit=0', '?limit=51', '?limit=x', '?bundle=', `?bundle=${'x'.repeat(81)}`])(
    'is not told for %s',
    async (query) => {
      expect((await ask(`GET /runs${query}`)).status).toBe(400);
    },
  );
});
