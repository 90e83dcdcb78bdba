/**
 * The material list, fit and charts in every language, as text to be read by eye in
 * `tests/golden/language/<tag>.materials.txt`; rules of units and sides stand here.
 */
import { describe, expect, test } from 'vitest';
import {
  chartText, loadLanguages, plainText, sayBall, sayEase, sayFibres, sayGauge, sayNeedleLine, sayNotion,
  stitchMeaning, text, type Language, type Spoken,
} from '../../src/language/index.ts'; // prettier-ignore
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { sizedOf } from '../../src/pattern/bundle/size-list.ts';
import type { Chart } from '../../src/pattern/pattern.ts';
import { readPattern } from '../../src/pattern/read.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { bundleOf } from '../needle/working.ts';
import { NAMES as BARE } from './say.ts';

const languages = await loadLanguages('locales');

const NEEDLES: BundleData['needles'] = [
  { id: 'body', mm: 4.5, kind: 'circular', purpose: 'body' },
  { id: 'cuff', mm: 3.75, kind: 'double-pointed' },
  { id: 'straight', mm: 10, kind: 'straight' },
];
const NAMES = { ...BARE, data: { ...BARE.data, needles: NEEDLES } };

const YARN: BundleData['yarns'][number] = {
  id: 'main',
  name: 'Northfold Ebbtide DK',
  weight: 3,
  fibres: [
    { fibre: 'nylon', percent: 20 },
    { fibre: 'wool', percent: 80 },
  ],
  ball: { grams: 100, metres: 201, yards: 220 },
  colours: [],
};

const GAUGE: BundleData['gauges'][number] = {
  id: 'body', stitches: 20.5, rows: 28, over: '4 in', pattern: 'stockinette', form: 'flat', needle: 'body',
  blocked: true,
}; // prettier-ignore

const inches = (...values: readonly number[]) => ({ inches: sizedOf(...values) });

const otherSide = (stitch: string) => CATALOGUE.lookup(stitch)?.otherSide ?? stitch;

function chartOf(form: 'flat' | 'round'): Chart {
  const key = {
    '.': { stitch: 'k' }, '-': { stitch: 'p' }, '/': { stitch: 'k2tog' }, o: { stitch: 'yo' },
    x: { stitch: 'none' }, R: { stitch: '2/2 RC' },
  }; // prettier-ignore
  const rows = ['--RRRR--', '--....--', '.xx/o...'];
  const { pattern } = readPattern(
    bundleOf({
      lines: [],
      data: { charts: [{ id: 'a', name: 'Chart A', form, firstSide: 'RS', key, rows }] },
    }),
  );
  return pattern.charts.get('a')!;
}

/** Everything a material list may hold, once. */
function listed(language: Language): readonly string[] {
  const said: readonly Spoken[] = [
    sayFibres(language, NAMES, YARN),
    sayBall(language, YARN),
    ...NEEDLES.map((needle) => sayNeedleLine(language, NAMES, needle, undefined)),
    sayNeedleLine(language, NAMES, NEEDLES[0]!, inches(24)),
    ...([1, 2, 5] as const).map((count) =>
      sayNotion(language, { kind: 'markers' }, sizedOf(count), undefined),
    ),
    sayNotion(language, { kind: 'buttons' }, sizedOf(5, 6, 7), inches(0.75)),
    sayNotion(language, { kind: 'tapestryNeedle' }, undefined, undefined),
    sayGauge(language, NAMES, GAUGE),
    sayGauge(language, NAMES, { ...GAUGE, form: 'round', over: '10 cm', blocked: false }),
    sayEase(language, 'chest', inches(2, 4)),
    sayEase(language, 'head', inches(-1.5)),
    sayEase(language, 'foot', inches(0)),
    ...['k', 'p', 'k2tog', 'none', '2/2 RC'].map((stitch) =>
      stitchMeaning(language, stitch, true, otherSide),
    ),
  ];
  const cautions = ['smallParts', 'cords', 'cot', 'sleepwear', 'fibre', 'needles'];
  return [
    ...said.map(plainText),
    ...chartText(language, chartOf('flat'), otherSide, NAMES),
    ...chartText(language, chartOf('round'), otherSide, NAMES),
    ...cautions.map((key) => text(language, `caution.${key}`)),
  ];
}

test.each([...languages])('%s', async (tag, language) => {
  const lines = listed(language);
  expect(lines.filter((line) => /\{\{|undefined|NaN|<\w/.test(line))).toEqual([]);
  await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(
    `../golden/language/${tag}.materials.txt`,
  );
});

describe('rules', () => {
  const english = languages.get('en-US')!;

  test('fibres stand by weight, the largest first', () => {
    expect(plainText(sayFibres(english, NAMES, YARN))).toBe('80% wool, 20% nylon');
  });

  test('wrong-side rows of a chart are read from left to right, as they are worked', () => {
    const [, second = ''] = chartText(english, chartOf('flat'), otherSide, NAMES);
    expect(second).toBe('Row 2, wrong side: knit 2, purl 4, knit 2.');
    const [, round = ''] = chartText(english, chartOf('round'), otherSide, NAMES);
    expect(round).toBe('Round 2: purl 2, knit 4, purl 2.');
  });

  test('a chart in several colours names the colour of every run', () => {
    const key: BundleData['charts'][number]['key'] = {
      '.': { stitch: 'k', colour: 'MC' }, o: { stitch: 'k', colour: 'CC' }, x: { stitch: 'none' },
    }; // prettier-ignore
    const rows = ['.oo.', 'x...'];
    const chart0 = { id: 'a', name: 'Chart A', form: 'round', firstSide: 'RS', key, rows } as const;
    const charts = [{ ...chart0, rows }];
    const { pattern } = readPattern(bundleOf({ lines: [], data: { charts } }));
    const chart = pattern.charts.get('a')!;
    expect(chartText(english, chart, otherSide, NAMES)).toEqual([
      'Round 1: knit 3 (MC), no stitch.',
      'Round 2: knit 1 (MC), knit 2 (CC), knit 1 (MC).',
    ]);
  });

  test('a symbol means the stitch of each side; in rounds only one', () => {
    expect(plainText(stitchMeaning(english, 'k', true, otherSide))).toBe(
      'knit on right side, purl on wrong side',
    );
    expect(plainText(stitchMeaning(english, 'k', false, otherSide))).toBe('knit');
  });

  test('negative ease is said as a positive length', () => {
    for (const language of languages.values()) {
      expect(plainText(sayEase(language, 'head', inches(-1.5)))).not.toMatch(/[-−–]\d/u);
    }
  });
});
