/**
 * Every page and state of the desk in a real browser, on a phone and on a large window, in light and
 * dark: axe finds nothing against WCAG 2.2 AA, nothing hangs over the edge, not even magnified four times
 * or with wide letters, and the content security policy stops nothing of ours. Then the keyboard: where it
 * comes to after a change, and what it need not stop at. Needs Chromium; without it, it is skipped.
 */
import { cp, mkdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  chromiumIsThere,
  expectContrastOf,
  expectGoodLooks,
  expectReflow,
  openChromium,
  openReader,
  tabTo,
} from './browser.ts';
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
const WRONG = '/patterns/wrong';

const STATES = [
  ['the shelf', '/'],
  ['a clear pattern', HAT],
  ['findings', WRONG],
  ['a pattern that cannot be read', '/patterns/broken'],
  ['numbers', `${HAT}/numbers`],
  ['drawings', `${HAT}/drawings`],
  ['translations', `${HAT}/translations`],
  ['pages side by side', `${HAT}/pages?beside=de`],
  ['the web page', `${HAT}/pages?edition=web`],
  ['a release', `${HAT}/release`],
  ['a release held back', `${WRONG}/release`],
  ['a language as a page', `${WRONG}/languages?of=de`],
  ['what the checks hold, as a page', `${HAT}/pins`],
  ['what a release would bring, as a page', `${HAT}/follow`],
  ['what languages hold back, as a page', `${WRONG}/stages`],
  ['how a pattern stands, as a page', `${HAT}/standing`],
  ['asking before it is put away', `${HAT}/away`],
  ['no such page', '/patterns/none'],
] as const;

describe.skipIf(!chromiumIsThere('the looks of the desk'))('the looks of the desk', () => {
  let desk: OpenedDesk;
  let browser: Browser;
  const fileOf = (name: string) => path.join(desk.folder, name, 'pattern.json');
  let sound: string;
  let wrong: string;

  beforeAll(async () => {
    [desk, browser] = await Promise.all([openTestDesk(), openChromium()]);
  });
  afterAll(async () => {
    await browser.close();
    await desk.close();
  });

  /** Signed in, as the address with the key is good for one visit. */
  async function open(look: { readonly width?: number; readonly dark?: boolean }) {
    const reader = await openReader(browser, look);
    const [name = '', value = ''] = desk.cookie.split('=');
    await reader.page.context().addCookies([{ name, value, url: desk.base }]);
    return reader;
  }

  it('turns somebody without the key away on a page that looks like its own', async () => {
    const { page } = await openReader(browser, { width: 390, dark: true });
    await page.goto(`${desk.base}/?key=${'x'.repeat(32)}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await page.evaluate('document.styleSheets[0].cssRules.length')).toBeGreaterThan(100);
    await expectGoodLooks(page, 'turned away');
    await expectContrastOf(page, 'light', 'turned away');
    await expectReflow(page, 'turned away');
    await page.context().close();
  });

  it('teaches on an empty shelf', async () => {
    const { page } = await open({ width: 390 });
    await page.goto(desk.base);
    await page.getByRole('figure').getByText('134', { exact: true }).first().waitFor();
    await expectGoodLooks(page, 'an empty shelf');
    await expectContrastOf(page, 'dark', 'an empty shelf');
    await expectReflow(page, 'an empty shelf');
    await page.context().close();
  });

  describe('with patterns on it', () => {
    beforeAll(async () => {
      await desk.post('/begin', { starter: 'breakwater-hat' });
      const text = await readFile(fileOf('breakwater-hat'), 'utf8');
      sound = text.replace(/"languages": \[[^\]]*\]/, '"languages": ["en-US", "de"]');
      wrong = sound.replace('126 (133, 140', '126 (134, 140').replace('9 (10, 10, 11', '9 (12, 10, 11'); // prettier-ignore
      await writeFile(fileOf('breakwater-hat'), sound);
      await cp(path.join(desk.folder, 'breakwater-hat'), path.join(desk.folder, 'wrong'), { recursive: true }); // prettier-ignore
      await writeFile(fileOf('wrong'), wrong);
      await mkdir(path.dirname(fileOf('broken')));
      await writeFile(fileOf('broken'), '{ "format": ');
    });

    it.each([
      { width: 390, dark: true },
      { width: 1280, dark: false },
    ])('$width px, dark: $dark', async (look) => {
      const { page, complaints } = await open(look);
      for (const [state, target] of STATES) {
        await page.goto(desk.base + target);
        if (state === 'pages side by side') await page.locator('canvas.drawn').first().waitFor();
        if (state === 'findings') await page.locator('.finding').nth(1).waitFor();
        await expectGoodLooks(page, state);
        expect(await page.locator('h1').count(), state).toBe(1);
        await expectContrastOf(page, look.dark ? 'light' : 'dark', state);
        if (look.width < 500) await expectReflow(page, state);
      }
      // A page that is not there is an answer of its own, and the browser notes it.
      expect(complaints.filter((each) => !each.includes('404'))).toEqual([]);
      await page.context().close();
    });

    it('shows what a file would change before it is taken in', async () => {
      const { page } = await open({ width: 390, dark: true });
      const answer = await desk.get(`${HAT}/texts/de.xlf?all`);
      const xliff = (await answer.text()).replace('</target>', ' neu</target>');
      await page.goto(`${desk.base}${HAT}/translations`);
      const paper = {
        name: 'de.xlf',
        mimeType: 'application/xliff+xml',
        buffer: Buffer.from(xliff),
      };
      await page.getByLabel('A translated XLIFF file').setInputFiles(paper);
      await page.getByRole('button', { name: 'See what it changes' }).click();
      await page.getByRole('button', { name: 'Take these changes' }).waitFor();
      await expectGoodLooks(page, 'a proposal');
      await expectReflow(page, 'a proposal');
      await page.context().close();
    });

    it('shows the pattern with the most numbers on a phone', async () => {
      await desk.post('/begin', { starter: 'sea-fret-pullover' });
      const { page } = await open({ width: 390, dark: true });
      await page.goto(`${desk.base}/patterns/sea-fret-pullover/numbers`);
      await expectReflow(page, 'many numbers');
      // Content that is not painted yet is found by its place all the same.
      const last = page.locator('.counts tr[id]').last();
      await page.goto(`${page.url()}#${await last.getAttribute('id')}`);
      await expect.poll(() => inSight(page, ':target')).toBe(true);
      await page.context().close();
    });

    // Below 0.1 a page counts as calm (Web Vitals, cumulative layout shift); on the shelf, what is said of a
    // pattern has as many lines as it has languages, and only its cover is known before.
    it.each([
      ['/', 0.1], [WRONG, 0.03], [`${HAT}/release`, 0.03],
    ] as const)('lies still at %s while its parts come', async (target, most) => {
      const { page } = await open({ width: 390 });
      await page.addInitScript(`
        globalThis.moved = 0;
        new PerformanceObserver((list) => {
          for (const { value } of list.getEntries()) moved += value;
        }).observe({ type: 'layout-shift', buffered: true });
      `);
      await page.goto(desk.base + target);
      await page.waitForLoadState('networkidle');
      expect(await page.evaluate('moved')).toBeLessThan(most);
      await page.context().close();
    }); // prettier-ignore

    it('leads the keyboard past the frame, and stops at no table that fits', async () => {
      const { page } = await open({});
      await page.goto(desk.base + WRONG);
      await page.keyboard.press('Tab');
      expect(await focused(page)).toBe('To the content');
      await page.keyboard.press('Enter');
      expect(await page.evaluate('document.activeElement.id')).toBe('main');
      await page.locator('.wide.fits').first().waitFor();
      expect(await page.locator('.wide.fits[tabindex]').count()).toBe(0);
      await page.setViewportSize({ width: 200, height: 900 });
      await page.locator('.wide[tabindex]:not(.fits)').first().waitFor();
      // A shade on its edge shows that there is more of it.
      const edge = "getComputedStyle(document.querySelector('.wide:not(.fits)')).backgroundImage";
      expect(await page.evaluate(edge)).toContain('gradient');
      await page.context().close();
    });

    it('goes on at the next finding after a correction, and at what is said after a change taken back', async () => {
      await writeFile(fileOf('wrong'), wrong);
      const { page } = await open({});
      await page.goto(desk.base + WRONG);
      const heads = await page.locator('.finding h3').allTextContents();
      expect(heads.length).toBeGreaterThan(1);
      await correct(page, '134', '133');
      const left = await page.locator('.finding h3').allTextContents();
      expect(heads).toContain(left[0]);
      expect(await focused(page)).toBe(left[0]);
      await page.getByRole('button', { name: 'Take it back' }).click();
      await expect.poll(() => focused(page)).toContain('The last change is taken back');
      await page.context().close();
    });

    it('puts a pattern away and takes it back by the keyboard, asked once in between', async () => {
      const { page } = await open({ width: 390 });
      const press = async (wanted: string) => {
        await tabTo(page, wanted);
        await page.keyboard.press('Enter');
      };
      await page.goto(desk.base + WRONG);
      await press('Put this pattern away');
      await page.getByRole('heading', { name: 'Put this pattern away?' }).waitFor();
      await press('Put away');
      await page.getByRole('button', { name: 'Take back wrong' }).waitFor();
      expect(await focused(page)).toContain('wrong is put away.');
      await expectGoodLooks(page, 'a shelf with what was put away');
      await expectReflow(page, 'a shelf with what was put away');
      await press('Take back');
      await page.waitForURL(desk.base + WRONG);
      await page.context().close();
    });

    it('closes a note beside a number with Escape, and keeps what was typed in it', async () => {
      const { page } = await open({});
      await page.goto(`${desk.base}${HAT}/numbers`);
      await tabTo(page, 'Change it');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Tab');
      await page.keyboard.type('7');
      const field = page.locator('.change[open] textarea').first();
      const typed = await field.inputValue();
      await page.keyboard.press('Escape');
      expect(await focused(page)).toContain('Change it');
      expect(await page.locator('.change[open]').count()).toBe(0);
      await page.keyboard.press('Enter');
      expect(await field.inputValue()).toBe(typed);
      await page.context().close();
    });
  });
});

const focused = (page: Page) =>
  page.evaluate<string>('(document.activeElement?.textContent ?? "").trim()');

const inSight = (page: Page, place: string) =>
  page.evaluate<boolean>(
    `{ const { top, bottom } = document.querySelector(${JSON.stringify(place)}).getBoundingClientRect(); bottom > 0 && top < innerHeight; }`,
  );

/** Corrects the first field in which the wrong number stands. */
async function correct(page: Page, wrong: string, right: string): Promise<void> {
  const field = page.locator('.finding textarea').filter({ hasText: wrong }).first();
  await field.fill((await field.inputValue()).replace(wrong, right));
  await tabTo(page, 'Correct it');
  await page.keyboard.press('Enter');
  await page.waitForURL(/done=correct/);
  await page.locator('.done').waitFor();
}
