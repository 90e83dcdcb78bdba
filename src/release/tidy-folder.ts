/**
 * Removes what a crash leaves in a folder target: folders half built beside a version, files half
 * written in the store. Takes the age from which nothing can still be at work; touches nothing that a
 * person can see.
 */
import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { WORK_FOLDER } from '../store/folder.ts';
import { BUILDING } from './hand-over.ts';

/** Paths removed, below the two folders given; younger than `before` stays. */
export async function tidyFolders(
  folders: { readonly handedOver: string; readonly store: string },
  before: Date,
): Promise<readonly string[]> {
  const removed: string[] = [];
  const remove = async (path: string): Promise<void> => {
    const found = await stat(path).catch(() => undefined);
    if (!found || found.mtime > before) return;
    await rm(path, { recursive: true, force: true });
    removed.push(path);
  };
  for (const pattern of await foldersIn(folders.handedOver)) {
    for (const name of await namesIn(pattern)) {
      if (name.startsWith(BUILDING)) await remove(join(pattern, name));
    }
  }
  const work = join(folders.store, WORK_FOLDER);
  for (const name of await namesIn(work)) await remove(join(work, name));
  return removed;
}

const namesIn = (path: string): Promise<readonly string[]> => readdir(path).catch(() => []);

async function foldersIn(path: string): Promise<readonly string[]> {
  const entries = await readdir(path, { withFileTypes: true }).catch(() => []);
  return entries
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
    .map((entry) => join(path, entry.name));
}
