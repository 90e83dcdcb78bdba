/**
 * One writer at a time for one file of a folder store, across processes. The lock is a file created
 * exclusively; whoever finds one that is older than any holder may be takes it away. Takes the work
 * folder, the path to guard and the work; knows nothing of what is written.
 */
import { randomUUID } from 'node:crypto';
import { mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Fault } from '../base/fault.ts';
import { hashBytes } from '../base/hash.ts';

/** A holder reads one small file and renames another: milliseconds. */
const STALE_AFTER_MILLISECONDS = 20_000;
const GIVE_UP_AFTER_ATTEMPTS = 4_000;
const PAUSE_MILLISECONDS = 10;

/** `stillMine` throws if the lock was taken away from a holder that slept too long. */
export async function withFolderLock<T>(
  workFolder: string,
  path: string,
  work: (stillMine: () => Promise<void>) => Promise<T>,
): Promise<T> {
  await mkdir(workFolder, { recursive: true });
  const lock = join(workFolder, `${hashBytes(path).slice(0, 32)}.lock`);
  const token = randomUUID();
  await acquire(lock, token, path);
  const isMine = async () => (await readFile(lock, 'utf8').catch(() => '')) === token;
  try {
    return await work(async () => {
      if (!(await isMine())) throw busy(path);
    });
  } finally {
    if (await isMine()) await rm(lock, { force: true });
  }
}

async function acquire(lock: string, token: string, path: string): Promise<void> {
  for (let attempt = 0; attempt < GIVE_UP_AFTER_ATTEMPTS; attempt += 1) {
    try {
      await writeFile(lock, token, { flag: 'wx' });
      return;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    await removeStale(lock, token);
    await pause(PAUSE_MILLISECONDS);
  }
  throw busy(path);
}

/** Renaming away is exclusive: of several that find the lock stale, one succeeds. */
async function removeStale(lock: string, token: string): Promise<void> {
  const held = await stat(lock).catch(() => undefined);
  if (!held || Date.now() - held.mtimeMs < STALE_AFTER_MILLISECONDS) return;
  const aside = `${lock}.${token}`;
  await rename(lock, aside).catch(() => undefined);
  await rm(aside, { force: true });
}

const busy = (path: string): Fault =>
  new Fault('store', `${path} is being written by another process`, {
    place: path,
    retryable: true,
    remedy: 'publish again in a minute',
  });
