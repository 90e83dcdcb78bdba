/**
 * The desk as a designer waits for it, in a real browser: from a changed number to the new finding and
 * to what the languages say, from a dropped zip to the first page drawn, and the memory of the pages
 * with the most numbers. Milliseconds by the clock; `npm run bench:desk`.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { chromiumIsThere, openChromium, openReader } from '../desk/browser.ts';
import { openTestDesk, type OpenedDesk } from '../desk/opened.ts';

const ROUNDS = 5;
const HAT = '/patterns/breakwater-hat';
const LARGEST = 'sea-fret-pullover';

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

async function timed(work: () => Promise<unknown>): Promise<number> {
  const before = performance.now();
  await work();
  return Math.round(performance.now() - before);
}

async function correcting(desk: OpenedDesk, page: Page): Promise<void> {
  const file = path.join(desk.folder, 'breakwater-hat', 'pattern.json');
  const sound = await readFile(file, 'utf8');
  const finding: number[] = [];
  const first: number[] = [];
  const languages: number[] = [];
  await page.goto(desk.base + HAT);
  for (let round = 0; round < ROUNDS; round += 1) {
    const wrong = `126 (${134 + round}, 140`;
    await writeFile(file, sound.replace('126 (133, 140', wrong));
    finding.push(
      await timed(async () => {
        await page.reload({ waitUntil: 'commit' });
        await page
          .locator('mark', { hasText: String(134 + round) })
          .first()
          .waitFor();
      }),
    );
    const before = performance.now();
    first.push(await timed(() => page.getByText(/^[1-9]\d* of 20 languages/).waitFor()));
    await page.getByText('All languages can say').waitFor();
    languages.push(Math.round(performance.now() - before));
  }
  await writeFile(file, sound);
  console.log(`changed number to new finding: ${median(finding)} ms; the first language after ${median(first)} ms more, all 20 after ${median(languages)} ms`); // prettier-ignore
}

async function dropping(desk: OpenedDesk, page: Page): Promise<void> {
  await desk.post('/begin', { starter: LARGEST });
  const zip = Buffer.from(await (await desk.get(`/patterns/${LARGEST}/bundle.zip`)).arrayBuffer());
  await page.goto(desk.base);
  const shown = await timed(async () => {
    const file = { name: 'dropped.zip', mimeType: 'application/zip', buffer: zip };
    await page.getByLabel('A zip').setInputFiles(file);
    await page.getByRole('button', { name: 'Hand in' }).first().click();
    await page.waitForURL('**/patterns/dropped');
  });
  const drawn = await timed(async () => {
    await page.goto(`${desk.base}/patterns/dropped/pages?beside=`);
    await page.locator('canvas.drawn').first().waitFor();
  });
  console.log(`dropped zip to its findings: ${shown} ms; from there to the first page drawn: ${drawn} ms`); // prettier-ignore
}

async function memory(desk: OpenedDesk, page: Page): Promise<void> {
  const line = await page.context().newCDPSession(page);
  await line.send('Performance.enable');
  for (const part of ['numbers', 'pages']) {
    await page.goto(`${desk.base}/patterns/${LARGEST}/${part}`, { waitUntil: 'networkidle' });
    if (part === 'pages')
      for (let at = 0; at < 20; at += 1) await page.mouse.wheel(0, 1200).then(() => page.waitForTimeout(150)); // prettier-ignore
    await line.send('HeapProfiler.collectGarbage');
    const { metrics } = await line.send('Performance.getMetrics');
    const of = (name: string) => metrics.find((each) => each.name === name)?.value ?? 0;
    const canvas = await page.evaluate(
      `[...document.querySelectorAll('canvas')].reduce((sum, { width, height }) => sum + width * height * 4, 0)`,
    );
    console.log(`${part}, ${LARGEST}: ${(of('JSHeapUsedSize') / 1e6).toFixed(1)} MB of script memory, ${(Number(canvas) / 1e6).toFixed(0)} MB of drawn pages, ${of('Nodes')} nodes`); // prettier-ignore
  }
}

if (chromiumIsThere('the bench of the desk')) {
  const desk = await openTestDesk();
  const browser = await openChromium();
  try {
    await desk.post('/begin', { starter: 'breakwater-hat' });
    const { page } = await openReader(browser);
    await page.goto(desk.address);
    await correcting(desk, page);
    await dropping(desk, page);
    await memory(desk, page);
  } finally {
    await browser.close();
    await desk.close();
  }
}
