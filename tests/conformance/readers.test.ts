/**
 * The finished files in the hands of other readers: poppler (fonts, text, tags) and qpdf (syntax).
 * Skipped, and said so, where these are not installed.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { castoff, copyStarter } from '../cli/desk-side.ts';

const has = (tool: string) =>
  spawnSync(tool, ['--version'], { stdio: 'ignore' }).error === undefined;
const LANGUAGES = ['en-US', 'de', 'fr', 'ja'];

describe.skipIf(!has('pdffonts') || !has('qpdf'))('other readers (poppler, qpdf)', () => {
  let release = '';
  beforeAll(async () => {
    const { folder } = await copyStarter('breakwater-hat');
    const said = await castoff(folder, 'publish', 'bundle', '--to', 'out');
    expect(said.code).toBe(0);
    release = path.join(folder, 'out', 'breakwater-hat', '1.0.0');
  });

  const fileOf = (language: string) =>
    path.join(release, language, `breakwater-hat-1.0.0-${language}.pdf`);
  const run = (tool: string, ...args: string[]) => execFileSync(tool, args, { encoding: 'utf8' });

  it.each(LANGUAGES)('%s: every font is embedded, as a subset, with its text', (language) => {
    const fonts = run('pdffonts', fileOf(language)).trim().split('\n').slice(2);
    expect(fonts.length).toBeGreaterThan(1);
    // Columns from the right: object, generation, Unicode map, subset, embedded.
    for (const line of fonts) expect(line).toMatch(/ yes +yes +yes +\d+ +\d+$/);
  });

  it.each(LANGUAGES)('%s: the text holds the counts of the crown', (language) => {
    const text = run('pdftotext', '-layout', fileOf(language), '-');
    for (const count of ['144', '152', '160', '168', '176', '126', '90', '110', '54', '36', '18'])
      expect(text).toContain(count);
  });

  it.each(LANGUAGES)('%s: tagged, in its language, and sound', (language) => {
    expect(run('pdfinfo', fileOf(language))).toMatch(/Tagged: +yes/);
    expect(run('qpdf', '--check', fileOf(language))).toMatch(/No syntax or stream encoding errors/);
  });
});
