/**
 * The starters' own documents against PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) by veraPDF, in one
 * process: every starter and every language, and each other edition and paper. Says how many files and
 * rules that were. `CASTOFF_VERAPDF=full` takes every starter in every language, which lasts minutes.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { openOwnRooms } from '../../src/cli/resources.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import type { ComposeResources, Edition, Rooms } from '../../src/pipeline/ports.ts';
import { filesIn, proseOf, starterIn, STARTER_NAMES } from '../starters/every-language.ts';
import { hasVeraPdf, judge, whySkipped } from './verapdf/judge.ts';

const FULL = process.env['CASTOFF_VERAPDF'] === 'full';
const MINUTES = 60_000;

interface Wanted {
  readonly language: string;
  readonly edition: Edition;
}

const STANDARD: Edition = { kind: 'standard' };

/** Other editions and papers, of a garment, of colour work and of a pattern in one size. */
const OTHERS: readonly (readonly [string, string, Edition])[] = [
  ['mackerel-sky-yoke', 'ja', { kind: 'large' }],
  ['breakwater-hat', 'he', { kind: 'large' }],
  ['little-squall-cardigan', 'he', { kind: 'one-size', size: '12 mo' }],
  ['undertow-shawl', 'de', { kind: 'ink-saving' }],
  ['mackerel-sky-yoke', 'en-US', { kind: 'standard', paper: 'A4' }],
  ['breakwater-hat', 'zh-Hans', { kind: 'standard', paper: 'Letter' }],
];
const OTHER_STARTERS = [
  'breakwater-hat',
  'sea-fret-pullover',
  'mackerel-sky-yoke',
  'undertow-shawl',
];
const OTHER_LANGUAGES = ['en-US', 'de', 'ja', 'he', 'pl'];

/** What is taken of a starter: its share of the languages, or all; and of the other editions. */
function wantedOf(starter: string, sizes: readonly string[]): Wanted[] {
  const turn = STARTER_NAMES.indexOf(starter);
  const languages = [...proseOf(starter)].sort();
  const own = languages.filter((_, at) => FULL || at % STARTER_NAMES.length === turn);
  const standard = own.map((language) => ({ language, edition: STANDARD }));
  const others = OTHERS.filter(([name]) => name === starter).map(([, language, edition]) => ({ language, edition })); // prettier-ignore
  if (!FULL) return [...standard, ...others];
  if (!OTHER_STARTERS.includes(starter)) return standard;
  const editions: readonly Edition[] = [
    { kind: 'large' },
    { kind: 'ink-saving' },
    { kind: 'standard', paper: 'A4' },
    { kind: 'standard', paper: 'Letter' },
    ...sizes.slice(0, 2).map((size) => ({ kind: 'one-size', size }) as const),
  ];
  return [
    ...standard,
    ...OTHER_LANGUAGES.flatMap((language) => editions.map((edition) => ({ language, edition }))),
  ];
}

type Pictures = ComposeResources['pictures'];

async function picturesOf(starter: string, rooms: Rooms): Promise<Pictures> {
  const pictures = new Map<
    string,
    Pictures extends ReadonlyMap<string, infer Each> ? Each : never
  >();
  for (const [name, bytes] of await filesIn(starter, [])) {
    if (!name.startsWith('photos/')) continue;
    const picture = await rooms.preparePicture(bytes, 'print');
    pictures.set(name.slice('photos/'.length), { ...picture, hash: hashBytes(picture.bytes) });
  }
  return pictures;
}

const nameOf = (starter: string, { language, edition }: Wanted): string =>
  [starter, language, edition.kind, edition.size ?? '', edition.paper ?? '']
    .join('_')
    .replaceAll(' ', '');

/** Sets what is wanted of every starter, and writes it into a folder; gives the paths. */
async function setStarters(folder: string): Promise<string[]> {
  const rooms = await openOwnRooms();
  const paths: string[] = [];
  for (const starter of STARTER_NAMES) {
    const checked: CheckedPattern = await starterIn(starter, proseOf(starter));
    const pictures = await picturesOf(starter, rooms);
    for (const wanted of wantedOf(starter, checked.pattern.sizes)) {
      const { bytes } = await rooms.compose(checked, wanted, { pictures });
      const path = join(folder, `${nameOf(starter, wanted)}.pdf`);
      writeFileSync(path, bytes);
      paths.push(path);
    }
  }
  return paths;
}

describe.skipIf(!hasVeraPdf)(`veraPDF and the starters${whySkipped}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-verapdf-starters-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it(
    'finds nothing in any of them',
    async () => {
      const paths = await setStarters(folder);
      const verdicts = judge(paths);
      const all = [...verdicts.values()].flat();
      const rules = new Map(all.map(({ standard, rules: number }) => [standard, number]));
      const checks = all.reduce((sum, each) => sum + each.checks, 0);
      console.log(`${paths.length} files, ${rules.get('2a')} rules of PDF/A-2a and ${rules.get('ua1')} of PDF/UA-1, ${checks} checks`); // prettier-ignore
      const broken = [...verdicts].flatMap(([name, own]) =>
        own.flatMap(({ standard, broken: lines }) => lines.map((line) => `${name} ${standard} ${line}`)),
      ); // prettier-ignore
      expect(broken).toEqual([]);
      expect(all.filter(({ pass }) => pass)).toHaveLength(paths.length * 2);
      expect(Math.min(...all.map((each) => each.checks))).toBeGreaterThan(1_000);
    },
    (FULL ? 60 : 8) * MINUTES,
  );
});
