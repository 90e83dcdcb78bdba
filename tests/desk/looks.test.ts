/**
 * Every page of the desk in a real browser: axe finds nothing against WCAG 2.2 AA, nothing hangs over a
 * phone's edge, the pages of documents are drawn, and the content security policy stops nothing of ours.
 * Needs Chromium; where none is installed it is skipped and says so.
 */
import { describe, expect, it } from 'vitest';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader } from './browser.ts';
import { openTestDesk } from './opened.ts';

const PARTS = ['', '/numbers', '/drawings', '/translations', '/pages?beside=', '/release'];

describe.skipIf(!chromiumIsThere('the looks of the desk'))('the looks of the desk', () => {
  it.each([
    { width: 390, dark: true },
    { width: 1280, dark: false },
  ])('$width px, dark: $dark', async (look) => {
    const desk = await openTestDesk();
    const browser = await openChromium();
    try {
      await desk.post('/begin', { starter: 'breakwater-hat' });
      const { page, complaints } = await openReader(browser, look);
      await page.goto(desk.address);
      const pages = ['/', ...PARTS.map((part) => `/patterns/breakwater-hat${part}`)];
      for (const target of pages) {
        await page.goto(desk.base + target);
        if (target.includes('/pages')) await page.locator('canvas.drawn').first().waitFor();
        await expectGoodLooks(page, target);
      }
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
      await desk.close();
    }
  });
});
