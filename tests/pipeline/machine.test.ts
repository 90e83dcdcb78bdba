import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import type { MachineHost } from '../../src/pipeline/machine/run.ts';
import { delayOf, runMachine } from '../../src/pipeline/machine/run.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };

/** The package brings no types. */
const validateStates = createRequire(import.meta.url)('asl-validator') as (definition: unknown) => {
  readonly isValid: boolean;
  readonly errors: readonly unknown[];
};

type Worker = (input: Readonly<Record<string, unknown>>) => unknown;

interface Watched {
  readonly host: MachineHost;
  readonly calls: string[];
  readonly slept: number[];
}

function watch(
  workers: Readonly<Record<string, Worker>>,
  more: Partial<MachineHost> = {},
): Watched {
  const calls: string[] = [];
  const slept: number[] = [];
  const host: MachineHost = {
    executionName: 'run-1',
    concurrency: 1,
    task: async (name, input) => {
      calls.push(`${name} ${JSON.stringify(input)}`);
      return workers[name]?.(input as Readonly<Record<string, unknown>>);
    },
    sleep: async (seconds) => {
      slept.push(seconds);
    },
    random: () => 0.5,
    ...more,
  };
  return { host, calls, slept };
}

const failing = (name: string, message = 'x'): Error => Object.assign(new Error(message), { name });

const GOOD: Readonly<Record<string, Worker>> = {
  intake: () => ({ outcome: 'readable', bundle: 'b' }),
  check: () => ({ outcome: 'clean', orders: [{ language: 'de' }, { language: 'fr' }] }),
  pictures: () => ({ made: 1, reused: 0 }),
  compose: ({ order }) => ({ order, artifact: 'a' }),
  proof: ({ document }) => ({ ...(document as object), proofFindings: 0 }),
  stage: () => ({ outcome: 'released' }),
  report: () => ({}),
  failed: () => ({}),
};
const INPUT = { studio: 'ada', source: 'upload', settings: { languages: ['de', 'fr'] } };
const machine = readDefinition(definition);

describe('the deployed state machine', () => {
  it('is valid by the rules of the states language, as asl-validator 3.16 reads them', () => {
    const withArns = JSON.stringify(definition).replaceAll(
      /\$\{(\w+)\}/g,
      'arn:aws:lambda:eu-west-1:123456789012:function:$1',
    );
    const { isValid, errors } = validateStates(JSON.parse(withArns));
    expect(errors).toEqual([]);
    expect(isValid).toBe(true);
  });

  /** The calls and the output are those of aws-local-stepfunctions 3.0.0 on the same definition. */
  it('hands each step what it needs, and no more', async () => {
    const { host, calls } = watch(GOOD);
    const end = await runMachine(machine, INPUT, host);
    const de = { order: { language: 'de' }, artifact: 'a' };
    const fr = { order: { language: 'fr' }, artifact: 'a' };
    const documents = [
      { ...de, proofFindings: 0 },
      { ...fr, proofFindings: 0 },
    ];
    const { settings, studio } = INPUT;
    expect(calls).toEqual([
      `intake ${JSON.stringify({ run: 'run-1', studio, source: 'upload', settings })}`,
      `check ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', settings })}`,
      `pictures ${JSON.stringify({ run: 'run-1', studio, bundle: 'b' })}`,
      `compose ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', order: { language: 'de' } })}`,
      `proof ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', document: de })}`,
      `compose ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', order: { language: 'fr' } })}`,
      `proof ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', document: fr })}`,
      `stage ${JSON.stringify({ run: 'run-1', studio, bundle: 'b', settings, pictures: { made: 1, reused: 0 }, documents })}`,
      `report ${JSON.stringify({ run: 'run-1', studio, outcome: 'released' })}`,
    ]);
    expect(end).toMatchObject({ status: 'succeeded', state: 'Released', output: { documents } });
  });

  it.each([
    ['the bundle cannot be read', { intake: () => ({ outcome: 'blocked', bundle: '' }) }, 2],
    ['a count is wrong', { check: () => ({ outcome: 'blocked', orders: [] }) }, 3],
    ['a proof disagrees', { stage: () => ({ outcome: 'blocked' }) }, 9],
  ])('ends well and releases nothing where %s', async (_title, worker, steps) => {
    const { host, calls } = watch({ ...GOOD, ...worker });
    expect(await runMachine(machine, INPUT, host)).toMatchObject({
      status: 'succeeded',
      state: 'Blocked',
    });
    expect(calls).toHaveLength(steps);
    const told = { run: 'run-1', studio: 'ada', outcome: 'blocked' };
    expect(calls.at(-1)).toBe(`report ${JSON.stringify(told)}`);
  });

  it('tries a passing fault again with growing, jittered pauses', async () => {
    let left = 3;
    const compose: Worker = ({ order }) => {
      if (left-- > 0) throw failing('Castoff.Retryable');
      return { order };
    };
    const { host, slept } = watch({ ...GOOD, compose });
    expect((await runMachine(machine, INPUT, host)).status).toBe('succeeded');
    expect(slept).toEqual([1, 2, 4]);
  });

  it('gives up after five tries, keeps a record and fails with what was caught', async () => {
    const pictures: Worker = () => {
      throw failing('Castoff.Retryable', 'the bucket sleeps');
    };
    const { host, calls } = watch({ ...GOOD, pictures });
    const end = await runMachine(machine, INPUT, host);
    expect(end).toMatchObject({
      status: 'failed',
      error: 'Castoff.Retryable',
      cause: 'the bucket sleeps',
    });
    expect(calls.filter((call) => call.startsWith('pictures'))).toHaveLength(6);
    expect(calls.at(-1)).toBe(
      `failed ${JSON.stringify({ run: 'run-1', studio: 'ada', failure: { Error: 'Castoff.Retryable', Cause: 'the bucket sleeps' } })}`,
    );
  });

  /** A thousand bundles at once: see `npm run bench:thousand`. */
  it('waits for room as long as it takes, where all functions are at work', async () => {
    let left = 30;
    const compose: Worker = ({ order }) => {
      if (left-- > 0) throw failing('Lambda.TooManyRequestsException');
      return { order };
    };
    const { host, slept } = watch({ ...GOOD, compose });
    expect((await runMachine(machine, INPUT, host)).status).toBe('succeeded');
    expect(Math.max(...slept)).toBe(30);
  });

  it('does not try a refusal again', async () => {
    const check: Worker = () => {
      throw failing('Castoff.Refused', 'taken');
    };
    const { host, calls, slept } = watch({ ...GOOD, check });
    expect(await runMachine(machine, INPUT, host)).toMatchObject({
      status: 'failed',
      cause: 'taken',
    });
    expect(slept).toEqual([]);
    expect(calls.map((call) => call.split(' ')[0])).toEqual(['intake', 'check', 'failed']);
  });

  it('lets work in hand end and starts no more when one document fails', async () => {
    const orders = Array.from({ length: 9 }, (_, each) => ({ language: `l${each}` }));
    const compose: Worker = ({ order }) => {
      if ((order as { language: string }).language === 'l1') throw failing('Castoff.Refused');
      return { order };
    };
    const workers = { ...GOOD, check: () => ({ outcome: 'clean', orders }), compose };
    const { host, calls } = watch(workers, { concurrency: 3 });
    expect((await runMachine(machine, INPUT, host)).status).toBe('failed');
    expect(calls.filter((call) => call.startsWith('compose')).length).toBeLessThanOrEqual(4);
    expect(calls.some((call) => call.startsWith('stage'))).toBe(false);
  });

  it('keeps the order of documents, whoever is first', async () => {
    const orders = Array.from({ length: 12 }, (_, each) => ({ language: `l${each}` }));
    const later = async (input: unknown): Promise<unknown> => {
      const { order } = input as { order: { language: string } };
      await new Promise((resolve) => {
        setTimeout(resolve, (Number(order.language.slice(1)) * 7) % 5);
      });
      return { order };
    };
    const { host } = watch(
      { ...GOOD, check: () => ({ outcome: 'clean', orders }) },
      { concurrency: 5 },
    );
    const end = await runMachine(machine, INPUT, {
      ...host,
      task: (name, input) => (name === 'compose' ? later(input) : host.task(name, input)),
    });
    expect(end).toMatchObject({ output: { documents: orders.map((order) => ({ order })) } });
  });
});

describe('a definition outside the part that is run', () => {
  const change = (edit: (copy: Record<string, Record<string, unknown>>) => void): unknown => {
    const copy = structuredClone(definition) as unknown as {
      States: Record<string, Record<string, unknown>>;
    };
    edit(copy.States);
    return copy;
  };
  it.each<[string, unknown]>([
    ['JSONata', { ...definition, QueryLanguage: 'JSONata' }],
    [
      'a state of another kind',
      change((states) => Object.assign(states, { Wait: { Type: 'Wait', Seconds: 1 } })),
    ],
    ['variables', change((states) => Object.assign(states['Check'] ?? {}, { Assign: { x: 1 } }))],
    [
      'a way to nowhere',
      change((states) => Object.assign(states['Check'] ?? {}, { Next: 'Nowhere' })),
    ],
    [
      'a state nobody reaches',
      change((states) => Object.assign(states, { Island: { Type: 'Succeed' } })),
    ],
    [
      'a distributed map',
      change((states) => Object.assign(states['Documents'] ?? {}, { ItemReader: {} })),
    ],
    [
      'an intrinsic function',
      change((states) =>
        Object.assign(states['Check'] ?? {}, { Parameters: { 'run.$': 'States.UUID()' } }),
      ),
    ],
    ['a step without an end', change((states) => delete states['Check']?.['Next'])],
  ])('%s is refused', (_title, value) => {
    expect(() => readDefinition(value)).toThrow(/not one this program runs/);
  });
});

describe('pauses between tries', () => {
  const retrier = {
    ErrorEquals: ['x'],
    IntervalSeconds: 2,
    MaxAttempts: 9,
    BackoffRate: 2,
    MaxDelaySeconds: 60,
    JitterStrategy: 'FULL' as const,
  };
  it.each([
    [0, 1, 2],
    [1, 1, 4],
    [4, 1, 32],
    [5, 1, 60],
    [5, 0.25, 15],
    [3, 0, 0],
  ])('after %d tries, at chance %d: %d s', (tried, chance, seconds) => {
    expect(delayOf(retrier, tried, chance)).toBe(seconds);
    expect(delayOf({ ...retrier, JitterStrategy: 'NONE' }, 2, chance)).toBe(8);
  });
});
