/** Opens a desk over an empty folder, and speaks to it the way a browser does. */
import { randomUUID } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { request } from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { ownWorker, rootFolder } from '../../src/cli/resources.ts';
import { openLocalDesk } from '../../src/desk/local.ts';
import { listen } from '../../src/desk/server.ts';
import type { WorkerStart } from '../../src/desk/work/crew.ts';

export interface OpenedDesk {
  readonly folder: string;
  readonly base: string;
  readonly address: string;
  readonly port: number;
  cookie: string;
  get(path: string): Promise<Response>;
  /** Does not follow where the answer leads. */
  post(path: string, fields: Readonly<Record<string, string>> | FormData): Promise<Response>;
  close(): Promise<void>;
}

export const STARTERS: readonly string[] = readdirSync(
  path.join(rootFolder, 'templates', 'starters'),
  { withFileTypes: true },
).flatMap((each) => (each.isDirectory() && each.name !== 'render' ? [each.name] : []));

let clock = 0;

export async function openTestDesk(at?: string, worker?: WorkerStart): Promise<OpenedDesk> {
  const folder = at ?? (await mkdtemp(path.join(os.tmpdir(), 'desk-')));
  const now = () => new Date(Date.UTC(2026, 0, 1) + (clock += 1000));
  const desk = await openLocalDesk({
    folder,
    root: rootFolder,
    worker: worker ?? ownWorker(),
    newId: randomUUID,
    now,
  });
  const open = await listen(desk, { key: 'k'.repeat(32), session: 's'.repeat(32) }, 0);
  const base = `http://127.0.0.1:${open.port}`;
  const opened: OpenedDesk = {
    folder,
    base,
    address: open.address,
    port: open.port,
    cookie: `desk-${open.port}=${'s'.repeat(32)}`,
    get: (to) => fetch(base + to, { headers: { cookie: opened.cookie }, redirect: 'manual' }),
    post: (to, fields) =>
      fetch(base + to, {
        method: 'POST',
        headers: { cookie: opened.cookie, origin: base },
        body: fields instanceof FormData ? fields : new URLSearchParams(fields),
        redirect: 'manual',
      }),
    async close() {
      desk.stop();
      await open.close();
      if (at === undefined) await rm(folder, { recursive: true, force: true });
    },
  };
  return opened;
}

/** A call with heads and a path that `fetch` would not send. */
export function callRaw(
  port: number,
  target: string,
  headers: Readonly<Record<string, string>>,
): Promise<number> {
  return new Promise((resolve, reject) => {
    const call = request({ port, host: '127.0.0.1', path: target, headers }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    call.on('error', reject);
    call.end();
  });
}

/** The hidden fields and the value of the first form for correcting. */
export function firstField(html: string): Readonly<Record<string, string>> {
  const form = /<form[^>]*\/correct"[\s\S]*?<\/form>/.exec(html)?.[0] ?? '';
  const of = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(form)?.[1] ?? '';
  const value = /<textarea[^>]*>([^<]*)<\/textarea>/.exec(form)?.[1] ?? '';
  return { file: of('file'), pointer: of('pointer'), tag: of('tag'), value };
}
