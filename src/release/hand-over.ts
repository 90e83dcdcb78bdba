/**
 * The folder a person opens: `<pattern>/<version>/` with documents and listing by language and the
 * pictures, made from a manifest. It is built beside its place and renamed into it, so that it is there
 * whole or not at all. A copy for hands and eyes: the store with the manifest stays the truth.
 */
import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Fault } from '../base/fault.ts';
import { hashBytes } from '../base/hash.ts';
import type { Store } from '../store/store.ts';
import { artifactKey } from './keys.ts';
import { madeName } from './made.ts';
import type { Manifest } from './manifest.ts';

/** Folders that are being built; `tidy` removes what a crash leaves. */
export const BUILDING = '.building-';

export interface HandedOver {
  /** The version's folder. */
  readonly folder: string;
  /** False where the folder was there already with exactly these files. */
  readonly written: boolean;
  /** Where a folder that somebody had changed by hand was moved to; nothing of it is lost. */
  readonly setAside?: string;
}

/** `token` makes the building folder's name unique to this run. */
export async function handOver(
  store: Store,
  manifest: Manifest,
  root: string,
  token: string,
): Promise<HandedOver> {
  const name = madeName(manifest);
  const folder = join(root, manifest.pattern, name);
  try {
    if (await isHandedOver(manifest, folder)) return { folder, written: false };
    const building = join(root, manifest.pattern, `${BUILDING}${name}-${token}`);
    await rm(building, { recursive: true, force: true });
    for (const file of manifest.files) await copyOut(store, file, building);
    const setAside = await swapIn(building, folder, manifest, token);
    return { folder, written: true, ...(setAside !== undefined && { setAside }) };
  } catch (cause) {
    if (cause instanceof Fault) throw cause;
    throw new Fault('store', `${folder} could not be written: ${String(cause)}`, {
      place: folder,
      retryable: true,
      remedy: 'the release is stored; publish again to write the folder',
      cause,
    });
  }
}

async function copyOut(
  store: Store,
  file: Manifest['files'][number],
  building: string,
): Promise<void> {
  const key = artifactKey(file.artifact, file.mediaType);
  const stored = await store.get(key);
  if (!stored || hashBytes(stored.bytes) !== file.artifact) {
    throw new Fault('store', `${key} is ${stored ? 'damaged' : 'missing'}`, { place: key });
  }
  const path = join(building, ...file.path.split('/'));
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, stored.bytes, { flag: 'wx' });
}

/** Gives the place to which a folder with other content was moved, if there was one. */
async function swapIn(
  building: string,
  folder: string,
  manifest: Manifest,
  token: string,
): Promise<string | undefined> {
  if (await renameTo(building, folder)) return undefined;
  if (await isHandedOver(manifest, folder)) {
    await rm(building, { recursive: true, force: true });
    return undefined;
  }
  const setAside = join(dirname(folder), `${madeName(manifest)}-set-aside-${token}`);
  await rename(folder, setAside);
  await rename(building, folder);
  return setAside;
}

async function renameTo(from: string, to: string): Promise<boolean> {
  try {
    await rename(from, to);
    return true;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    if (['ENOTEMPTY', 'EEXIST', 'EPERM', 'EACCES'].includes(code)) return false;
    throw error;
  }
}

/** True where the folder holds the files of the manifest, each with its content, and no other. */
async function isHandedOver(manifest: Manifest, folder: string): Promise<boolean> {
  const listed = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = listed.filter((entry) => !entry.isDirectory());
  if (files.length !== manifest.files.length) return false;
  for (const file of manifest.files) {
    const bytes = await readFile(join(folder, ...file.path.split('/'))).catch(() => undefined);
    if (!bytes || hashBytes(bytes) !== file.artifact) return false;
  }
  return true;
}
