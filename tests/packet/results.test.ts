/**
 * What returned sheets say together: knitters who do everything as the pattern says are never accused,
 * whatever their gauge; lengths and yarn at another gauge are those reckoned by hand.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeReturns } from '../../src/packet/results/judge.ts';
import { yarnFactor } from '../../src/packet/results/yarn.ts';
import type { ReturnPlan } from '../../src/packet/testing/plan.ts';
import { dataWith } from '../grading/bundle.ts';
import { type Answers, asStated, planFor, planOf, returned } from './knitters.ts';
import { trueInches } from '../../src/pattern/checks/derive.ts';
import { contextOf } from '../../src/pattern/checks/context.ts';
import { workPattern } from '../../src/pattern/needle/index.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import { starter } from '../shop/starters.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { assembleBundle } from '../../src/pattern/bundle/load.ts';

const STEP = { in: 1 / 4, cm: 1 / 2 };

interface Hands {
  readonly stitches: number;
  readonly rows: number;
}

/**
 * A knitter with her own gauge who works and measures without a slip. What her pieces come to is not
 * reckoned from the sheet: the whole pattern is worked again at her gauge.
 */
function perfect(
  checked: CheckedPattern,
  plan: ReturnPlan,
  knitter: string,
  hands: Hands,
): Answers {
  const { bundle } = checked.pattern;
  const gauges = bundle.data.gauges.map((gauge) => ({
    ...gauge,
    stitches: gauge.stitches * hands.stitches,
    rows: gauge.rows * hands.rows,
  }));
  const hers = { ...checked.pattern, bundle: { ...bundle, data: { ...bundle.data, gauges } } };
  const context = contextOf(hers, workPattern(hers).pieces);
  const answers: Record<string, Answers[string]> = { ...asStated(plan, knitter) };
  for (const { id, stitches, rows } of gauges) {
    answers[`gauge/${id}/after/stitches`] = stitches;
    answers[`gauge/${id}/after/rows`] = rows;
  }
  for (const { key, unit } of plan.rows) {
    if (unit !== 'in' && unit !== 'cm') continue;
    const own = bundle.data.measurements.find(({ id }) => key === `measure/${id}`)!;
    const inches = trueInches(context, own.from, plan.sizes.indexOf(plan.size));
    if (typeof inches !== 'number') continue;
    answers[key] = Math.round((unit === 'cm' ? inches * 2.54 : inches) / STEP[unit]) * STEP[unit];
  }
  return answers;
}

describe('perfect knitters', () => {
  it.each([
    ['breakwater-hat', 'en-US'],
    ['sea-fret-pullover', 'de'],
  ] as const)('of the %s give no outliers, whatever their gauge', async (name, tag) => {
    const checked = await starter(name);
    const { sizes } = checked.pattern;
    const plans = await Promise.all(sizes.map((_, size) => planFor(checked, size, tag)));
    const factor = fc.double({ min: 0.85, max: 1.15, noNaN: true });
    const knitter = fc.record({ size: fc.nat(plans.length - 1), stitches: factor, rows: factor });
    await fc.assert(
      fc.asyncProperty(fc.array(knitter, { minLength: 1, maxLength: 9 }), async (group) => {
        const sheets = await Promise.all(
          group.map(({ size, ...hands }, at) => {
            const plan = plans[size]!;
            return returned(plan, perfect(checked, plan, `knitter ${at}`, hands));
          }),
        );
        const { results, refused } = judgeReturns(sheets);
        expect(refused).toEqual([]);
        expect(results?.counts.wrong).toEqual([]);
        for (const { lengths, isSuspect } of results?.measurements ?? []) {
          expect(lengths.filter(({ isOutlier }) => isOutlier)).toEqual([]);
          expect(isSuspect).toBe(false);
        }
      }),
      { numRuns: 12 },
    );
  });
});

describe('a length at another gauge', () => {
  it('is that of as many stitches and rows, reckoned by hand', async () => {
    // 97 stitches at 20 over 4 in are 19.4 in, 28 rows at 28 are 4 in. At 21 stitches the same 97 are
    // 97 ÷ 21 × 4 = 18.476 in, at 26 rows the same 28 are 28 ÷ 26 × 4 = 4.308 in.
    const measured = [
      { id: 'width', name: 'width', letter: 'B', size: { in: '19½ (21½, 23½)' }, from: { width: 'back/cast-on' } },
      { id: 'depth', name: 'length', letter: 'C', size: { in: 4 }, from: { depth: ['back/cast-on', 'back/end'] } },
    ]; // prettier-ignore
    const data = dataWith({ measurements: measured });
    const checked = checkPattern(assembleBundle(data, new Map(), new Map()));
    const plan = await planFor(checked, 0);
    const sheet = await returned(plan, {
      ...asStated(plan, 'Puffin'),
      'gauge/body/after/stitches': 21,
      'gauge/body/after/rows': 26,
      'measure/width': 18.5,
      'measure/depth': 5.25,
      'yarn/haar': 100,
    });
    const { results } = judgeReturns([sheet]);
    const [width, depth] = results!.measurements.map(({ lengths }) => lengths[0]!);
    expect(width).toMatchObject({ isCorrected: true, isOutlier: false });
    expect(width!.expected).toBeCloseTo(18.476, 3);
    expect(depth!.expected).toBeCloseTo(4.308, 3);
    // Nearly an inch too long for her own gauge; half a row and the tape allow a third of one.
    expect(depth).toMatchObject({ isOutlier: true });
  });

  it('leaves alone what is knitted to a length', async () => {
    const plan = await planOf('breakwater-hat', 2);
    const brim = plan.rows.find(({ key }) => key === 'measure/brim-depth');
    expect(brim?.basis).toEqual({
      kind: 'length',
      parts: [{ by: 'length', gauge: '', inches: 2 }],
    });
    const depth = plan.rows.find(({ key }) => key === 'measure/depth')?.basis;
    const parts = depth?.kind === 'length' ? depth.parts.map(({ by }) => by) : [];
    expect(new Set(parts)).toEqual(new Set(['length', 'rows']));
  });
});

describe('slips and wild values', () => {
  it('tells a count that one knitter has otherwise from one that several have', async () => {
    const plan = await planOf('breakwater-hat', 2);
    const [count = ''] = plan.rows
      .flatMap(({ key }) => (key.startsWith('count/') ? [key] : []))
      .slice(1);
    const stated = plan.rows.find(({ key }) => key === count)!.stated!;
    const slip = (knitter: string) => ({ ...asStated(plan, knitter), [count]: stated - 2 });
    const one = judgeReturns([
      await returned(plan, slip('Puffin')),
      await returned(plan, asStated(plan, 'Tern')),
    ]);
    expect(one.results?.counts.wrong).toMatchObject([
      { knitter: 'Puffin', counted: stated - 2, isShared: false },
    ]);
    const two = judgeReturns([
      await returned(plan, slip('Puffin')),
      await returned(plan, slip('Tern')),
    ]);
    expect(two.results?.counts.wrong.map(({ isShared }) => isShared)).toEqual([true, true]);
  });

  it('finds the knitter who measured in the other unit among six', async () => {
    const plan = await planOf('breakwater-hat', 2);
    const names = ['Puffin', 'Tern', 'Gannet', 'Skua', 'Fulmar', 'Kittiwake'];
    const sheets = await Promise.all(
      names.map((name, at) => {
        const stated = 20 + (at % 3) * 0.25;
        return returned(plan, {
          ...asStated(plan, name),
          'measure/circumference': name === 'Skua' ? 51 : stated,
        });
      }),
    );
    const found = judgeReturns(sheets).results!.measurements.find(
      ({ id }) => id === 'circumference',
    )!;
    expect(found.by).toBe('scores');
    expect(
      found.lengths.filter(({ isOutlier }) => isOutlier).map(({ knitter }) => knitter),
    ).toEqual(['Skua']);
  });

  it('suspects the pattern where most are off to one side', async () => {
    const plan = await planOf('breakwater-hat', 2);
    const sheets = await Promise.all(
      ['Puffin', 'Tern', 'Skua'].map((name) =>
        returned(plan, { ...asStated(plan, name), 'measure/depth': 10.5 }),
      ),
    );
    const suspects = judgeReturns(sheets).results!.measurements.filter(
      ({ isSuspect }) => isSuspect,
    );
    expect(suspects.map(({ id }) => id)).toEqual(['depth']);
  });
});

describe('yarn', () => {
  it('goes with one over the root of the stitch density, by hand', () => {
    // Munden: at 22 sts and 31 rows in place of 20 and 28, 682 ÷ 560 = 1.2179, its root 1.1036.
    expect(yarnFactor({ stitches: 22, rows: 31 }, { stitches: 20, rows: 28 })).toBeCloseTo(
      1.1036,
      4,
    );
    expect(yarnFactor({ stitches: 20, rows: 28 }, { stitches: 20, rows: 28 })).toBe(1);
  });

  it('is suggested for every size from the area, by hand', async () => {
    const colours = [
      { id: 'haar', name: 'Haar', swatch: '#b9c3c8', grams: '20 (30, 60)', balls: 1 },
    ];
    const data = dataWith({ yarns: [{ id: 'main', name: 'Northfold Longshore Worsted', weight: 4, fibres: [{ fibre: 'wool', percent: 100 }], ball: { grams: 50, metres: 100, yards: 109 }, colours }] }); // prettier-ignore
    const checked = checkPattern(assembleBundle(data, new Map(), new Map()));
    const plan = await planFor(checked, 0);
    const { results } = judgeReturns([
      await returned(plan, { ...asStated(plan, 'Puffin'), 'yarn/haar': 30 }),
    ]);
    const [yarn] = results!.yarn;
    // 97, 107 and 117 stitches are 19.4, 21.4 and 23.4 in, all 4 in deep: 77.6, 85.6 and 93.6 sq in.
    // 30 g over 77.6 are 0.3866 g; times the areas 30, 33.09 and 36.19; a tenth more 33, 36.4, 39.8.
    expect(yarn!.gramsPerSquareInch).toBeCloseTo(30 / 77.6, 4);
    expect(yarn!.sizes.map(({ suggested, balls, verdict }) => [suggested, balls, verdict])).toEqual(
      [
        [35, 1, 'too little'],
        [40, 1, 'too little'],
        [40, 1, 'far more than needed'],
      ],
    );
  });

  it('leaves out the knitter who weighed her whole stash', async () => {
    const plan = await planOf('breakwater-hat', 2);
    const used = [58, 60, 61, 59, 62, 300];
    const sheets = await Promise.all(
      used.map((grams, at) =>
        returned(plan, { ...asStated(plan, `knitter ${at}`), 'yarn/slate': grams }),
      ),
    );
    const [yarn] = judgeReturns(sheets).results!.yarn;
    expect(yarn!.samples.filter(({ isOutlier }) => isOutlier).map(({ grams }) => grams)).toEqual([
      300,
    ]);
    const [, , size] = yarn!.sizes;
    expect(size!.needed).toBeCloseTo(60, 0);
  });
});

describe('a group of sheets', () => {
  it('is of one pattern, one version, and each knitter once', async () => {
    const [hat, socks] = [await planOf('breakwater-hat', 1), await planOf('tideline-socks', 1)];
    const sheets = [
      await returned(hat, asStated(hat, 'Puffin')),
      await returned(hat, asStated(hat, 'Puffin')),
      await returned(socks, asStated(socks, 'Tern')),
    ];
    const { results, refused } = judgeReturns(sheets);
    expect(results?.sheets).toBe(1);
    expect(refused.map(({ says }) => says)).toEqual([
      expect.stringMatching(/read already/),
      expect.stringMatching(/tideline-socks.*breakwater-hat/),
    ]);
    expect(results?.untested).not.toContain('S');
    expect(results?.untested).toContain('M');
  });
});
