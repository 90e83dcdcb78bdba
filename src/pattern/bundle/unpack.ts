/**
 * From a folder or a zip to files in memory. Takes a path or the bytes of a zip; gives the bytes of
 * every file by its path in the bundle. Nothing is written, no link is followed, and every limit is
 * checked against the zip's directory before a byte is inflated. What cannot be read is a `Fault`.
 */
import { readFile, stat } from 'node:fs/promises';
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { Fault } from '../../base/fault.ts';
import { readFolder } from './folder.ts';
import { zipTooLarge } from './intake.ts';
import { readZip } from './zip.ts';

/** Bytes by path inside the bundle, `/` between folders, in order of path. */
export type BundleFiles = ReadonlyMap<string, Uint8Array>;

/** Unpacks a folder or zip by its path, or a zip by its bytes. */
export async function unpackBundle(source: string | Uint8Array): Promise<BundleFiles> {
  const files =
    typeof source === 'string' ? await readPath(source) : await readZip(source, 'the zip');
  const inside = withoutOuterFolder(files);
  if (inside.size === 0) {
    throw new Fault('input', 'the bundle is empty', {
      place: typeof source === 'string' ? source : 'the zip',
      remedy: 'put pattern.json, prose/ and photos/ into it',
    });
  }
  return new Map([...inside].sort(([a], [b]) => (a < b ? -1 : 1)));
}

async function readPath(path: string): Promise<BundleFiles> {
  const found = await stat(path).catch((cause: unknown) => {
    throw new Fault('missing', `there is no bundle at ${path}`, {
      place: path,
      remedy: 'name a folder with a pattern.json, or a zip of one',
      cause,
    });
  });
  if (found.isDirectory()) return readFolder(path);
  if (!found.isFile()) {
    throw new Fault('input', `${path} is neither a folder nor a file`, {
      place: path,
      remedy: 'name a folder with a pattern.json, or a zip of one',
    });
  }
  if (found.size > BUNDLE_LIMITS.zipBytes) throw zipTooLarge(path, found.size);
  return readZip(await readFile(path), path);
}

/** A zip made from a folder often holds that folder; its name is no part of the bundle. */
function withoutOuterFolder(files: BundleFiles): BundleFiles {
  if (files.has('pattern.json')) return files;
  const outer = new Set([...files.keys()].map((name) => name.slice(0, name.indexOf('/') + 1)));
  const [folder] = outer;
  if (outer.size !== 1 || !folder || !files.has(`${folder}pattern.json`)) return files;
  return new Map([...files].map(([name, bytes]) => [name.slice(folder.length), bytes]));
}
