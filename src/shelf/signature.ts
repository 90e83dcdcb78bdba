/**
 * What tells that a folder changed: the names, sizes and times of its files. Takes a folder, gives a
 * short text that differs after every change; reads no file, so that it can be asked for each page.
 */
import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { hashValue } from '../base/hash.ts';

export async function signatureOf(folder: string): Promise<string> {
  const names = await readdir(folder, { recursive: true });
  const shown = names.filter((name) => !/(^|[\\/])\./.test(name)).sort();
  const files = await Promise.all(
    shown.map(async (name) => {
      const { size, mtimeMs, ino } = await stat(path.join(folder, name));
      return [name, size, mtimeMs, ino];
    }),
  );
  return hashValue(files);
}
