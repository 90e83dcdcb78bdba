/**
 * Runs through the API while they are at work: listed, followed document by document, and stopped at every
 * turn, with the state machine, the functions and the store on loopback. That no order of single
 * operations breaks the protocol is shown in `tests/pipeline/stop.test.ts`.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { decideEnding } from '../../src/pipeline/ends.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { findRelease } from '../../src/release/commit.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
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

/** Rooms that wait at one of their works. */
function holdAt(work: 'check' | 'checkLanguage' | 'compose') {
  const { pass, ...held } = gate();
  const rooms = studioRooms();
  const waiting = async (...asked: never[]): Promise<unknown> => {
    await pass();
    return (rooms[work] as (...asked: never[]) => Promise<unknown>)(...asked);
  };
  cloud.rooms = { ...rooms, [work]: waiting };
  return held;
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
    const { reached, open } = holdAt('compose');
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
    const { reached, open } = holdAt('checkLanguage');
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

/** A bundle on the shelf of Ada, as the desk lays it there. */
const lay = (changes: Readonly<Record<string, unknown>> = {}): Promise<string> =>
  storeRoom(cloud.studio('ada').shelf).keep('skerry', skerryFiles(changes));

const start = async (bundle: string, order = {}) => {
  const { status, value } = await ask(`POST /bundles/${bundle}/runs`, 'ada', JSON.stringify(order));
  return { status, run: (value as { readonly run: string }).run };
};

describe('a bundle of the shelf', () => {
  it('is published in the state it is in, with what was ordered', async () => {
    const bundle = await lay();
    const order = { languages: ['de'], stage: 'proof', editions: [{ kind: 'large' }] };
    const { status, run } = await start(bundle, order);
    expect(status).toBe(202);
    expect((await cloud.machines.runs.get(run))?.status).toBe('succeeded');
    expect((await ask(`GET /runs/${run}`)).value).toMatchObject({
      run,
      bundle,
      settings: order,
      state: 'released',
      pattern: 'skerry-hat',
      version: '1.0.0',
      stage: 'proof',
      copy: 1,
      documents: [{ language: 'de', edition: 'large', stage: 'proof', done: true }],
    });
    expect(await ask(`GET /runs?bundle=${bundle}`)).toEqual({
      status: 200,
      value: { runs: [expect.objectContaining({ run, bundle })] },
    });
  });

  it('that is changed while its run waits is published as it was', async () => {
    const bundle = await lay();
    const { reached, open } = holdAt('check');
    const { run } = await start(bundle);
    await reached;
    const room = storeRoom(cloud.studio('ada').shelf);
    await room.change(bundle, new Date(), async ({ files }) => ({
      file: 'prose/de.json',
      pointer: '/title',
      before: 'Skerry',
      after: 'Schäre',
      bytes: new TextEncoder().encode(
        new TextDecoder().decode(files.get('prose/de.json')).replace('Skerry', 'Schäre'),
      ),
    }));
    open();
    await cloud.machines.runs.get(run);
    const { releases } = cloud.studio('ada');
    const files = (await findRelease(releases, 'skerry-hat', '1.0.0'))?.files ?? [];
    const listing = files.find(({ path }) => path === 'de/listing.txt');
    const stored = await releases.get(`artifacts/${listing?.artifact ?? ''}.txt`);
    expect(new TextDecoder().decode(stored?.bytes)).toBe('Skerry (de)\n');
    expect((await start(bundle)).run).not.toBe(run);
  });

  it('has one run at a time: whoever starts another joins the one at work', async () => {
    const bundle = await lay();
    const { reached, open } = holdAt('compose');
    const before = cloud.machines.runs.size;
    const five = Array.from({ length: 5 }, () => start(bundle, { languages: ['de'] }));
    const begun = await Promise.all(five);
    await reached;
    const [run = ''] = new Set(begun.map((each) => each.run));
    expect(begun).toEqual(begun.map(() => ({ status: 202, run })));
    expect(await start(bundle, { languages: ['en-US'] })).toEqual({ status: 202, run });
    expect(cloud.machines.runs.size).toBe(before + 1);
    open();
    await cloud.machines.runs.get(run);
    const next = await start(bundle);
    expect(next.run).not.toBe(run);
    await cloud.machines.runs.get(next.run);
    expect(await stateOf(next.run)).toBe('failed'); // 1.0.0 is released in German alone
  });

  it('is started by whoever asks again, where the first was cut off before the machine heard', async () => {
    const bundle = await lay();
    const machine = process.env['STATE_MACHINE_ARN'] ?? '';
    vi.stubEnv('STATE_MACHINE_ARN', 'no-machine');
    expect((await start(bundle)).status).toBe(503);
    vi.stubEnv('STATE_MACHINE_ARN', machine);
    const written = await latest();
    expect(written.state).toBe('working');
    expect(cloud.machines.runs.has(written.run)).toBe(false);
    const { run } = await start(bundle);
    expect(run).toBe(written.run);
    await cloud.machines.runs.get(run);
    expect(await stateOf(run)).toBe('released');
  });

  it('can be started again at once where its run was stopped', async () => {
    const bundle = await lay();
    const { reached, open } = holdAt('compose');
    const first = await start(bundle);
    await reached;
    expect((await ask(`POST /runs/${first.run}/stop`)).status).toBe(202);
    const second = await start(bundle);
    expect(second.run).not.toBe(first.run);
    open();
    await cloud.machines.runs.get(second.run);
    expect([await stateOf(first.run), await stateOf(second.run)]).toEqual([
      'cancelled',
      'released',
    ]);
  });

  it.each([
    ['no-such-bundle', {}, 404],
    ['..%2Fskerry', {}, 404],
    ['skerry', { languages: 'de' }, 400],
    ['skerry', { leadTo: 'desk' }, 400],
  ])('is refused as %s with %j', async (bundle, order, status) => {
    await lay();
    expect((await start(bundle, order)).status).toBe(status);
    expect((await start('skerry')).status).toBe(202);
  });

  it('of another studio is not there', async () => {
    const bundle = await lay();
    expect((await ask(`POST /bundles/${bundle}/runs`, 'bo')).status).toBe(404);
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
