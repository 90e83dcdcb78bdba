/** Clearing up as a designer does it: nothing of a release goes, what is left over goes a day later. */
import { mkdir, readFile, utimes, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { publish } from '../../src/pipeline/publish.ts';
import { folderStore } from '../../src/store/folder.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { witness } from '../release/witness.ts';
import { castoff, filesBelow, newFolder } from './desk-side.ts';

describe('castoff tidy', () => {
  let folder: string;
  let store: string;
  /** Older than a day, younger than the memory of recipes. */
  const old = new Date(Date.now() - 48 * 3_600_000);
  const leftOver = `artifacts/${'0'.repeat(64)}.pdf`;

  beforeAll(async () => {
    folder = await newFolder();
    store = path.join(folder, 'out', '.store');
    await publish(
      {
        bundle: zipSync(Object.fromEntries(skerryFiles())),
        releases: folderStore(store),
        folder: path.join(folder, 'out'),
      },
      { rooms: studioRooms(), token: 't' },
    );
    await writeFile(path.join(store, leftOver), 'nobody names this');
    for (const file of await filesBelow(store)) await utimes(path.join(store, file), old, old);
    const half = path.join(folder, 'out', 'skerry-hat', '.building-1.0.1-dead');
    await mkdir(half);
    await utimes(half, old, old);
  });

  it('lists what no release names, and removes what was left half made', async () => {
    const said = await castoff(folder, 'tidy', 'out');
    expect(said).toMatchObject({ code: 0, err: '' });
    const [removed, listed] = said.out.split('\n');
    expect(removed).toBe('removed skerry-hat/.building-1.0.1-dead, left half made');
    expect(listed).toMatch(
      /^1 artifact that no release names is listed; tidy again after 20\d\d-\d\d-\d\d \d\d:\d\d UTC to delete it\.$/,
    );
    expect(await filesBelow(store)).toContain(leftOver);
  });

  it('deletes it on the next day, and nothing of the release', async () => {
    const list = path.join(store, 'tidy', 'condemned.json');
    const condemned = JSON.parse(await readFile(list, 'utf8')) as object;
    await writeFile(list, JSON.stringify({ ...condemned, since: '2026-01-01T00:00:00.000Z' }));
    expect((await castoff(folder, 'tidy', 'out')).out).toBe('1 artifact deleted, 0.0 MB.');
    expect(await filesBelow(store)).not.toContain(leftOver);
    expect(await witness(folderStore(store), 'skerry-hat')).toBe('1.0.0');
    expect((await castoff(folder, 'tidy', 'out')).out).toBe('Nothing to clear up.');
  });

  it('wants to know what to tidy', async () => {
    expect(await castoff(folder, 'tidy')).toMatchObject({ code: 2 });
    expect(await castoff(folder, 'tidy', 's3://No')).toMatchObject({ code: 2 });
  });
});
