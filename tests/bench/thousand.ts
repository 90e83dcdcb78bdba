/**
 * A thousand designers publish within one hour: the deployed state machine itself, run a thousand times in
 * simulated time against the published quotas of the services. Prints how long a designer waits, how often
 * a function was refused for want of room, and how many runs failed. Run with `npm run bench:thousand`.
 * Simulated are durations, room, throttling and cold starts; not simulated are faults of the services.
 */
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };
import { sequence } from './yardstick.ts';

/** Seconds a step takes, from `npm run bench:cost` on one loaded processor, rounded up. */
const SECONDS: Readonly<Record<string, number>> = {
  intake: 0.5, check: 1.5, pictures: 6, compose: 0.6, proof: 0.8, stage: 6, report: 0.2, failed: 0.2,
}; // prettier-ignore
const COLD_SECONDS = 1.5;
const DOCUMENTS = 40;
const DESIGNERS = 1000;

/** Defaults of us-east-1 as AWS's documentation gives them, from memory; `Service Quotas` shows an account's own. */
const QUOTAS = {
  /** Lambda: functions of an account and region at work at once. */
  functionsAtOnce: 1000,
  /** Lambda: new environments of one function in ten seconds. */
  environmentsInTenSeconds: 1000,
  /** Step Functions: transitions of Standard machines, burst and each second. */
  transitions: { burst: 5000, eachSecond: 5000 },
  /** Step Functions: StartExecution, burst and each second. */
  starts: { burst: 1300, eachSecond: 300 },
} as const;

/** Time that passes only when everybody waits. */
class Clock {
  now = 0;
  readonly #waiting: { at: number; wake: () => void }[] = [];

  wait(seconds: number): Promise<void> {
    return new Promise((wake) => this.#push({ at: this.now + Math.max(0, seconds), wake }));
  }

  async run(): Promise<void> {
    for (;;) {
      await new Promise((settled) => setImmediate(settled));
      const next = this.#pop();
      if (next === undefined) return;
      this.now = next.at;
      next.wake();
    }
  }

  #push(item: { at: number; wake: () => void }): void {
    const heap = this.#waiting;
    let at = heap.push(item) - 1;
    while (at > 0) {
      const above = (at - 1) >> 1;
      const [parent, child] = [heap[above], heap[at]];
      if (parent === undefined || child === undefined || parent.at <= child.at) return;
      [heap[above], heap[at]] = [child, parent];
      at = above;
    }
  }

  #pop(): { at: number; wake: () => void } | undefined {
    const heap = this.#waiting;
    const [first, last] = [heap[0], heap.pop()];
    if (heap.length === 0 || last === undefined) return first;
    heap[0] = last;
    for (let at = 0; ;) {
      const under = 2 * at + 1;
      const [left, right] = [heap[under]?.at ?? Infinity, heap[under + 1]?.at ?? Infinity];
      const lesser = right < left ? under + 1 : under;
      const [own, other] = [heap[at], heap[lesser]];
      if (own === undefined || other === undefined || other.at >= own.at) return first;
      [heap[at], heap[lesser]] = [other, own];
      at = lesser;
    }
  }
}

/** A bucket of tokens: gives the seconds to wait for the next one. */
function bucketOf({ burst, eachSecond }: { burst: number; eachSecond: number }, clock: Clock) {
  let [tokens, filled] = [burst, 0];
  return (): number => {
    tokens = Math.min(burst, tokens + (clock.now - filled) * eachSecond);
    filled = clock.now;
    tokens -= 1;
    return tokens >= 0 ? 0 : -tokens / eachSecond;
  };
}

class Refused extends Error {
  override name = 'Lambda.TooManyRequestsException';
}

interface Region {
  readonly clock: Clock;
  readonly random: () => number;
  readonly transition: () => number;
  readonly start: () => number;
  atWork: number;
  mostAtWork: number;
  refused: number;
  calls: number;
  cold: number;
  /** Environments of each function that wait for work. */
  readonly idle: Map<string, number>;
  /** Environments begun in the present span of ten seconds. */
  readonly begun: Map<string, { span: number; count: number }>;
}

function openRegion(seed: number): Region {
  const clock = new Clock();
  return {
    clock,
    random: sequence(seed),
    transition: bucketOf(QUOTAS.transitions, clock),
    start: bucketOf(QUOTAS.starts, clock),
    atWork: 0,
    mostAtWork: 0,
    refused: 0,
    calls: 0,
    cold: 0,
    idle: new Map(),
    begun: new Map(),
  };
}

/** Works one function: refused where there is no room, slower where it starts anew. */
async function callFunction(name: string, region: Region): Promise<void> {
  const { clock, idle } = region;
  await clock.wait(region.transition());
  const waiting = idle.get(name) ?? 0;
  if (region.atWork >= QUOTAS.functionsAtOnce || (waiting === 0 && !mayBegin(name, region))) {
    region.refused += 1;
    throw new Refused(name);
  }
  region.calls += 1;
  region.atWork += 1;
  region.mostAtWork = Math.max(region.mostAtWork, region.atWork);
  if (waiting > 0) idle.set(name, waiting - 1);
  else region.cold += 1;
  // Two thirds to twice the measured seconds: patterns and neighbours differ.
  const seconds = (SECONDS[name] ?? 1) * 1.5 ** (region.random() * 2.7 - 1);
  await clock.wait(seconds + (waiting > 0 ? 0 : COLD_SECONDS));
  region.atWork -= 1;
  idle.set(name, (idle.get(name) ?? 0) + 1);
}

function mayBegin(name: string, { clock, begun }: Region): boolean {
  const span = Math.floor(clock.now / 10);
  const known = begun.get(name);
  const count = known?.span === span ? known.count + 1 : 1;
  begun.set(name, { span, count });
  return count <= QUOTAS.environmentsInTenSeconds;
}

const claim = { key: 'claim', sha256: '0'.repeat(64) };
const OUTPUTS: Readonly<Record<string, unknown>> = {
  intake: { outcome: 'readable', bundle: claim },
  check: { outcome: 'clean', orders: Array.from({ length: DOCUMENTS }, (_, at) => ({ at })) },
  compose: { document: claim },
  proof: { outcome: 'clean' },
  stage: { outcome: 'released' },
};

async function publishOnce(region: Region): Promise<{ ended: string; seconds: number }> {
  const { clock } = region;
  const handedIn = clock.now;
  await clock.wait(region.start());
  const end = await runMachine(
    readDefinition(definition),
    { studio: 'northfold', source: 'upload', settings: {} },
    {
      executionName: 'run',
      concurrency: Infinity,
      task: async (name) => {
        await callFunction(name, region);
        return OUTPUTS[name] ?? {};
      },
      sleep: (seconds) => clock.wait(seconds),
      random: region.random,
    },
  );
  const ended = end.status === 'succeeded' ? end.state : end.error;
  return { ended, seconds: clock.now - handedIn };
}

async function simulate(title: string, arrivalOf: (random: () => number) => number): Promise<void> {
  const region = openRegion(20261125);
  const runs = Array.from({ length: DESIGNERS }, async () => {
    await region.clock.wait(arrivalOf(region.random));
    return publishOnce(region);
  });
  await region.clock.run();
  const ends = await Promise.all(runs);
  const waits = ends.map(({ seconds }) => seconds).sort((a, b) => a - b);
  const part = (share: number) =>
    (waits[Math.min(waits.length - 1, Math.floor(share * waits.length))] ?? 0).toFixed(0);
  const released = ends.filter(({ ended }) => ended === 'Released').length;
  console.log(
    `| ${title} | ${released} | ${part(0.5)} s | ${part(0.99)} s | ${part(1)} s | ${region.mostAtWork} | ${region.calls} | ${region.cold} | ${region.refused} |`,
  );
}

console.log(`${DESIGNERS} designers, ${DOCUMENTS} documents each`);
console.log(
  '\n| handed in | released | half wait | 99 of 100 | longest | functions at once, most | calls | begun cold | refused and tried again |',
);
console.log(`|${' --- |'.repeat(9)}`);
await simulate('over one hour', (random) => random() * 3600);
await simulate('within ten minutes', (random) => random() * 600);
await simulate('within one minute', (random) => random() * 60);
await simulate('all at once', () => 0);
