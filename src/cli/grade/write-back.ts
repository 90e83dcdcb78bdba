/**
 * Writes changed values into `pattern.json`, all or nothing: the new text is made and read again first,
 * written beside the old one and put in its place in one step. Everything that did not change stays as
 * it was, letter for letter.
 */
import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { changeJson, type JsonChange } from '../../pattern/bundle/edit.ts';
import { loadBundle, PATTERN_FILE } from '../../pattern/bundle/load.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import { replaceFile } from '../replace-file.ts';

/** The file with its changes; refused where it could then not be read. */
export function patternWith(files: BundleFiles, changes: readonly JsonChange[]): BundleFiles {
  const bytes = files.get(PATTERN_FILE) ?? new Uint8Array();
  const text = changeJson(new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), changes);
  const next = new Map(files).set(PATTERN_FILE, new TextEncoder().encode(text));
  const { bundle } = loadBundle(next, { withoutPhotos: true });
  if (bundle) return next;
  throw new Fault('input', 'with these numbers the bundle could not be read', {
    remedy: 'nothing was written; look at the numbers above',
  });
}

/** Puts the changed `pattern.json` in its place. `bundle` is a folder; a zip is refused. */
export async function writePattern(bundle: string, files: BundleFiles): Promise<string> {
  const found = await stat(bundle);
  if (!found.isDirectory())
    throw new Fault('usage', 'numbers are written into a folder, not into a zip', {
      place: bundle,
      remedy: 'unpack the zip and name its folder; --dry-run shows without writing',
    });
  const target = await patternPath(bundle);
  const bytes = files.get(PATTERN_FILE) ?? new Uint8Array();
  await replaceFile(target, bytes, (await stat(target)).mode);
  return target;
}

async function patternPath(bundle: string): Promise<string> {
  const target = path.join(bundle, PATTERN_FILE);
  await readFile(target).catch((cause: unknown) => {
    throw new Fault('missing', `there is no ${PATTERN_FILE} in ${bundle}`, {
      place: bundle,
      cause,
    });
  });
  return target;
}
