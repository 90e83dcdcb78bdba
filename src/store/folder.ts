/**
 * A folder as a store. Every write goes to a file of its own beside the objects, is flushed to disk and
 * then renamed or linked into place, so that a reader or a crash never meets half an object. `absent` is
 * an exclusive link; a change against a tag is made under a lock file. The tag is the content's hash.
 */
import { randomUUID } from 'node:crypto';
import { link, mkdir, open, readFile, readdir, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Fault } from '../base/fault.ts';
import { hashBytes } from '../base/hash.ts';
import { withFolderLock } from './folder-lock.ts';
import { byKey, requireKey } from './key.ts';
import type { Listed, PutOptions, PutResult, Store } from './store.ts';

/** Where files live until they are whole. Hidden, so that no key can name it. */
export const WORK_FOLDER = '.work';

export function folderStore(root: string): Store {
  const pathOf = (key: string): string => join(root, ...requireKey(key).split('/'));
  return {
    name: root,
    get: (key) =>
      guarded(key, async () => {
        const bytes = await readFile(pathOf(key)).catch(ignoreMissingFile);
        return bytes && { bytes, tag: hashBytes(bytes) };
      }),
    has: (key) =>
      guarded(key, async () => (await stat(pathOf(key)).catch(ignoreMissing))?.isFile() ?? false),
    put: (key, bytes, options = {}) => guarded(key, () => put(root, pathOf(key), bytes, options)),
    list: (prefix, after = '') => listFolder(root, prefix, after),
    delete: (key) => guarded(key, () => rm(pathOf(key), { force: true })),
  };
}

async function put(
  root: string,
  path: string,
  bytes: Uint8Array,
  { condition }: PutOptions,
): Promise<PutResult> {
  const ready = await writeAside(root, bytes);
  try {
    await mkdir(dirname(path), { recursive: true });
    const done = await moveIntoPlace(root, ready, path, condition);
    if (done) await flushFolder(dirname(path));
    return done ? { ok: true, tag: hashBytes(bytes) } : { ok: false };
  } finally {
    await rm(ready, { force: true });
  }
}

async function moveIntoPlace(
  root: string,
  ready: string,
  path: string,
  condition: PutOptions['condition'],
): Promise<boolean> {
  if (condition === undefined) {
    await rename(ready, path);
    return true;
  }
  if (condition === 'absent') {
    const linked = await linkExclusively(ready, path);
    if (linked !== 'unsupported') return linked === 'linked';
  }
  return withFolderLock(join(root, WORK_FOLDER), path, async (stillMine) => {
    const current = await readFile(path).catch(ignoreMissing);
    const tag = current && hashBytes(current);
    const holds = condition === 'absent' ? tag === undefined : tag === condition.tag;
    if (!holds) return false;
    await stillMine();
    await rename(ready, path);
    return true;
  });
}

/** Disks without hard links (some memory sticks) say so; the lock serves them. */
async function linkExclusively(
  ready: string,
  path: string,
): Promise<'linked' | 'taken' | 'unsupported'> {
  try {
    await link(ready, path);
    return 'linked';
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST') return 'taken';
    if (['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(code)) return 'unsupported';
    throw error;
  }
}

async function writeAside(root: string, bytes: Uint8Array): Promise<string> {
  const folder = join(root, WORK_FOLDER);
  await mkdir(folder, { recursive: true });
  const path = join(folder, `${randomUUID()}.part`);
  const file = await open(path, 'wx');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  } finally {
    await file.close();
  }
  return path;
}

/** Makes the new name itself survive a power cut, where the system lets a folder be opened. */
async function flushFolder(path: string): Promise<void> {
  const folder = await open(path, 'r').catch(() => undefined);
  await folder?.sync().catch(() => undefined);
  await folder?.close();
}

async function* listFolder(root: string, prefix: string, after: string): AsyncGenerator<Listed> {
  const folder = prefix.slice(0, prefix.lastIndexOf('/') + 1);
  for await (const found of walk(root, folder, prefix)) if (found.key > after) yield found;
}

async function* walk(root: string, folder: string, prefix: string): AsyncGenerator<Listed> {
  const entries = await guarded(folder, () =>
    readdir(join(root, folder), { withFileTypes: true }).catch(ignoreMissing),
  );
  const names = (entries ?? [])
    .filter((entry) => !entry.name.startsWith('.'))
    .map((entry) => (entry.isDirectory() ? `${entry.name}/` : entry.name));
  for (const name of names.sort(byKey)) {
    const key = folder + name;
    const leads = key.endsWith('/') && (prefix.startsWith(key) || key.startsWith(prefix));
    if (leads) {
      yield* walk(root, key, prefix);
    } else if (!key.endsWith('/') && key.startsWith(prefix)) {
      const found = await guarded(key, () => stat(join(root, key)).catch(ignoreMissing));
      if (found) yield { key, sizeBytes: found.size, modified: found.mtime };
    }
  }
}

// ---------------------------------------------------------------- errors of the system

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? '';

/** A folder of that name is no object. */
const ignoreMissingFile = (error: unknown): undefined =>
  codeOf(error) === 'EISDIR' ? undefined : ignoreMissing(error);

function ignoreMissing(error: unknown): undefined {
  if (['ENOENT', 'ENOTDIR'].includes(codeOf(error))) return undefined;
  throw error;
}

const REMEDIES: Readonly<Record<string, string>> = {
  ENOSPC: 'free some space on the disk and publish again',
  EDQUOT: 'free some of your quota and publish again',
  EACCES: 'give yourself the right to write there, or choose another folder',
  EPERM: 'give yourself the right to write there, or choose another folder',
  EROFS: 'the disk is read-only; choose another folder',
  ENOTDIR: 'part of the path is a file; choose another folder',
  EISDIR: 'a folder stands where a file belongs; move it away',
};
const PASSING = new Set(['EAGAIN', 'EBUSY', 'EINTR', 'EIO', 'EMFILE', 'ENFILE', 'ETIMEDOUT']);

async function guarded<T>(place: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (cause) {
    if (cause instanceof Fault) throw cause;
    const code = codeOf(cause);
    const remedy = REMEDIES[code];
    throw new Fault('store', `the folder failed at ${place} (${code || String(cause)})`, {
      place,
      retryable: PASSING.has(code),
      cause,
      ...(remedy !== undefined && { remedy }),
    });
  }
}
