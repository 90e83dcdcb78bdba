/**
 * Every page of the desk in a real browser: axe finds nothing against WCAG 2.2 AA, nothing hangs over a
 * phone's edge, the pages of documents are drawn, and the content security policy stops nothing of ours.
 * Needs Chromium; where none is installed it is skipped and says so.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openTestDesk } from './opened.ts';

const CHROMIUM = '/usr/bin/chromium';
const there = existsSync(CHROMIUM);
if (!there) console.warn(`SKIPPED: the looks of the desk; ${CHROMIUM} is not installed`);

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RUN = `axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
  .then(({ violations }) => violations.map(({ id, nodes }) => id + ' ' + nodes[0].html))`;
const PARTS = ['', '/numbers', '/drawings', '/translations', '/pages?beside=', '/release'];

describe.skipIf(!there)('the looks of the desk', () => {
  it.each([
    { width: 390, colorScheme: 'dark' as const },
    { width: 1280, colorScheme: 'light' as const },
  ])('$width px, $colorScheme', async ({ width, colorScheme }) => {
    const desk = await openTestDesk();
    const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] });
    try {
      await desk.post('/begin', { starter: 'breakwater-hat' });
      const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
      const complaints: string[] = [];
      page.on('console', (each) => each.type() === 'error' && complaints.push(each.text()));
      page.on('pageerror', (each) => complaints.push(String(each)));
      await page.goto(desk.address);
      const pages = ['/', ...PARTS.map((part) => `/patterns/breakwater-hat${part}`)];
      for (const target of pages) {
        await page.goto(desk.base + target);
        if (target.includes('/pages')) await page.locator('canvas.drawn').first().waitFor();
        expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBe(0);
        await page.evaluate(AXE);
        expect(await page.evaluate(RUN), target).toEqual([]);
      }
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
      await desk.close();
    }
  });
});
