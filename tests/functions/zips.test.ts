/**
 * All files of a release as one zip: ordered and fetched through the API, made by its function as the event
 * of the order reaches it, read again by yauzl.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { artifactKey, manifestKey } from '../../src/release/keys.ts';
import { type Manifest, writeManifest } from '../../src/release/manifest.ts';
import { unzip } from '../release/unzip.ts';
import { objectCreated } from './events.ts';
import { OpenedApi } from './opened-api.ts';

const api = new OpenedApi();
const { ask, publish } = api;

let make: (event: unknown) => Promise<unknown>;
beforeAll(async () => {
  ({ handler: make } = await import('../../functions/zip/handler.ts'));
});

const NAME = 'skerry-hat/1.0.0';
const ZIP = `/releases/${NAME}/zip`;
/** The event that the bucket sends for an order. */
const eventOf = (name = NAME, studio = 'ada') =>
  objectCreated(`${studio}/zips/${name}.json`, 'null', 40);

const workKeys = async (): Promise<readonly string[]> => {
  const keys: string[] = [];
  for await (const { key } of api.cloud.studio('ada').work.list('zips/')) keys.push(key);
  return keys;
};

const manifestOf = async (name = NAME) => (await ask(`GET /releases/${name}`)).value as Manifest;

async function fetched(name = NAME) {
  const { status, value } = await ask(`GET /releases/${name}/zip`);
  expect(status).toBe(200);
  const response = await fetch((value as { readonly url: string }).url);
  const files = await unzip(new Uint8Array(await response.arrayBuffer()));
  return { files, headers: response.headers };
}

describe('the zip of a release', () => {
  it('is ordered, waited for and fetched, and holds every file as it was released', async () => {
    await publish();
    expect((await ask(`GET ${ZIP}`)).status).toBe(404);
    const ordered = await ask(`POST ${ZIP}`);
    expect(ordered).toEqual({ status: 202, value: { since: expect.any(String) } });
    expect(await ask(`GET ${ZIP}`)).toEqual(ordered);
    expect(await workKeys()).toEqual([`zips/${NAME}.json`]);
    await make(eventOf());
    const { files, headers } = await fetched();
    const manifest = await manifestOf();
    expect([...files.keys()].sort()).toEqual(manifest.files.map(({ path }) => path).sort());
    for (const { path, artifact } of manifest.files)
      expect(hashBytes(files.get(path)?.bytes ?? new Uint8Array())).toBe(artifact);
    expect(headers.get('content-type')).toBe('application/zip');
    expect(headers.get('content-disposition')).toBe('attachment; filename="skerry-hat-1.0.0.zip"');
  });

  it('is made once, however often it is ordered and told of', async () => {
    await publish();
    const [first, second] = await Promise.all([ask(`POST ${ZIP}`), ask(`POST ${ZIP}`)]);
    expect([first.status, second.status]).toEqual([202, 202]);
    const written: string[] = [];
    api.cloud.front.trouble = (request) => {
      if (/^(PUT|POST) work\//.test(request)) written.push(request);
      return undefined;
    };
    await make(eventOf());
    const once = written.length;
    await make(eventOf());
    expect((await ask(`POST ${ZIP}`)).status).toBe(202);
    api.cloud.front.trouble = () => undefined;
    // Begun, one part, made whole.
    expect([once, written.length]).toEqual([3, 3]);
  });

  it('is made of a proof as well, by its name', async () => {
    await publish('ada', { stage: 'proof' });
    const name = 'skerry-hat/1.0.0-proof-1';
    expect((await ask(`POST /releases/${name}/zip`)).status).toBe(202);
    await make(eventOf(name));
    const { files, headers } = await fetched(name);
    expect(files.size).toBe((await manifestOf(name)).files.length);
    expect(headers.get('content-disposition')).toContain('skerry-hat-1.0.0-proof-1.zip');
  });

  it('can be ordered again where its making was cut off', async () => {
    await publish();
    const { work } = api.cloud.studio('ada');
    const old = JSON.stringify({ since: '2026-01-01T00:00:00.000Z' });
    await work.put(`zips/${NAME}.json`, new TextEncoder().encode(old));
    expect((await ask(`GET ${ZIP}`)).status).toBe(404);
    const { value } = await ask(`POST ${ZIP}`);
    expect((value as { readonly since: string }).since > '2026-01-02').toBe(true);
    expect((await ask(`GET ${ZIP}`)).status).toBe(202);
  });

  it('is not there, nor ever half, where a file of it is not what was released', async () => {
    await publish();
    await ask(`POST ${ZIP}`);
    const [file] = (await manifestOf()).files;
    const key = artifactKey(file?.artifact ?? '', file?.mediaType ?? '');
    await api.cloud.studio('ada').releases.put(key, new TextEncoder().encode('spoilt'));
    await expect(make(eventOf())).rejects.toThrow('is not what it is named for');
    expect(await workKeys()).toEqual([`zips/${NAME}.json`]);
  });

  it('is refused where the format could not hold it', async () => {
    await publish();
    const manifest = await manifestOf();
    const files = manifest.files.map((file) => ({ ...file, sizeBytes: 1024 ** 3 }));
    const { releases } = api.cloud.studio('ada');
    const huge = writeManifest({ ...manifest, version: '2.0.0', files });
    await releases.put(manifestKey('skerry-hat', '2.0.0'), huge);
    expect(await ask('POST /releases/skerry-hat/2.0.0/zip')).toMatchObject({
      status: 409,
      value: { title: 'The release is too large for one zip' },
    });
    expect(await workKeys()).toEqual([]);
  });

  it.each([
    'skerry-hat/9.0.0',
    'skerry-hat/1.0.0-proof-7',
    'no-hat/1.0.0',
    'skerry-hat/..%2F1.0.0',
  ])('of %s is not there', async (name) => {
    await publish();
    expect((await ask(`POST /releases/${name}/zip`)).status).toBe(404);
    expect((await ask(`GET /releases/${name}/zip`)).status).toBe(404);
    expect(await workKeys()).toEqual([]);
  });

  it.each([
    'ada/zips/skerry-hat/1.0.0.zip',
    'ada/runs/zips/x/1.0.0.json',
    '../zips/skerry-hat/1.0.0.json',
    'ada/zips/skerry-hat/current.json',
    'ada/zips/no-hat/1.0.0.json',
  ])('is not made for an object named %s', async (key) => {
    await publish();
    await make(objectCreated(key, 'null', 40));
    expect(await workKeys()).toEqual([]);
  });
});
