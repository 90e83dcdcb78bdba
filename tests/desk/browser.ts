/**
 * A real Chromium for the tests of the desk: found where Debian and others put it, opened at the width
 * and in the colours of a reader, and held to two promises on every page: axe finds nothing against
 * WCAG 2.2 AA, and nothing hangs over the edge. Without a Chromium the tests are skipped and say so.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium, type Page } from 'playwright-core';
import { expect } from 'vitest';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const place = PLACES.find((each) => existsSync(each));

/** Says aloud what is skipped where there is no Chromium. */
export function chromiumIsThere(what: string): boolean {
  if (place === undefined) console.warn(`SKIPPED: ${what}; no Chromium is installed`);
  return place !== undefined;
}

export const openChromium = (): Promise<Browser> =>
  chromium.launch({ executablePath: place ?? '', args: ['--no-sandbox'] });

export interface Reader {
  readonly page: Page;
  /** What the browser complained of: errors of scripts, and what the policy of the page stopped. */
  readonly complaints: string[];
}

export async function openReader(
  browser: Browser,
  { width = 1280, dark = false } = {},
): Promise<Reader> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme: dark ? 'dark' : 'light',
    locale: 'en-US',
    acceptDownloads: true,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(100_000);
  const complaints: string[] = [];
  page.on('console', (each) => each.type() === 'error' && complaints.push(each.text()));
  page.on('pageerror', (each) => complaints.push(String(each)));
  return { page, complaints };
}

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const run = (options: string) =>
  `axe.run(${options}).then(({ violations }) => violations.map(({ id, nodes }) => id + ' ' + nodes[0].html))`;
const RUN = run(
  `{ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: { 'target-size': { enabled: true } } }`,
);

async function expectNoOverhang(page: Page, state: string): Promise<void> {
  expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth'), state).toBe(0);
}

/** Set as a reader's own style would set it; WCAG 2.2, 1.4.12. No policy of a page stops such a style. */
const SPACED = `{
  const style = new CSSStyleSheet();
  style.replaceSync('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }');
  document.adoptedStyleSheets = [style];
}`;

/** Nothing hangs over where 1280 pixels are magnified four times, nor with wide letters; WCAG 2.2, 1.4.10. */
export async function expectReflow(page: Page, state: string): Promise<void> {
  const before = page.viewportSize() ?? { width: 1280, height: 900 };
  await page.setViewportSize({ width: 320, height: 640 });
  await expectNoOverhang(page, `${state}, 320 px`);
  await page.evaluate(SPACED);
  await expectNoOverhang(page, `${state}, 320 px and wide letters`);
  await page.evaluate('document.adoptedStyleSheets = []');
  await page.setViewportSize(before);
}

/** The colours of the other scheme are legible as well. Goes back to the scheme it came from. */
export async function expectContrastOf(
  page: Page,
  colorScheme: 'dark' | 'light',
  state: string,
): Promise<void> {
  await page.emulateMedia({ colorScheme });
  await page.evaluate(AXE);
  const said = await page.evaluate(run(`{ runOnly: ['color-contrast'] }`));
  expect(said, `${state}, ${colorScheme}`).toEqual([]);
  await page.emulateMedia({ colorScheme: null });
}

/** The state the page is in now: axe clean, places to press large enough, and no wider than the window. */
export async function expectGoodLooks(page: Page, state: string): Promise<void> {
  await expectNoOverhang(page, state);
  await page.evaluate(AXE);
  expect(await page.evaluate(RUN), state).toEqual([]);
}

/** Presses Tab until the place has the focus: nobody may need a mouse to come there. */
export async function tabTo(page: Page, wanted: string, most = 200): Promise<void> {
  const there = `(document.activeElement?.textContent || document.activeElement?.value || '').trim().startsWith(${JSON.stringify(wanted)})`;
  for (let at = 0; at < most; at += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(there)) return;
  }
  expect.fail(`“${wanted}” is not reached with the Tab key`);
}
