/**
 * The whole way of a designer in a real browser, with the desk as a process of its own: a starter, a
 * wrong number, its finding, the correction, a release in five languages (the desk is closed in the
 * middle and opened again), a correction after it, the next version with its sheet of corrections, and
 * everything taken home as a zip. Needs Chromium; where none is installed it is skipped and says so.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownWorker, rootFolder } from '../../src/cli/resources.ts';
import { chromiumIsThere, expectGoodLooks, openChromium, openReader, tabTo } from './browser.ts';

const LANGUAGES = ['en-US', 'de', 'fr', 'es', 'ja'];
const HAT = '/patterns/breakwater-hat';

interface Desk {
  readonly address: string;
  readonly base: string;
  /** As Ctrl-C does it. */
  close(): Promise<void>;
}

const running = new Set<ChildProcess>();

/** `castoff desk`, as it is started on a terminal. */
async function startDesk(folder: string): Promise<Desk> {
  const cli = path.join(rootFolder, 'src', 'cli.ts');
  const args = [...ownWorker().execArgv, cli, 'desk', folder];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  running.add(child);
  const gone = new Promise<void>((resolve) => {
    child.once('exit', () => {
      running.delete(child);
      resolve();
    });
  });
  const address = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (text: Buffer) => {
      said += text.toString();
      const [found] = /http:\/\/\S+/.exec(said) ?? [];
      if (found !== undefined) resolve(found);
    });
    void gone.then(() => reject(new Error(`the desk did not open: ${said}`)));
  });
  const close = () => {
    child.kill('SIGINT');
    return gone;
  };
  return { address, base: new URL(address).origin, close };
}

describe.skipIf(!chromiumIsThere('the story of a designer at the desk'))(
  'a designer at the desk',
  () => {
    let folder: string;
    let desk: Desk;
    let browser: Browser;
    let page: Page;
    let complaints: string[];
    const file = () => path.join(folder, 'breakwater-hat', 'pattern.json');
    const heading = (name: string) => page.getByRole('heading', { name, exact: true });

    beforeAll(async () => {
      folder = await mkdtemp(path.join(os.tmpdir(), 'story-'));
      [desk, browser] = await Promise.all([startDesk(folder), openChromium()]);
      ({ page, complaints } = await openReader(browser));
      await page.goto(desk.address);
    });
    afterAll(async () => {
      await browser.close();
      for (const child of running) child.kill('SIGKILL');
      await rm(folder, { recursive: true, force: true });
    });

    it('begins from a starter, with the keyboard alone', async () => {
      await page.getByText('No pattern lies here yet').waitFor();
      await page.getByLabel('Starter', { exact: true }).focus();
      await tabTo(page, 'Put a copy on the desk');
      await page.keyboard.press('Enter');
      await page.getByText('Every number follows in every size.').waitFor();
      // Five of its languages are enough for a story.
      const text = await readFile(file(), 'utf8');
      await writeFile(
        file(),
        text.replace(/"languages": \[[^\]]*\]/, `"languages": ${JSON.stringify(LANGUAGES)}`),
      );
      await page.reload();
      await page.getByText('All languages can say this pattern').waitFor();
    });

    it('is shown a wrong number where it stands, and corrects it there', async () => {
      const sound = await readFile(file(), 'utf8');
      await writeFile(file(), sound.replace('126 (133, 140', '126 (134, 140'));
      await page.reload();
      expect(await page.locator('mark').first().textContent()).toBe('134');
      await expectGoodLooks(page, 'a finding');

      const field = page.getByLabel('As it stands in the pattern').first();
      await field.fill((await field.inputValue()).replace('134', '133'));
      await tabTo(page, 'Correct it');
      await page.keyboard.press('Enter');
      await page.getByText('The correction is saved').waitFor();
      await page.getByText('Every number follows in every size.').waitFor();
      expect(await readFile(file(), 'utf8')).toBe(sound);
      await expectGoodLooks(page, 'a correction made');
    });

    it('releases it in five languages, though the desk is closed in the middle', async () => {
      await page.goto(`${desk.base}${HAT}/release`);
      await page.getByText('Version 1.0.0 would be the first release.').waitFor();
      await page.getByRole('radio', { name: 'For sale' }).check();
      await tabTo(page, 'Make the release');
      await page.keyboard.press('Enter');
      await heading('At work').waitFor();
      await page.locator('.progress li').first().waitFor();
      await expectGoodLooks(page, 'a run at work');

      await page.goto('about:blank');
      await desk.close();
      desk = await startDesk(folder);
      await page.goto(desk.address);
      await page.goto(`${desk.base}${HAT}/release`);
      await page.getByText('Version 1.0.0 is released').waitFor();
      const records = path.join(folder, '.desk', 'runs');
      const [record = ''] = await readdir(records);
      expect(await readFile(path.join(records, record), 'utf8')).toContain('"resumed": 1');
      for (const name of ['English', 'Deutsch', 'français', 'español', '日本語'])
        expect(await page.locator('.staged').first().textContent()).toContain(name);
      await page.locator('.staged').first().scrollIntoViewIfNeeded();
      await page.locator('canvas.drawn').first().waitFor();
      await expectGoodLooks(page, 'a release');
    });

    it('corrects it once more, and sees what buyers will be told', async () => {
      const sound = await readFile(file(), 'utf8');
      const changed = sound.replace(
        '"kind": "markers", "count": 1',
        '"kind": "markers", "count": 2',
      );
      expect(changed).not.toBe(sound);
      await writeFile(file(), changed);
      await page.goto(`${desk.base}${HAT}/release`);
      await page.getByText('Buyers of version 1.0.0 would be sent these corrections').waitFor();
      await page.getByText('The sheet of corrections').first().click();
      await expectGoodLooks(page, 'corrections before they are sent');
      await page.getByRole('button', { name: 'Make it 1.' }).click();
      await page.getByText('Buyers of version 1.0.0').waitFor();
      await page.getByRole('radio', { name: 'For sale' }).check();
      await page.getByRole('button', { name: 'Make the release' }).click();
      await page.getByRole('heading', { name: /^Version 1\.0\.1/ }).waitFor();
      await page.getByText('Version 1.0.1 is released').waitFor();
    });

    it('takes everything home', async () => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'Take everything (zip)' }).first().click(),
      ]);
      expect(download.suggestedFilename()).toBe('breakwater-hat-1.0.1.zip');
      const names = Object.keys(unzipSync(await readFile(await download.path())));
      for (const tag of LANGUAGES) {
        expect(names.filter((name) => name.includes(tag) && name.endsWith('.pdf'))).not.toEqual([]);
        expect(names.filter((name) => name.includes(tag) && name.includes('errata'))).not.toEqual([]); // prettier-ignore
      }
      await page.goto('about:blank');
      expect(complaints).toEqual([]);
    });
  },
);
