/**
 * The story of a designer in a real browser, with the desk in the cloud on loopback: signed in, a starter, a
 * wrong number, its finding, the correction, documents drawn by the reader from the store, a release in five
 * languages, its texts and its zip; then every page on a phone in the dark, and a bundle handed in straight to
 * the store. Each page is looked at by axe (WCAG 2.2 AA); our own content security policy and the sharing
 * that the stack declares stop nothing of ours. Needs Chromium; where none is installed it is skipped and says so.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Pages } from '../../functions/pages/pages.ts';
import { SHARED, sharingWith } from '../../infra/sharing.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { openRooms } from '../../src/pipeline/rooms.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader } from '../desk/browser.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { listenForBrowser, openCloudDesk, signInAsAda } from './cloud-desk.ts';
import { type Cloud, startCloud } from './cloud.ts';
import { objectCreated } from './events.ts';
import type { TestIssuer } from './issuer.ts';

const there = chromiumIsThere('the story of a designer in the cloud');

/** Where the pictures of the pages go, for whoever wants to look. */
const PICTURES = process.env['CASTOFF_PICTURES'];
const LANGUAGES = ['en-US', 'de', 'fr', 'es', 'ja'];
const HAT = '/patterns/breakwater-hat';
const PARTS = ['', '/numbers', '/drawings', '/translations', '/pages', '/release'];

/** Documents of a hat are small: here they go the way of large ones. */
const ANSWER_BYTES = 50_000;

describe.skipIf(!there)('a designer before the desk in the cloud', () => {
  let cloud: Cloud;
  let issuer: TestIssuer;
  let pages: Pages;
  let folder: string;
  let server: Awaited<ReturnType<typeof listenForBrowser>>;
  let browser: Browser;
  let page: Page;
  let complaints: string[];
  const answerBytes = PAGES_LIMITS.answerBytes;

  beforeAll(async () => {
    Object.assign(PAGES_LIMITS, { answerBytes: ANSWER_BYTES });
    cloud = await startCloud();
    cloud.clear();
    const rooms = await openRooms({ root: process.cwd(), program: 'looks' });
    cloud.rooms = Object.assign(rooms, { worked: [] });
    server = await listenForBrowser(() => pages, cloud.front.endpoint);
    const rule = sharingWith(server.home);
    cloud.front.sharing = new Map(SHARED.map((bucket) => [bucket, [rule]]));
    vi.stubEnv('DESK_ADDRESS', server.home);
    ({ pages, issuer } = await openCloudDesk({ home: server.home, rooms: async () => rooms }));
    folder = await mkdtemp(path.join(tmpdir(), 'castoff-looks-'));
    await writeFile(path.join(folder, 'hat.zip'), zipSync(Object.fromEntries(skerryFiles())));
    browser = await openChromium();
    ({ page, complaints } = await openReader(browser));
  });
  afterAll(async () => {
    Object.assign(PAGES_LIMITS, { answerBytes });
    await browser.close();
    server.close();
    await cloud.close();
    await rm(folder, { recursive: true, force: true });
  });

  let seen = 0;
  async function examine(state: string): Promise<void> {
    await expectGoodLooks(page, state);
    seen += 1;
    const name = `${String(seen).padStart(2, '0')}-${state.replaceAll(/\W+/g, '-')}.png`;
    if (PICTURES !== undefined) await picture(name, PICTURES);
  }

  /** What draws when it comes near would begin anew for a picture of the whole page. */
  async function picture(name: string, into: string): Promise<void> {
    const draws = (await page.locator('canvas').count()) > 0;
    await page.screenshot({ path: path.join(into, name), fullPage: !draws });
  }

  const text = (words: string | RegExp) => page.getByText(words).first();
  const goTo = (part: string) => page.goto(server.home + part);

  it('signs in, and begins from a starter', async () => {
    await signInAsAda(page, server.home, issuer);
    await text('No pattern lies here yet').waitFor();
    await examine('an empty shelf');
    await page.getByRole('button', { name: 'Put a copy on the desk' }).click();
    await text('Every number follows in every size.').waitFor();
    await fiveLanguages();
    await page.reload();
    await text('All languages can say this pattern').waitFor();
    await examine('a sound pattern');
  });

  /** Five of its languages are enough for a story. */
  async function fiveLanguages(): Promise<void> {
    const shelf = storeRoom(cloud.studio('ada').shelf);
    const name = 'breakwater-hat';
    await shelf.change(name, new Date(), async ({ files }) => {
      const pattern = new TextDecoder().decode(files.get('pattern.json'));
      const cut = pattern.replace(/"languages": \[[^\]]*\]/, `"languages": ${JSON.stringify(LANGUAGES)}`); // prettier-ignore
      const bytes = new TextEncoder().encode(cut);
      return { file: 'pattern.json', pointer: '/languages', before: '', after: '', bytes };
    });
  }

  it('types a wrong number, is shown where it stands, and corrects it there', async () => {
    await goTo(`${HAT}/numbers`);
    await examine('numbers');
    await wrongNumber();
    await goTo(HAT);
    expect(await page.locator('mark').first().textContent()).toBe('134');
    await examine('a finding');
    const field = page.getByLabel('As it stands in the pattern').first();
    await field.fill((await field.inputValue()).replace('134', '133'));
    await page.getByRole('button', { name: 'Correct it' }).first().click();
    await text('The correction is saved').waitFor();
    await text('Every number follows in every size.').waitFor();
    await examine('a correction made');
  });

  /** In a row, which is corrected where a finding stands; as a colleague would, over the wire. */
  async function wrongNumber(): Promise<void> {
    const shelf = storeRoom(cloud.studio('ada').shelf);
    await shelf.change('breakwater-hat', new Date(), async ({ files }) => {
      const pattern = new TextDecoder().decode(files.get('pattern.json'));
      const wrong = pattern.replace('126 (133, 140', '126 (134, 140');
      expect(wrong).not.toBe(pattern);
      const bytes = new TextEncoder().encode(wrong);
      return { file: 'pattern.json', pointer: '/pieces', before: '133', after: '134', bytes };
    });
  }

  it('sees two languages side by side, drawn from the store', async () => {
    const drawn: string[] = [];
    page.on('response', (each) => {
      if (each.url().startsWith(`${cloud.front.endpoint}/work/ada/drafts/`)) drawn.push(each.url());
    });
    await goTo(`${HAT}/pages?language=ja`);
    await page.locator('.sheet >> nth=1 >> canvas.drawn').first().waitFor();
    await page.locator('.sheet >> nth=0 >> canvas.drawn').first().waitFor();
    expect(drawn).toHaveLength(2);
    await examine('pages side by side');
  });

  it('publishes in five languages, and watches', async () => {
    await goTo(`${HAT}/release`);
    await text('Version 1.0.0 would be the first release.').waitFor();
    await examine('before a release');
    await page.getByLabel('For sale').check();
    await page.getByRole('button', { name: 'Make the release' }).click();
    await page.locator('.progress li').first().waitFor();
    await examine('a run at work');
    await page.getByRole('heading', { name: /^Version 1\.0\.0/ }).waitFor();
    const documents = await page.locator('.staged').first().textContent();
    for (const name of ['English', 'Deutsch', 'français', 'español', '日本語'])
      expect(documents).toContain(name);
    await page.locator('canvas.drawn').first().waitFor();
    await page.locator('.staged img').first().scrollIntoViewIfNeeded();
    await page.locator('.staged img').first().evaluate('(image) => image.decode()');
    await examine('a release');
  });

  it('copies the text for the shop', async () => {
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.locator('details:has([data-copy]) summary').first().click();
    await page.getByRole('button', { name: 'Copy the text' }).first().click();
    await text('Copied.').waitFor();
    const copied = await page.evaluate<string>('navigator.clipboard.readText()');
    expect(copied).toBe(await page.locator('pre').first().textContent());
    expect(copied).toContain('Northfold');
  });

  it('takes everything home as a zip, as soon as it is made', async () => {
    await page.getByRole('link', { name: 'Take everything (zip)' }).first().click();
    await text('The zip is being put together').waitFor();
    await examine('a zip that is being made');
    const downloaded = page.waitForEvent('download');
    const { handler } = await import('../../functions/zip/handler.ts');
    await handler(objectCreated('ada/zips/breakwater-hat/1.0.0.json', 'null'));
    const download = await downloaded;
    expect(download.suggestedFilename()).toBe('breakwater-hat-1.0.0.zip');
    const names = Object.keys(unzipSync(await readFile(await download.path())));
    for (const tag of LANGUAGES)
      expect(names.some((name) => name.includes(tag) && name.endsWith('.pdf'))).toBe(true);
    await text('The zip is there').waitFor();
  });

  it('signs out, with not one complaint of the browser', async () => {
    await goTo('/');
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByRole('heading', { name: 'You are signed out here' }).waitFor();
    await examine('signed out');
    expect(complaints).toEqual([]);
  });

  it('reads every page on a phone, in the dark', async () => {
    await page.context().close();
    ({ page, complaints } = await openReader(browser, { width: 390, dark: true }));
    await signInAsAda(page, server.home, issuer);
    await examine('phone shelf');
    for (const part of PARTS) {
      await goTo(HAT + part);
      if (part === '/pages') await page.locator('canvas.drawn').first().waitFor();
      await examine(`phone ${part === '' ? 'findings' : part.slice(1)}`);
    }
  });

  it('hands a bundle in there, straight to the store', async () => {
    await goTo('/');
    const field = page.getByLabel('A zip');
    const note = { name: 'hat.txt', mimeType: 'text/plain', buffer: Buffer.from('k2') };
    await field.setInputFiles(note);
    await text('hat.txt is not a file of the kind').waitFor();
    await field.setInputFiles(path.join(folder, 'hat.zip'));
    const stored = page.waitForResponse((each) => each.url().startsWith(cloud.front.endpoint));
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    expect((await stored).status()).toBe(303);
    await page.waitForURL(/\/patterns\/skerry-hat$/);
    await examine('phone handed in');
    await page.goto('about:blank');
    expect(complaints).toEqual([]);
  });
});
