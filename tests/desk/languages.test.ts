/**
 * The desk in its other languages: asked for by the browser, chosen on a page and remembered, its
 * findings worded in it; in a real browser nothing hangs over a phone's edge and axe finds nothing.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { chosenLanguage, rememberLanguage } from '../../src/desk/chosen-language.ts';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader } from './browser.ts';
import { type OpenedDesk, openTestDesk } from './opened.ts';

const PATTERN = '/patterns/breakwater-hat';

/** A hat whose stated count is wrong in one size. */
async function putHat(desk: OpenedDesk): Promise<void> {
  await desk.post('/begin', { starter: 'breakwater-hat' });
  const file = path.join(desk.folder, 'breakwater-hat', 'pattern.json');
  const text = await readFile(file, 'utf8');
  await writeFile(file, text.replace('126 (133, 140', '126 (134, 140'));
}

describe('the language somebody chose', () => {
  it('is read from its cookie among others', () => {
    expect(chosenLanguage('a=1; desk-language=ja; desk-80=x')).toEqual(['ja']);
    expect(chosenLanguage('desk-language=<script>')).toEqual([]);
    expect(chosenLanguage()).toEqual([]);
  });

  it('leads back to the page it was chosen on, or the nearest page above it', () => {
    const isPage = (place: string) => place === '/' || place === PATTERN;
    const back = (from?: string) => rememberLanguage({ from }, 'de', isPage).headers['location'];
    expect(back(`${PATTERN}?done=undo`)).toBe(`${PATTERN}?done=undo`);
    expect(back(`${PATTERN}/correct`)).toBe(PATTERN);
    expect(back('/begin')).toBe('/');
    expect(back()).toBe('/');
  });
});

describe.skipIf(!chromiumIsThere('the desk in its languages'))('the desk in its languages', () => {
  it.each(['de', 'es', 'fr', 'ja'])('%s, on a phone', async (tag) => {
    const desk = await openTestDesk();
    const browser = await openChromium();
    try {
      await putHat(desk);
      const { page, complaints } = await openReader(browser, { width: 390 });
      await page.context().addCookies([{ name: 'desk-language', value: tag, url: desk.base }]);
      await page.goto(desk.address);
      for (const part of ['', '/numbers', '/drawings', '/translations', '/release']) {
        await page.goto(`${desk.base}${PATTERN}${part}`);
        expect(await page.getAttribute('html', 'lang')).toBe(tag);
        await expectGoodLooks(page, `${tag} ${part}`);
      }
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
      await desk.close();
    }
  });

  it('is chosen on a page, says findings in it and is remembered', async () => {
    const desk = await openTestDesk();
    const browser = await openChromium();
    try {
      await putHat(desk);
      const { page } = await openReader(browser);
      await page.goto(desk.address);
      await page.goto(desk.base + PATTERN);
      expect(await page.textContent('main')).toContain('the pattern states');
      await page.getByRole('button', { name: 'Deutsch' }).click();
      expect(new URL(page.url()).pathname).toBe(PATTERN);
      expect(await page.textContent('main')).toContain('in der Anleitung stehen');
      expect(await page.textContent('main')).not.toContain('the pattern states');
      await page.goto(desk.base);
      expect(await page.textContent('h1')).toBe('Anleitungen');
      expect(await page.getAttribute('button[value=de]', 'aria-current')).toBe('true');
    } finally {
      await browser.close();
      await desk.close();
    }
  });
});
