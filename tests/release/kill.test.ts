import { spawnSync } from 'node:child_process';
import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { publish } from '../../src/pipeline/publish.ts';
import { readManifest } from '../../src/release/manifest.ts';
import { manifestKey } from '../../src/release/keys.ts';
import { folderStore } from '../../src/store/folder.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { contentOf, witness } from './witness.ts';

const PATTERN = 'skerry-hat';
/** Every how manieth call of the file system is tried; 1 tries them all, and takes its time. */
const STRIDE = Number(process.env['CASTOFF_KILL_STRIDE'] ?? 23);

let root: string;
let program: string;
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'castoff-kill-'));
  program = join(root, 'killed.mjs');
  await build({
    entryPoints: ['tests/release/killed.ts'],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
  });
  for (const version of ['1.0.0', '1.0.1']) {
    await writeFile(
      join(root, `${version}.zip`),
      zipSync(Object.fromEntries(skerryFiles({ version }))),
    );
  }
});
afterAll(() => rm(root, { recursive: true, force: true }));

const publishHere = (folder: string, version: string) =>
  publish(
    { bundle: join(root, `${version}.zip`), releases: folderStore(join(folder, '.store')), folder },
    { rooms: studioRooms(), token: 'again' },
  );

/** The process, killed at that call; gives how many calls it made where it came through. */
function run(folder: string, version: string, at: number): number | 'killed' {
  const bundle = join(root, `${version}.zip`);
  const { signal, stdout, status, stderr } = spawnSync(
    process.execPath,
    [program, bundle, folder, version, String(at)],
    { encoding: 'utf8' },
  );
  if (signal === 'SIGKILL') return 'killed';
  expect(status, stderr).toBe(0);
  return Number(stdout);
}

const visible = async (folder: string): Promise<string[]> =>
  (await readdir(join(folder, PATTERN)).catch(() => []))
    .filter((name) => !name.startsWith('.'))
    .sort();

describe('a process killed with SIGKILL', () => {
  it.each([
    ['a first release', [], '1.0.0'],
    ['an errata rerun', ['1.0.0'], '1.0.1'],
  ] as const)(
    'at calls of the file system throughout %s leaves the old or the new',
    async (_title, before, version) => {
      const whole = join(root, `whole-${version}`);
      for (const each of [...before, version]) await publishHere(whole, each);
      const undisturbed = await contentOf(folderStore(join(whole, '.store')));
      let points = 0;
      for (let at = 1; ; at += STRIDE) {
        const folder = join(root, `${version}-${at}`);
        for (const each of before) await publishHere(folder, each);
        const store = folderStore(join(folder, '.store'));
        const end = run(folder, version, at);
        expect([before.at(-1), version]).toContain(await witness(store, PATTERN));
        for (const name of await visible(folder)) {
          const stored = await store.get(manifestKey(PATTERN, name));
          const { files } = readManifest(stored?.bytes ?? new Uint8Array(), name);
          const shown = await readdir(join(folder, PATTERN, name), {
            recursive: true,
            withFileTypes: true,
          });
          expect(shown.filter((entry) => entry.isFile())).toHaveLength(files.length);
        }
        await publishHere(folder, version);
        expect(await contentOf(store)).toEqual(undisturbed);
        expect(await visible(folder)).toEqual([...before, version]);
        await rm(folder, { recursive: true });
        if (end !== 'killed') break;
        points += 1;
      }
      expect(points).toBeGreaterThan(3);
      console.log(`${points} kills over ${_title}`);
    },
  );
});
