/**
 * The designer's way in a real browser: the key, a starter, a wrong number, its finding, the correction
 * by keyboard. Needs Chromium; where none is installed the story is skipped and says so.
 */
import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openTestDesk } from './opened.ts';

const CHROMIUM = '/usr/bin/chromium';
const there = existsSync(CHROMIUM);
if (!there) console.warn(`SKIPPED: the desk's story in a browser; ${CHROMIUM} is not installed`);

describe.skipIf(!there)('a designer at the desk', () => {
  it('finds and corrects a wrong number, without a mouse, on a phone’s width', async () => {
    const desk = await openTestDesk();
    const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] });
    try {
      const page = await browser.newPage({ viewport: { width: 380, height: 800 } });
      const complaints: string[] = [];
      page.on('console', (each) => each.type() === 'error' && complaints.push(each.text()));
      page.on('pageerror', (each) => complaints.push(String(each)));
      await page.goto(desk.address);
      expect(page.url()).toBe(`${desk.base}/`);
      await page.getByLabel('Starter', { exact: true }).focus();
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      await page.getByText('Every number follows in every size.').waitFor();
      await page.getByText('All languages can say this pattern').waitFor();

      const file = path.join(desk.folder, 'breakwater-hat', 'pattern.json');
      const sound = await readFile(file, 'utf8');
      await writeFile(file, sound.replace('126 (133, 140', '126 (134, 140'));
      await page.reload();
      expect(await page.locator('mark').first().textContent()).toBe('134');
      const field = page.getByLabel('As it stands in the pattern').first();
      await field.fill((await field.inputValue()).replace('134', '133'));
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      await page.getByText('The correction is saved').waitFor();
      expect(await readFile(file, 'utf8')).toBe(sound);
      for (const target of ['/', '/patterns/breakwater-hat', '/patterns/breakwater-hat/numbers']) {
        await page.goto(desk.base + target);
        const overhang = 'document.documentElement.scrollWidth - innerWidth';
        expect(await page.evaluate(overhang)).toBe(0);
      }
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
      await desk.close();
    }
  });
});
