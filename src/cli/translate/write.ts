/**
 * Writes what a translation brings: files for a translator into a folder of their own, and the prose
 * file of a bundle in one step. Nothing is overwritten that somebody may have worked on, and nothing is
 * ever half there.
 */
import { mkdir, readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { PATTERN_FILE, proseFile } from '../../pattern/bundle/load.ts';
import { replaceFile } from '../replace-file.ts';

/** A file for a translator. One that is there with other content is left as it is. */
export async function writeNew(folder: string, name: string, text: string): Promise<void> {
  const target = path.join(folder, name);
  const there = await readFile(target, 'utf8').catch(() => undefined);
  if (there === text) return;
  if (there !== undefined)
    throw new Fault('usage', `${name} is there already, and may have been worked on`, {
      place: target,
      remedy: 'take it back first with --from, or name another folder with --out',
    });
  await mkdir(folder, { recursive: true });
  await replaceFile(target, new TextEncoder().encode(text));
}

/** Puts a prose file into the folder of a bundle; a zip is refused. Gives the path. */
export async function writeProseFile(
  bundle: string,
  language: string,
  bytes: Uint8Array,
): Promise<string> {
  const isThere = await stat(path.join(bundle, PATTERN_FILE)).then(
    (found) => found.isFile(),
    () => false,
  );
  if (!isThere)
    throw new Fault('usage', 'translations are written into a folder with a pattern.json', {
      place: bundle,
      remedy: 'unpack the zip and name its folder',
    });
  const target = path.join(bundle, ...proseFile(language).split('/'));
  await mkdir(path.dirname(target), { recursive: true });
  await replaceFile(target, bytes);
  return target;
}
