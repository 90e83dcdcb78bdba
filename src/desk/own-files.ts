/**
 * Files of the desk itself that a browser fetches: its style, its scripts, and the reader that draws
 * pages of documents. Takes the folder of templates; finds a fixed list of names and nothing else.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import { type Answer, bytes } from './answer.ts';

export type OwnFiles = (address: string) => Promise<Answer | undefined>;

const SCRIPT = 'text/javascript; charset=utf-8';

/** The reader is large and changes only with its package. */
const KEPT = { 'cache-control': 'private, max-age=604800' };

export function openOwnFiles(templates: string): OwnFiles {
  const reader = path.join(
    path.dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')),
    'legacy',
    'build',
  );
  const files = new Map([
    ['/desk.css', { file: path.join(templates, 'desk.css'), type: 'text/css; charset=utf-8' }],
    ['/desk.js', { file: path.join(templates, 'desk.js'), type: SCRIPT }],
    ['/hand-in.js', { file: path.join(templates, 'hand-in.js'), type: SCRIPT }],
    ['/pages.js', { file: path.join(templates, 'pages.js'), type: SCRIPT }],
    ['/reader/pdf.mjs', { file: path.join(reader, 'pdf.min.mjs'), type: SCRIPT, heads: KEPT }],
    [
      '/reader/pdf.worker.mjs',
      { file: path.join(reader, 'pdf.worker.min.mjs'), type: SCRIPT, heads: KEPT },
    ],
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
