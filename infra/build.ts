/**
 * Packs the functions: each one a bundled `handler.mjs` with only the data, fonts and packages that its
 * entry in `functions.ts` names. For Lambda the image library comes in its ARM build; for a test on this
 * machine, in the build that is installed here. `npm run functions` packs into `infra/dist/`.
 */
import { execFileSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { hashBytes, hashValue } from '../src/base/hash.ts';
import { TEMPLATE_FOLDERS } from '../src/pipeline/rooms.ts';
import { allFontPaths } from '../src/press/fonts/font-files.ts';
import type { Part } from './functions.ts';
import { FUNCTIONS } from './functions.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const MODULES = path.join(ROOT, 'node_modules');

export type Target = 'lambda' | 'this machine';

/** Packages that cannot be bundled: they bring machine code, or load files of theirs by name. */
const OUTSIDE: Readonly<Record<Exclude<Part, 'data' | 'fonts' | 'pages' | 'starters'>, string>> = {
  shaping: 'harfbuzzjs',
  pictures: 'sharp',
  hyphenation: 'hyphen',
  reading: 'pdfjs-dist',
};

/** The shaper without the package's second engine. */
const SHAPER_FILES = [
  'package.json',
  'dist/index.mjs',
  'dist/harfbuzz.js',
  'dist/harfbuzz.wasm',
].map((file) => path.join(OUTSIDE.shaping, file));

/** What browsers fetch from the desk besides its own scripts; see `src/desk/own-files.ts`. */
const BROWSER_FILES = [
  'pdfjs-dist/package.json',
  'pdfjs-dist/legacy/build/pdf.min.mjs',
  'pdfjs-dist/legacy/build/pdf.worker.min.mjs',
  'fflate/package.json',
  'fflate/esm/browser.js',
];

export async function packFunctions(folder: string, target: Target): Promise<void> {
  const program = hashSources();
  rmSync(folder, { recursive: true, force: true });
  const images = target === 'lambda' ? installImages(path.join(folder, '.images')) : MODULES;
  await bundleHandlers(folder, program, target);
  for (const { name, parts } of FUNCTIONS) {
    for (const part of parts) addPart(part, path.join(folder, name), images);
  }
  rmSync(path.join(folder, '.images'), { recursive: true, force: true });
}

/** Some packages are CommonJS inside and look for these names. */
const COMMONJS_NAMES = `
import { createRequire as requireFrom } from 'node:module';
import { dirname as folderOf } from 'node:path';
import { fileURLToPath as pathFrom } from 'node:url';
const require = requireFrom(import.meta.url);
const __filename = pathFrom(import.meta.url);
const __dirname = folderOf(__filename);
`;

/** All in one build, so that what they share is read once; each still gets a whole bundle. */
async function bundleHandlers(folder: string, program: string, target: Target): Promise<void> {
  await build({
    entryPoints: FUNCTIONS.map(({ name }) => ({
      in: path.join(ROOT, 'functions', name, 'handler.ts'),
      out: path.join(name, 'handler'),
    })),
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    minify: target === 'lambda',
    sourcemap: 'linked',
    sourcesContent: false,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    external: Object.values(OUTSIDE),
    define: { PROGRAM: JSON.stringify(program) },
    banner: { js: COMMONJS_NAMES },
    logLevel: 'warning',
  });
}

function addPart(part: Part, own: string, images: string): void {
  switch (part) {
    case 'data':
      for (const name of [...TEMPLATE_FOLDERS.map((each) => `templates/${each}`), 'locales']) {
        cpSync(path.join(ROOT, name), path.join(own, name), { recursive: true });
      }
      return;
    case 'pages':
      copy(path.join(ROOT, 'templates', 'desk'), path.join(own, 'templates', 'desk'));
      for (const file of BROWSER_FILES)
        copy(path.join(MODULES, file), path.join(own, 'node_modules', file));
      return;
    case 'starters':
      for (const name of starterNames()) {
        const folder = path.join('templates', 'starters', name);
        copy(path.join(ROOT, folder), path.join(own, folder));
      }
      return;
    case 'fonts':
      for (const file of allFontPaths()) copy(fontFile(file), path.join(own, 'fonts', file));
      return;
    case 'shaping':
      for (const file of SHAPER_FILES) {
        copy(path.join(MODULES, file), path.join(own, 'node_modules', file));
      }
      return;
    case 'hyphenation':
      copy(path.join(MODULES, 'hyphen'), path.join(own, 'node_modules', 'hyphen'));
      return;
    case 'pictures':
      for (const name of packagesOf('sharp', images)) {
        copy(path.join(images, name), path.join(own, 'node_modules', name));
      }
      return;
    case 'reading':
      addReader(path.join(own, 'node_modules'));
  }
}

/**
 * The PDF reader without what it paints with: it asks for 30 MB of machine code when it is loaded, and
 * the proof only reads text. An empty package in that place keeps it from complaining.
 */
function addReader(modules: string): void {
  const files = ['package.json', 'legacy/build/pdf.mjs', 'legacy/build/pdf.worker.mjs'];
  for (const file of files) {
    const name = path.join(OUTSIDE.reading, file);
    copy(path.join(MODULES, name), path.join(modules, name));
  }
  const canvas = path.join(modules, '@napi-rs', 'canvas');
  mkdirSync(canvas, { recursive: true });
  writeFileSync(path.join(canvas, 'index.js'), '');
}

/** Beside them lies what their pictures are made with, which nobody begins from. */
const starterNames = (): readonly string[] =>
  readdirSync(path.join(ROOT, 'templates', 'starters')).filter((name) =>
    existsSync(path.join(ROOT, 'templates', 'starters', name, 'pattern.json')),
  );

const fontFile = (file: string): string => path.join(MODULES, '@expo-google-fonts', file);

function copy(from: string, to: string): void {
  mkdirSync(path.dirname(to), { recursive: true });
  cpSync(from, to, { recursive: true, dereference: true });
}

interface PackageRecord {
  readonly version?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
}

/** A package with all it needs of what is installed there. */
function packagesOf(name: string, modules: string, found = new Set<string>()): ReadonlySet<string> {
  const record = readRecord(path.join(modules, name, 'package.json'));
  if (record === undefined || found.has(name)) return found;
  found.add(name);
  const needed = { ...record.dependencies, ...record.optionalDependencies };
  for (const each of Object.keys(needed)) packagesOf(each, modules, found);
  return found;
}

function readRecord(file: string): PackageRecord | undefined {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as PackageRecord;
  } catch {
    return undefined;
  }
}

/** The image library for the processor of the functions, of the very version that is tested here. */
function installImages(folder: string): string {
  const version = readRecord(path.join(MODULES, 'sharp', 'package.json'))?.version ?? '';
  mkdirSync(folder, { recursive: true });
  const flags = ['--os=linux', '--cpu=arm64', '--libc=glibc', '--no-save', '--no-package-lock'];
  const words = ['install', ...flags, '--ignore-scripts', `--prefix=${folder}`, `sharp@${version}`];
  execFileSync('npm', words, { cwd: folder, stdio: 'inherit' });
  return path.join(folder, 'node_modules');
}

/** Names this program by everything that decides what it makes. */
function hashSources(): string {
  const folders = ['src', 'functions', 'templates', 'locales'];
  const files = folders.flatMap((folder) =>
    readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => path.relative(ROOT, path.join(entry.parentPath, entry.name))),
  );
  const hashes = files.sort().map((file) => [file, hashBytes(readFileSync(path.join(ROOT, file)))]);
  return hashValue([hashes, hashBytes(readFileSync(path.join(ROOT, 'package-lock.json')))]);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await packFunctions(fileURLToPath(new URL('dist/', import.meta.url)), 'lambda');
}
