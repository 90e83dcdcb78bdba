/**
 * Errata name exactly the lines and sizes that print otherwise. Corrections are made to a starter as a
 * designer would make them; the property changes any one number and compares with the printed text.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadLanguages, type Language, plainText, sayPattern } from '../../src/language/index.ts';
import { assembleBundle, loadBundle } from '../../src/pattern/bundle/load.ts';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';
import { alignLines } from '../../src/release/errata/align.ts';
import { compareVersions } from '../../src/release/errata/changes.ts';
import { adviseVersion } from '../../src/release/errata/version.ts';

let hat: Bundle;
let english: Language;
const STARTER = 'templates/starters/breakwater-hat';

beforeAll(async () => {
  hat = loadBundle(await unpackBundle(STARTER)).bundle!;
  const files = ['language.json', 'messages.json', 'rows.json', 'glossary.json'] as const;
  const read = async (file: string): Promise<unknown> =>
    JSON.parse(await readFile(path.join('locales/en-US', file), 'utf8'));
  const entries = await Promise.all(files.map(async (file) => [file, await read(file)] as const));
  const folder = Object.fromEntries(entries) as Record<(typeof files)[number], unknown>;
  english = (await loadLanguages({ 'en-US': folder })).get('en-US')!;
});

/** The hat with its JSON text changed in one place. */
function changed(from: string, to: string): Bundle {
  const text = JSON.stringify(hat.data);
  expect(text).toContain(from);
  return assembleBundle(JSON.parse(text.replace(from, to)) as BundleData, hat.prose, hat.photos);
}

/** What a knitter of one size reads: every line of her own edition. */
function printedLines(bundle: Bundle, size: number): string[] {
  return sayPattern(checkPattern(bundle), english, size).pieces.flatMap((piece) =>
    piece.sections.flatMap((section) =>
      section.lines.map(({ said }) =>
        [said.label, said.body, said.count].map(plainText).filter(Boolean).join(' '),
      ),
    ),
  );
}

const compare = (now: Bundle) => compareVersions(checkPattern(hat), checkPattern(now), english);

describe('what changed', () => {
  it('nothing, where nothing prints otherwise', () => {
    expect(compare(hat)).toEqual([]);
    // The order of keys and the spelling of a row are no change for a knitter.
    expect(compare(changed('Rnd 21: Knit.', 'Rnd 21: knit to end.'))).toEqual([]);
  });

  it('one count in one size: the row, the size, was and is', () => {
    const changes = compare(changed('90 (95, 100, 105, 110) sts', '90 (95, 101, 105, 110) sts'));
    // The needle's count is printed, so a wrong statement alone changes nothing.
    expect(changes).toEqual([]);
    const [change, ...rest] = compare(
      changed('108 (114, 120, 126, 132)', '108 (114, 123, 126, 132)'),
    ).filter((each) => each.kind === 'line');
    expect(change).toMatchObject({ piece: 'Hat', section: 'Brim', sizes: [2] });
    expect(change?.was).toContain('120');
    expect(change?.is).toContain('123');
    for (const each of rest) expect(each.sizes).toEqual([2]);
  });

  it('a line that came or went concerns every size', () => {
    const changes = compare(changed('"Rnd 21: Knit.",', ''));
    expect(changes).toMatchObject([
      { kind: 'line', label: 'Rnd 21:', is: '', sizes: [0, 1, 2, 3, 4] },
    ]);
  });

  it('measurements, yarn, charts and words are told apart', () => {
    expect(compare(changed('60 (70, 75, 85, 90)', '60 (70, 75, 85, 95)'))).toMatchObject([
      { kind: 'yarn', sizes: [4] },
    ]);
    expect(compare(changed('"--RRRRRR"', '"--......"'))).toMatchObject([{ kind: 'chart' }]);
    const prose = new Map(hat.prose);
    prose.set('en-US', { ...hat.prose.get('en-US'), care: 'Wash by hand.' });
    const reworded = assembleBundle(hat.data, prose, hat.photos);
    expect(compare(reworded)).toMatchObject([{ kind: 'text', key: 'care' }]);
  });

  it('another colour in a chart is a change, though the stitches are the same', async () => {
    const yoke = loadBundle(await unpackBundle('templates/starters/mackerel-sky-yoke')).bundle!;
    const [chart, ...others] = yoke.data.charts;
    // `o` and `d` are both knit, in cloud and in deep.
    const at = chart!.rows.findIndex((row) => row.includes('o'));
    const rows = chart!.rows.with(at, chart!.rows[at]!.replace('o', 'd'));
    const charts = [{ ...chart!, rows }, ...others];
    const now = assembleBundle({ ...yoke.data, charts }, yoke.prose, yoke.photos);
    const changes = compareVersions(checkPattern(yoke), checkPattern(now), english);
    const [change] = changes.filter(({ kind }) => kind === 'chart');
    expect(change).toMatchObject({ kind: 'chart' });
    expect(change?.is).not.toBe(change?.was);
    expect(change?.is).toMatch(/knit \d+ \(\w+/);
  });

  it('names exactly the sizes whose printed text differs, whatever number changes', () => {
    const numbers = [...JSON.stringify(hat.data.pieces).matchAll(/\d+/g)];
    fc.assert(
      fc.property(fc.nat(numbers.length - 1), fc.integer({ min: 1, max: 3 }), (at, more) => {
        const match = numbers[at]!;
        const text = JSON.stringify(hat.data.pieces);
        const value = String(Number(match[0]) + more);
        const pieces =
          text.slice(0, match.index) + value + text.slice(match.index + match[0].length);
        const data = { ...hat.data, pieces: JSON.parse(pieces) as BundleData['pieces'] };
        const now = assembleBundle(data, hat.prose, hat.photos);
        const lines = compare(now).filter((each) => each.kind === 'line');
        for (const size of hat.data.sizes.keys()) {
          const printed = [hat, now].map((bundle) => printedLines(bundle, size));
          const differs = printed[0]!.join('\n') !== printed[1]!.join('\n');
          expect(lines.some(({ sizes }) => sizes.includes(size))).toBe(differs);
        }
      }),
      { numRuns: 25 },
    );
  });
});

describe('aligning lines', () => {
  it('gives every line once, in order', () => {
    const words = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 12 });
    fc.assert(
      fc.property(words, words, (old, now) => {
        const pairs = alignLines(
          old,
          now,
          (line) => line,
          (line) => line,
        );
        expect(pairs.flatMap(({ was }) => (was === undefined ? [] : [was]))).toEqual(old);
        expect(pairs.flatMap(({ is }) => (is === undefined ? [] : [is]))).toEqual(now);
      }),
    );
  });
});

describe('version numbers', () => {
  it.each([
    ['a correction', {}, '1.0.1', undefined],
    ['the same number', {}, '1.0.0', '1.0.1'],
    ['a new size', { sizes: ['XS', 'S', 'M', 'L', 'XL', '2XL'] }, '1.0.1', '1.1.0'],
    ['a new language', { languages: ['en-US', 'de', 'fr', 'ja', 'nb'] }, '1.1.0', undefined],
    ['a size less', { sizes: ['XS', 'S', 'M', 'L'] }, '1.1.0', '2.0.0'],
  ])('%s', (_name, more, version, least) => {
    expect(adviseVersion(hat.data, { ...hat.data, ...more, version })?.least).toBe(least);
  });
});
