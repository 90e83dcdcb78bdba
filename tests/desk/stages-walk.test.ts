/**
 * The life of a release in a real browser: from the proof over the test copy to the sale, with the
 * keyboard, on a phone in the dark, without a script; every page held to WCAG 2.2 AA by axe. Needs
 * Chromium; where none is installed it is skipped and says so.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader, tabTo } from './browser.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';

describe.skipIf(!chromiumIsThere('the stages of a release'))('a release in the browser', () => {
  let desk: OpenedDesk;
  let browser: Browser;
  let page: Page;
  let complaints: string[];

  beforeAll(async () => {
    [desk, browser] = await Promise.all([openTestDesk(), openChromium()]);
    ({ page, complaints } = await openReader(browser));
    await page.goto(desk.address);
    await desk.post('/begin', { starter: 'breakwater-hat' });
    const file = path.join(desk.folder, 'breakwater-hat', 'pattern.json');
    const data = JSON.parse(await readFile(file, 'utf8')) as object;
    const own = { languages: ['en-US', 'fi'], unreviewed: [] };
    await writeFile(file, JSON.stringify({ ...data, ...own }));
  });
  afterAll(async () => {
    await browser.close();
    await desk.close();
  });

  it('begins with a proof, by the keyboard alone', async () => {
    await page.goto(`${desk.base}${HAT}/release`);
    await page.getByText('No language stands against any of the three.').waitFor();
    expect(await page.getByRole('radio', { name: 'Proof' }).isChecked()).toBe(true);
    // The boxes of the sale wait until somebody thinks of selling.
    const knowingly = page.getByRole('checkbox', { name: 'Offer suomi knowingly unreviewed' });
    expect(await knowingly.isVisible()).toBe(false);
    await page.getByRole('radio', { name: 'Proof' }).focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    expect(await knowingly.isVisible()).toBe(true);
    expect(await knowingly.isChecked()).toBe(false);
    await expectGoodLooks(page, 'the stages before a run');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    await tabTo(page, 'Make the release');
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Proof 1 of version 1.0.0' }).waitFor();
  });

  it('shows the proof page by page, and gives all of it as a zip', async () => {
    await page.getByRole('link', { name: 'Proof 1 of version 1.0.0' }).click();
    await page.getByRole('heading', { name: 'Proof 1 of version 1.0.0' }).waitFor();
    await page.locator('.leaves').scrollIntoViewIfNeeded();
    await page.locator('.leaves canvas.drawn').first().waitFor();
    // Turning a phone draws what is near anew, and the page stays alive.
    await page.setViewportSize({ width: 700, height: 800 });
    await page.waitForTimeout(400);
    expect(await page.locator('.leaves canvas').count()).toBeGreaterThan(1);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Take everything (zip)' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('breakwater-hat-1.0.0-proof-1.zip');
    await page.setViewportSize({ width: 360, height: 800 });
    await page.emulateMedia({ colorScheme: 'dark' });
    await expectGoodLooks(page, 'a proof on a phone');
  });

  it('hands in what test knitters sent back, on the phone', async () => {
    await page.goto(`${desk.base}${HAT}/release`);
    await page.getByText('No language stands against any of the three.').waitFor();
    await expectGoodLooks(page, 'the release on a phone');
    const wrong = { name: 'sheet.json', mimeType: 'application/json', buffer: Buffer.from('{}') };
    await page.getByLabel('Filled-in sheets (.xlsx, .csv or .json)').setInputFiles(wrong);
    await page.getByRole('button', { name: 'Read them' }).click();
    await page.getByText('No sheet could be read.').waitFor();
    await expectGoodLooks(page, 'a sheet that was refused');
  });

  it('goes on sale only when the language is knowingly offered', async () => {
    await page.goto(`${desk.base}${HAT}/release`);
    await page.getByRole('radio', { name: 'For sale' }).check();
    await page.getByRole('button', { name: 'Make the release' }).click();
    await page.getByText('Nothing was started.').waitFor();
    await expectGoodLooks(page, 'a sale that was not started');
    await page.getByRole('checkbox', { name: 'Offer suomi knowingly unreviewed' }).check();
    await page.getByRole('button', { name: 'Make the release' }).click();
    await page.getByRole('heading', { name: /^Version 1\.0\.0,/ }).waitFor();
    expect(complaints.filter((each) => !each.includes('422'))).toEqual([]);
  });

  it('offers all of it without a script', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    await context.addCookies([
      { name: `desk-${desk.port}`, value: 's'.repeat(32), url: desk.base },
    ]);
    const plain = await context.newPage();
    await plain.goto(`${desk.base}${HAT}/release`);
    expect(await plain.getByRole('checkbox', { name: /^Offer suomi/ }).isVisible()).toBe(true);
    await plain.getByRole('link', { name: 'Look at every language' }).click();
    await plain.getByText('No language stands against any of the three.').waitFor();
    await plain.goto(desk.base + HAT);
    await plain.getByRole('link', { name: 'Look at every language' }).click();
    await plain.getByText('All languages can say this pattern').waitFor();
    await context.close();
  });
});
