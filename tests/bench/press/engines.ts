/**
 * The two typesetters of the bench as child processes. Writes the documents for both into one folder,
 * bundles ours as the functions are bundled, runs either over some documents, and hands on what its
 * process told of itself. Knows no aims and prints nothing.
 */
import { execFileSync } from 'node:child_process';
import { symlinkSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import type { Document } from '../../../src/press/document.ts';
import { faceName, fontPath, type Typeface } from '../../../src/press/fonts/font-files.ts';
import { photographs } from '../yardstick.ts';
import { typstDocument } from './typst-source.ts';

/** What a process tells of its work. */
export interface Told {
  /** CPU milliseconds from the start of the process to the end of each document. */
  readonly costs: readonly number[];
  readonly pages: number;
  readonly bytes: number;
  readonly peakMegabytes: number;
}

export type Engine = 'castoff' | 'typst, charts as SVG' | 'typst, charts as shapes';
export const ENGINES: readonly Engine[] = [
  'castoff',
  'typst, charts as SVG',
  'typst, charts as shapes',
];

const CACHE = path.join(process.env['XDG_CACHE_HOME'] ?? path.join(homedir(), '.cache'), 'castoff');
const FONTS = path.resolve('node_modules/@expo-google-fonts');

/** Only what the documents need, so that nobody scans fonts in vain. */
const TYPEFACES: readonly Typeface[] = [
  'source-sans-3',
  'noto-serif',
  'noto-sans-hebrew',
  'noto-sans-jp',
  'noto-sans-kr',
  'noto-sans-sc',
];

/** Packages that bring files of their own stay outside the bundle. */
const OUTSIDE = ['hyphen', 'harfbuzzjs'];

/** Everything both need in `folder`, the other typesetter itself in the user's cache. */
export async function prepareEngines(folder: string): Promise<void> {
  const install = path.resolve('tests/bench/press/install.sh');
  execFileSync('bash', [install], { stdio: 'inherit' });
  for (const [hash, { jpeg }] of await photographs())
    writeFileSync(path.join(folder, `${hash}.jpg`), jpeg);
  symlinkSync(path.resolve('node_modules'), path.join(folder, 'node_modules'));
  await build({
    entryPoints: [path.resolve('tests/bench/press/ours.ts')],
    outfile: path.join(folder, 'ours.mjs'),
    bundle: true,
    minify: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    external: OUTSIDE,
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
    logLevel: 'error',
  });
}

/** One document under one name, for every engine. */
export function writeDocument(folder: string, name: string, document: Document): void {
  writeFileSync(path.join(folder, `${name}.json`), JSON.stringify(document));
  for (const charts of ['svg', 'shapes'] as const) {
    const { main, files } = typstDocument(document, charts);
    writeFileSync(path.join(folder, `${name}-${charts}.typ`), main);
    for (const [file, content] of files) writeFileSync(path.join(folder, file), content);
  }
}

/** A new process that sets these documents one after the other. */
export function run(engine: Engine, folder: string, names: readonly string[]): Told {
  const own = [path.join(folder, 'ours.mjs'), folder, FONTS, ...names];
  const charts = engine === 'typst, charts as SVG' ? 'svg' : 'shapes';
  const theirs = [
    path.resolve('tests/bench/press/theirs.mjs'),
    folder,
    path.join(CACHE, 'typst', 'node_modules'),
    fontFolders().join(','),
    ...names.map((name) => `${name}-${charts}`),
  ];
  const words = engine === 'castoff' ? own : theirs;
  return JSON.parse(execFileSync('node', words, { encoding: 'utf8', maxBuffer: 1e8 })) as Told;
}

function fontFolders(): readonly string[] {
  const faces = TYPEFACES.flatMap((typeface) =>
    (['regular', 'bold'] as const).map((weight) => faceName(typeface, { weight, italic: false })),
  );
  return faces.map((face) => path.join(FONTS, path.dirname(fontPath(face))));
}
