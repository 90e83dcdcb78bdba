/**
 * The pages in the cloud in a real browser: a bundle handed in by the form that goes straight to the store,
 * its run seen to the end without a reload, and every page looked at by axe (WCAG 2.2 AA), on a phone in the
 * dark and on a desk in the light. Nothing of ours may be stopped by our own content security policy.
 * Needs Chromium; where none is installed it is skipped and says so.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Pages } from '../../functions/pages/pages.ts';
import { finding } from '../../src/findings/register.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader } from '../desk/browser.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { listenForBrowser, openCloudDesk } from './cloud-desk.ts';
import { type Cloud, startCloud } from './cloud.ts';
import { objectCreated } from './events.ts';
import type { TestIssuer } from './issuer.ts';

const there = chromiumIsThere('the looks of the pages in the cloud');

/** Where the pictures of the pages go, for whoever wants to look. */
const PICTURES = process.env['CASTOFF_PICTURES'];

describe.skipIf(!there)('the looks of the pages in the cloud', () => {
  let cloud: Cloud;
  let issuer: TestIssuer;
  let pages: Pages;
  let folder: string;
  let server: Awaited<ReturnType<typeof listenForBrowser>>;

  beforeAll(async () => {
    cloud = await startCloud();
    cloud.clear();
    server = await listenForBrowser(() => pages, cloud.front.endpoint);
    vi.stubEnv('DESK_ADDRESS', server.home);
    ({ pages, issuer } = await openCloudDesk({
      home: server.home,
      rooms: async () => cloud.rooms,
    }));
    folder = await mkdtemp(path.join(tmpdir(), 'castoff-looks-'));
    await writeFile(path.join(folder, 'hat.zip'), zipSync(Object.fromEntries(skerryFiles())));
  });
  afterAll(async () => {
    server.close();
    await cloud.close();
    await rm(folder, { recursive: true, force: true });
  });

  async function examine(page: Page, name: string): Promise<void> {
    await expectGoodLooks(page, name);
    if (PICTURES !== undefined)
      await page.screenshot({ path: path.join(PICTURES, `${name}.png`), fullPage: true });
  }

  it.each([
    { width: 390, dark: true },
    { width: 1280, dark: false },
  ])('$width px, dark: $dark', async ({ width, dark }) => {
    cloud.clear();
    const browser = await openChromium();
    try {
      const { page, complaints } = await openReader(browser, { width, dark });
      page.setDefaultTimeout(30_000);
      // The issuer has no address of its own here: the way to it fails, and its answer is brought back.
      const door = await page.context().newPage();
      const away = door.waitForEvent('requestfailed');
      await door.goto(server.home).catch(() => undefined);
      await page.goto(issuer.letIn((await away).url(), 'ada').href);
      await door.close();

      await examine(page, `shelf-empty-${width}`);
      await page.getByRole('button', { name: 'On to the file' }).click();
      await examine(page, `hand-in-${width}`);
      const field = page.getByLabel('A zip');
      await field.setInputFiles({
        name: 'hat.txt',
        mimeType: 'text/plain',
        buffer: Buffer.from('k2'),
      });
      await page.getByText('hat.txt is not a file of the kind').waitFor();
      await field.setInputFiles(path.join(folder, 'hat.zip'));
      const stored = page.waitForResponse((each) => each.status() === 303);
      await page.getByRole('button', { name: 'Hand in' }).click();
      const version = (await stored).headers()['x-amz-version-id'] ?? '';
      await page.waitForURL(/\/handed-in\//);
      await examine(page, `arriving-${width}`);
      const key = new URL(page.url()).searchParams.get('key') ?? '';
      const { run } = await cloud.endOf(objectCreated(key, version));
      await page.waitForURL(new RegExp(`/progress/${run}$`));
      await page.getByText('Every number follows').waitFor();
      await page.getByRole('link', { name: 'skerry hat 1.0.0' }).click();
      await examine(page, `release-${width}`);

      const { work } = cloud.studio('ada');
      await keepStart(work, {
        run: 'young',
        at: new Date().toISOString(),
        source: '',
        settings: {},
      });
      await page.goto(`${server.home}/progress/young`);
      await examine(page, `working-${width}`);
      const where = { file: 'pattern.json', pointer: '/pieces/0/x', label: 'Crown, row 3' };
      const slip = finding('bundle/shape', where, { problem: 'a number is missing' });
      cloud.rooms = studioRooms({ findings: () => [slip] });
      const { run: blocked } = await cloud.endOf(await cloud.upload('ada/b.zip'));
      await page.goto(`${server.home}/progress/${blocked}`);
      await examine(page, `blocked-${width}`);
      await page.goto(server.home);
      await examine(page, `shelf-${width}`);
      await page.getByRole('button', { name: 'Sign out' }).click();
      await page.getByRole('heading', { name: 'You are signed out here' }).waitFor();
      await examine(page, `left-${width}`);
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});
