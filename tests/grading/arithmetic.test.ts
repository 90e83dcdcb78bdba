/**
 * Grading arithmetic against handbooks and geometry. Each table names its source; nothing here is
 * computed by the code under test.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { edgeLengthInches, quarterEllipse, slopeSteps } from '../../src/pattern/grading/curves.ts';
import {
  averageGauge,
  changeByWashing,
  effectOfError,
  lengthBeforeWashing,
  perCentimetre,
  perInch,
  readBase,
  toHalf,
  widthAtOtherGauge,
  widthInches,
} from '../../src/pattern/grading/gauge.ts';
import {
  bothRules,
  EVEN,
  ODD,
  PLAIN_RULE,
  roundToRule,
  stitchesForWidth,
  symmetricRule,
} from '../../src/pattern/grading/counts.ts';
import { rowsOfLegs, shapingRates, spaceEvenly } from '../../src/pattern/grading/spacing.ts';

const over = readBase('4 in');
const gauge = (stitches: number, rows = 28) => ({ stitches, rows, over });

describe('gauge', () => {
  it('keeps 4 in and 10 cm apart (1 in = 25.4 mm exactly)', () => {
    // 22 sts per 4 in are 22 ÷ 1.016 = 21.654 per 10 cm (derived from the inch of 1959).
    expect(perCentimetre(22, over) * 10).toBeCloseTo(21.654, 3);
    expect(perInch(22, over) * 4).toBe(22);
    expect(perCentimetre(22, readBase('10 cm')) * 10).toBe(22);
  });

  it('says what a stitch of error costs (common practice)', () => {
    expect(widthInches(200, gauge(20))).toBe(40);
    expect(widthAtOtherGauge(200, gauge(20), 1)).toBeCloseTo(38.1, 1);
  });

  it('averages readings and tells their spread', () => {
    const swatch = averageGauge([
      { stitches: 20, rows: 27.5, over },
      { stitches: 20.5, rows: 28, over },
      { stitches: 19.5, rows: 28.5, over },
    ]);
    expect(swatch).toMatchObject({ gauge: { stitches: 20, rows: 28 }, spreadStitches: 0.5 });
  });

  it('tells what half a stitch does, both ways', () => {
    // 40 in at 20 sts over 4 in are 200 sts: at 19½ they are 41.03 in, at 20½ 39.02 in.
    const effect = effectOfError(40, gauge(20), 'stitches');
    expect(effect.looserInches).toBeCloseTo(41.026, 3);
    expect(effect.tighterInches).toBeCloseTo(39.024, 3);
    expect(toHalf(20.26)).toBe(20.5);
  });

  it('turns a blocked length into one to knit', () => {
    const change = changeByWashing(gauge(20, 28), gauge(20, 30));
    expect(lengthBeforeWashing(14, change)).toBeCloseTo(15, 10);
  });
});

describe('counts under rules', () => {
  it.each([
    // width, multiple, plus, selvedges → count: worked by hand at 5 sts per inch
    [20, 8, 0, 0, 104], // 100 → 12.5 repeats, a tie goes up
    [20, 4, 2, 2, 102],
    [19.2, 1, 0, 0, 96],
    [20, 2, 1, 0, 101],
  ])(
    '%s in as a multiple of %s + %s with %s selvedges is %s sts',
    (width, multiple, plus, selvedges, count) => {
      const rule = { multiple, plus, selvedges, rounding: 'nearest' } as const;
      expect(stitchesForWidth(width, gauge(20), rule).count).toBe(count);
    },
  );

  it('combines rules: odd, even, symmetry about a centre, two multiples at once', () => {
    const count = (value: number, rule: typeof ODD | undefined) => rule && roundToRule(value, rule);
    expect([count(84.6, ODD), count(84.6, EVEN)]).toEqual([85, 84]);
    // A cable of 17 with ribs of 4 + 1 beside it: 17 + 2 × (4n + 1) = 8n + 19.
    expect(symmetricRule(17, { multiple: 4, plus: 1 })).toMatchObject({ multiple: 8, plus: 19 });
    expect(count(90, symmetricRule(17))).toBe(91);
    const fourPlusTwo = { ...PLAIN_RULE, multiple: 4, plus: 2 };
    expect(bothRules(fourPlusTwo, { ...PLAIN_RULE, multiple: 6, plus: 4 })).toMatchObject({ multiple: 12, plus: 10 }); // prettier-ignore
    expect(bothRules(fourPlusTwo, ODD)).toBeUndefined();
    fc.assert(
      fc.property(fc.nat(20), fc.nat(20), fc.nat(9), fc.nat(9), (m, n, p, q) => {
        const [one, other] = [{ ...PLAIN_RULE, multiple: m + 1, plus: p }, { ...PLAIN_RULE, multiple: n + 1, plus: q }]; // prettier-ignore
        const both = bothRules(one, other);
        const keeps = (count: number, rule: typeof one) => count >= rule.plus && (count - rule.plus) % rule.multiple === 0; // prettier-ignore
        for (let each = 0; each < 500; each += 1) {
          const wanted = keeps(each, one) && keeps(each, other);
          expect(both !== undefined && keeps(each, both)).toBe(wanted);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('never deviates by more than half a multiple', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 80, noNaN: true }),
        fc.integer({ min: 1, max: 24 }),
        fc.integer({ min: 0, max: 10 }),
        (width, multiple, plus) => {
          const rule = { multiple, plus, selvedges: 0, rounding: 'nearest' } as const;
          const { count, deviationInches } = stitchesForWidth(width, gauge(20), rule);
          expect((count - plus) % multiple).toBe(0);
          expect(Math.abs(deviationInches)).toBeLessThanOrEqual(multiple / 2 / 5 + 1e-9);
        },
      ),
    );
    expect(
      roundToRule(7.0000000001 * 6, { multiple: 6, plus: 0, selvedges: 0, rounding: 'up' }),
    ).toBe(42);
  });
});

describe('even spacing', () => {
  it.each([
    // Brunette, Sweater 101 (1991); Paden, Knitwear Design Workshop
    [
      140,
      36,
      [
        { every: 3, times: 4 },
        { every: 4, times: 32 },
      ],
    ],
    [
      124,
      14,
      [
        { every: 8, times: 2 },
        { every: 9, times: 12 },
      ],
    ],
  ])('%s rows for %s events', (rows, events, legs) => {
    expect(shapingRates(rows, events)?.legs).toEqual(legs);
  });

  it('keeps flat shaping on the right side (common practice: 14 decreases in 90 rows)', () => {
    expect(shapingRates(90, 14, 2)).toEqual({
      legs: [
        { every: 6, times: 11 },
        { every: 8, times: 3 },
      ],
      restRows: 0,
    });
  });

  it('adds up, and no two gaps differ by more than one', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 1, max: 60 }),
        (total, events) => {
          const gaps = spaceEvenly(total, events);
          expect(gaps.reduce((sum, gap) => sum + gap, 0)).toBe(total);
          expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
          const flat = spaceEvenly(total, events, 'half');
          expect(flat).toHaveLength(events + 1);
          expect(flat.reduce((sum, gap) => sum + gap, 0)).toBe(total);
        },
      ),
    );
  });

  it('counts the rows of a schedule, with and without the first on the next row', () => {
    expect(rowsOfLegs([{ every: 4, times: 5 }], false)).toBe(20);
    expect(rowsOfLegs([{ every: 4, times: 5 }], true)).toBe(17);
  });
});

describe('curves', () => {
  it('a quarter ellipse takes exactly its stitches, never more than the row before', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: 1, max: 60 }),
        (stitches, rows) => {
          const taken = quarterEllipse(stitches, rows);
          expect(taken.reduce((sum, each) => sum + each, 0)).toBe(stitches);
          expect(Math.min(...taken)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });

  it('measures an edge: a quarter circle is π/2 × radius', () => {
    // A very fine gauge, so that the steps follow the circle: 4,000 sts and rows over 4 in.
    const fine = gauge(4000, 4000);
    const steps = quarterEllipse(2000, 2000).map((stitches) => ({ stitches, rows: 1 }));
    // Whole stitches make the edge a fine staircase, so it is a little longer than the arc.
    const length = edgeLengthInches(steps, fine);
    expect(length).toBeGreaterThan(Math.PI);
    expect(length).toBeLessThan(Math.PI * 1.1);
  });

  it('splits a shoulder, larger steps first', () => {
    expect(slopeSteps(23, 3)).toEqual([8, 8, 7]);
  });
});
