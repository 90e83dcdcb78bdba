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
  lengthBeforeWashing,
  perCentimetre,
  perInch,
  readBase,
  widthAtOtherGauge,
  widthInches,
} from '../../src/pattern/grading/gauge.ts';
import { roundToRule, stitchesForWidth } from '../../src/pattern/grading/counts.ts';
import { fitMotif, motifRowAt } from '../../src/pattern/grading/motif.ts';
import {
  afterRatio,
  circleIncreasePerRound,
  crownCounts,
  heelTurnCounts,
  percentageYoke,
  pickUpAlongRows,
} from '../../src/pattern/grading/shapes.ts';
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

describe('handbook shapes', () => {
  it('percentage yoke (Zimmermann, Knitting Without Tears, 1971)', () => {
    expect(percentageYoke(200, 40)).toEqual({
      body: 200, upperSleeve: 66, underarm: 16, yokeStart: 268, neck: 80, depthInches: 10,
    }); // prettier-ignore
  });

  it('yoke decreases by ratio (Zimmermann, 1971 and 1989)', () => {
    const byTwoThirds = [268, 179, 120, 80];
    for (const [index, count] of byTwoThirds.slice(0, -1).entries())
      expect(afterRatio(count, 3, 2)).toBe(byTwoThirds[index + 1]);
    expect([afterRatio(268, 4, 3), afterRatio(201, 3, 2)]).toEqual([201, 134]);
  });

  it('crown of eight wedges (common practice)', () => {
    expect(crownCounts(8, 12).slice(0, 3)).toEqual([96, 88, 80]);
    expect(crownCounts(8, 12).at(-1)).toBe(8);
  });

  it.each([
    [24, 14],
    [26, 16],
    [28, 16],
    [30, 18],
    [32, 18],
    [34, 20],
    [36, 20],
  ])('a heel of %s sts turns to %s (common practice)', (heel, left) =>
    expect(heelTurnCounts(heel).at(-1)).toBe(left),
  );

  it('flat circle and pick-up ratios (geometry)', () => {
    expect(circleIncreasePerRound(0.75, 1)).toBeCloseTo(4.712, 3);
    expect(circleIncreasePerRound(0.5, 1)).toBeCloseTo(3.142, 3);
    expect(pickUpAlongRows(102, 16, 24)).toBe(68);
    expect(pickUpAlongRows(4, 21, 28)).toBe(3);
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

describe('motif fit', () => {
  const wish = {
    motif: { stitches: 12, plus: 0 },
    aroundInches: [36, 40, 44, 48],
    gauge: gauge(20),
    panel: { min: 2, max: 12 },
    centred: true,
  };

  it('fits every size with mirrored panels and keeps front and back alike', () => {
    const [best] = fitMotif(wish);
    expect(best?.worstDeviationInches).toBeLessThanOrEqual(0.2);
    for (const way of fitMotif(wish))
      for (const size of way.sizes) expect(size.repeats % 2).toBe(0);
  });

  it('counts the stitches of its own plan', () => {
    for (const way of fitMotif(wish))
      for (const size of way.sizes) expect(size.stitches).toBe(size.repeats * 12 + 2 * size.panel);
  });

  it('says which pattern row falls at a height', () => {
    expect([motifRowAt(0, 8), motifRowAt(8, 8), motifRowAt(9, 8)]).toEqual([0, 8, 1]);
  });
});
