/**
 * Files of the desk itself that a browser fetches: its style, its scripts, the reader that draws pages of
 * documents, and what makes a zip of a folder. Takes the folder of templates; finds a fixed list of names and nothing else.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import { type Answer, bytes } from './answer.ts';

/** The style of every page: it shows nothing of anybody's, so that a page may have it before its key. */
export const STYLE_ADDRESS = '/desk.css';

/** Its files, joined in this order: what comes later may say otherwise. */
export const STYLE_FILES = [
  'paper', 'type', 'frame', 'shelf', 'fields', 'forms', 'findings', 'tables', 'numbers', 'drawings',
  'figures', 'rules', 'pages', 'release', 'print',
] as const; // prettier-ignore

export type OwnFiles = (address: string) => Promise<Answer | undefined>;

const SCRIPT = 'text/javascript; charset=utf-8';

/** Large, and changed only with its package. */
const KEPT = { 'cache-control': 'private, max-age=604800' };

interface OwnFile {
  /** Read and joined. */
  readonly files: readonly string[];
  readonly type: string;
  readonly heads?: Readonly<Record<string, string>>;
}

export function openOwnFiles(templates: string): OwnFiles {
  const near = createRequire(import.meta.url);
  const ofPackage = (name: string, ...inside: readonly string[]) => ({
    files: [path.join(path.dirname(near.resolve(`${name}/package.json`)), ...inside)],
    type: SCRIPT,
    heads: KEPT,
  });
  const script = (name: string) => ({ files: [path.join(templates, name)], type: SCRIPT });
  const style = STYLE_FILES.map((name) => path.join(templates, 'style', `${name}.css`));
  const files = new Map<string, OwnFile>([
    [STYLE_ADDRESS, { files: style, type: 'text/css; charset=utf-8' }],
    ['/desk.js', script('desk.js')],
    ['/hand-in.js', script('hand-in.js')],
    ['/pages.js', script('pages.js')],
    ['/reader/pdf.mjs', ofPackage('pdfjs-dist', 'legacy', 'build', 'pdf.min.mjs')],
    ['/reader/pdf.worker.mjs', ofPackage('pdfjs-dist', 'legacy', 'build', 'pdf.worker.min.mjs')],
    ['/zip.mjs', ofPackage('fflate', 'esm', 'browser.js')],
  ]);
  const read = new Map<string, Promise<Answer>>();
  return async (address) => {
    const wanted = files.get(address);
    if (!wanted) return undefined;
    const answer =
      read.get(address) ??
      readAll(wanted.files).then((body) => bytes(body, wanted.type, wanted.heads));
    read.set(address, answer);
    return answer;
  };
}

const readAll = async (files: readonly string[]): Promise<Uint8Array> =>
  Buffer.concat(await Promise.all(files.map((file) => readFile(file))));
