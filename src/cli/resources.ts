/**
 * Where the program's own data lies: templates, starters, languages and fonts. The same folders serve
 * the sources and the bundled program, because both lie one or two levels below the root.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { present } from '../base/assert.ts';
import { hashBytes, hashValue } from '../base/hash.ts';
import type { Equipment, OpenedRooms } from '../pipeline/rooms.ts';
import type { WorkerStart } from '../desk/work/crew.ts';
import type { Terminal } from './command.ts';

const here = path.dirname(fileURLToPath(import.meta.url));

/** The folder that holds `templates/` and `locales/`. */
export const rootFolder: string = present(
  [path.join(here, '..'), path.join(here, '..', '..')].find((folder) =>
    existsSync(path.join(folder, 'locales')),
  ),
  'the folder with locales/ and templates/',
);

export const startersFolder = (): string => path.join(rootFolder, 'templates', 'starters');

/** A path given on the command line, from where the person stands. */
export const bundlePath = (word: string, terminal: Terminal): string =>
  path.resolve(terminal.folder, word);

/** The rooms over this installation's own data. Loaded late: `--help` needs no fonts. */
export async function openOwnRooms(): Promise<OpenedRooms> {
  const { openRooms } = await import('../pipeline/rooms.ts');
  return openRooms({ root: rootFolder, program: programName() });
}

/** Languages, templates and fonts of this installation, for commands that print by themselves. */
export async function openOwnEquipment(): Promise<Equipment> {
  const { openEquipment } = await import('../pipeline/rooms.ts');
  return openEquipment({ root: rootFolder });
}

/**
 * How a process is started that works for the desk: the bundled worker beside this program, or its
 * sources, which Node reads through the loader this program was itself started with.
 */
export function ownWorker(): WorkerStart {
  const args = [rootFolder, programName()];
  const bundled = path.join(here, 'desk-worker.mjs');
  if (!fileURLToPath(import.meta.url).endsWith('.ts')) return { file: bundled, execArgv: [], args };
  const loader = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
  const file = path.join(here, '..', 'desk', 'work', 'worker.ts');
  return { file, execArgv: ['--import', loader], args };
}

/**
 * Names the program by its own code, so that a document made by other code is never taken for this
 * one's: the bundled file, or all sources where it runs from them.
 */
function programName(): string {
  const own = fileURLToPath(import.meta.url);
  if (!own.endsWith('.ts')) return hashBytes(readFileSync(own));
  const sources = path.join(rootFolder, 'src');
  const files = readdirSync(sources, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(ts|json)$/.test(file))
    .sort();
  return hashValue(files.map((file) => [file, hashBytes(readFileSync(path.join(sources, file)))]));
}
