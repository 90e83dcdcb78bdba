/**
 * A process of its own that publishes into a folder and kills itself with SIGKILL at its n-th call of
 * the file system: as close to a power cut as a test comes. Run by `kill.test.ts`, bundled.
 */
import fs from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

const [bundle = '', folder = '', version = '', at = '0'] = process.argv.slice(2);
let calls = 0;

const deadly = <Call extends (...given: never[]) => unknown>(call: Call): Call =>
  ((...given: never[]) => {
    calls += 1;
    if (calls === Number(at)) process.kill(process.pid, 'SIGKILL');
    return call(...given);
  }) as Call;

for (const name of [
  'link',
  'rename',
  'open',
  'mkdir',
  'rm',
  'writeFile',
  'readFile',
  'readdir',
] as const) {
  Object.assign(fs, { [name]: deadly(fs[name] as (...given: never[]) => unknown) });
}
syncBuiltinESMExports();

const { publish } = await import('../../src/pipeline/publish.ts');
const { folderStore } = await import('../../src/store/folder.ts');
const { studioRooms } = await import('../pipeline/studio.ts');
const releases = folderStore(`${folder}/.store`);
await publish(
  { bundle, releases, folder, concurrency: 1 },
  { rooms: studioRooms(), token: version },
);
process.stdout.write(String(calls));
