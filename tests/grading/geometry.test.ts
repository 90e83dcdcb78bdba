/**
 * Shapes against closed forms of geometry (circle, cone, arc, ellipse) and against the rows there are.
 * Where a whole stitch must be chosen the bound is half a stitch or half a row.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planCap } from '../../src/pattern/grading/cap.ts';
import {
  circleIncreasePerRound,
  doublingCircle,
  planCrown,
  planYoke,
} from '../../src/pattern/grading/circles.ts';
import {
  edgeLengthInches,
  onRightSides,
  planArmhole,
  planNeck,
  planShoulder,
  quarterEllipse,
  stepsOfRows,
} from '../../src/pattern/grading/curves.ts';
import { heelGusset, shortRowHeel, thumbGusset } from '../../src/pattern/grading/feet-and-hands.ts';
import { readBase, widthInches } from '../../src/pattern/grading/gauge.ts';
import { planRaglan } from '../../src/pattern/grading/raglan.ts';

const gauge = (stitches: number, rows: number) => ({ stitches, rows, over: readBase('4 in') });
const sum = (values: readonly number[]) => values.reduce((total, each) => total + each, 0);

describe('circles and cones', () => {
  it('a flat circle has the circumference 2πr after every round', () => {
    const [stitches, rows] = [5, 7];
    const per = circleIncreasePerRound(stitches, rows);
    for (const round of [10, 40, 100]) {
      const radius = round / rows;
      expect((per * round) / stitches).toBeCloseTo(2 * Math.PI * radius, 10);
    }
  });

  it('doublings keep a circle flat: the circumference over 2πr stays near one number', () => {
    // Between two doublings it is off by √2 at most, whatever the gauge (geometry).
    const ratios = doublingCircle(9, 8).slice(2).map(({ round, stitches }) => stitches / round); // prettier-ignore
    expect(Math.max(...ratios) / Math.min(...ratios)).toBeLessThan(Math.SQRT2);
  });

  it('a crown is a cone: its slant height is that of the rounds', () => {
    const counts = planCrown(96, 8, 24) ?? [];
    expect(counts).toHaveLength(24);
    expect(counts.at(-1)).toBe(8);
    // 22 sts of 4 in circumference each round: a cone of radius R and slant L has 2πR(1 − y/L).
    const wanted = (round: number) => 96 - (88 * round) / 24;
    for (const [at, count] of counts.entries())
      expect(Math.abs(count - wanted(at + 1))).toBeLessThanOrEqual(8);
    expect(planCrown(96, 8, 10)).toBeUndefined();
  });

  it('a yoke comes out on the neck, and never takes more than every second stitch', () => {
    const rounds = planYoke(300, 100, 60, [[0.4, 0.75], [0.7, 0.55], [1, 1 / 3]]); // prettier-ignore
    expect(rounds?.at(-1)?.after).toBe(100);
    expect(planYoke(300, 100, 60, [[1, 1 / 3]])).toBeUndefined();
  });
});

describe('necks, armholes, shoulders', () => {
  it('a quarter circle is π/2 × radius long, as the gauge becomes fine', () => {
    const fine = gauge(4000, 4000);
    const edge = stepsOfRows(quarterEllipse(2000, 2000));
    const length = edgeLengthInches(edge, fine);
    expect(length).toBeGreaterThan(Math.PI - 0.001); // radius 2 in
    expect(length).toBeLessThan(Math.PI * 1.1);
  });

  it('a neck takes all its stitches, alike at both edges, on right-side rows', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 60 }), fc.integer({ min: 12, max: 60 }), (width, rows) => {
        const { centre, edge } = planNeck(width, rows);
        expect(centre + 2 * sum(edge)).toBe(width);
        expect(edge).toHaveLength(rows);
        edge.forEach((each, row) => each > 0 && row < rows - 1 && expect(row % 2).toBe(0));
      }),
    ); // prettier-ignore
  });

  it('an armhole fits its rows, or says that it does not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 40 }), fc.integer({ min: 4, max: 90 }), (width, rows) => {
        const plan = planArmhole(width, rows);
        if (!plan) {
          expect(2 * (width - Math.round(width / 3))).toBeGreaterThan(rows);
          return;
        }
        expect(plan.boundOff + sum(plan.edge)).toBe(width);
        expect(plan.edge.length + plan.plainRows).toBe(rows);
      }),
    ); // prettier-ignore
  });

  it('a shoulder of 24 sts that falls an inch at 28 rows over 4 in has three turns', () => {
    // 1 in is 7 rows: 3½ pairs, so four steps less one: 8 rows would be 1.14 in, 6 rows 0.86 in.
    const plan = planShoulder(24, 0.86, gauge(20, 28));
    expect(plan).toMatchObject({ rows: 6, steps: [6, 6, 6, 6], turns: [18, 12, 6] });
    expect(sum(plan?.steps ?? [])).toBe(24);
  });

  it('moves wrong-side shaping to the next right side and loses none', () => {
    expect(onRightSides([3, 1, 0, 2, 1])).toEqual([3, 0, 1, 0, 3]);
  });
});

describe('set-in sleeves', () => {
  const wish = {
    upperArm: 66,
    boundOff: 5,
    armholeInches: 17,
    fullnessInches: 0.5,
    gauge: gauge(20, 28),
    top: { least: 10, most: 20 },
    mostRows: 60,
  };

  it('finds a cap as long as its armhole, in whole rows and stitches', () => {
    const cap = planCap(wish);
    expect(cap).toBeDefined();
    if (!cap) return;
    expect(Math.abs(cap.fullnessInches - 0.5)).toBeLessThan(0.15);
    expect(2 * wish.boundOff + 2 * sum(cap.edge) + cap.top).toBe(wish.upperArm);
    expect(cap.edge).toHaveLength(cap.rows);
    expect(cap.rows).toBeLessThanOrEqual(wish.mostRows);
    cap.edge.forEach((each, row) => each > 0 && expect(row % 2).toBe(0));
    // No shorter than the straight line from underarm to top, no longer than down and across.
    const [width, height] = [widthInches(sum(cap.edge), wish.gauge), (cap.rows * 4) / 28];
    const half = (cap.capInches - widthInches(cap.top, wish.gauge)) / 2;
    expect(half).toBeGreaterThanOrEqual(Math.hypot(width, height) - 1e-9);
    expect(half).toBeLessThanOrEqual(width + height + 1e-9);
  });

  it('finds none where the rows do not suffice', () => {
    expect(planCap({ ...wish, mostRows: 4 })).toBeUndefined();
  });

  it('a longer armhole never gets a lower cap', () => {
    const rows = [15, 16, 17, 18, 19].map(
      (armholeInches) => planCap({ ...wish, armholeInches })?.rows ?? 0,
    );
    expect([...rows].sort((a, b) => a - b)).toEqual(rows);
  });
});

describe('raglans', () => {
  const wish = {
    bodyFrom: 41,
    bodyTo: 95,
    sleeveFrom: 13,
    sleeveTo: 57,
    rounds: 66,
    step: 2,
  } as const;

  it('shapes body and sleeves at their own rates and ends on their counts', () => {
    const made = planRaglan(wish);
    if (!('plan' in made)) throw new Error('there is room');
    const { bodyEvents, sleeveEvents, rounds, stitchesAfter } = made.plan;
    expect([bodyEvents, sleeveEvents]).toEqual([27, 22]);
    expect(rounds.filter((kind) => kind === 'both' || kind === 'body')).toHaveLength(27);
    expect(rounds.filter((kind) => kind === 'both' || kind === 'sleeves')).toHaveLength(22);
    expect(stitchesAfter.at(-1)).toBe(2 * (95 + 57));
    rounds.forEach((kind, round) => kind !== 'plain' && expect(round % 2).toBe(1));
  });

  it.each([
    [{ bodyTo: 96 }, 'odd difference'],
    [{ bodyTo: 139 }, 'too few rounds'],
    [{ sleeveTo: 11 }, 'narrower'],
  ])('says why not: %j', (change, why) => {
    expect(planRaglan({ ...wish, ...change })).toMatchObject({ problem: { why } });
  });
});

describe('hands and feet', () => {
  it('a heel gusset comes back to the foot', () => {
    // Worked by hand for a round of 64: 18 sts turned, 16 picked up a side, 32 instep: 82; 9 rounds of 2.
    expect(heelGusset(18, 16, 32, 64)).toEqual({ start: 82, events: 9, rounds: 18 });
    expect(heelGusset(18, 16, 32, 63)).toBeUndefined();
  });

  it('a short-row heel goes down to its middle and back', () => {
    const heel = shortRowHeel(30);
    expect(heel?.middle).toBe(10);
    expect(heel?.rows).toHaveLength(40);
    expect([heel?.rows[0], heel?.rows[19], heel?.rows[20], heel?.rows.at(-1)]).toEqual([
      29, 10, 11, 30,
    ]);
  });

  it('a thumb gusset grows by two within the rounds there are', () => {
    // 1 to 13 in 18 rounds: six times, every third round.
    expect(thumbGusset(1, 13, 18)).toEqual({ events: 6, legs: [{ every: 3, times: 6 }], plainRounds: 0, thumb: 13 }); // prettier-ignore
    expect(thumbGusset(1, 14, 18)).toBeUndefined();
    expect(thumbGusset(1, 13, 5)).toBeUndefined();
  });
});
