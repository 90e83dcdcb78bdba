/**
 * The page of a rule in a real Chromium: reached and used with the keyboard alone, and without any
 * script; in every state axe finds nothing and nothing hangs over the edge. Needs Chromium; where none
 * is installed it is skipped and says so.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader, tabTo } from './browser.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const RULE = '/patterns/breakwater-hat/rule?number=hat-sts';
const STATES = [
  RULE,
  `${RULE}&choose=motif&way=centred+front+and+back&way1=side+panels`,
  `${RULE}&choose=motif&repeat=nine`,
  `${RULE}&choose=fields&kind=sum&sum=body+head+at+rope`,
  `${RULE}&choose=fields&kind=none`,
  `${RULE}&choose=accept&late=1`,
];

describe.skipIf(!chromiumIsThere('the page of a rule'))('the page of a rule', () => {
  let browser: Browser;
  let desk: OpenedDesk;
  beforeAll(async () => {
    browser = await openChromium();
    desk = await openTestDesk();
    await desk.post('/begin', { starter: 'breakwater-hat' });
  });
  afterAll(async () => {
    await browser.close();
    await desk.close();
  });

  it.each([
    { width: 390, dark: true },
    { width: 1280, dark: false },
  ])('$width px, dark: $dark', async (look) => {
    const { page, complaints } = await openReader(browser, look);
    await page.context().addCookies([{ name: `desk-${desk.port}`, value: 's'.repeat(32), url: desk.base }]); // prettier-ignore
    for (const state of STATES) {
      await page.goto(desk.base + state);
      await expectGoodLooks(page, state);
    }
    expect(complaints.filter((each) => !/status of 4(09|22)/.test(each))).toEqual([]);
  });

  it('is reached, chosen, written and taken back with the keyboard alone', async () => {
    const { page } = await openReader(browser);
    await page.context().addCookies([{ name: `desk-${desk.port}`, value: 's'.repeat(32), url: desk.base }]); // prettier-ignore
    await page.goto(`${desk.base}/patterns/breakwater-hat/numbers`);
    await tabTo(page, 'Look at its rule stitches of the ropes');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'The rule of stitches of the ropes' }).waitFor();
    await page.getByLabel('In all sizes').focus();
    await page.keyboard.type('Front');
    await tabTo(page, 'See what it does');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'What it would do' }).waitFor();
    expect(page.url()).toContain('#result');
    await tabTo(page, 'Write it');
    await page.keyboard.press('Enter');
    await page.getByText('152 → 160').waitFor();
    await tabTo(page, 'Take these changes');
    await page.keyboard.press('Enter');
    await page.getByText('hat/body has 152 and 168 sts').first().waitFor();
    await desk.post('/patterns/breakwater-hat/undo', {});
  });

  it('needs no script', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false, locale: 'de-DE' });
    await context.addCookies([{ name: `desk-${desk.port}`, value: 's'.repeat(32), url: desk.base }]); // prettier-ignore
    const page = await context.newPage();
    await page.goto(`${desk.base}/patterns/breakwater-hat/rule?number=crown-sts`);
    await page.getByLabel('Wie viel davon').fill('1/8');
    await page.getByRole('button', { name: 'Ansehen, was sie bewirkt' }).click();
    await page.getByRole('button', { name: 'Schreiben' }).click();
    await page.getByText('Die Regel wird „hat-sts / 8, up to whole“').waitFor();
    await page.getByRole('button', { name: 'Diese Änderungen übernehmen' }).click();
    await page.waitForURL(/done=papers/);
    await context.close();
  });
});
