/**
 * What is dropped at the shelf in the cloud, in a real Chromium: a bundle goes straight to the store, a
 * spreadsheet to the desk itself, and the one box takes both. Needs Chromium; where none is installed it is
 * skipped and says so.
 */
import { zipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Pages } from '../../functions/pages/pages.ts';
import { SHARED, sharingWith } from '../../infra/sharing.ts';
import { openRooms } from '../../src/pipeline/rooms.ts';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader } from '../desk/browser.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { listenForBrowser, openCloudDesk, signInAsAda } from './cloud-desk.ts';
import { type Cloud, startCloud } from './cloud.ts';

const HAT = '/patterns/skerry-hat';

describe.skipIf(!chromiumIsThere('what is dropped in the cloud'))('a file dropped', () => {
  let cloud: Cloud;
  let pages: Pages;
  let server: Awaited<ReturnType<typeof listenForBrowser>>;
  let browser: Browser;
  let page: Page;
  let complaints: string[];

  beforeAll(async () => {
    cloud = await startCloud();
    cloud.clear();
    const rooms = await openRooms({ root: process.cwd(), program: 'dropped' });
    server = await listenForBrowser(() => pages, cloud.front.endpoint);
    const rule = sharingWith(server.home);
    cloud.front.sharing = new Map(SHARED.map((bucket) => [bucket, [rule]]));
    vi.stubEnv('DESK_ADDRESS', server.home);
    const desk = await openCloudDesk({ home: server.home, rooms: async () => rooms });
    ({ pages } = desk);
    browser = await openChromium();
    ({ page, complaints } = await openReader(browser, { width: 390 }));
    page.setDefaultTimeout(20_000);
    await signInAsAda(page, server.home, desk.issuer);
    complaints.length = 0;
  });
  afterAll(async () => {
    await browser.close();
    server.close();
    await cloud.close();
  });

  /** As a file manager drops it. */
  async function drop(name: string, bytes: Uint8Array): Promise<void> {
    const text = JSON.stringify(Buffer.from(bytes).toString('base64'));
    const dropped = await page.evaluateHandle(
      `(() => { const all = new DataTransfer(); all.items.add(new File([Uint8Array.from(atob(${text}), (each) => each.charCodeAt(0))], ${JSON.stringify(name)})); return all; })()`,
    );
    await page.locator('[data-drop]').dispatchEvent('drop', { dataTransfer: dropped });
  }

  it('that is a bundle goes straight to the store', async () => {
    await expectGoodLooks(page, 'a shelf in the cloud that takes everything');
    await drop('skerry-hat.zip', zipSync(Object.fromEntries(skerryFiles())));
    await page.waitForURL(`**${HAT}`);
  });

  it('that is a spreadsheet finds its pattern, and waits for a yes', async () => {
    const book = await page.request.get(`${server.home}${HAT}/numbers.xlsx`);
    await page.goto(server.home);
    await drop('hat.xlsx', await book.body());
    await page.getByText('Nothing differs from the bundle.').waitFor();
    expect(await page.locator('h1').textContent()).toContain('Skerry');
    const table = await (await page.request.get(`${server.home}${HAT}/numbers.csv`)).text();
    const wider = table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, '$199');
    await page.goto(server.home);
    await drop('hat.csv', new TextEncoder().encode(wider));
    await page.getByText('Nothing is written yet').waitFor();
    await expectGoodLooks(page, 'what a spreadsheet dropped in the cloud changes');
    expect(complaints).toEqual([]);
  });
});
