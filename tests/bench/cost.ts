/**
 * What a release costs on AWS: runs the deployed state machine in this process over counting stores, times
 * every step, and multiplies by the list prices of `infra/prices.json` and the memory of
 * `infra/functions.ts`. Prints the table of the contributors' guide. Run with `npm run bench:cost`; a
 * processor of Lambda is taken to be as fast as this machine's, which the output says.
 */
import path from 'node:path';
import { FUNCTIONS } from '../../infra/functions.ts';
import prices from '../../infra/prices.json' with { type: 'json' };
import { present } from '../../src/base/assert.ts';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };
import { type Ports, silentLog } from '../../src/pipeline/ports.ts';
import { runStep, STEP_NAMES } from '../../src/pipeline/run-step.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';

const STARTER = path.resolve('templates/starters/sea-fret-pullover');
/** A function that is started anew loads its code and its fonts first; one in five, common practice. */
const COLD_SHARE = 0.2;
const COLD_SECONDS = 1.2;
/** Two documents for every language: A4 and Letter. */
const PAPERS = ['A4', 'Letter'] as const;

interface Counted {
  reads: number;
  writes: number;
  bytes: number;
}

function counting(store: Store, counted: Counted): Store {
  return {
    ...store,
    get: (key) => ((counted.reads += 1), store.get(key)),
    has: (key) => ((counted.reads += 1), store.has(key)),
    put: (key, bytes, options) => {
      counted.writes += 1;
      counted.bytes += bytes.byteLength;
      return store.put(key, bytes, options);
    },
    list: (prefix, after) => ((counted.writes += 1), store.list(prefix, after)),
  };
}

interface Bill {
  readonly seconds: ReadonlyMap<string, number>;
  readonly calls: ReadonlyMap<string, number>;
  readonly transitions: number;
  readonly kept: Counted;
  readonly passing: Counted;
}

async function runOnce(
  rooms: Ports['rooms'],
  languages: readonly string[],
  releases: Store,
): Promise<Bill> {
  const [seconds, calls] = [new Map<string, number>(), new Map<string, number>()];
  const [kept, passing] = [empty(), empty()];
  const ports: Ports = {
    rooms,
    readBundle: () => unpackBundle(STARTER),
    work: counting(memoryStore(), passing),
    releases: counting(releases, kept),
    log: silentLog,
    tell: () => Promise.resolve(),
    progress: () => undefined,
  };
  const editions = PAPERS.map((paper) => ({ kind: 'standard' as const, paper }));
  const end = await runMachine(
    readDefinition(definition),
    { studio: 'northfold', source: 'bench', settings: { languages: [...languages], editions } },
    {
      executionName: 'bench',
      concurrency: 1,
      task: async (name, input) => {
        const step = present(
          STEP_NAMES.find((each) => each === name),
          `step ${name}`,
        );
        const begun = performance.now();
        const output = await runStep(step, input, ports);
        seconds.set(name, (seconds.get(name) ?? 0) + (performance.now() - begun) / 1000);
        calls.set(name, (calls.get(name) ?? 0) + 1);
        return output;
      },
      sleep: () => Promise.resolve(),
      random: () => 0.5,
    },
  );
  if (end.status !== 'succeeded' || end.state === 'Blocked') throw new Error('no release was made');
  return { seconds, calls, transitions: end.transitions, kept, passing };
}

const empty = (): Counted => ({ reads: 0, writes: 0, bytes: 0 });

function dollarsOf({ seconds, calls, transitions, kept, passing }: Bill): Record<string, number> {
  const { dollars } = prices;
  let [compute, requests] = [0, 0];
  for (const [name, worked] of seconds) {
    const plan = present(
      FUNCTIONS.find((each) => each.name === name),
      name,
    );
    const called = calls.get(name) ?? 0;
    const whole = worked + called * COLD_SHARE * COLD_SECONDS;
    compute += whole * (plan.memoryMegabytes / 1024) * dollars.lambdaGigabyteSecondArm;
    requests += called;
  }
  const [reads, writes] = [kept.reads + passing.reads, kept.writes + passing.writes];
  return {
    'functions (memory × seconds)': compute,
    'function calls and their traces': requests * (dollars.lambdaRequest + dollars.trace),
    'state transitions': transitions * dollars.stateTransition,
    'store: writes and reads': writes * dollars.storeWrite + reads * dollars.storeRead,
    'logs, messages, API': requests * 2e-6 * dollars.logGigabyte + 2 * dollars.message + 20 * dollars.apiRequest, // prettier-ignore
    'keeping it for a year': (kept.bytes / 1e9) * dollars.storageGigabyteMonth * 12,
  };
}

const rooms = await openOwnRooms();
const every = ['en-US', 'de', 'fr', 'ja'];
const wanted = (process.argv[2] ?? every.join()).split(',');
const releases = memoryStore();
const first = await runOnce(rooms, wanted, releases);
const again = await runOnce(rooms, wanted, releases);
const columns = [dollarsOf(first), dollarsOf(again)];
const total = (bill: Record<string, number>) => Object.values(bill).reduce((a, b) => a + b, 0);
const cents = (value: number) => (value * 100).toFixed(4);

console.log(
  `sea-fret-pullover, ${wanted.length} languages × ${PAPERS.length} papers; US cents, ${prices.region}, prices noted ${prices.noted}`,
);
console.log(`\n| | first release | the same again |\n| --- | ---: | ---: |`);
for (const name of Object.keys(dollarsOf(first))) {
  console.log(`| ${name} | ${columns.map((bill) => cents(bill[name] ?? 0)).join(' | ')} |`);
}
console.log(`| **together** | ${columns.map((bill) => `**${cents(total(bill))}**`).join(' | ')} |`);
console.log('\nSeconds of each step, with this machine taken for a processor of Lambda:');
for (const [name, worked] of first.seconds) {
  console.log(
    `  ${name.padEnd(9)} ${worked.toFixed(2).padStart(7)} s in ${first.calls.get(name)} calls`,
  );
}
console.log(
  `${first.transitions} transitions; ${first.kept.writes + first.passing.writes} writes, ${first.kept.reads + first.passing.reads} reads; ${(first.kept.bytes / 1e6).toFixed(1)} MB kept`,
);
