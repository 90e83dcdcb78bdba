/**
 * Files of the desk itself that a browser fetches: its style, its scripts, the reader that draws pages of
 * documents, and what makes a zip of a folder. Takes the folder of templates; finds a fixed list of names and nothing else.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import { type Answer, bytes } from './answer.ts';

export type OwnFiles = (address: string) => Promise<Answer | undefined>;

const SCRIPT = 'text/javascript; charset=utf-8';

/** Large, and changed only with its package. */
const KEPT = { 'cache-control': 'private, max-age=604800' };

interface OwnFile {
  readonly file: string;
  readonly type: string;
  readonly heads?: Readonly<Record<string, string>>;
}

export function openOwnFiles(templates: string): OwnFiles {
  const near = createRequire(import.meta.url);
  const ofPackage = (name: string, ...inside: readonly string[]) => ({
    file: path.join(path.dirname(near.resolve(`${name}/package.json`)), ...inside),
    type: SCRIPT,
    heads: KEPT,
  });
  const files = new Map<string, OwnFile>([
    ['/desk.css', { file: path.join(templates, 'desk.css'), type: 'text/css; charset=utf-8' }],
    ['/desk.js', { file: path.join(templates, 'desk.js'), type: SCRIPT }],
    ['/hand-in.js', { file: path.join(templates, 'hand-in.js'), type: SCRIPT }],
    ['/pages.js', { file: path.join(templates, 'pages.js'), type: SCRIPT }],
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
      readFile(wanted.file).then((body) => bytes(body, wanted.type, wanted.heads));
    read.set(address, answer);
    return answer;
  };
}
