/**
 * What a release costs: the pullover in four languages, cold (a new process), warm (again in the same
 * process, nothing reused) and as a rerun of unchanged content. CPU is user + system of the whole
 * process, per document; the named alternative of each figure is the cold run of the same session.
 * Run with `npm run bench:publish`.
 */
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { memoryStore } from '../../src/store/memory.ts';

const STARTER = path.resolve('templates/starters/sea-fret-pullover');
const LANGUAGES = ['en-US', 'de', 'fr', 'ja'];
const REPEATS = 5;

const cpuMilliseconds = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

async function run(rooms: Awaited<ReturnType<typeof openOwnRooms>>, releases = memoryStore()) {
  const before = cpuMilliseconds();
  const published = await publish(
    { bundle: STARTER, releases, languages: LANGUAGES },
    { rooms, token: 'bench' },
  );
  if (published.outcome === 'blocked') throw new Error('the starter is blocked');
  return cpuMilliseconds() - before;
}

async function child() {
  const rooms = await openOwnRooms();
  const releases = memoryStore();
  await run(rooms, releases);
  const cold = cpuMilliseconds();
  const warm: number[] = [];
  for (let turn = 0; turn < REPEATS; turn += 1) warm.push(await run(rooms));
  const rerun = await run(rooms, releases);
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(JSON.stringify({ cold, warm: median(warm), rerun, peak }));
}

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

function parent() {
  const own = fileURLToPath(import.meta.url);
  const results = Array.from(
    { length: 3 },
    () =>
      JSON.parse(execFileSync('node', ['--import', 'tsx', own, 'child'], { encoding: 'utf8' })) as {
        cold: number;
        warm: number;
        rerun: number;
        peak: number;
      },
  );
  const of = (key: 'cold' | 'warm' | 'rerun' | 'peak') => median(results.map((each) => each[key]));
  const documents = LANGUAGES.length;
  const line = (name: string, total: number) =>
    `${name.padEnd(8)} ${total.toFixed(0).padStart(6)} ms CPU   ${(total / documents).toFixed(0).padStart(5)} a document   ${(total / of('cold')).toFixed(2)} of cold`;
  console.log(`sea-fret-pullover, ${LANGUAGES.join(', ')}; medians of 3 processes`);
  for (const key of ['cold', 'warm', 'rerun'] as const) console.log(line(key, of(key)));
  console.log(`peak memory ${of('peak').toFixed(0)} MB`);
}

if (process.argv[2] === 'child') await child();
else parent();
