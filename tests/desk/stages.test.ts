/**
 * The life of a release at the desk: a starter from its proof over a test copy to the sale, with a wrong
 * number, a doubt and a language nobody has looked through on the way. What the page says before a run is
 * held against what the run then does.
 */
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
let folder: string;
let desk: OpenedDesk;
let sound: string;
const file = () => path.join(folder, 'breakwater-hat', 'pattern.json');

/** The hat in English and in Finnish, which nobody of the house has looked through. */
const write = async (change: (text: string) => string, more: object = {}) => {
  const data = JSON.parse(change(sound)) as object;
  const own = { languages: ['en-US', 'fi'], unreviewed: [] };
  await writeFile(file(), JSON.stringify({ ...data, ...own, ...more }));
};
const same = (text: string) => text;
const wrong = (text: string) => text.replace('126 (133, 140', '126 (134, 140');
/** An answer to a doubt that is not there is a doubt itself. */
const doubtful = {
  accepted: [{ code: 'measure/jumps', where: '/yarns', reason: 'so it is worn' }],
};

beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'stages-'));
  desk = await openTestDesk(folder);
  await desk.post('/begin', { starter: 'breakwater-hat' });
  sound = await readFile(file(), 'utf8');
});
afterAll(async () => {
  await desk.close();
  await rm(folder, { recursive: true, force: true });
});

const page = async (at = '/release') => (await desk.get(HAT + at)).text();

/** How the page stands to a stage. */
async function standing(stage: string): Promise<string> {
  const [, said = ''] =
    new RegExp(`id="stage-${stage}">.*?<p class="(clear|open)">`).exec(await page()) ?? [];
  return said;
}

async function run(fields: Readonly<Record<string, string>>) {
  const answer = await desk.post(`${HAT}/runs`, fields);
  if (answer.status !== 303) return { status: answer.status, said: await answer.text() };
  const html = await page();
  const id = /data-run="([^"]+)"/.exec(html)?.[1];
  if (id !== undefined) await (await desk.get(`/runs/${id}/events`)).text();
  const [last] = (await readdir(path.join(folder, '.desk', 'runs'))).length > 0 ? [id] : [];
  const told = (await (await desk.get(`/api/runs/${last}`)).json()) as Record<string, unknown>;
  return { status: 303, ...told };
}

const proposed = async () =>
  /value="(\w+)" aria-describedby="[\w-]+" checked/.exec(await page())?.[1];

describe('what stands against a stage is what stops its run', () => {
  it('an error stands against all three', async () => {
    await write(wrong);
    expect(await Promise.all(['proof', 'test', 'sale'].map(standing))).toEqual([
      'open',
      'open',
      'open',
    ]);
    expect(await run({ stage: 'proof' })).toMatchObject({ state: 'blocked' });
  });

  it('a doubt nobody has answered stands against test copy and sale, and not against a proof', async () => {
    await write(same, doubtful);
    expect(await Promise.all(['proof', 'test', 'sale'].map(standing))).toEqual([
      'clear',
      'open',
      'open',
    ]);
    expect(await run({ stage: 'test' })).toMatchObject({ state: 'blocked' });
    expect(await run({ stage: 'proof' })).toMatchObject({
      state: 'released',
      stage: 'proof',
      copy: 1,
    });
  });

  it('a language nobody has looked through stands against the sale alone, and never offers itself', async () => {
    await write(same);
    expect(await Promise.all(['proof', 'test', 'sale'].map(standing))).toEqual([
      'clear',
      'clear',
      'clear',
    ]);
    expect(await page()).toMatch(/name="unreviewed" value="fi">/);
    const { status, said } = await run({ stage: 'sale', edition: 'large', papers: 'both' });
    expect(status).toBe(422);
    expect(said).toContain('Nobody who knits in it has looked through suomi');
    // Nothing that was chosen is lost.
    expect(said).toMatch(/value="sale" aria-describedby="stage-sale" checked/);
    expect(said).toMatch(/value="large" checked/);
    expect(said).toMatch(/value="both" checked/);
  });

  it('says what the languages lack, as a part and as a page of its own', async () => {
    expect(await page('/stages')).toContain('No language stands against any of the three');
    await write(same, { languages: ['en-US', 'de'] });
    const prose = path.join(folder, 'breakwater-hat', 'prose', 'de.json');
    const german = await readFile(prose, 'utf8');
    const { care: _care, ...less } = JSON.parse(german) as Record<string, unknown>;
    await writeFile(prose, JSON.stringify(less));
    expect(await page('/stages')).toMatch(
      /Deutsch<\/strong>.*against: Proof, Test copy, and For sale/,
    );
    await writeFile(prose, german);
  });
});

describe('a starter from proof over test copy to sale', () => {
  it('is proposed the stage after the one that was made, and makes a proof of what is corrected', async () => {
    await write(same);
    expect(await proposed()).toBe('test');
    expect(await run({ stage: 'proof' })).toMatchObject({ stage: 'proof', copy: 2 });
  });

  it('gives an equal proof the number it has', async () => {
    expect(await run({ stage: 'proof' })).toMatchObject({ state: 'released', copy: 2 });
    expect(await page()).not.toContain('Proof 3');
  });

  it('makes a test copy, and then proposes the sale', async () => {
    expect(await run({ stage: 'test' })).toMatchObject({ stage: 'test', copy: 1 });
    expect(await proposed()).toBe('sale');
  });

  it('goes on sale with the language knowingly offered, and says so', async () => {
    const sold = await run({ stage: 'sale', unreviewed: 'fi' });
    expect(sold).toMatchObject({ state: 'released', version: '1.0.0' });
    expect(sold).not.toHaveProperty('stage');
    expect(await page('/made/1.0.0')).toContain('Knowingly offered unreviewed: suomi.');
  });

  it('lists every copy; its files are opened and taken by its name alone', async () => {
    const html = await page();
    const named = [...html.matchAll(/made\/(1\.0\.0-\w+-\d)">([^<]+)</g)].map(([, at, name]) => [
      at,
      name,
    ]);
    expect(named).toEqual([
      ['1.0.0-test-1', 'Test copy 1 of version 1.0.0'],
      ['1.0.0-proof-2', 'Proof 2 of version 1.0.0'],
      ['1.0.0-proof-1', 'Proof 1 of version 1.0.0'],
    ]);
    const copy = await page('/made/1.0.0-proof-2');
    const [, address = ''] = /href="(\/files\/[^"]+\.pdf)"/.exec(copy) ?? [];
    expect(address).toContain('/files/breakwater-hat/1.0.0-proof-2/');
    const pdf = Buffer.from(await (await desk.get(address)).arrayBuffer());
    const forSale = Buffer.from(
      await (await desk.get(address.replace('-proof-2/', '/'))).arrayBuffer(),
    );
    // What is for sale is, byte by byte, the beginning of the proof.
    expect(pdf.length).toBeGreaterThan(forSale.length);
    const zip = await desk.get('/files/breakwater-hat/1.0.0-proof-2.zip');
    expect(zip.headers.get('content-disposition')).toContain('breakwater-hat-1.0.0-proof-2.zip');
    const names = Object.keys(unzipSync(new Uint8Array(await zip.arrayBuffer())));
    expect(names.some((name) => name.endsWith('.pdf'))).toBe(true);
    for (const hostile of [
      '1.0.0-proof-9/x.pdf',
      '1.0.0-proof-0/x.pdf',
      '1.0.0/proof/1/manifest.json',
      '1.0.0-proof-2/../../x',
    ])
      expect((await desk.get(`/files/breakwater-hat/${hostile}`)).status).toBe(404);
    expect((await desk.get(`${HAT}/made/1.0.0-proof-9`)).status).toBe(404);
  });

  it('names its stage in the history of runs, and is run again as it was', async () => {
    const html = await page();
    expect(html).toContain('<strong>Made</strong> Proof 2 of version 1.0.0');
    expect(html).toContain('<strong>Released</strong> Version 1.0.0');
    const [, again = ''] = /Held back by findings<\/strong> Test copy.*?action="(\/runs\/[^"]+\/again)"/.exec(html) ?? []; // prettier-ignore
    await desk.post(again, {});
    const id = /data-run="([^"]+)"/.exec(await page())?.[1] ?? '';
    await (await desk.get(`/runs/${id}/events`)).text();
    expect(await (await desk.get(`/api/runs/${id}`)).json()).toMatchObject({
      stage: 'test',
      copy: 1,
    });
  });

  it('tells copies in the shapes of the cloud', async () => {
    const schemas = new Ajv2020({ strict: false, validateFormats: false }).addSchema(
      openapi,
      'api',
    );
    for (const [name, target] of [
      ['Pattern', '/api/releases/breakwater-hat'],
      ['Manifest', '/api/releases/breakwater-hat/1.0.0-proof-2'],
    ]) {
      const value: unknown = await (await desk.get(target ?? '')).json();
      const check = schemas.getSchema(`api#/components/schemas/${name}`);
      expect(check?.(value), JSON.stringify(check?.errors)).toBe(true);
    }
  });
});
