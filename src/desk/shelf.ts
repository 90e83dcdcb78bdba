/**
 * The shelf: the bundles that lie in one folder, each in a folder of its own. Takes names as a browser
 * sends them; finds them only among what the folder lists, so that no name can lead elsewhere. A new
 * bundle is built beside its place and renamed into it, and never laid over one that is there.
 */
import { randomUUID } from 'node:crypto';
import { lstat, mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import { Intake } from '../pattern/bundle/intake.ts';
import { jsonSchema } from '../pattern/bundle/json-schema.ts';
import { PATTERN_FILE } from '../pattern/bundle/load.ts';
import { isClutter } from '../pattern/bundle/paths.ts';
import { type BundleFiles, unpackBundle } from '../pattern/bundle/unpack.ts';

const SCHEMA_FILE = 'castoff-1.schema.json';
const BUILDING = '.desk-building-';

/** Names of the folders that hold a pattern, in order. */
export async function listPatterns(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
    .map((entry) => entry.name)
    .sort();
  const found: string[] = [];
  for (const name of names) {
    if (found.length === DESK_LIMITS.patterns) break;
    const file = await lstat(path.join(folder, name, PATTERN_FILE)).catch(() => undefined);
    if (file?.isFile()) found.push(name);
  }
  return found;
}

/** The folder of one pattern of the shelf. */
export async function patternFolder(folder: string, name: string): Promise<string> {
  if ((await listPatterns(folder)).includes(name)) return path.join(folder, name);
  throw new Fault('missing', 'no pattern of that name lies on the desk', { place: name });
}

export const listStarters = (starters: string): Promise<readonly string[]> =>
  listPatterns(starters);

/** A copy of a starter under a free name; gives the name. */
export async function beginFrom(
  folder: string,
  starters: string,
  starter: string,
): Promise<string> {
  const files = new Map(await unpackBundle(await patternFolder(starters, starter)));
  const text = new TextDecoder().decode(files.get(PATTERN_FILE));
  const encode = (value: string) => new TextEncoder().encode(value);
  // The copy names the schema beside it, so that an editor finds it without a network.
  const named = text.replace(/"\$schema": "[^"]*"/, `"$schema": "./${SCHEMA_FILE}"`);
  files.set(PATTERN_FILE, encode(named));
  files.set(SCHEMA_FILE, encode(`${JSON.stringify(jsonSchema(), null, 2)}\n`));
  return keep(folder, starter, files);
}

/** A file of a form, as far as it is needed. */
export interface Dropped {
  readonly name: string;
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** What was dropped: one zip, or the files of a folder with their paths. */
export async function takeIn(folder: string, dropped: readonly Dropped[]): Promise<string> {
  const [first] = dropped;
  if (!first || (dropped.length === 1 && first.size === 0))
    throw new Fault('input', 'no file came with the form', { remedy: 'choose a zip or a folder' });
  const bytesOf = async (file: Dropped) => new Uint8Array(await file.arrayBuffer());
  if (dropped.length === 1 && !first.name.endsWith('.json')) {
    const files = await unpackBundle(await bytesOf(first));
    return keep(folder, first.name.replace(/\.zip$/i, ''), requirePattern(files));
  }
  const outer = first.name.includes('/') ? first.name.slice(0, first.name.indexOf('/') + 1) : '';
  const intake = new Intake('the folder');
  const files = new Map<string, Uint8Array>();
  for (const file of dropped) {
    const inside = file.name.startsWith(outer) ? file.name.slice(outer.length) : file.name;
    if (isClutter(inside)) continue;
    const name = intake.accept(inside, { bytes: file.size, packedBytes: file.size });
    files.set(name, await bytesOf(file));
  }
  return keep(folder, outer.replace('/', '') || 'pattern', requirePattern(files));
}

function requirePattern(files: BundleFiles): BundleFiles {
  if (files.has(PATTERN_FILE)) return files;
  throw new Fault('input', 'there is no pattern.json in what was handed in', {
    remedy: 'hand in the folder that holds pattern.json, or a zip of it',
  });
}

async function keep(folder: string, wanted: string, files: BundleFiles): Promise<string> {
  const base = wanted.replaceAll(/[^A-Za-z0-9-]+/g, '-').replaceAll(/^-+|-+$/g, '') || 'pattern';
  const building = path.join(folder, `${BUILDING}${randomUUID()}`);
  try {
    for (const [name, bytes] of files) {
      const target = path.join(building, ...name.split('/'));
      await mkdir(path.dirname(target), { recursive: true });
      await writeFile(target, bytes);
    }
    return await nameFor(folder, base.slice(0, 60), building);
  } finally {
    await rm(building, { recursive: true, force: true });
  }
}

/** Moves it to the first name that is free; gives the name. */
async function nameFor(folder: string, base: string, building: string): Promise<string> {
  const taken = new Set(await readdir(folder));
  let name = base;
  for (let next = 2; taken.has(name); next += 1) name = `${base}-${next}`;
  await rename(building, path.join(folder, name));
  return name;
}

/** What a desk that was ended in the middle of taking something in left behind. */
export async function clearLeftovers(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.startsWith(BUILDING));
  for (const name of names) await rm(path.join(folder, name), { recursive: true, force: true });
}
