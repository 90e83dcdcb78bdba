/**
 * Loads the PDF reader without what it paints with: pdf.js asks for a package of 30 MB machine code and
 * three classes of a browser as soon as it is loaded, and the proof only reads. Gives the reader's module;
 * knows nothing of files.
 */
import Module, { createRequire } from 'node:module';

export type Reader = typeof import('pdfjs-dist/legacy/build/pdf.mjs');

let loading: Promise<Reader> | undefined;

export function loadReader(): Promise<Reader> {
  loading ??= load();
  return loading;
}

/** What the reader names when it is loaded and never uses while it reads. */
const PAINTING = ['DOMMatrix', 'ImageData', 'Path2D'];
class Unused {}

async function load(): Promise<Reader> {
  for (const name of PAINTING)
    if (!(name in globalThis)) Object.assign(globalThis, { [name]: Unused });
  const forget = standIn('@napi-rs/canvas');
  try {
    return await import('pdfjs-dist/legacy/build/pdf.mjs');
  } finally {
    forget();
  }
}

/** An empty module in a package's place while the reader is loaded; a package that is missing is left so. */
function standIn(name: string): () => void {
  const require = createRequire(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
  let file: string;
  try {
    file = require.resolve(name);
  } catch {
    return () => undefined;
  }
  if (require.cache[file] !== undefined) return () => undefined;
  const empty = new Module(file);
  empty.loaded = true;
  require.cache[file] = empty;
  return () => void delete require.cache[file];
}
