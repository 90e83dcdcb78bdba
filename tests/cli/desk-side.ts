/** A terminal for tests: collects what is said, and a copy of a starter that may be spoilt. */
import { cp, mkdtemp, readFile, readdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { COMMANDS } from '../../src/cli/commands/index.ts';
import { runCastoff } from '../../src/cli/main.ts';

export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one call of the command line in a folder. */
export async function castoff(folder: string, ...args: readonly string[]): Promise<Said> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCastoff(args, COMMANDS, {
    out: (text) => out.push(text),
    err: (text) => err.push(text),
    interactive: false,
    folder,
    readInput: () => Promise.resolve(''),
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

export const newFolder = (): Promise<string> => mkdtemp(path.join(tmpdir(), 'castoff-'));

/** A starter copied to `<folder>/bundle`. */
export async function copyStarter(name: string): Promise<{ folder: string; bundle: string }> {
  const folder = await newFolder();
  const bundle = path.join(folder, 'bundle');
  await cp(path.join('templates/starters', name), bundle, { recursive: true });
  return { folder, bundle };
}

/** Replaces text in one file of a bundle; fails where the text is not there. */
export async function change(bundle: string, from: string, to: string, file = 'pattern.json') {
  const place = path.join(bundle, file);
  const text = await readFile(place, 'utf8');
  if (!text.includes(from)) throw new Error(`${file} does not say ${from}`);
  await writeFile(place, text.replace(from, to));
}

/** Every file below a folder, sorted; empty where there is no folder. */
export async function filesBelow(folder: string): Promise<readonly string[]> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    return entries
      .filter((entry) => entry.isFile())
      .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)))
      .sort();
  } catch {
    return [];
  }
}
