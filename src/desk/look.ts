/**
 * A pattern as it lies there now, looked at with every check. Takes its folder; gives files, findings
 * and the worked pattern, and remembers them as long as no file changes, so that a page costs nothing
 * twice. Languages are looked at apart: they take longer than the numbers.
 */
import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { hashValue } from '../base/hash.ts';
import type { Finding } from '../findings/finding.ts';
import { type LoadedBundle, loadBundle } from '../pattern/bundle/load.ts';
import { type BundleFiles, unpackBundle } from '../pattern/bundle/unpack.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { Rooms } from '../pipeline/ports.ts';

export interface Looked {
  readonly files: BundleFiles;
  readonly bundle: LoadedBundle['bundle'];
  /** There where the bundle could be read. */
  readonly checked: CheckedPattern | undefined;
  readonly findings: readonly Finding[];
  /** Findings of the languages; asked for once. */
  languages(): Promise<readonly Finding[]>;
}

export type Look = (folder: string) => Promise<Looked>;

export function openLook(rooms: Rooms): Look {
  const known = new Map<string, { readonly seen: string; readonly looked: Promise<Looked> }>();
  return async (folder) => {
    const seen = await signatureOf(folder);
    const before = known.get(folder);
    if (before?.seen === seen) return before.looked;
    const looked = lookAt(folder, rooms);
    known.set(folder, { seen, looked });
    // What could not be read is tried again the next time.
    looked.catch(() => known.delete(folder));
    return looked;
  };
}

async function lookAt(folder: string, rooms: Rooms): Promise<Looked> {
  const files = await unpackBundle(folder);
  const { bundle, findings } = loadBundle(files);
  const checked = bundle && (await rooms.check(bundle));
  let said: Promise<readonly Finding[]> | undefined;
  return {
    files,
    bundle,
    checked,
    findings: [...findings, ...(checked?.findings ?? [])],
    languages: () => (said ??= checkLanguages(checked, rooms)),
  };
}

async function checkLanguages(
  checked: CheckedPattern | undefined,
  rooms: Rooms,
): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  for (const tag of checked?.pattern.bundle.data.languages ?? []) {
    // Lets other calls through between two languages, each of which keeps the processor busy.
    await new Promise((resolve) => setImmediate(resolve));
    if (checked) found.push(...(await rooms.checkLanguage(checked, tag)));
  }
  return found;
}

/** Sizes and times of all files: changes whenever somebody writes. */
async function signatureOf(folder: string): Promise<string> {
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
