/**
 * The same bundle gives the same release anywhere: two processes in other zones, languages, folders and
 * years, with other dice and another number of documents at once, make byte for byte the same PDFs,
 * photographs included, and the same everything else.
 */
import { execFile } from 'node:child_process';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';

const STARTER = 'templates/starters/breakwater-hat';
const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
const SCRIPT = path.resolve('tests/pdf/publish-elsewhere.ts');

interface Told {
  readonly outcome: string;
  readonly now: number;
  readonly told: readonly (readonly [path: string, hash: string])[];
}

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'castoff-same-'));
  await cp(STARTER, path.join(folder, 'bundle'), { recursive: true });
  const file = path.join(folder, 'bundle', 'pattern.json');
  const pattern = JSON.parse(await readFile(file, 'utf8')) as { photos: unknown[] };
  // One photograph, one language with letters and one with characters: enough, and quick.
  const small = { ...pattern, languages: ['en-US', 'ja'], photos: pattern.photos.slice(0, 1) };
  await writeFile(file, JSON.stringify(small));
});
afterAll(() => rm(folder, { recursive: true }));

async function publishIn(cwd: string, environment: NodeJS.ProcessEnv, ...words: string[]) {
  const { PATH, HOME } = process.env;
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--import', LOADER, SCRIPT, path.join(folder, 'bundle'), ...words],
    { cwd, env: { PATH, HOME, ...environment }, maxBuffer: 1e7 },
  );
  return JSON.parse(stdout) as Told;
}

it('whatever the zone, the language, the year, the folder and the dice', async () => {
  const [here, there] = await Promise.all([
    publishIn(process.cwd(), { TZ: 'Pacific/Kiritimati', LANG: 'tr_TR.UTF-8' }, '1999-12-31', '1'),
    publishIn(folder, { TZ: 'America/Lima', LC_ALL: 'ja_JP.UTF-8' }, '2038-02-01', '3'),
  ]);
  expect([here.outcome, here.now, there.now], JSON.stringify(here.told)).toEqual([
    'released',
    expect.toBeOneOf([1999, 2000]),
    2038,
  ]);
  const documents = here.told.filter(([file]) => file.endsWith('.pdf'));
  expect(documents.map(([file]) => file)).toEqual(
    expect.arrayContaining([
      'en-US/breakwater-hat-1.0.0-en-US.pdf',
      'en-US/breakwater-hat-1.0.0-en-US-large.pdf',
      'ja/breakwater-hat-1.0.0-ja.pdf',
      'ja/breakwater-hat-1.0.0-ja-large.pdf',
    ]),
  );
  expect(there.told).toEqual(here.told);
});
