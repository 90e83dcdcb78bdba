/**
 * A run that is stopped at every moment there is: before each operation on either store, with the machine
 * told of it or not, for whoever stops may die between writing it down and telling the machine. Never may
 * a run be told as stopped that released something.
 */
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { finding } from '../../src/findings/register.ts';
import { decideEnding, recallEnd, stopForGood } from '../../src/pipeline/ends.ts';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import type { RunEnd } from '../../src/pipeline/payloads.ts';
import type { Ports, StepName } from '../../src/pipeline/ports.ts';
import { silentLog } from '../../src/pipeline/ports.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };
import { runStep } from '../../src/pipeline/run-step.ts';
import { currentVersion, findRelease } from '../../src/release/commit.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';
import { type StudioRooms, skerryFiles, studioRooms } from './studio.ts';

const WHOSE = { run: 'run-1', studio: 'ada' };
const machine = readDefinition(definition);

/** Both stores, with something done before their n-th operation. */
function interrupted(at: number, interrupt: () => Promise<void>) {
  let count = 0;
  const wrap = (inner: Store): Store => {
    const next = async <T>(work: () => Promise<T>): Promise<T> => {
      count += 1;
      if (count === at) await interrupt();
      return work();
    };
    return {
      ...inner,
      get: (key) => next(() => inner.get(key)),
      has: (key) => next(() => inner.has(key)),
      put: (key, bytes, options) => next(() => inner.put(key, bytes, options)),
      async *list(prefix, after) {
        await next(async () => undefined);
        yield* inner.list(prefix, after);
      },
    };
  };
  return { wrap, reached: () => count >= at };
}

interface Stopped {
  readonly reached: boolean;
  /** Whether the stop was taken. */
  readonly taken: boolean | undefined;
  readonly end: RunEnd | undefined;
  readonly released: boolean;
  readonly told: readonly RunEnd[];
}

async function stoppedAt(
  at: number,
  { rooms, tellMachine }: { readonly rooms: StudioRooms; readonly tellMachine: boolean },
): Promise<Stopped> {
  const [work, releases] = [memoryStore(), memoryStore()];
  const machineStop = new AbortController();
  let taken: boolean | undefined;
  const { wrap, reached } = interrupted(at, async () => {
    taken = await stopForGood(work, WHOSE);
    if (taken && tellMachine) machineStop.abort();
  });
  const told: RunEnd[] = [];
  const ports: Ports = {
    rooms,
    readBundle: async () => skerryFiles(),
    work: wrap(work),
    releases: wrap(releases),
    log: silentLog,
    tell: async (end) => {
      told.push(end);
    },
    progress: () => undefined,
  };
  const input = { studio: WHOSE.studio, source: 'upload', settings: {} };
  await runMachine(machine, input, {
    executionName: WHOSE.run,
    concurrency: 1,
    signal: machineStop.signal,
    task: (step, value) => runStep(step as StepName, value, ports),
    sleep: async () => undefined,
    random: () => 0,
  }).catch((error: unknown) => {
    if (!(error instanceof Fault && error.kind === 'cancelled')) throw error;
  });
  const released = (await findRelease(releases, 'skerry-hat', '1.0.0')) !== undefined;
  expect((await currentVersion(releases, 'skerry-hat')) !== undefined).toBe(released);
  return { reached: reached(), taken, end: await recallEnd(work, WHOSE.run), released, told };
}

const slip = finding('bundle/shape', { file: 'pattern.json', pointer: '/x' }, { problem: 'p' });
const RUNS = [
  { title: 'that would release', rooms: () => studioRooms(), own: 'released' },
  {
    title: 'with a finding',
    rooms: () => studioRooms({ findings: () => [slip] }),
    own: 'blocked',
  },
  {
    title: 'whose proof disagrees',
    rooms: () => studioRooms({ proofFindings: [slip] }),
    own: 'blocked',
  },
  {
    title: 'that fails',
    rooms: () => ({
      ...studioRooms(),
      compose: () => Promise.reject(new Fault('input', 'no such font')),
    }),
    own: 'failed',
  },
] as const;

describe.each(RUNS)('a run $title', ({ rooms, own }) => {
  it.each([true, false])(
    'is stopped for good or ends as it would have, at every moment (machine told: %s)',
    async (tellMachine) => {
      const ends = new Set<string>();
      for (let at = 1; ; at += 1) {
        const { reached, taken, end, released, told } = await stoppedAt(at, {
          rooms: rooms(),
          tellMachine,
        });
        const moment = `before operation ${at}`;
        if (!reached) {
          expect(end?.outcome).toBe(own);
          break;
        }
        expect(end?.outcome, moment).toBe(taken === true ? 'cancelled' : own);
        expect(released, moment).toBe(end?.outcome === 'released');
        expect(
          told.map(({ outcome }) => outcome),
          moment,
        ).toEqual(taken === true ? [] : [own]);
        ends.add(end?.outcome ?? '');
      }
      expect(ends).toEqual(new Set(['cancelled', own]));
    },
  );
});

describe('what was decided of an ending', () => {
  it('stands, whoever asks and however often', async () => {
    const work = memoryStore();
    expect(await decideEnding(work, 'a', 'stop')).toBe('stop');
    expect(await decideEnding(work, 'a', 'finish')).toBe('stop');
    expect(await decideEnding(work, 'a', 'stop')).toBe('stop');
    expect(await decideEnding(work, 'b', 'finish')).toBe('finish');
    expect(await stopForGood(work, { run: 'b', studio: 'ada' })).toBe(false);
    expect(await stopForGood(work, { run: 'a', studio: 'ada' })).toBe(true);
    expect(await stopForGood(work, { run: 'a', studio: 'ada' })).toBe(true);
    const both = await Promise.all([
      decideEnding(work, 'c', 'finish'),
      decideEnding(work, 'c', 'stop'),
    ]);
    expect(new Set(both).size).toBe(1);
  });
});
