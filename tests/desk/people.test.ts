/**
 * Papers for people at the desk: the editor's packet with what changed since the last one, copies for
 * test knitters, and their sheets read again: right, foreign, damaged, twice.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
let folder: string;
let desk: OpenedDesk;
const file = () => path.join(folder, 'breakwater-hat', 'pattern.json');

beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'people-'));
  desk = await openTestDesk(folder);
  await desk.post('/begin', { starter: 'breakwater-hat' });
  const data = JSON.parse(await readFile(file(), 'utf8')) as object;
  await writeFile(file(), JSON.stringify({ ...data, languages: ['en-US', 'de'] }));
});
afterAll(async () => {
  await desk.close();
  await rm(folder, { recursive: true, force: true });
});

const unzip = async (answer: Response) => {
  expect(answer.status).toBe(200);
  return unzipSync(new Uint8Array(await answer.arrayBuffer()));
};
const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

function formOf(field: string, files: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [name, content] of Object.entries(files))
    form.append(field, new Blob([content]), name);
  return form;
}

describe('the editor’s packet', () => {
  it('holds document, workbook and record, and tells what changed since the record it is given', async () => {
    const first = await unzip(await desk.get(`${HAT}/packet/editor.zip`));
    const name = 'breakwater-hat-1.0.0-editor';
    expect(Object.keys(first).sort()).toEqual([`${name}.json`, `${name}.pdf`, `${name}.xlsx`]);
    expect(text(first[`${name}.pdf`]).slice(0, 5)).toBe('%PDF-');
    const form = formOf('since', { 'last.json': text(first[`${name}.json`]) });
    const second = await unzip(await desk.post(`${HAT}/packet/editor.zip`, form));
    // Nothing changed, and that is told in the document; the record is the same.
    expect(second[`${name}.json`]).toEqual(first[`${name}.json`]);
    expect(second[`${name}.pdf`]).not.toEqual(first[`${name}.pdf`]);
    const foreign = await desk.post(
      `${HAT}/packet/editor.zip`,
      formOf('since', { 'x.json': '{}' }),
    );
    expect(foreign.status).toBe(422);
    expect(await foreign.text()).toContain('This is not the record of a packet');
  });
});

describe('copies for test knitters', () => {
  let sheet: Record<string, unknown> & {
    rows: { key: string; answer: unknown; stated: unknown; unit: string; needed: boolean }[];
  };

  it('are made in one language, in the sizes that were chosen', async () => {
    const files = await unzip(await desk.get(`${HAT}/packet/test.zip?language=de&size=S`));
    const name = 'de/breakwater-hat-1-0-0-test-s-de';
    expect(Object.keys(files).sort()).toEqual(
      ['-return.csv', '-return.json', '-return.xlsx', '.pdf'].map((end) => name + end),
    );
    sheet = JSON.parse(text(files[`${name}-return.json`])) as typeof sheet;
  });

  it('are not made in a language or size the pattern has not', async () => {
    expect((await desk.get(`${HAT}/packet/test.zip?language=xx`)).status).toBe(422);
    const none = await desk.get(`${HAT}/packet/test.zip?language=de&size=XXL`);
    expect(none.status).toBe(422);
  });

  it('are not made while findings stand, and the page says so', async () => {
    const sound = await readFile(file(), 'utf8');
    await writeFile(file(), sound.replace('126 (133, 140', '126 (134, 140'));
    const page = await (await desk.get(`${HAT}/release`)).text();
    expect(page).toContain('a test knitter is not to find what a check has found');
    expect(page).not.toContain('action="/patterns/breakwater-hat/packet/test.zip"');
    expect((await desk.get(`${HAT}/packet/test.zip?language=de`)).status).toBe(422);
    await writeFile(file(), sound);
  });

  /** Filled in by a knitter who knits as stated, but for what is changed. */
  const filled = (
    knitter: string,
    change: (key: string, value: unknown) => unknown = (_, v) => v,
  ) =>
    JSON.stringify({
      ...sheet,
      rows: sheet.rows.map((row) => {
        const value =
          row.key === 'knitter' ? knitter : (row.stated ?? (row.unit === 'text' ? null : 12));
        return { ...row, answer: change(row.key, value) };
      }),
    });

  it('come back: counts as stated, one that is off, remarks', async () => {
    const wrong = sheet.rows.find(({ key }) => key.startsWith('count/'))?.key;
    const files = {
      'marram.json': filled('marram'),
      'sedge.json': filled('sedge', (key, value) =>
        key === wrong ? Number(value) + 2 : key === 'remark' ? '<b>lovely</b>' : value,
      ),
    };
    const answer = await desk.post(`${HAT}/results`, formOf('sheets', files));
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain('2 sheets; sizes: S.');
    expect(page).toContain('Nobody knitted: XS, M, L, XL.');
    expect(page).toMatch(/as stated, 1 otherwise/);
    expect(page).toMatch(/sedge has \d+ sts, stated \d+\..*Nobody else is/);
    expect(page).toContain('&lt;b&gt;lovely&lt;/b&gt;');
    expect(page).toContain('Yarn to state');
  });

  it('are refused with place and remedy where they are foreign, changed, damaged or sent twice', async () => {
    const files = {
      'good.json': filled('marram'),
      'twice.json': filled('marram'),
      'changed.json': filled('sedge').replace('"needed":true', '"needed":false'),
      'other.json': filled('fescue').replaceAll('breakwater-hat', 'another-hat'),
      'broken.json': '{',
      'photo.jpg': 'x',
    };
    const page = await (await desk.post(`${HAT}/results`, formOf('sheets', files))).text();
    expect(page).toContain('One sheet; sizes: S.');
    for (const name of ['twice.json', 'changed.json', 'other.json', 'broken.json', 'photo.jpg'])
      expect(page).toContain(`<strong>${name}</strong>`);
    const none = await desk.post(`${HAT}/results`, formOf('sheets', { 'broken.json': '{' }));
    expect(none.status).toBe(422);
    expect(await none.text()).toContain('No sheet could be read.');
    expect((await desk.post(`${HAT}/results`, new FormData())).status).toBe(422);
  });
});
