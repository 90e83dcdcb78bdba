/**
 * What a release costs, by the program as it is installed (bundled, no compiler in its memory). First the
 * pullover in four languages: cold (a new process), warm (again in the same process, nothing reused) and
 * as a rerun of unchanged content. Then the same pattern in all its languages on A4 and Letter, in one
 * process. CPU is user + system of the whole process, pictures and proof included; medians of three
 * processes. Run with `npm run bench:publish`, the large run alone with `-- all`.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { build } from 'esbuild';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { memoryStore } from '../../src/store/memory.ts';

const STARTER = path.resolve('templates/starters/sea-fret-pullover');
const LANGUAGES = ['en-US', 'de', 'fr', 'ja'];
const PAPERS = ['A4', 'Letter'] as const;
const PROCESSES = 3;
const REPEATS = 5;
/** Beside the installed program, whose data it uses. */
const BUNDLED = path.resolve('dist/bench-publish.mjs');

const cpuMilliseconds = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const peakMegabytes = () => process.resourceUsage().maxRSS / 1024;
const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

type Order = Pick<Parameters<typeof publish>[0], 'bundle' | 'languages' | 'editions'>;

async function run(
  order: Order,
  rooms: Awaited<ReturnType<typeof openOwnRooms>>,
  releases = memoryStore(),
) {
  const before = cpuMilliseconds();
  const published = await publish({ ...order, releases }, { rooms, token: 'bench' });
  if (published.outcome === 'blocked') throw new Error('the starter is blocked');
  return cpuMilliseconds() - before;
}

/** Cold, warm and again. */
async function four(): Promise<object> {
  const rooms = await openOwnRooms();
  const releases = memoryStore();
  const order = { bundle: STARTER, languages: LANGUAGES };
  await run(order, rooms, releases);
  const cold = cpuMilliseconds();
  const warm: number[] = [];
  for (let turn = 0; turn < REPEATS; turn += 1) warm.push(await run(order, rooms));
  const rerun = await run(order, rooms, releases);
  return { cold, warm: median(warm), rerun, peak: peakMegabytes() };
}

const allLanguages = () => readdirSync(path.join(STARTER, 'prose')).map((file) => file.replace('.json', '')); // prettier-ignore

/** Every language that the starter has words in, on both papers. */
async function all(): Promise<object> {
  const start = performance.now();
  const files = new Map(await unpackBundle(STARTER));
  const pattern = JSON.parse(new TextDecoder().decode(files.get('pattern.json'))) as object;
  files.set('pattern.json', strToU8(JSON.stringify({ ...pattern, languages: allLanguages() })));
  const bundle = zipSync(Object.fromEntries(files), { level: 0 });
  const editions = PAPERS.map((paper) => ({ kind: 'standard' as const, paper }));
  await run({ bundle, editions }, await openOwnRooms());
  const wall = performance.now() - start;
  return { all: cpuMilliseconds(), wall, peak: peakMegabytes() };
}

function measure(part: 'four' | 'all'): (key: string) => number {
  const results = Array.from({ length: PROCESSES }, () => {
    const told = execFileSync('node', [BUNDLED, part], { encoding: 'utf8' });
    return JSON.parse(told) as Readonly<Record<string, number>>;
  });
  return (key) => median(results.map((each) => each[key] ?? 0));
}

const line = (name: string, total: number, documents: number) =>
  console.log(
    `${name.padEnd(8)} ${total.toFixed(0).padStart(7)} ms   ${(total / documents).toFixed(0).padStart(5)} a document`,
  );

async function parent(only: string | undefined) {
  await build({
    entryPoints: [path.resolve('tests/bench/publish.ts')],
    outfile: BUNDLED,
    bundle: true,
    packages: 'external',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    logLevel: 'error',
  });
  if (only === undefined) {
    const of = measure('four');
    console.log(`sea-fret-pullover in ${LANGUAGES.join(', ')}`);
    for (const key of ['cold', 'warm', 'rerun']) line(key, of(key), LANGUAGES.length);
    console.log(`peak     ${of('peak').toFixed(0).padStart(7)} MB`);
  }
  const of = measure('all');
  const documents = allLanguages().length * PAPERS.length;
  console.log(`\nsea-fret-pullover in ${allLanguages().length} languages, A4 and Letter`);
  line('CPU', of('all'), documents);
  line('wall', of('wall'), documents);
  console.log(`peak     ${of('peak').toFixed(0).padStart(7)} MB`);
}

const [, , part] = process.argv;
if (process.argv[1] === BUNDLED) {
  console.log(JSON.stringify(part === 'four' ? await four() : await all()));
} else {
  try {
    await parent(part);
  } finally {
    rmSync(BUNDLED, { force: true });
  }
}
