/**
 * A run from the desk: told as it happens, heard from the beginning by whoever comes later, stopped,
 * remembered over a restart; then its files, which are found by the manifest alone. The shapes of
 * `/api` are held against the OpenAPI description of the cloud.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import { openTestDesk, type OpenedDesk } from './opened.ts';

let folder: string;
let desk: OpenedDesk;
beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'desk-'));
  desk = await openTestDesk(folder);
  await desk.post('/begin', { starter: 'breakwater-hat' });
  const file = path.join(folder, 'breakwater-hat', 'pattern.json');
  const data = JSON.parse(await readFile(file, 'utf8')) as object;
  await writeFile(file, JSON.stringify({ ...data, languages: ['en-US'] }));
});
afterAll(async () => {
  await desk.close();
  await rm(folder, { recursive: true, force: true });
});

const page = async () => (await desk.get('/patterns/breakwater-hat/release')).text();
const start = async () => {
  await desk.post('/patterns/breakwater-hat/runs', {});
  return /data-run="([^"]+)"/.exec(await page())?.[1] ?? '';
};
const hear = async (run: string) => (await desk.get(`/runs/${run}/events`)).text();

const schemas = new Ajv2020({ strict: false, validateFormats: false }).addSchema(openapi, 'api');
async function expectShape(name: string, target: string): Promise<unknown> {
  const value: unknown = await (await desk.get(target)).json();
  const check = schemas.getSchema(`api#/components/schemas/${name}`);
  expect(check?.(value), JSON.stringify(check?.errors)).toBe(true);
  return value;
}

describe('a run', () => {
  let run = '';

  it('is stopped by the person who started it', async () => {
    const stopped = await start();
    await desk.post(`/runs/${stopped}/cancel`, {});
    expect(await hear(stopped)).toContain('"state":"cancelled"');
    expect(await page()).toContain('Stopped by hand');
    expect(await expectShape('Run', `/api/runs/${stopped}`)).toMatchObject({ state: 'cancelled' });
  });

  it('is told as it happens, and from the beginning to whoever comes later', async () => {
    run = await start();
    expect(await start()).toBe(run);
    const told = await hear(run);
    expect(told).toContain('"step":"compose"');
    expect(told).toContain('"state":"released"');
    expect(await hear(run)).toBe(told);
  });

  it('gives its files by the manifest, and all of them as a zip', async () => {
    const html = await page();
    const [, document = ''] = /href="(\/files\/[^"]+\.pdf)"/.exec(html) ?? [];
    const pdf = await desk.get(document);
    expect(pdf.headers.get('content-type')).toBe('application/pdf');
    expect((await pdf.text()).slice(0, 5)).toBe('%PDF-');
    const [, all = ''] = /href="(\/files\/[^"]+\.zip)"/.exec(html) ?? [];
    const zip = unzipSync(new Uint8Array(await (await desk.get(all)).arrayBuffer()));
    expect(Object.keys(zip).some((name) => name.endsWith('.pdf'))).toBe(true);
    expect((await desk.get('/files/breakwater-hat/1.0.0/.store/x')).status).toBe(404);
    expect((await desk.get('/files/breakwater-hat/9.9.9/x.pdf')).status).toBe(404);
  });

  it('answers in the shapes of the cloud', async () => {
    await expectShape('Run', `/api/runs/${run}`);
    await expectShape('Findings', `/api/runs/${run}/findings`);
    await expectShape('Pattern', '/api/releases/breakwater-hat');
    await expectShape('Manifest', '/api/releases/breakwater-hat/1.0.0');
  });

  it('says what a release would bring, and raises the number where it must', async () => {
    const follow = async () => (await desk.get('/patterns/breakwater-hat/follow')).text();
    expect(await follow()).toContain('Version 1.0.0 is released, exactly as the pattern lies here');
    const file = path.join(folder, 'breakwater-hat', 'prose', 'en-US.json');
    const sound = await readFile(file, 'utf8');
    const texts = JSON.parse(sound) as Record<string, unknown>;
    await writeFile(file, JSON.stringify({ ...texts, care: 'Wash it cold and dry it flat.' }));
    const said = await follow();
    expect(said).toContain('Buyers of version 1.0.0 would be sent these corrections');
    expect(said).toContain('Reworded: Care');
    const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(said)?.[1];
    const fields = ['file', 'pointer', 'tag', 'value', 'back'].map((name) => [name, hidden(name)]);
    const raised = await desk.post(
      '/patterns/breakwater-hat/correct',
      Object.fromEntries(fields) as Record<string, string>,
    );
    expect(raised.headers.get('location')).toBe('/patterns/breakwater-hat/release?done=correct');
    expect(await follow()).not.toContain('too small');
    await desk.post('/patterns/breakwater-hat/undo', {});
    await writeFile(file, sound);
  });

  it('is run again in the same editions, and not while it is at work', async () => {
    const form = { edition: 'ink-saving', papers: 'both' };
    await desk.post('/patterns/breakwater-hat/runs', form);
    const working = /data-run="([^"]+)"/.exec(await page())?.[1] ?? '';
    expect((await desk.post(`/runs/${working}/again`, {})).status).toBe(409);
    await desk.post(`/runs/${working}/cancel`, {});
    await hear(working);
    await desk.post(`/runs/${working}/again`, {});
    const again = /data-run="([^"]+)"/.exec(await page())?.[1] ?? '';
    expect(again).not.toBe(working);
    const record = await readFile(path.join(folder, '.desk', 'runs', `${again}.json`), 'utf8');
    expect((JSON.parse(record) as { settings: { editions: unknown } }).settings.editions).toEqual(
      ['standard', 'ink-saving'].flatMap((kind) =>
        ['A4', 'Letter'].map((paper) => ({ kind, paper })),
      ),
    );
    await desk.post(`/runs/${again}/cancel`, {});
    await hear(again);
  });

  it('is remembered when the desk was closed; one cut short is told as lost', async () => {
    const record = path.join(folder, '.desk', 'runs', `${run}.json`);
    const kept = JSON.parse(await readFile(record, 'utf8')) as object;
    const cut = { ...kept, run: 'cut-short', state: 'working', seen: 'another state' };
    await writeFile(path.join(folder, '.desk', 'runs', 'cut-short.json'), JSON.stringify(cut));
    await desk.close();
    desk = await openTestDesk(folder);
    const html = await page();
    expect(html).toContain('Released');
    expect(html).toContain('Cut short; nothing was released');
    expect(html).toContain('.pdf');
  });
});
