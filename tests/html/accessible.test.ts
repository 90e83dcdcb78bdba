/**
 * The plain web page beside the PDF, in a real browser: axe finds nothing against WCAG 2.2 AA in
 * daylight and lamplight, and nothing hangs over a phone's edge. Needs Chromium; where none is installed
 * it is skipped and says so. A page spoilt on purpose proves that the judge can say no.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openEquipment, type Equipment } from '../../src/pipeline/rooms.ts';
import { writePage } from '../../src/release/page.ts';
import { pngOf } from '../pipeline/studio.ts';
import { starterIn } from '../starters/every-language.ts';

const CHROMIUM = '/usr/bin/chromium';
const there = existsSync(CHROMIUM);
if (!there) console.warn(`SKIPPED: the accessible page; ${CHROMIUM} is not installed`);

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RUN = `axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
  .then(({ violations }) => violations.map(({ id, nodes }) => id + ' ' + nodes[0].html))`;

/** The page of a starter, with grey pictures in place of its photographs. */
async function pageOf(starter: string, tag: string, { languages, templates }: Equipment) {
  const checked = await starterIn(starter, [tag]);
  const language = languages.get(tag)!;
  const files = checked.pattern.bundle.data.photos.map(({ file }) => file);
  const pictures = new Map(files.map((file) => [file, { hash: file, widthPixels: 600, heightPixels: 450 }])); // prettier-ignore
  const picture = { bytes: pngOf(60, 45), mediaType: 'image/png' };
  const screen = new Map(files.map((file) => [file, picture]));
  return writePage({ checked, language, kind: 'standard', pictures }, screen, templates);
}

describe.skipIf(!there)('the accessible page', () => {
  let browser: Browser;
  let equipment: Equipment;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] });
    equipment = await openEquipment({ root: process.cwd() });
  });
  afterAll(() => browser?.close());

  async function complaintsOf(html: string, width: number, colorScheme: 'light' | 'dark') {
    const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
    await page.setContent(html);
    const over = await page.evaluate('document.documentElement.scrollWidth - innerWidth');
    await page.evaluate(AXE);
    const found = (await page.evaluate(RUN)) as string[];
    await page.close();
    return over === 0 ? found : [...found, `hangs ${String(over)} pixels over the edge`];
  }

  it.each([
    ['breakwater-hat', 'en-US', 390, 'light'],
    ['little-squall-cardigan', 'he', 390, 'dark'],
    ['mackerel-sky-yoke', 'ja', 1280, 'light'],
    ['sea-fret-pullover', 'de', 320, 'light'],
    ['undertow-shawl', 'pl', 1280, 'dark'],
  ] as const)('of %s in %s at %i px, %s', async (starter, tag, width, scheme) => {
    const html = await pageOf(starter, tag, equipment);
    expect(await complaintsOf(html, width, scheme)).toEqual([]);
  });

  it('is judged: a picture without words, a pale text and a skipped heading are found', async () => {
    const html = (await pageOf('breakwater-hat', 'en-US', equipment))
      .replace(/<img ([^>]*)alt="[^"]*"/u, '<img $1')
      .replace('<p class="lead">', '<p style="color:#ccc;background:#fff">')
      .replace(/<h2 /u, '<h4 ');
    const found = (await complaintsOf(html, 390, 'light')).map((each) => each.split(' ')[0]);
    expect(found).toEqual(expect.arrayContaining(['image-alt', 'color-contrast']));
  });
});
