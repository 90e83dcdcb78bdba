/**
 * A spreadsheet or a translator's file handed in at the shelf: it finds the pattern it was made from, asks
 * where several could be meant, and is never written before somebody agrees. Without a script, over sockets;
 * in a real Chromium dropped like a bundle.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  chromiumIsThere,
  expectGoodLooks,
  expectReflow,
  openChromium,
  openReader,
} from './browser.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
const COPY = 'breakwater-hat-2';

let desk: OpenedDesk;
let sound: string;
let table: string;
let xliff: string;
const file = (name = 'breakwater-hat') => path.join(desk.folder, name, 'pattern.json');
/** One stitch more in the gauge. */
const wider = (text: string) => text.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, (_, head: string, count: string) => `${head}${Number(count) + 1}`); // prettier-ignore
const unmarked = (text: string) => text.replace(/pattern\/[^,]*/, '');

beforeAll(async () => {
  desk = await openTestDesk();
  await desk.post('/begin', { starter: 'breakwater-hat' });
  sound = await readFile(file(), 'utf8');
  table = await (await desk.get(`${HAT}/numbers.csv`)).text();
  xliff = await (await desk.get(`${HAT}/texts/de.xlf?all`)).text();
});
afterAll(() => desk.close());

async function handIn(name: string, text: string | Uint8Array<ArrayBuffer>, field = 'zip') {
  const form = new FormData();
  form.append(field, new Blob([text]), name);
  return read(await desk.post('/hand-in', form));
}

async function read(answer: Response) {
  const html = await answer.text();
  const waits = /name="waits" value="([^"]+)"/.exec(html)?.[1] ?? '';
  const action = /<main[^]*<form method="post" action="([^"]+)"/.exec(html)?.[1] ?? '';
  return { status: answer.status, html, waits, action };
}

const withCopy = async (work: () => Promise<void>): Promise<void> => {
  const zip = await (await desk.get(`${HAT}/bundle.zip`)).arrayBuffer();
  await handIn('breakwater-hat.zip', new Uint8Array(zip));
  await work().finally(() => rm(path.join(desk.folder, COPY), { recursive: true }));
};

describe('a paper at the shelf', () => {
  it('that is a changed spreadsheet shows its changes at the pattern it was made from', async () => {
    await desk.post('/begin', { starter: 'tideline-socks' });
    const { status, html, waits, action } = await handIn('numbers.csv', wider(table));
    expect(status).toBe(200);
    expect(html).toContain('Nothing is written yet');
    expect(html).toMatch(/gauges [\w ]+stitches: \d+ → \d+/);
    expect(action).toBe(`${HAT}/take`);
    expect(await readFile(file(), 'utf8')).toBe(sound);
    await desk.post(action, { waits });
    expect(await readFile(file(), 'utf8')).not.toBe(sound);
    await desk.post(`${HAT}/undo`, {});
    expect(await readFile(file(), 'utf8')).toBe(sound);
  });

  it('is read as a workbook, a table and a translation, whatever the letters of its ending', async () => {
    const book = new Uint8Array(await (await desk.get(`${HAT}/numbers.xlsx`)).arrayBuffer());
    expect((await handIn('Hat.XLSX', book)).html).toContain('Nothing differs from the bundle.');
    expect((await handIn('hat.csv', table, 'paper')).html).toContain('Nothing differs');
    const german = await handIn('hat.XLF', xliff.replace('</target>', ' neu</target>'));
    expect(german.action).toBe(`${HAT}/take`);
    expect(german.html).toContain('aria-current');
    expect((await handIn('mine/numbers.csv', table, 'files')).html).toContain('Nothing differs');
  });

  it('asks which of two copies is meant, and shows the changes of the one that was said', async () => {
    await withCopy(async () => {
      const asked = await handIn('numbers.csv', wider(table));
      expect(asked.html).toContain('more than one pattern here has that name');
      expect(asked.html).toContain(`value="${COPY}"`);
      expect(asked.html).not.toContain('tideline');
      // The first was changed and set back above; its copy never.
      expect(asked.html.match(/last changed/g)).toHaveLength(1);
      const shown = await read(await desk.post(asked.action, { waits: asked.waits, name: COPY }));
      expect(shown.action).toBe(`/patterns/${COPY}/take`);
      const other = { waits: asked.waits, name: 'breakwater-hat' };
      expect((await read(await desk.post(asked.action, other))).action).toBe(`${HAT}/take`);
      await desk.post(shown.action, { waits: shown.waits });
      expect(await readFile(file(COPY), 'utf8')).not.toBe(sound);
      expect(await readFile(file(), 'utf8')).toBe(sound);
    });
  });

  it('that does not say what it was made from may belong to any pattern', async () => {
    const asked = await handIn('mine.csv', wider(unmarked(table)));
    expect(asked.html).toContain('does not say which pattern');
    expect(asked.html).toContain('tideline-socks');
    const name = 'breakwater-hat';
    const shown = await read(await desk.post(asked.action, { waits: asked.waits, name }));
    expect(shown.action).toBe(`${HAT}/take`);
    const nameless = await handIn('x.xlf', xliff.replace(/ original="[^"]*"/, ''));
    expect(nameless.html).toContain('Which pattern is meant?');
    const nobody = await desk.post(asked.action, { waits: asked.waits, name: 'no-such-thing' });
    expect(nobody.status).toBe(404);
    expect((await desk.post(asked.action, { waits: 'gone', name })).status).toBe(404);
  });

  it('of a pattern that lies elsewhere says what to do', async () => {
    const strange = await handIn(
      'x.csv',
      table.replace('pattern/breakwater-hat', 'pattern/gannet'),
    );
    expect(strange.status).toBe(404);
    expect(strange.html).toContain('The file was made from gannet, which does not lie here.');
    expect(strange.html).toContain('Hand in its bundle first');
  });

  it('waits for nothing that is a change, and no change waits for a paper', async () => {
    const { waits } = await handIn('numbers.csv', wider(table));
    const name = 'breakwater-hat';
    expect((await desk.post('/hand-in/pattern', { waits, name })).status).toBe(404);
    const asked = await handIn('mine.csv', wider(unmarked(table)));
    expect((await desk.post(`${HAT}/take`, { waits: asked.waits })).status).toBe(404);
  });

  it('says at once what is no paper of ours, and that one comes at a time', async () => {
    expect((await handIn('x.csv', 'a,b\n1,2\n')).status).toBe(422);
    expect((await handIn('x.xlsx', 'no workbook')).status).toBe(422);
    expect((await handIn('x.xlf', '<html/>')).status).toBe(422);
    const two = new FormData();
    for (const name of ['a.csv', 'b.xlf']) two.append('zip', new Blob([table]), name);
    expect((await read(await desk.post('/hand-in', two))).html).toContain('at a time');
  });

  it('tells on a page of numbers that the file was made from another pattern or version', async () => {
    const form = new FormData();
    form.append('paper', new Blob([table.replace('/1.0.0,', '/0.9.0,')]), 'old.csv');
    const { html } = await read(await desk.post(`${HAT}/sheet`, form));
    expect(html).toContain('The file was made from breakwater-hat, version 0.9.0.');
  });
});

describe.skipIf(!chromiumIsThere('papers dropped at the shelf'))('in a browser', () => {
  let browser: Browser;
  let page: Page;
  let complaints: string[];
  let folder: string;
  beforeAll(async () => {
    browser = await openChromium();
    ({ page, complaints } = await openReader(browser, { width: 390 }));
    page.setDefaultTimeout(20_000);
    folder = await mkdtemp(path.join(os.tmpdir(), 'papers-'));
    await page.goto(desk.address);
  });
  afterAll(async () => {
    await browser.close();
    await rm(folder, { recursive: true, force: true });
  });

  const picture = async (name: string) => {
    const into = process.env['CASTOFF_PICTURES'];
    if (into !== undefined) await page.screenshot({ path: path.join(into, `${name}.png`), fullPage: true }); // prettier-ignore
  };

  /** As a file manager drops them. */
  async function drop(files: readonly (readonly [string, string])[]): Promise<void> {
    const dropped = await page.evaluateHandle(
      `(() => { const all = new DataTransfer(); for (const [name, text] of ${JSON.stringify(files)}) all.items.add(new File([text], name)); return all; })()`,
    );
    await page.locator('[data-drop]').dispatchEvent('drop', { dataTransfer: dropped });
  }

  it('a spreadsheet that is dropped shows its changes; agreed to, they are written', async () => {
    await page.goto(desk.base);
    await picture('shelf');
    await expectGoodLooks(page, 'a shelf that takes everything');
    await drop([['numbers.csv', wider(table)]]);
    await page.getByText('Nothing is written yet').waitFor();
    await expectGoodLooks(page, 'what a dropped spreadsheet changes');
    await page.getByRole('button', { name: 'Take these changes' }).click();
    await page.waitForURL(`**${HAT}?done=papers`);
    expect(await readFile(file(), 'utf8')).not.toBe(sound);
    await desk.post(`${HAT}/undo`, {});
  });

  it('a translation of one of two copies is asked for its pattern', async () => {
    await withCopy(async () => {
      await page.goto(desk.base);
      await drop([['hat-de.xlf', xliff.replace('</target>', ' neu</target>')]]);
      await page.getByText('Which pattern is meant?').waitFor();
      await picture('which-pattern');
      await expectGoodLooks(page, 'which of two copies');
      await expectReflow(page, 'which of two copies');
      await page.getByLabel(COPY).check();
      await page.getByRole('button', { name: 'See what it changes' }).click();
      await page.waitForURL('**/hand-in/pattern');
      await page.getByText('Nothing is written yet').waitFor();
      expect(await page.locator('main form').getAttribute('action')).toBe(`/patterns/${COPY}/take`);
      await picture('translation');
    });
  });

  it('two at once are not sent, and a zip goes its own way', async () => {
    await page.goto(desk.base);
    await drop([['a.csv', table], ['b.csv', table]]); // prettier-ignore
    await page.getByText('One file at a time').waitFor();
    await drop([['letter.pdf', 'x']]);
    await page.getByText('letter.pdf is not a file of the kind that is wanted here').waitFor();
    const zip = path.join(folder, 'third.zip');
    await writeFile(zip, new Uint8Array(await (await desk.get(`${HAT}/bundle.zip`)).arrayBuffer()));
    await page.getByLabel('A zip').setInputFiles(zip);
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    await page.waitForURL('**/patterns/third');
    await page.goto('about:blank');
    await rm(path.join(desk.folder, 'third'), { recursive: true });
  });

  it('goes back to the shelf where the language is changed on the way', async () => {
    await page.goto(desk.base);
    await drop([['mine.csv', wider(unmarked(table))]]);
    await page.getByText('Which pattern is meant?').waitFor();
    await page.getByRole('button', { name: 'Deutsch' }).click();
    await page.getByText('Eine Anleitung abgeben').waitFor();
    await picture('shelf-de');
    await page.getByRole('button', { name: 'English' }).click();
    expect(complaints.join(' | ')).toBe('');
  });
});
