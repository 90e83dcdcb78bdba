/**
 * The whole path as a designer walks it: publish, look, correct, publish again. Languages are kept to
 * two where the number of them does not matter.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { readPdf } from '../../src/press/proof/read-pdf.ts';
import { castoff, change, copyStarter, filesBelow } from './desk-side.ts';

const TWO = ['--languages', 'en-US,de'];

describe('castoff publish', () => {
  it('stages one document for each language, with listing and pictures', async () => {
    const { folder } = await copyStarter('breakwater-hat');
    const said = await castoff(folder, 'publish', 'bundle', '--to', 'out');
    expect(said).toMatchObject({ code: 0, err: '' });
    const files = await filesBelow(path.join(folder, 'out', 'breakwater-hat', '1.0.0'));
    for (const language of ['en-US', 'de', 'fr', 'ja']) {
      expect(files).toContain(`${language}/breakwater-hat-1.0.0-${language}.pdf`);
      expect(files).toContain(`${language}/listing.txt`);
    }
    expect(files.filter((file) => file.startsWith('pictures/'))).toHaveLength(15);
    expect(said.out).toMatch(/To open:/);
  });

  it('prints every count of the pattern in every language', async () => {
    const { folder, bundle } = await copyStarter('sea-fret-pullover');
    const { code } = await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    expect(code).toBe(0);
    const loaded = loadBundle(await unpackBundle(bundle));
    const checked = checkPattern(loaded.bundle!);
    const counts = new Set(
      checked.pieces
        .flatMap((piece) => piece.lines.flatMap((line) => line.outcomes))
        .filter(
          (outcome) => !outcome.skipped && outcome.after !== outcome.before && outcome.after > 0,
        )
        .map((outcome) => String(outcome.after)),
    );
    expect(counts.size).toBeGreaterThan(40);
    for (const language of ['en-US', 'de']) {
      const name = `sea-fret-pullover-1.0.0-${language}.pdf`;
      const bytes = await readFile(
        path.join(folder, 'out/sea-fret-pullover/1.0.0', language, name),
      );
      const { pages } = await readPdf(bytes);
      const text = pages.flatMap(({ pieces }) => pieces.map((piece) => piece.text)).join(' ');
      const numbers = new Set(text.match(/\d+/g));
      expect([...counts].filter((count) => !numbers.has(count))).toEqual([]);
    }
  });

  it('reuses what did not change, and leaves the old release as it was', async () => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    const out = path.join(folder, 'out');
    const first = path.join(out, 'breakwater-hat', '1.0.0');
    await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    const before = await contents(first);

    const again = await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    expect(again).toMatchObject({ code: 0 });
    expect(again.out).toMatch(/released before/);

    await change(bundle, 'Rnd 21: Knit.', 'Rnd 21: *k1; rep from * to end.');
    const refused = await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/1\.0\.0[^]*=.*version/);
    expect(await contents(first)).toEqual(before);

    await change(bundle, '"version": "1.0.0"', '"version": "1.0.1"');
    const corrected = await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    expect(corrected.code).toBe(0);
    expect(Number(/(\d+) reused/.exec(corrected.out)?.[1])).toBeGreaterThanOrEqual(15);
    expect(await contents(first)).toEqual(before);
    expect(await filesBelow(path.join(out, 'breakwater-hat'))).toContain(
      '1.0.1/de/breakwater-hat-1.0.1-de.pdf',
    );
  });

  it('writes the errata of a correction by itself, and refuses a version that is too small', async () => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    const releases = path.join(folder, 'out', 'breakwater-hat');
    const pattern = path.join(bundle, 'pattern.json');
    const whole = await readFile(pattern, 'utf8');
    const two = whole.replace(/"languages": \[[^\]]*\]/, '"languages": ["en-US", "de"]');
    await writeFile(pattern, two);
    await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);

    await change(bundle, '*ssk, k2, k2tog, p1', '*k2tog, k2, ssk, p1');
    await change(bundle, '"version": "1.0.0"', '"version": "1.0.1"');
    expect(await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO)).toMatchObject({
      code: 0,
    });
    const german = path.join(releases, '1.0.1', 'de', 'breakwater-hat-1.0.1-de');
    expect(await readFile(`${german}-errata.txt`, 'utf8')).toMatch(/7\. Rd/);
    expect(await readFile(`${german}-notice.txt`, 'utf8')).toMatch(/1\.0\.0/);
    const { pages } = await readPdf(await readFile(`${german}.pdf`));
    const text = pages.flatMap((page) => page.pieces.map((piece) => piece.text)).join(' ');
    expect(text).toMatch(/1\.0\.1 \([^)]+\): Berichtigt: [^.]*7\. Rd/);

    const compared = await castoff(
      folder, 'errata', 'out/breakwater-hat/1.0.0', 'out/breakwater-hat/1.0.1', '--languages', 'de',
    ); // prettier-ignore
    expect(compared).toMatchObject({ code: 0, err: '' });
    expect(compared.out).toBe((await readFile(`${german}-errata.txt`, 'utf8')).trimEnd());

    await change(bundle, '"version": "1.0.1"', '"version": "1.0.2"');
    await change(bundle, '"languages": ["en-US", "de"]', '"languages": ["en-US", "de", "fr"]');
    const refused = await castoff(folder, 'publish', 'bundle', '--to', 'out', ...TWO);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/too small: a size or a language was added[^]*1\.1\.0/);
    expect(await filesBelow(path.join(releases, '1.0.2'))).toEqual([]);
  });

  it('says where a folder went that somebody had changed by hand', async () => {
    const { folder } = await copyStarter('breakwater-hat');
    const again = ['publish', 'bundle', '--to', 'out', '--languages', 'en-US'];
    await castoff(folder, ...again);
    await writeFile(path.join(folder, 'out/breakwater-hat/1.0.0/en-US/listing.txt'), 'better');
    const said = await castoff(folder, ...again);
    const aside = /it is kept as (out\/breakwater-hat\/1\.0\.0-set-aside-\S+)\./.exec(
      said.out,
    )?.[1];
    expect(await readFile(path.join(folder, aside ?? '', 'en-US/listing.txt'), 'utf8')).toBe(
      'better',
    );
  });

  it('prints on the paper that is asked for', async () => {
    const { folder } = await copyStarter('breakwater-hat');
    const papers = ['--languages', 'de', '--paper', 'A4,letter'];
    expect(await castoff(folder, 'publish', 'bundle', '--to', 'out', ...papers)).toMatchObject({
      code: 0,
    });
    const sizes = ['a4', 'letter'].map(async (paper) => {
      const name = `breakwater-hat-1.0.0-de-standard-${paper}.pdf`;
      const { pages } = await readPdf(
        await readFile(path.join(folder, 'out/breakwater-hat/1.0.0/de', name)),
      );
      return pages.map(({ widthPoints }) => Math.round(widthPoints));
    });
    // ISO 216: 210 mm; ANSI/ASME Y14.1: 8.5 in.
    const [a4, letter] = await Promise.all(sizes);
    expect(new Set(a4)).toEqual(new Set([595]));
    expect(new Set(letter)).toEqual(new Set([612]));
    const refused = await castoff(folder, 'publish', 'bundle', '--to', 'out', '--paper', 'A3');
    expect(refused).toMatchObject({ code: 2 });
    expect(refused.err).toMatch(/A4, Letter/);
  });

  it('refuses a language the bundle does not have', async () => {
    const { folder } = await copyStarter('breakwater-hat');
    const said = await castoff(folder, 'publish', 'bundle', '--to', 'out', '--languages', 'eo');
    expect(said.code).toBe(2);
    expect(said.err).toMatch(/eo[^]*en-US/);
  });
});

async function contents(folder: string): Promise<Record<string, string>> {
  const files = await filesBelow(folder);
  const texts = await Promise.all(files.map((file) => readFile(path.join(folder, file), 'base64')));
  return Object.fromEntries(files.map((file, index) => [file, texts[index] ?? '']));
}
