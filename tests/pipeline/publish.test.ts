import { mkdtemp, readdir, readFile, rm, writeFile, mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { finding } from '../../src/findings/register.ts';
import type { Progress } from '../../src/pipeline/ports.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { currentVersion } from '../../src/release/commit.ts';
import { folderStore } from '../../src/store/folder.ts';
import { memoryStore } from '../../src/store/memory.ts';
import { PROSE, pngOf, skerryFiles, studioRooms } from './studio.ts';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'castoff-publish-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const zipOf = (files: ReadonlyMap<string, Uint8Array>): Uint8Array =>
  zipSync(Object.fromEntries(files));

async function filesUnder(path: string): Promise<string[]> {
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(path.length + 1))
    .filter((name) => !name.startsWith('.'))
    .sort();
}

describe('publishing into a folder', () => {
  const options = (files = skerryFiles()) => ({
    bundle: zipOf(files),
    releases: folderStore(join(folder, '.castoff')),
    folder,
  });

  it('hands over a folder by language with documents, listing and pictures', async () => {
    const published = await publish(options(), { rooms: studioRooms(), token: 't' });
    expect(published).toMatchObject({ outcome: 'released', made: 8, reused: 0 });
    expect(await filesUnder(folder)).toEqual([
      'skerry-hat/1.0.0/de/listing.txt',
      'skerry-hat/1.0.0/de/skerry-hat-1.0.0-de.pdf',
      'skerry-hat/1.0.0/en-US/listing.txt',
      'skerry-hat/1.0.0/en-US/skerry-hat-1.0.0-en-US.pdf',
      'skerry-hat/1.0.0/pictures/cover-shop-large.jpg',
      'skerry-hat/1.0.0/pictures/cover-shop-square.jpg',
      'skerry-hat/1.0.0/record/bundle.json',
    ]);
  });

  it('works nothing a second time, and says how much it used again', async () => {
    await publish(options(), { rooms: studioRooms(), token: 'a' });
    const rooms = studioRooms();
    const again = await publish(options(), { rooms, token: 'b' });
    expect(again).toMatchObject({ outcome: 'already', made: 0, reused: 8 });
    expect(rooms.worked).toEqual([]);
  });

  it('reads the same bundle from a folder and from a zip', async () => {
    const source = join(folder, 'source');
    for (const [name, bytes] of skerryFiles()) {
      await mkdir(dirname(join(source, name)), { recursive: true });
      await writeFile(join(source, name), bytes);
    }
    await publish({ ...options(), bundle: source }, { rooms: studioRooms(), token: 'a' });
    const zipped = await publish(options(), { rooms: studioRooms(), token: 'b' });
    expect(zipped.outcome).toBe('already');
  });

  it('keeps the old release beside the corrected one and uses its pictures again', async () => {
    await publish(options(), { rooms: studioRooms(), token: 'a' });
    const before = await readFile(join(folder, 'skerry-hat/1.0.0/de/skerry-hat-1.0.0-de.pdf'));
    const rooms = studioRooms();
    const corrected = await publish(options(skerryFiles({ version: '1.0.1' })), {
      rooms,
      token: 'b',
    });
    expect(corrected).toMatchObject({ outcome: 'released', made: 3, reused: 5 });
    expect(rooms.worked.sort()).toEqual(['compose de', 'compose en-US']);
    expect(await readFile(join(folder, 'skerry-hat/1.0.0/de/skerry-hat-1.0.0-de.pdf'))).toEqual(
      before,
    );
    expect(await currentVersion(options().releases, 'skerry-hat')).toBe('1.0.1');
  });

  it('refuses other content under a released version, before anything is made', async () => {
    await publish(options(), { rooms: studioRooms(), token: 'a' });
    const rooms = studioRooms();
    const changed = options(
      skerryFiles({}, { 'prose/de.json': JSON.stringify({ ...PROSE.de, summary: 'Anders.' }) }),
    );
    await expect(publish(changed, { rooms, token: 'b' })).rejects.toMatchObject({
      kind: 'conflict',
      message: 'skerry-hat 1.0.0 is released already with other content: the bundle was changed',
      remedy: 'a released version never changes; raise "version" in pattern.json above 1.0.0',
    });
    expect(rooms.worked).toEqual([]);
  });

  it('writes nothing for a bundle that cannot be read or a pattern that is blocked', async () => {
    const target = { releases: folderStore(join(folder, '.castoff')), folder };
    const shape = await publish(
      { ...target, bundle: zipOf(skerryFiles({ sizes: 'S, M, L' })) },
      { rooms: studioRooms(), token: 'a' },
    );
    expect(shape.outcome).toBe('blocked');
    const where = { file: 'pattern.json', pointer: '/pieces/0' };
    const slip = finding('bundle/shape', where, { problem: 'a wrong count' });
    const rooms = studioRooms({ findings: () => [slip] });
    const counted = await publish(
      { ...target, bundle: zipOf(skerryFiles()) },
      { rooms, token: 'b' },
    );
    expect(counted).toEqual({ outcome: 'blocked', findings: [slip] });
    const noZip = publish(
      { ...target, bundle: new TextEncoder().encode('no zip') },
      { rooms, token: 'c' },
    );
    await expect(noZip).rejects.toMatchObject({ kind: 'input' });
    expect(await readdir(folder)).toEqual([]);
  });

  it('releases nothing where the proof of one document disagrees with the pattern', async () => {
    const where = { file: 'pattern.json', pointer: '' };
    const slip = finding('bundle/shape', where, { problem: 'page 3 lost a count' });
    const rooms = studioRooms({ proofFindings: [slip] });
    const published = await publish(options(), { rooms, token: 'a' });
    expect(published).toEqual({ outcome: 'blocked', findings: [slip] });
    expect(await filesUnder(folder)).toEqual([]);
  });

  it('keeps photographs apart whose names are nearly one', async () => {
    const photo = { role: 'detail', alt: 'coverAlt' };
    const names = ['a.png', 'a.jpg', 'B 1.png', 'b-1.png'];
    const photos = names.map((file) => ({ ...photo, file }));
    const pictures = names.map((file, index) => [`photos/${file}`, pngOf(9 + index, 9)] as const);
    const files = skerryFiles(
      { photos },
      { ...Object.fromEntries(pictures), 'photos/cover.png': undefined },
    );
    await publish(options(files), { rooms: studioRooms(), token: 'a' });
    const shown = await filesUnder(join(folder, 'skerry-hat/1.0.0/pictures'));
    const large = shown.filter((name) => name.endsWith('-shop-large.jpg'));
    expect(large.map((name) => name.replace(/-[0-9a-f]{6}-/, '-HASH-'))).toEqual([
      'a-jpg-HASH-shop-large.jpg',
      'a-png-HASH-shop-large.jpg',
      'b-1-HASH-shop-large.jpg',
      'b-1-shop-large.jpg',
    ]);
  });

  it('says where it put a folder that somebody had changed', async () => {
    await publish(options(), { rooms: studioRooms(), token: 'a' });
    await writeFile(join(folder, 'skerry-hat/1.0.0/notes.txt'), 'mine');
    const again = await publish(options(), { rooms: studioRooms(), token: 'b' });
    expect(again).toMatchObject({
      outcome: 'already',
      folder: join(folder, 'skerry-hat/1.0.0'),
      setAside: join(folder, 'skerry-hat/1.0.0-set-aside-b'),
    });
  });

  it('publishes chosen languages and editions, and refuses ones the bundle has not', async () => {
    const editions = [{ kind: 'standard' as const }, { kind: 'one-size' as const, size: 'M' }];
    const chosen = { ...options(), languages: ['de'], editions };
    await publish(chosen, { rooms: studioRooms(), token: 'a' });
    expect(await filesUnder(join(folder, 'skerry-hat/1.0.0/de'))).toEqual([
      'listing.txt',
      'skerry-hat-1.0.0-de-one-size-m.pdf',
      'skerry-hat-1.0.0-de.pdf',
    ]);
    const unknown = publish(
      { ...options(), languages: ['fr'] },
      { rooms: studioRooms(), token: 'b' },
    );
    await expect(unknown).rejects.toMatchObject({ kind: 'usage', remedy: 'it has en-US, de' });
  });
});

describe('a run that somebody watches', () => {
  it('tells each step, language and whether work was used again', async () => {
    const events: Progress[] = [];
    const releases = memoryStore();
    const world = { rooms: studioRooms(), token: 'a' };
    await publish({ bundle: zipOf(skerryFiles()), releases, concurrency: 1 }, world, (event) =>
      events.push(event),
    );
    expect(events.map(({ step, state, language }) => [step, state, language ?? ''].join(' '))).toEqual([
      'intake started ', 'check started ', 'pictures started ',
      'pictures made ', 'pictures made ', 'pictures made ',
      'compose made en-US', 'proof done en-US', 'compose made de', 'proof done de',
      'stage started ', 'stage done ',
    ]); // prettier-ignore
  });

  it('stops between steps when it is cancelled, and releases nothing', async () => {
    const releases = memoryStore();
    const stop = new AbortController();
    const run = publish(
      { bundle: zipOf(skerryFiles()), releases, concurrency: 1, signal: stop.signal },
      { rooms: studioRooms(), token: 'a' },
      ({ step }) => step === 'compose' && stop.abort(),
    );
    await expect(run).rejects.toMatchObject({ kind: 'cancelled' });
    expect(await currentVersion(releases, 'skerry-hat')).toBeUndefined();
  });
});
