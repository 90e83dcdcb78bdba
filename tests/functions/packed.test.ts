/**
 * The functions as they are deployed: bundled, with their data, fonts and packages, each in a process
 * of its own, told of a real upload, over loopback: a font or a package left out shows here.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import type { APIGatewayProxyStructuredResultV2 } from 'aws-lambda';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../infra/functions.ts';
import { hashBytes } from '../../src/base/hash.ts';
import { findRelease } from '../../src/release/commit.ts';
import { s3Store } from '../../src/store/s3.ts';
import { unzip } from '../release/unzip.ts';
import { witness } from '../release/witness.ts';
import { clientOf } from '../store/client.ts';
import type { S3Front } from '../store/s3-front/server.ts';
import { led } from './at-work.ts';
import { eventOf, openBrowserBefore } from './browser.ts';
import { objectCreated } from './events.ts';
import type { TestIssuer } from './issuer.ts';
import type { LambdaHost } from './lambda/host.ts';
import { startPacked, zipOfStarter } from './lambda/packed.ts';
import type { LoopbackMachines } from './step-functions.ts';

const STARTER = 'templates/starters/breakwater-hat';
const isWhole = existsSync(join(STARTER, 'photos', 'cover.jpg'));

/** What the API answers, as far as it is looked at. */
interface Said {
  readonly bundle?: string;
  readonly files?: readonly {
    readonly path: string;
    readonly hash: string;
    readonly url: string;
  }[];
  readonly draft?: string;
  readonly put?: { readonly url: string; readonly headers: Readonly<Record<string, string>> };
  readonly url?: string;
  readonly run?: string;
}

describe.skipIf(!isWhole)('the packed functions', () => {
  let folder: string;
  let front: S3Front;
  let machines: LoopbackMachines;
  let hosts: ReadonlyMap<string, LambdaHost>;
  let issuer: TestIssuer;
  let close = () => Promise.resolve();

  beforeAll(async () => {
    ({ folder, front, machines, hosts, issuer, close } = await startPacked());
  });
  afterAll(() => close());

  /** The API, as a person of the studio asks it. */
  const ask = async (routeKey: string, words: object = {}, body?: unknown): Promise<Said> => {
    const jwt = { claims: { studio: 'northfold' } };
    const told = { body: JSON.stringify(body ?? {}), pathParameters: words };
    const event = { routeKey, ...told, requestContext: { authorizer: { jwt } } };
    const answer = (await hosts.get('api')?.invoke(event)) as { body: string };
    return JSON.parse(answer.body) as Said;
  };

  it('are small enough to be deployed, and none carries what it does not need', async () => {
    for (const { name, parts } of FUNCTIONS) {
      const has = (path: string) => existsSync(join(folder, name, path));
      expect((await stat(join(folder, name, 'handler.mjs'))).size).toBeLessThan(10 * 1024 * 1024);
      expect(has('fonts')).toBe(parts.includes('fonts'));
      expect(has('node_modules/sharp')).toBe(parts.includes('pictures'));
      expect(has('locales')).toBe(parts.includes('data'));
      expect(has('templates/desk')).toBe(parts.includes('pages'));
      expect(has('templates/starters')).toBe(parts.includes('starters'));
      expect(has('templates/starters/render')).toBe(false);
    }
  });

  /** 50 MB is what Lambda takes as an upload ("Lambda quotas", Developer Guide); 250 MB unpacked. */
  it('weigh less than 50 MB zipped each, and 250 MB unpacked', () => {
    const zipped = new Map<string, number>();
    for (const { name } of FUNCTIONS) {
      const files = readdirSync(join(folder, name), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name));
      let [whole, packed] = [0, 0];
      for (const file of files) {
        const bytes = readFileSync(file);
        // The same fonts lie in four functions; they are packed once here.
        const key = `${relative(join(folder, name), file)} ${bytes.length}`;
        const size = zipped.get(key) ?? deflateRawSync(bytes, { level: 1 }).length;
        zipped.set(key, size);
        [whole, packed] = [whole + bytes.length, packed + size];
      }
      expect(packed, name).toBeLessThan(50e6);
      expect(whole, name).toBeLessThan(250e6);
    }
  });

  it('turn an upload into a release', async () => {
    const client = clientOf(front);
    const bytes = await zipOfStarter(STARTER);
    await s3Store(client, { bucket: 'uploads', prefix: '' }).put('northfold/hat.zip', bytes);
    const event = objectCreated('northfold/hat.zip', 'null', bytes.length);
    const started = (await hosts.get('starter')?.invoke(event)) as { run: string };
    const end = await machines.runs.get(started.run);
    expect(end, JSON.stringify(end)).toMatchObject({ status: 'succeeded', state: 'Released' });
    const releases = s3Store(client, { bucket: 'releases', prefix: 'northfold' });
    const version = await witness(releases, 'breakwater-hat');
    const manifest = await findRelease(releases, 'breakwater-hat', version ?? '');
    const documents = manifest?.files.filter(({ role }) => role === 'document') ?? [];
    expect(documents).toHaveLength(manifest?.languages.length ?? -1);
    expect(documents.every(({ sizeBytes }) => sizeBytes > 10_000)).toBe(true);
    expect(front.denied).toEqual([]);
  });

  it('show pages, and lead whoever is a stranger to the sign-in', async () => {
    const show = async (asked: string) => {
      const [method = '', address = ''] = asked.split(' ');
      const answer = (await hosts.get('pages')?.invoke(eventOf(method, address, {}))) as {
        readonly statusCode: number;
        readonly headers: Readonly<Record<string, string>>;
        readonly body: string;
        readonly isBase64Encoded?: boolean;
      };
      const form = answer.isBase64Encoded ? 'base64' : 'utf8';
      return { ...answer, body: Buffer.from(answer.body, form).toString('utf8') };
    };
    const stranger = await show('GET /');
    expect([stranger.statusCode, stranger.headers['location']]).toEqual([303, '/sign-in?to=%2F']);
    const refused = await show('GET /sign-in/back');
    expect(refused.statusCode).toBe(403);
    expect(refused.body).toContain('The sign-in was refused');
    for (const file of ['desk.css', 'hand-in.js', 'zip.mjs', 'reader/pdf.worker.mjs']) {
      const { statusCode, body } = await show(`GET /${file}`);
      expect([file, statusCode, body.length > 100]).toEqual([file, 200, true]);
    }
  });

  it('show a designer who signed in all that the desk works out', async () => {
    const browser = openBrowserBefore(
      async (event) =>
        (await hosts.get('pages')?.invoke(event)) as APIGatewayProxyStructuredResultV2,
    );
    browser.jar.set('__Host-desk', await issuer.sign({ sub: 'someone', studio: 'ada' }));
    const hat = led(await browser.post('/begin', { starter: 'breakwater-hat' }));
    const kinds = {
      '': 'text/html',
      '/numbers': 'text/html',
      '/numbers.xlsx': 'spreadsheetml',
      '/drawings': 'text/html',
      '/languages': 'text/html',
      '/cover': 'image/',
      '/sheet.pdf?language=de': 'application/pdf',
      '/sheet.pdf?language=ja': 'application/pdf',
      '/web-page?language=fr': 'text/html',
      '/texts/de.xlf?all': 'xliff',
      '/packet/editor.zip': 'application/zip',
    };
    for (const [part, kind] of Object.entries(kinds)) {
      const { status, heads, location } = await browser.get(hat + part);
      const type = status === 303 ? (await fetch(location)).headers.get('content-type') : heads['content-type']; // prettier-ignore
      expect([part, [200, 303].includes(status), type]).toEqual([part, true, expect.stringContaining(kind)]); // prettier-ignore
    }
    expect(front.denied).toEqual([]);
  });

  it('lay a starter and an upload on the shelf, change them and lend addresses', async () => {
    const { bundle } = await ask('POST /bundles', {}, { starter: 'breakwater-hat' });
    const { files } = await ask('GET /bundles/{bundle}', { bundle });
    const pattern = files?.find(({ path }) => path === 'pattern.json');
    const tag = pattern?.hash.slice(0, 32);
    const correction = { file: 'pattern.json', pointer: '/version', value: '1.1.0', tag };
    const made = await ask('POST /bundles/{bundle}/corrections', { bundle }, correction);
    expect(made).toMatchObject({ number: 1, after: '1.1.0' });
    const uploads = s3Store(clientOf(front), { bucket: 'uploads', prefix: '' });
    const upload = '7a3c5b1e-2f7d-4c69-9b0a-5d1f0c8e2a44';
    expect(await ask('POST /bundles', {}, { upload })).toMatchObject({ status: 404 });
    await uploads.put(`northfold/desk/${upload}.zip`, await zipOfStarter(STARTER));
    expect(await ask('POST /bundles', {}, { upload })).toEqual({ bundle: 'breakwater-hat-2' });
    const order = { contentType: 'application/pdf', sizeBytes: 3 };
    const { draft, put, url = '' } = await ask('POST /drafts', {}, order);
    await fetch(put?.url ?? '', { method: 'PUT', headers: put?.headers ?? {}, body: 'pdf' });
    expect(await ask('GET /drafts/{draft}', { draft })).toHaveProperty('url');
    for (const address of [url, pattern?.url ?? '']) expect((await fetch(address)).ok).toBe(true);
    expect(front.denied).toEqual([]);
  });

  it('publish a bundle of the shelf, tell its documents, and stop no run that has ended', async () => {
    const order = { languages: ['en-US'], stage: 'proof' };
    const bundle = 'breakwater-hat';
    const { run = '' } = await ask('POST /bundles/{bundle}/runs', { bundle }, order);
    const end = await machines.runs.get(run);
    expect(end, JSON.stringify(end)).toMatchObject({ status: 'succeeded', state: 'Released' });
    expect(await ask('GET /runs/{run}', { run })).toMatchObject({
      state: 'released',
      bundle,
      stage: 'proof',
      documents: [{ language: 'en-US', edition: 'standard', done: true }],
    });
    expect(await ask('GET /runs')).toMatchObject({ runs: [{ run }, {}] });
    expect(await ask('POST /runs/{run}/stop', { run })).toMatchObject({ status: 409 });
    expect(front.denied).toEqual([]);
  });

  it('make one zip of a release, when its order arrives', async () => {
    const words = { pattern: 'breakwater-hat', version: '1.0.0' };
    const zip = '/releases/{pattern}/{version}/zip';
    expect(await ask(`POST ${zip}`, words)).toHaveProperty('since');
    const key = 'northfold/zips/breakwater-hat/1.0.0.json';
    await hosts.get('zip')?.invoke(objectCreated(key, 'null', 40));
    const { url = '' } = await ask(`GET ${zip}`, words);
    const files = await unzip(new Uint8Array(await (await fetch(url)).arrayBuffer()));
    const releases = s3Store(clientOf(front), { bucket: 'releases', prefix: 'northfold' });
    const manifest = await findRelease(releases, 'breakwater-hat', '1.0.0');
    expect(files.size).toBe(manifest?.files.length);
    for (const { path, artifact } of manifest?.files ?? [])
      expect(hashBytes(files.get(path)?.bytes ?? new Uint8Array()), path).toBe(artifact);
    expect(front.denied).toEqual([]);
  });

  it('are refused what their role does not allow', async () => {
    const compose = s3Store(clientOf({ ...front, keys: front.keysOf('compose') }), {
      bucket: 'releases',
      prefix: 'northfold',
    });
    const manifest = 'releases/breakwater-hat/1.0.0/manifest.json';
    await expect(compose.put(manifest, new Uint8Array(9))).rejects.toThrow('AccessDenied');
    await expect(compose.delete('artifacts/x')).rejects.toThrow('AccessDenied');
    expect(front.denied).toEqual([
      `compose PUT releases/northfold/${manifest}`,
      'compose DELETE releases/northfold/artifacts/x',
    ]);
  });

  it('carry a fault through the machine as words', async () => {
    const client = clientOf(front);
    await s3Store(client, { bucket: 'uploads', prefix: '' }).put('a/no.zip', new Uint8Array(9));
    const started = (await hosts.get('starter')?.invoke(objectCreated('a/no.zip', 'null', 9))) as {
      run: string;
    };
    const end = await machines.runs.get(started.run);
    expect(end).toMatchObject({ status: 'failed', error: 'Castoff.Refused' });
    const work = s3Store(client, { bucket: 'work', prefix: 'a' });
    const record = await work.get(`runs/${started.run}/failure.json`);
    expect(JSON.parse(new TextDecoder().decode(record?.bytes))).toMatchObject({
      kind: 'input',
      message: 'the file is no zip',
    });
  });
});
