/**
 * What goes wrong at a desk of one's own: two tabs, a slow line, a photograph that is too large, a file
 * of another kind, a lid that is closed in the middle of sending. Every time somebody is told, nothing
 * is half-written, and what was typed or chosen is still there. Needs Chromium, all but the last part.
 */
import { mkdir, mkdtemp, open, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { request } from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { zipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader, tabTo } from './browser.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
const MEGABYTE = 1024 * 1024;

let desk: OpenedDesk;
let sound: string;
const file = () => path.join(desk.folder, 'breakwater-hat', 'pattern.json');
const onTheDesk = async () => (await readdir(desk.folder)).filter((name) => name !== '.desk');

beforeAll(async () => {
  desk = await openTestDesk();
  await desk.post('/begin', { starter: 'breakwater-hat' });
  const text = await readFile(file(), 'utf8');
  sound = text.replace(/"languages": \[[^\]]*\]/, '"languages": ["en-US", "de"]');
  await writeFile(file(), sound);
});
afterAll(() => desk.close());

describe.skipIf(!chromiumIsThere('mishaps at the desk'))('a designer’s browser', () => {
  let browser: Browser;
  let page: Page;
  let papers: string;

  beforeAll(async () => {
    browser = await openChromium();
    ({ page } = await openReader(browser, { width: 390 }));
    papers = await mkdtemp(path.join(os.tmpdir(), 'papers-'));
    page.setDefaultTimeout(20_000);
    await page.goto(desk.address);
  });
  afterAll(async () => {
    await browser.close();
    await rm(papers, { recursive: true, force: true });
  });

  it('keeps what a second tab typed over an older state, in its own field', async () => {
    await writeFile(file(), sound.replace('126 (133, 140', '126 (134, 140'));
    const other = await page.context().newPage();
    await page.goto(desk.base + HAT);
    await other.goto(desk.base + HAT);
    const fieldOf = (tab: Page) => tab.getByLabel('As it stands in the pattern').first();
    const wrong = await fieldOf(page).inputValue();
    await fieldOf(page).fill(wrong.replace('134', '135'));
    await page.getByRole('button', { name: 'Correct it' }).first().click();
    await page.getByText('The correction is saved').waitFor();

    await fieldOf(other).fill(wrong.replace('134', '133'));
    await other.getByRole('button', { name: 'Correct it' }).first().click();
    await other.getByText('was changed since this page was made').waitFor();
    expect(await fieldOf(other).inputValue()).toBe(wrong.replace('134', '133'));
    expect(await other.locator('.field .facts').first().textContent()).toContain('135');
    await expectGoodLooks(other, 'a change that was refused');
    // It has seen the newer state now, and may write.
    await other.getByRole('button', { name: 'Correct it' }).first().click();
    await other.getByText('The correction is saved').waitFor();
    expect(await readFile(file(), 'utf8')).toBe(sound);
    await other.close();
  });

  it('corrects a number in the grading table, with the keyboard alone', async () => {
    await page.goto(`${desk.base}${HAT}/numbers`);
    await tabTo(page, 'Change it A');
    await page.keyboard.press('Enter');
    const field = page.locator('#number-measurements-brim-circumference textarea').first();
    const stated = await field.inputValue();
    await page.keyboard.press('Tab');
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type(stated.replace('19', '29'));
    await expectGoodLooks(page, 'a field in the grading table');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByText('The correction is saved').waitFor();
    await page.getByText(/findings? stands? against a release/).waitFor();
    await desk.post(`${HAT}/undo`, {});
    expect(await readFile(file(), 'utf8')).toBe(sound);

    await page.goto(`${desk.base}${HAT}/numbers`);
    await writeFile(file(), sound.replace('"1.0.0"', '"1.0.1"'));
    await page.locator('#number-measurements-brim-circumference .change summary').click();
    await field.fill('18 (19, 20, 21, 23)');
    await page.getByRole('button', { name: 'Correct it' }).first().click();
    await page.getByText('was changed since this page was made').waitFor();
    expect(await field.inputValue()).toBe('18 (19, 20, 21, 23)');
    expect(await field.isVisible()).toBe(true);
    await writeFile(file(), sound);
  });

  it('marks in their cells the numbers that no check holds', async () => {
    const data = JSON.parse(sound) as { numbers: object[] };
    const numbers = data.numbers.map((each) => ({ ...each, rule: undefined, places: undefined }));
    await writeFile(file(), JSON.stringify({ ...data, numbers }));
    await page.goto(`${desk.base}${HAT}/numbers`);
    await page.getByText('See which numbers a check').click();
    await page.getByText('are held by a check').waitFor();
    const loose = await page.locator('td.loose').allTextContents();
    expect(loose).toContain('108 no check holds this number');
    await writeFile(file(), sound);
  });

  it('shows findings before the languages come, over a slow line', async () => {
    const line = await page.context().newCDPSession(page);
    const slow = { offline: false, latency: 300, downloadThroughput: 50_000, uploadThroughput: 50_000 }; // prettier-ignore
    await writeFile(file(), sound.replace('126 (133, 140', '126 (134, 140'));
    await line.send('Network.emulateNetworkConditions', slow);
    await page.goto(desk.base + HAT, { waitUntil: 'domcontentloaded' });
    expect(await page.locator('mark').first().textContent()).toBe('134');
    await page.getByText('All languages can say this pattern').waitFor();
    await line.send('Network.emulateNetworkConditions', { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: -1 }); // prettier-ignore
    await writeFile(file(), sound);
  });

  it('says that a photograph of 60 MB is too large, before any of it is sent', async () => {
    const folder = path.join(papers, 'big');
    await mkdir(path.join(folder, 'photos'), { recursive: true });
    await writeFile(path.join(folder, 'pattern.json'), sound);
    const photo = await open(path.join(folder, 'photos', 'cover.jpg'), 'w');
    await photo.truncate(60 * MEGABYTE);
    await photo.close();
    const sent: string[] = [];
    page.on('request', (each) => each.method() === 'POST' && sent.push(each.url()));
    await page.goto(desk.base);
    await page.getByLabel('A folder').setInputFiles(folder);
    await page.getByText('big/photos/cover.jpg has 60 MB; one file may have 48 MB').waitFor();
    await page.locator('form[data-folder] button').click();
    expect(sent).toEqual([]);
    await expectGoodLooks(page, 'a photograph that is too large');
  });

  it('says that a text document is no pattern', async () => {
    const letter = path.join(papers, 'hat.docx');
    await writeFile(letter, 'words');
    await page.goto(desk.base);
    await page.getByLabel('A zip').setInputFiles(letter);
    await page
      .getByText(
        'hat.docx is not a file of the kind that is wanted here (.zip, .xlsx, .csv, .xlf, .xliff)',
      )
      .waitFor();
    const empty = path.join(papers, 'empty.zip');
    await writeFile(empty, zipSync({}));
    await page.getByLabel('A zip').setInputFiles(empty);
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    await page.getByText('pattern.json').last().waitFor();
    await page.locator('[data-told].open:not(:empty)').waitFor();
    expect(await page.getByLabel('A zip').inputValue()).toContain('empty.zip');
    expect(await onTheDesk()).toEqual(['breakwater-hat']);
  });

  it('keeps the choice where the line breaks, and sends it again', async () => {
    const zip = path.join(papers, 'second.zip');
    const prose = path.join(desk.folder, 'breakwater-hat', 'prose', 'en-US.json');
    const files = { 'pattern.json': new TextEncoder().encode(sound), 'prose/en-US.json': await readFile(prose) }; // prettier-ignore
    await writeFile(zip, zipSync(files));
    await page.goto(desk.base);
    await page.route('**/hand-in', (route) => route.abort('connectionreset'));
    await page.getByLabel('A zip').setInputFiles(zip);
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    await page.getByText('The connection broke off while this was sent').waitFor();
    await page.unroute('**/hand-in');
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    await page.waitForURL('**/patterns/second');
    await rm(path.join(desk.folder, 'second'), { recursive: true });
  });
});

describe('a form on its way', () => {
  /** Sends the heads and the beginning of a form, then does as it is told. */
  const begin = (length: number, then: 'wait' | 'break') =>
    new Promise<number>((resolve) => {
      const headers = {
        host: `127.0.0.1:${desk.port}`,
        cookie: desk.cookie,
        origin: desk.base,
        'content-type': 'multipart/form-data; boundary=x',
        'content-length': length,
      };
      const call = request({ port: desk.port, host: '127.0.0.1', path: '/hand-in', method: 'POST', headers }, (answer) => resolve(answer.statusCode ?? 0)); // prettier-ignore
      call.on('error', () => resolve(0));
      call.write('--x\r\ncontent-disposition: form-data; name="zip"; filename="a.zip"\r\n\r\nPK');
      if (then === 'break') setTimeout(() => call.destroy(), 100);
    });

  it('leaves nothing behind where the lid is closed in the middle', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    expect(await begin(2 * MEGABYTE, 'break')).toBe(0);
    expect((await desk.get('/')).status).toBe(200);
    expect(await onTheDesk()).toEqual(['breakwater-hat']);
    expect(told).not.toHaveBeenCalled();
    told.mockRestore();
  });

  it('is refused at once where it says itself that it is too large', async () => {
    expect(await begin(500 * MEGABYTE, 'wait')).toBe(422);
  });

  it('is cleared away at the next opening where the desk itself was ended', async () => {
    const folder = await mkdtemp(path.join(os.tmpdir(), 'desk-'));
    await mkdir(path.join(folder, '.desk-building-half', 'prose'), { recursive: true });
    const again = await openTestDesk(folder);
    expect(await readdir(folder)).toEqual([]);
    await again.close();
    await rm(folder, { recursive: true });
  });
});
