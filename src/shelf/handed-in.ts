/**
 * What was handed in, as the files of a bundle: one zip, or the files of a folder with their paths. Takes
 * files as a form or an upload brings them; gives the bundle and the name it would like. Holds the same
 * limits as reading from a disk, before anything is kept.
 */
import { Fault } from '../base/fault.ts';
import { Intake } from '../pattern/bundle/intake.ts';
import { PATTERN_FILE } from '../pattern/bundle/load.ts';
import { isClutter } from '../pattern/bundle/paths.ts';
import { type BundleFiles, unpackBundle } from '../pattern/bundle/unpack.ts';

/** A file of a form, as far as it is needed. */
export interface Dropped {
  readonly name: string;
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

export interface HandedIn {
  readonly wanted: string;
  readonly files: BundleFiles;
}

export async function readHandedIn(dropped: readonly Dropped[]): Promise<HandedIn> {
  const [first] = dropped;
  if (!first || (dropped.length === 1 && first.size === 0))
    throw new Fault('input', 'no file came with the form', { remedy: 'choose a zip or a folder' });
  if (dropped.length === 1 && !first.name.endsWith('.json'))
    return readHandedInZip(first.name, await bytesOf(first));
  const outer = first.name.includes('/') ? first.name.slice(0, first.name.indexOf('/') + 1) : '';
  const intake = new Intake('the folder');
  const files = new Map<string, Uint8Array>();
  for (const file of dropped) {
    const inside = file.name.startsWith(outer) ? file.name.slice(outer.length) : file.name;
    if (isClutter(inside)) continue;
    const name = intake.accept(inside, { bytes: file.size, packedBytes: file.size });
    files.set(name, await bytesOf(file));
  }
  return { wanted: outer.replace('/', '') || 'pattern', files: requirePattern(files) };
}

export async function readHandedInZip(name: string, bytes: Uint8Array): Promise<HandedIn> {
  const files = requirePattern(await unpackBundle(bytes));
  return { wanted: name.replace(/\.zip$/i, ''), files };
}

const bytesOf = async (file: Dropped): Promise<Uint8Array> =>
  new Uint8Array(await file.arrayBuffer());

function requirePattern(files: BundleFiles): BundleFiles {
  if (files.has(PATTERN_FILE)) return files;
  throw new Fault('input', 'there is no pattern.json in what was handed in', {
    remedy: 'hand in the folder that holds pattern.json, or a zip of it',
  });
}
