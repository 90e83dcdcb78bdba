/**
 * Papers that leave the desk and come back: nothing is written before somebody has seen the changes and
 * said yes, a stale or a strange file writes nothing, and what was taken can be taken back.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestDesk, type OpenedDesk } from './opened.ts';

let desk: OpenedDesk;
const address = '/patterns/breakwater-hat';
const file = () => path.join(desk.folder, 'breakwater-hat', 'pattern.json');
beforeAll(async () => {
  desk = await openTestDesk();
  await desk.post('/begin', { starter: 'breakwater-hat' });
});
afterAll(() => desk.close());

async function handIn(to: string, name: string, text: string) {
  const form = new FormData();
  form.append('paper', new Blob([text]), name);
  const answer = await desk.post(`${address}/${to}`, form);
  const html = await answer.text();
  return { status: answer.status, html, token: /name="waits" value="([^"]+)"/.exec(html)?.[1] };
}

describe('the numbers as a table', () => {
  it('come back changed, are shown, and are written only then', async () => {
    const sound = await readFile(file(), 'utf8');
    const table = await (await desk.get(`${address}/numbers.csv`)).text();
    const changed = table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, (_, head: string, count: string) => `${head}${Number(count) + 1}`); // prettier-ignore
    expect(changed).not.toBe(table);
    const { html, token } = await handIn('sheet', 'numbers.csv', changed);
    expect(html).toContain('Nothing is written yet');
    expect(html).toMatch(/gauges [\w ]+stitches: \d+ → \d+/);
    expect(await readFile(file(), 'utf8')).toBe(sound);
    const taken = await desk.post(`${address}/take`, { waits: token ?? '' });
    expect(taken.headers.get('location')).toBe(`${address}?done=papers`);
    expect(await readFile(file(), 'utf8')).not.toBe(sound);
    expect((await desk.post(`${address}/take`, { waits: token ?? '' })).status).toBe(404);
    await desk.post(`${address}/undo`, {});
    expect(await readFile(file(), 'utf8')).toBe(sound);
  });

  it('write nothing over a pattern that changed while they waited', async () => {
    const sound = await readFile(file(), 'utf8');
    const table = await (await desk.get(`${address}/numbers.csv`)).text();
    const changed = table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, '$199');
    const { token } = await handIn('sheet', 'numbers.csv', changed);
    await writeFile(file(), sound.replace('"1.0.0"', '"1.0.1"'));
    expect((await desk.post(`${address}/take`, { waits: token ?? '' })).status).toBe(409);
    await writeFile(file(), sound);
  });

  it('refuse what is no table of this pattern', async () => {
    expect((await handIn('sheet', 'numbers.pdf', 'x')).status).toBe(422);
    expect((await handIn('sheet', 'numbers.csv', 'a,b\n1,2\n')).status).toBe(422);
    expect((await handIn('sheet', 'numbers.xlsx', 'no zip')).status).toBe(422);
  });
});

describe('the texts of a language', () => {
  it('go out as XLIFF and come back checked', async () => {
    const prose = path.join(desk.folder, 'breakwater-hat', 'prose', 'de.json');
    const sound = await readFile(prose, 'utf8');
    expect(await (await desk.get(`${address}/translations`)).text()).toContain('Deutsch');
    const out = await desk.get(`${address}/texts/de.xlf?all`);
    expect(out.headers.get('content-type')).toContain('xliff');
    const xliff = await out.text();
    const { title } = JSON.parse(sound) as { title: string };
    const changed = xliff.replace(`${title}</target>`, `${title} neu</target>`);
    expect(changed).not.toBe(xliff);
    const { token } = await handIn('texts', 'hat-de.xlf', changed);
    expect(await readFile(prose, 'utf8')).toBe(sound);
    await desk.post(`${address}/take`, { waits: token ?? '' });
    expect(await readFile(prose, 'utf8')).toContain(`${title} neu`);
    await desk.post(`${address}/undo`, {});
    expect(await readFile(prose, 'utf8')).toBe(sound);
  });

  it('are tied to their source once somebody has read both, and never silently', async () => {
    const prose = path.join(desk.folder, 'breakwater-hat', 'prose', 'de.json');
    const sound = await readFile(prose, 'utf8');
    const { $source: _untied, ...texts } = JSON.parse(sound) as Record<string, unknown>;
    await writeFile(prose, JSON.stringify(texts, null, 2));
    const told = await (await desk.get(`${address}/languages?of=de`)).text();
    expect(told).toContain('not tied to a source');
    expect(told).toContain(`href="${address}/translations"`);
    const offered = /<form method="post" action="([^"]+\/tie)"><button name="tag" value="de">/;
    expect(await (await desk.get(`${address}/translations`)).text()).toMatch(offered);
    const asked = await (await desk.post(`${address}/tie`, { tag: 'de' })).text();
    expect(asked).toContain(`→ ${String(texts['title'])}`);
    expect(await readFile(prose, 'utf8')).not.toContain('$source');
    const [, waits = ''] = /name="waits" value="([^"]+)"/.exec(asked) ?? [];
    await desk.post(`${address}/take`, { waits });
    expect(JSON.parse(await readFile(prose, 'utf8'))).toEqual(JSON.parse(sound));
    expect(await (await desk.get(`${address}/translations`)).text()).not.toMatch(offered);
    expect((await desk.post(`${address}/tie`, { tag: 'en-US' })).status).toBe(404);
    expect((await desk.post(`${address}/tie`, { tag: '../x' })).status).toBe(404);
    await writeFile(prose, sound);
  });

  it('refuse a file that is no XLIFF', async () => {
    expect((await handIn('texts', 'x.xlf', '<html/>')).status).toBe(422);
    expect((await desk.get(`${address}/texts/xx.xlf`)).status).toBe(404);
  });
});
