/**
 * The API of the cloud on this machine: every operation of its document is found here, but for those that
 * are the cloud's alone, and every answer is held against the document as at the gateway of the cloud.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { API_LIMITS } from '../../src/base/limits.ts';
import { API_ROUTES } from '../../src/desk/api/routes.ts';
import { DESK_ADDRESSES } from '../../src/desk/routes.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
import { memoryStore } from '../../src/store/memory.ts';
import { answerJudge, OPERATIONS } from '../functions/gateway.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

let folder: string;
let desk: OpenedDesk;
beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'desk-'));
  desk = await openTestDesk(folder);
});
afterAll(async () => {
  await desk.close();
  await rm(folder, { recursive: true, force: true });
});

/** Not here: a browser hands files in by the form of the shelf, and fetches what was made from its page. */
const OF_THE_CLOUD = [
  'POST /uploads',
  'GET /uploads/{upload}',
  'POST /drafts',
  'GET /drafts/{draft}',
];
/** Where addresses lead that the API tells; the cloud signs addresses of its store. */
const OF_THE_LAPTOP = ['GET /bundles/{bundle}/file'];

const judge = answerJudge();

const send = (method: string, target: string, body?: string, heads = {}): Promise<Response> =>
  fetch(`${desk.base}/api${target}`, {
    method,
    headers: { cookie: desk.cookie, origin: desk.base, ...heads },
    ...(body !== undefined && { body }),
  });

/** Every answer is one of those that the document tells of that operation. */
async function ask<T = Readonly<Record<string, unknown>>>(
  request: string,
  body?: unknown,
): Promise<{ readonly status: number; readonly value: T }> {
  const [method = '', target = ''] = request.split(' ');
  const text = typeof body === 'string' ? body : body === undefined ? undefined : JSON.stringify(body); // prettier-ignore
  const response = await send(method, target, text);
  const value = (await response.json()) as T;
  const [plain = ''] = target.split('?');
  const found = OPERATIONS.find((each) => each.method === method && each.pattern.test(plain));
  if (found) judge(found.operation, response.status, value);
  const type = response.ok ? 'application/json' : 'application/problem+json';
  expect(response.headers.get('content-type'), request).toContain(type);
  return { status: response.status, value };
}

interface Bundle {
  readonly state: string;
  readonly files: readonly { path: string; hash: string; sizeBytes: number; url: string }[];
  readonly history: readonly object[];
}

const HAT = 'breakwater-hat';
const show = async () => (await ask<Bundle>(`GET /bundles/${HAT}`)).value;
const tagOfFile = async (file: string) =>
  (await show()).files.find(({ path: each }) => each === file)?.hash.slice(0, 32) ?? '';

describe('the API on this machine', () => {
  it('has every operation of the document, but for those of the cloud alone', () => {
    const documented = OPERATIONS.map(({ route }) => route);
    const here = Object.keys(API_ROUTES);
    expect(documented.filter((route) => !here.includes(route))).toEqual(OF_THE_CLOUD);
    expect(here.filter((route) => !documented.includes(route))).toEqual(OF_THE_LAPTOP);
  });

  it('is none of the pages, so that the cloud serves none of it beside its gateway', () => {
    expect(DESK_ADDRESSES.filter(([, address]) => address.startsWith('/api'))).toEqual([]);
  });

  it('is shut to whoever has no cookie, and to other sites', async () => {
    expect((await send('GET', '/bundles', undefined, { cookie: '' })).status).toBe(401);
    const other = { origin: 'https://elsewhere.example' };
    const begin = JSON.stringify({ starter: HAT });
    expect((await send('POST', '/bundles', begin, other)).status).toBe(403);
    expect((await ask('GET /bundles')).value).toEqual({ bundles: [] });
  });

  it('answers what it has not with a problem, and no page', async () => {
    for (const request of [
      'GET /nothing',
      'POST /starters',
      'GET /bundles/x/y',
      ...OF_THE_CLOUD.slice(0, 1),
    ]) {
      const [method = '', target = ''] = request.split(' ');
      const response = await send(method, target, method === 'POST' ? '{}' : undefined);
      expect([request, response.status, await response.json()]).toEqual([request, 404, { title: 'There is no such route', status: 404 }]); // prettier-ignore
    }
  });
});

describe('a bundle over the API on this machine', () => {
  it('is begun, and told with every file, in the very state it would have in the cloud', async () => {
    expect((await ask<{ starters: string[] }>('GET /starters')).value.starters).toContain(HAT);
    expect((await ask('POST /bundles', { starter: HAT })).value).toEqual({ bundle: HAT });
    const { files, state, history } = await show();
    expect(history).toEqual([]);
    const held = new Map<string, Uint8Array>();
    for (const { path: name, hash, sizeBytes, url } of files) {
      const sent = await fetch(new URL(url, desk.base), { headers: { cookie: desk.cookie } });
      const bytes = new Uint8Array(await sent.arrayBuffer());
      expect([name, hashBytes(bytes), bytes.length]).toEqual([name, hash, sizeBytes]);
      held.set(name, bytes);
    }
    const room = storeRoom(memoryStore());
    await room.keep(HAT, held);
    expect(await room.state(HAT)).toBe(state);
  });

  it('is corrected, answered, given a file, and taken back', async () => {
    const pattern = await tagOfFile('pattern.json');
    const version = { file: 'pattern.json', pointer: '/version', value: '1.0.1' };
    const made = await ask(`POST /bundles/${HAT}/corrections`, { ...version, tag: pattern });
    expect([made.status, made.value]).toMatchObject([201, { number: 1, after: '1.0.1' }]);
    const late = await ask(`POST /bundles/${HAT}/corrections`, { ...version, tag: pattern });
    expect([late.status, late.value]).toMatchObject([409, { place: 'pattern.json' }]);
    const answer = { code: 'yarn/short', where: '/yarns/0', reason: 'Two balls.' };
    const tag = await tagOfFile('pattern.json');
    expect((await ask(`POST /bundles/${HAT}/acceptances`, { ...answer, tag })).status).toBe(201);
    const notes = { file: 'prose/xx.json', text: '{"title": "Ü"}', said: 'texts' };
    expect((await ask(`POST /bundles/${HAT}/replacements`, notes)).status).toBe(201);
    expect(await readFile(path.join(folder, HAT, 'prose', 'xx.json'), 'utf8')).toBe(notes.text);
    for (const undoes of [3, 2, 1])
      expect((await ask(`POST /bundles/${HAT}/undo`)).value).toMatchObject({ undoes });
    expect((await ask(`POST /bundles/${HAT}/undo`)).status).toBe(404);
    expect((await show()).history).toHaveLength(6);
  });

  it.each<readonly [string, unknown, number]>([
    ['POST /bundles', { starter: 'nobody' }, 404],
    ['POST /bundles', { starter: '../starters' }, 404],
    ['POST /bundles', { upload: crypto.randomUUID() }, 400],
    ['POST /bundles', 'no JSON', 400],
    [`POST /bundles/${HAT}/corrections`, {}, 400],
    [`POST /bundles/${HAT}/corrections`, 'x'.repeat(API_LIMITS.changeBytes + 1), 400],
    [`POST /bundles/${HAT}/replacements`, { file: '../x.json', text: '{}', said: '' }, 422],
    [`POST /bundles/${HAT}/replacements`, { file: 'pattern.json', text: '{}', said: '' }, 409],
    [`POST /bundles/${HAT}/runs`, { languages: [] }, 400],
    [`POST /bundles/${HAT}/runs`, 'x'.repeat(API_LIMITS.bodyBytes + 1), 400],
    ['POST /bundles/nobody/runs', {}, 404],
    ['GET /bundles/nobody', undefined, 404],
    ['GET /bundles/..%2f.desk', undefined, 404],
    ['GET /runs?limit=0', undefined, 400],
    ['GET /runs/nobody', undefined, 404],
    ['GET /runs/nobody/findings', undefined, 404],
    ['POST /runs/nobody/stop', undefined, 404],
    ['GET /releases?after=x', undefined, 400],
    ['GET /releases/nobody', undefined, 404],
    ['GET /releases/..%2f..', undefined, 404],
    ['GET /releases/nobody/1.0.0', undefined, 404],
    ['POST /releases/nobody/1.0.0/zip', undefined, 404],
    ['POST /away/nobody/back', undefined, 404],
  ])('%s with %.40j is refused with %d', async (request, body, status) => {
    expect((await ask(request, body)).status).toBe(status);
  });

  it('gives no file that is not of the bundle', async () => {
    for (const file of ['../x', '.history/00001.json', 'prose', '', '/etc/hosts']) {
      const at = `/bundles/${HAT}/file?path=${encodeURIComponent(file)}`;
      expect([file, (await send('GET', at)).status]).toEqual([file, 404]);
    }
    expect((await send('GET', `/bundles/${HAT}/file`)).status).toBe(400);
  });

  it('is put away and taken back', async () => {
    const put = await ask(`POST /bundles/${HAT}/away`);
    expect(put.value).toMatchObject({ bundle: HAT });
    expect((await ask('GET /away')).value).toEqual({ away: [put.value] });
    expect((await ask('GET /bundles')).value).toEqual({ bundles: [] });
    expect((await ask(`POST /bundles/${HAT}/away`)).status).toBe(404);
    expect((await ask(`POST /away/${HAT}/back`)).value).toEqual({ bundle: HAT });
    expect((await ask('GET /away')).value).toEqual({ away: [] });
  });
});

describe('a run over the API on this machine', () => {
  const PROOF = { languages: ['en-US'], stage: 'proof' };
  const ended = async (run: string) => (await desk.get(`/runs/${run}/events`)).text();
  const start = async () => {
    const { status, value } = await ask<{ run: string }>(`POST /bundles/${HAT}/runs`, PROOF);
    expect(status).toBe(202);
    return value.run;
  };

  it('is stopped, and not a second time', async () => {
    const run = await start();
    expect((await ask(`POST /bundles/${HAT}/away`)).status).toBe(409);
    expect((await ask(`POST /runs/${run}/stop`)).status).toBe(202);
    await ended(run);
    expect((await ask(`GET /runs/${run}`)).value).toMatchObject({ state: 'cancelled' });
    expect((await ask('GET /runs')).value).toMatchObject({ runs: [{ run, bundle: HAT }] });
  });

  it('is followed to its release, whose files are fetched one by one and as one zip', async () => {
    const file = path.join(folder, HAT, 'pattern.json');
    const data = JSON.parse(await readFile(file, 'utf8')) as object;
    await writeFile(file, JSON.stringify({ ...data, languages: ['en-US'] }));
    const run = await start();
    await ended(run);
    const told = (await ask(`GET /runs/${run}`)).value;
    expect(told).toMatchObject({
      state: 'released',
      stage: 'proof',
      done: ['intake', 'check', 'pictures', 'stage'],
      documents: [{ language: 'en-US', edition: 'standard', done: true }],
    });
    expect((await ask(`POST /runs/${run}/stop`)).status).toBe(409);
    expect((await ask(`GET /runs/${run}/findings`)).value).toMatchObject({ blocking: 0 });
    expect((await ask('GET /releases')).value).toEqual({ releases: [] });
    const { copies } = (await ask<{ copies: { name: string }[] }>(`GET /releases/${HAT}`)).value;
    const at = `/releases/${HAT}/${copies[0]?.name ?? ''}`;
    const { files } = (await ask<{ files: { path: string; sizeBytes: number }[] }>(`GET ${at}`)).value; // prettier-ignore
    const [first] = files;
    const follow = async (request: string) => {
      const { url } = (await ask<{ url: string }>(request)).value;
      const sent = await fetch(new URL(url, desk.base), { headers: { cookie: desk.cookie } });
      return new Uint8Array(await sent.arrayBuffer());
    };
    const one = await follow(`GET ${at}/download?path=${encodeURIComponent(first?.path ?? '')}`);
    expect(one.length).toBe(first?.sizeBytes);
    expect((await ask(`GET ${at}/download`)).status).toBe(400);
    expect((await ask(`GET ${at}/download?path=none`)).status).toBe(404);
    expect((await ask(`POST ${at}/zip`)).status).toBe(202);
    const zip = unzipSync(await follow(`GET ${at}/zip`));
    expect(Object.keys(zip).sort()).toEqual(files.map(({ path: each }) => each).sort());
  });
});
