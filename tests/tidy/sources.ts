/** Reads the project's own sources for the tidy tests: every TypeScript file with its imports. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

export interface Source {
  /** Relative to the root, with `/`. */
  readonly file: string;
  readonly text: string;
  readonly imports: readonly string[];
}

const IMPORT =
  /(?:^|\n)\s*(?:import|export)\s(?:[^'"]*?\sfrom\s)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]/g;

export function readSources(...folders: string[]): Source[] {
  return folders
    .flatMap((folder) => walk(folder))
    .map((file) => {
      const text = readFileSync(file, 'utf8');
      const imports = [...text.matchAll(IMPORT)].map((match) =>
        resolve(file, match[1] ?? match[2] ?? ''),
      );
      return { file, text, imports };
    });
}

function walk(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !file.includes('node_modules'))
    .map((file) => path.posix.join(folder, file.replaceAll(path.sep, '/')))
    .sort();
}

/** A relative import as a path from the root; a package stays as it is written. */
function resolve(file: string, specifier: string): string {
  if (!specifier.startsWith('.')) return specifier;
  return path.posix.normalize(path.posix.join(path.posix.dirname(file), specifier));
}
