/**
 * What was put away in a folder of this machine: whole bundles in `.away/`, moved there and back by their
 * folder's name in one step, so that a crash finds them at one place or the other. Since when is the time
 * of the folder itself. Names reach the disk only where `.away/` lists them.
 */
import { mkdir, readdir, rename, stat, utimes } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import { freeNames } from './free-name.ts';
import type { PutAway } from './shelf.ts';

const AWAY = '.away';

/** `own` is the folder of that bundle. */
export async function moveAway(folder: string, own: string, at: Date): Promise<PutAway> {
  const name = path.basename(own);
  await mkdir(path.join(folder, AWAY), { recursive: true });
  await utimes(own, at, at);
  const kept = await moveToFree(own, path.join(folder, AWAY), itselfThenFree(name));
  return { name: kept, at: at.toISOString() };
}

export async function moveBack(folder: string, name: string): Promise<string> {
  if (!(await awayNames(folder)).includes(name)) throw notAway(name);
  return moveToFree(path.join(folder, AWAY, name), folder, itselfThenFree(name));
}

/** The latest first. */
export async function listAway(folder: string): Promise<readonly PutAway[]> {
  const all = (await awayNames(folder)).slice(0, DESK_LIMITS.patterns);
  const put = all.map(async (name) => {
    const { mtime } = await stat(path.join(folder, AWAY, name));
    return { name, at: mtime.toISOString() };
  });
  return (await Promise.all(put)).sort((a, b) => (a.at < b.at ? 1 : -1));
}

export async function awayNames(folder: string): Promise<readonly string[]> {
  const entries = await readdir(path.join(folder, AWAY), { withFileTypes: true }).catch(() => []);
  const shown = entries.filter((each) => each.isDirectory() && !each.name.startsWith('.'));
  return shown.map((each) => each.name).sort();
}

/** Under the first name that is free; gives it. */
export async function moveToFree(
  from: string,
  folder: string,
  names: Iterable<string>,
  reserved: readonly string[] = [],
): Promise<string> {
  const taken = new Set([...(await readdir(folder)), ...reserved]);
  for (const name of names) {
    if (taken.has(name)) continue;
    const moved = await rename(from, path.join(folder, name)).then(() => true, isTaken);
    if (moved) return name;
  }
  return '';
}

/** False where somebody else was faster: a folder is never laid over one that is not empty. */
function isTaken(error: unknown): boolean {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'ENOTEMPTY' || code === 'EEXIST') return false;
  throw error;
}

/** A folder may be called what no bundle of ours would be. */
function* itselfThenFree(name: string): Generator<string> {
  yield name;
  yield* freeNames(name);
}

const notAway = (name: string): Fault =>
  new Fault('missing', 'no pattern of that name was put away', { place: name });
