/**
 * Bundles in a folder of this machine, each in a folder of its own, with their history beside them in
 * `.history/`; what was put away lies in `.away/`. Names reach the disk only where the folder lists them, so that none can lead elsewhere. A
 * new bundle is built beside its place and renamed into it, and never laid over one that is there.
 */
import { randomUUID } from 'node:crypto';
import { lstat, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { BUNDLE_LIMITS, DESK_LIMITS } from '../base/limits.ts';
import { PATTERN_FILE } from '../pattern/bundle/load.ts';
import { checkName, isClutter } from '../pattern/bundle/paths.ts';
import { type BundleFiles, unpackBundle } from '../pattern/bundle/unpack.ts';
import { changeRecord } from './change-record.ts';
import { awayNames, listAway, moveAway, moveBack, moveToFree } from './folder-away.ts';
import { freeNames } from './free-name.ts';
import type { BundleRoom, Made, Now } from './room.ts';
import { type Change, tagOf } from './shelf.ts';
import { signatureOf } from './signature.ts';

const BUILDING = '.desk-building-';

const entry = changeRecord.extend({
  whole: z.string().describe('The file before the change; empty where there was none'),
});
type Entry = z.output<typeof entry>;

export function folderRoom(folder: string): BundleRoom {
  const find = (name: string) => bundleFolder(folder, name);
  return {
    names: () => listBundles(folder),
    state: async (name) => signatureOf(await find(name)),
    files: async (name) => unpackBundle(await find(name)),
    file: async (name, inside) => readFileIn(await find(name), inside),
    history: async (name) => (await readHistory(await find(name))).map(withoutWhole),
    keep: (wanted, files) => keep(folder, wanted, files),
    change: (name, at, make) =>
      inTurn(path.join(folder, name), async () => {
        const own = await find(name);
        const history = await readHistory(own);
        const now = await nowIn(own, history);
        const made = await make(now);
        return withoutWhole(
          await commit(own, history, { at, made, whole: now.files.get(made.file) }),
        );
      }),
    putAway: (name, at) =>
      inTurn(path.join(folder, name), async () => moveAway(folder, await find(name), at)),
    away: () => listAway(folder),
    takeBack: (name) => inTurn(path.join(folder, name), () => moveBack(folder, name)),
  };
}

/** Names of the folders that hold a pattern, in order. */
async function listBundles(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries
    .filter((each) => each.isDirectory() && !each.name.startsWith('.'))
    .map((each) => each.name)
    .sort();
  const found: string[] = [];
  for (const name of names) {
    if (found.length === DESK_LIMITS.patterns) break;
    if (await isBundle(path.join(folder, name))) found.push(name);
  }
  return found;
}

async function isBundle(folder: string): Promise<boolean> {
  const look = (place: string) => lstat(place).catch(() => undefined);
  if (!(await look(folder))?.isDirectory()) return false;
  return (await look(path.join(folder, PATTERN_FILE)))?.isFile() === true;
}

/** The folder of one bundle of the room: a plain name of a real folder that holds a pattern. */
async function bundleFolder(folder: string, name: string): Promise<string> {
  const own = path.join(folder, name);
  const isPlain = !name.startsWith('.') && path.basename(own) === name && !/[/\\]/.test(name);
  if (isPlain && (await isBundle(own))) return own;
  throw new Fault('missing', 'no pattern of that name lies on the desk', { place: name });
}

/** A plain file below the folder: no link, and nothing larger than a bundle may hold. */
async function readFileIn(folder: string, inside: string): Promise<Uint8Array | undefined> {
  const checked = checkName(inside);
  if ('problem' in checked || isClutter(inside)) return undefined;
  let place = folder;
  for (const step of checked.name.split('/')) {
    place = path.join(place, step);
    const found = await lstat(place).catch(() => undefined);
    if (!found || found.isSymbolicLink() || found.size > BUNDLE_LIMITS.fileBytes) return undefined;
  }
  return readFile(place).catch(() => undefined);
}

async function keep(folder: string, wanted: string, files: BundleFiles): Promise<string> {
  const building = path.join(folder, `${BUILDING}${randomUUID()}`);
  try {
    for (const [name, bytes] of files) {
      const target = path.join(building, ...name.split('/'));
      await mkdir(path.dirname(target), { recursive: true });
      await writeFile(target, bytes);
    }
    // What was put away keeps its name.
    return await moveToFree(building, folder, freeNames(wanted), await awayNames(folder));
  } finally {
    await rm(building, { recursive: true, force: true });
  }
}

/** What a desk that was ended in the middle of taking something in left behind. */
export async function clearLeftovers(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.startsWith(BUILDING));
  for (const name of names) await rm(path.join(folder, name), { recursive: true, force: true });
}

// ---------------------------------------------------------------- changes

const waiting = new Map<string, Promise<unknown>>();

/** One change of a bundle after the other. */
function inTurn<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const turn = (waiting.get(folder) ?? Promise.resolve()).then(work, work);
  waiting.set(folder, turn);
  return turn;
}

const withoutWhole = ({ whole: _whole, ...change }: Entry): Change => change;

async function readHistory(folder: string): Promise<readonly Entry[]> {
  const history = path.join(folder, '.history');
  const names = await readdir(history).catch(() => []);
  const kept = names.filter((name) => /^\d{5}\.json$/.test(name)).sort();
  return Promise.all(
    kept.map(async (name) =>
      entry.parse(JSON.parse(await readFile(path.join(history, name), 'utf8'))),
    ),
  );
}

async function nowIn(folder: string, history: readonly Entry[]): Promise<Now> {
  const files = await unpackBundle(folder);
  const before = async ({ number }: Change) => {
    const whole = history.find((each) => each.number === number)?.whole ?? '';
    return whole === '' ? undefined : new TextEncoder().encode(whole);
  };
  return { files, history: history.map(withoutWhole), before };
}

interface Commit {
  readonly at: Date;
  readonly made: Made;
  readonly whole: Uint8Array | undefined;
}

/** History first: a change that is in the file can always be taken back. */
async function commit(
  folder: string,
  history: readonly Entry[],
  { at, made: { bytes, ...told }, whole }: Commit,
): Promise<Entry> {
  const number = (history.at(-1)?.number ?? 0) + 1;
  const before = new TextDecoder('utf-8', { ignoreBOM: true }).decode(whole);
  const tag = tagOf(bytes ?? new Uint8Array());
  const made: Entry = { number, at: at.toISOString(), tag, ...told, whole: before };
  const kept = path.join(folder, '.history');
  await mkdir(kept, { recursive: true });
  const name = `${String(number).padStart(5, '0')}.json`;
  await writeFile(path.join(kept, name), `${JSON.stringify(made, null, 2)}\n`);
  const target = path.join(folder, ...made.file.split('/'));
  if (bytes === undefined) {
    await rm(target, { force: true });
    return made;
  }
  await mkdir(path.dirname(target), { recursive: true });
  const building = path.join(kept, `.${randomUUID()}`);
  await writeFile(building, bytes);
  await rename(building, target);
  return made;
}
