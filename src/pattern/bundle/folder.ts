/**
 * Reads a bundle from a folder on disk. Takes a path, gives the bytes of every file by its path in the
 * bundle. Links are refused, since they may lead anywhere; hidden files and clutter are skipped.
 */
import { readdir, readFile, lstat } from 'node:fs/promises';
import { join } from 'node:path';
import { Fault } from '../../base/fault.ts';
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { Intake } from './intake.ts';
import { isClutter } from './paths.ts';

export async function readFolder(root: string): Promise<ReadonlyMap<string, Uint8Array>> {
  const intake = new Intake(root);
  await walk(root, '', intake);
  const files = new Map<string, Uint8Array>();
  for (const [name, path] of intake.accepted) {
    files.set(name, await readFile(join(root, path)).catch(unreadable(name)));
  }
  return files;
}

async function walk(root: string, folder: string, intake: Intake): Promise<void> {
  const entries = await readdir(join(root, folder)).catch(unreadable(folder || root));
  for (const entry of entries.sort()) {
    const path = folder === '' ? entry : `${folder}/${entry}`;
    if (isClutter(path)) continue;
    const found = await lstat(join(root, path)).catch(unreadable(path));
    if (found.isDirectory()) {
      if (path.split('/').length >= BUNDLE_LIMITS.pathDepth)
        throw intake.refuse(path, 'is too deep');
      await walk(root, path, intake);
    } else if (found.isFile()) {
      intake.accept(path, { bytes: found.size, packedBytes: found.size });
    } else {
      throw intake.refuse(path, found.isSymbolicLink() ? 'is a link' : 'is no ordinary file');
    }
  }
}

const unreadable =
  (place: string) =>
  (cause: unknown): never => {
    throw new Fault('input', `${place} cannot be read`, {
      place,
      remedy: 'check that the file is there and may be read',
      cause,
    });
  };
