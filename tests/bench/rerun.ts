/**
 * What a correction costs against a full build: the pullover in every language it has words in, published
 * once, then again as the next version with one number of one row corrected, then once more unchanged.
 * Says what was made and used again, the CPU of each run, and the time of each step by the clock. Run with `npm run bench:rerun`.
 */
import path from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import type { Companion } from '../../src/release/companions.ts';
import type { Progress, Rooms } from '../../src/pipeline/ports.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { memoryStore } from '../../src/store/memory.ts';

const STARTER = path.resolve('templates/starters/sea-fret-pullover');

interface Edit {
  readonly from: string;
  readonly to: string;
}

/** One weight of yarn in one size, as the next version. */
const CORRECTION: readonly Edit[] = [
  { from: '"version":"1.0.0"', to: '"version":"1.0.1"' },
  { from: '540, 590, 650) [690', to: '540, 600, 650) [690' },
];

async function bundleOf(edits: readonly Edit[]): Promise<Uint8Array> {
  const files = new Map(await unpackBundle(STARTER));
  const text = JSON.stringify(JSON.parse(new TextDecoder().decode(files.get('pattern.json'))));
  const changed = edits.reduce((before, { from, to }) => {
    if (!before.includes(from)) throw new Error(`${from} is not in the starter`);
    return before.replace(from, to);
  }, text);
  files.set('pattern.json', strToU8(changed));
  return zipSync(Object.fromEntries(files), { level: 0 });
}

/** Milliseconds by kind of work; rooms that add to it. */
class Clock {
  readonly spent = new Map<string, number>();

  async of<T>(kind: string, work: () => T | Promise<T>): Promise<T> {
    const start = performance.now();
    const result = await work();
    this.add(kind, performance.now() - start);
    return result;
  }

  add(kind: string, milliseconds: number): void {
    this.spent.set(kind, (this.spent.get(kind) ?? 0) + milliseconds);
  }

  now<T>(kind: string, work: () => T): T {
    const start = performance.now();
    const result = work();
    this.add(kind, performance.now() - start);
    return result;
  }

  companions(of: string, all: readonly Companion[]): readonly Companion[] {
    return all.map((each) => ({
      ...each,
      make: () => this.of(of === '' ? each.role : of, () => each.make()),
    }));
  }

  rooms(rooms: Rooms): Rooms {
    return {
      ...rooms,
      check: (bundle) => this.of('check', () => rooms.check(bundle)),
      checkLanguage: (checked, tag) => this.of('languages', () => rooms.checkLanguage(checked, tag)),
      preparePicture: (bytes, size) => this.of('pictures', () => rooms.preparePicture(bytes, size)),
      compose: (...given) => this.of('documents', () => rooms.compose(...given)),
      proof: (...given) => this.of('proofs', () => rooms.proof(...given)),
      sayHistory: (...given) => this.now('history', () => rooms.sayHistory(...given)),
      companions: (order) => this.now('listings and errata compared', () => this.companions('', rooms.companions(order))),
      parcels: (order, files) => this.companions('parcels', rooms.parcels(order, files)),
    }; // prettier-ignore
  }
}

async function run(name: string, edits: readonly Edit[], rooms: Rooms, releases = memoryStore()) {
  const clock = new Clock();
  const bundle = await bundleOf(edits);
  const counts = { made: 0, reused: 0 };
  const count = ({ step, state }: Progress): void => {
    if (step !== 'compose' && step !== 'pictures') return;
    if (state === 'made' || state === 'reused') counts[state] += 1;
  };
  const start = performance.now();
  const before = process.cpuUsage();
  const order = { bundle, releases, concurrency: 1 };
  const world = { rooms: clock.rooms(rooms), token: 'bench' };
  const published = await publish(order, world, count);
  const total = performance.now() - start;
  const { user, system } = process.cpuUsage(before);
  const cpu = (user + system) / 1000;
  if (published.outcome === 'blocked') throw new Error('the starter is blocked');
  const steps = [...clock.spent].sort(([, a], [, b]) => b - a);
  const known = steps.reduce((sum, [, spent]) => sum + spent, 0);
  console.log(`\n${name}: ${(cpu / 1000).toFixed(1)} s of CPU, ${(total / 1000).toFixed(1)} s by the clock, ${published.made} made, ${published.reused} used again`); // prettier-ignore
  for (const [kind, spent] of [...steps, ['the rest', total - known] as const])
    console.log(`  ${kind.padEnd(30)} ${(spent / 1000).toFixed(2).padStart(7)} s`);
  return cpu;
}

const rooms = await openOwnRooms();
const releases = memoryStore();
// Fonts and templates are opened and the program is warm, as on a desk that stays open.
await run('first, cold', [], rooms);
const full = await run('full build', [], rooms, releases);
const corrected = await run('one number corrected', CORRECTION, rooms, releases);
await run('the same again', CORRECTION, rooms, releases);
console.log(`\nA correction takes ${((corrected / full) * 100).toFixed(0)} % of a full build.`);
