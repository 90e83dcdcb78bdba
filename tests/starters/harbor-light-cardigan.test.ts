/**
 * Harbor Light Cardigan, calculated by hand: set-in sleeves, a cable in each front, and a V-neck that
 * is decreased AT THE SAME TIME as the armhole, counted here row by row. No code of the checker is
 * used; what is worked out here must stand in the bundle word for word.
 */
import { describe, expect, it } from 'vitest';
import {
  at,
  both,
  centimetres,
  each,
  inches,
  linesOf,
  numberOf,
  readStarter,
  sizeOf,
  written,
} from './paper.ts';

const bundle = readStarter('harbor-light-cardigan');

// Craft Yarn Council, Standards & Guidelines, woman XS–3X. Bust: upper value (confirmed); cross back,
// upper arm, armhole depth and arm length: upper values (from memory).
const bust = [30, 34, 38, 42, 46, 50, 54];
const crossBack = [14.5, 15, 16.5, 17.5, 17.5, 18, 18];
const upperArm = [9.75, 10.25, 11, 12, 13.5, 15.5, 17];
const armholeDepth = [6.5, 7, 7.5, 8, 8.5, 9, 9.5];
const armLength = [16.5, 17, 17, 17.5, 17.5, 18, 18];

// 20 sts and 28 rows over 4 in; over the rope 25 sts over 4 in; garter 40 rows over 4 in.
const [sts, rows, ropeSts] = [20 / 4, 28 / 4, 25 / 4];

// Four inches of ease. Half of it all is the back; the fronts and the inch of band are the other half.
const half = each(bust, (inch) => (inch + 4) / 2);
const back = each(half, (inch) => inch * sts + 2); //                     a selvedge at each side
const frontWidth = each(half, (inch) => (inch - 1) / 2);
const frontHem = each(frontWidth, (inch) => inch * sts + 2); //           side seam and band edge
const front = each(frontHem, (count) => count + 2); //                    two more for the cable

const plus = (values: readonly number[], more: number): string =>
  written(values.map((value) => value + more));
const minus = (values: readonly number[], ...others: readonly (readonly number[])[]): number[] =>
  values.map((value, size) => others.reduce((rest, other) => rest - at(other, size), value));

describe('Harbor Light Cardigan, by hand', () => {
  it('takes its measurements from the body table', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(bust), cm: centimetres(bust) });
    expect(bundle.body[1]?.size).toEqual({ in: inches(crossBack), cm: centimetres(crossBack) });
    expect(back).toEqual([87, 97, 107, 117, 127, 137, 147]);
    expect(frontHem).toEqual([42, 47, 52, 57, 62, 67, 72]);
  });

  it('gives the cable the two stitches it takes up', () => {
    // A panel of ten over the rope is as wide as eight of stockinette: 1.6 in.
    expect(10 / ropeSts).toBe(8 / sts);
    // p2, k1, m1L, k2, m1L, k1, p2 works eight into ten; p2, ssk, k2, k2tog, p2 works ten into eight.
    expect([2 + 1 + 2 + 1 + 2, 2 + 1 + 1 + 2 + 1 + 1 + 2]).toEqual([8, 10]);
    expect([2 + 2 + 2 + 2 + 2, 2 + 1 + 2 + 1 + 2]).toEqual([10, 8]);
    for (const [name, cross] of [['chart-a', 'LLLLLL'], ['chart-b', 'RRRRRR']] as const) {
      const chart = bundle.charts.find(({ id }) => id === name);
      expect(chart?.rows.length).toBe(8);
      expect(chart?.rows.toReversed()[2]).toBe(`--${cross}--`);
    }
  }); // prettier-ignore

  // Armhole: a step at the underarm, then one stitch every right-side row.
  const step = [4, 5, 6, 7, 8, 9, 10];
  const slope = [3, 5, 6, 8, 11, 14, 17];
  const across = minus(back, step, step, slope, slope);
  // Depth: half an inch or a little more than the armhole of the body table, to an even row.
  const depth = [50, 52, 56, 60, 64, 66, 70];
  const neck = [31, 33, 33, 33, 35, 37, 37];
  const shoulder = each(across, (count, size) => (count - at(neck, size)) / 2);
  const steps = [
    [7, 8, 9, 9, 9, 9, 10],
    [7, 7, 8, 9, 9, 9, 9],
    [7, 7, 8, 9, 9, 9, 9],
  ] as const;

  const hem = (count: readonly number[]): string[] => [
    `With smaller needles, cast on ${written(count)} sts.`,
    'Work in garter until piece measures 1 in / 2.5 cm from cast-on edge, ending with a WS row.',
  ];
  const length = 'until piece measures 14 in / 35.5 cm from cast-on edge, ending with a WS row.';

  it('shapes the back', () => {
    expect(across).toEqual([73, 77, 83, 87, 89, 91, 93]);
    depth.forEach((count, size) => {
      expect(count / rows - at(armholeDepth, size)).toBeGreaterThanOrEqual(0.4);
      expect(count / rows - at(armholeDepth, size)).toBeLessThanOrEqual(0.7);
      expect(Math.abs((at(across, size) - 2) / sts - at(crossBack, size))).toBeLessThan(0.6);
      expect(at(steps[0], size) + at(steps[1], size) + at(steps[2], size)).toBe(at(shoulder, size));
    });
    // Two rows of binding off; the slope takes a right-side row each time and the row between.
    const straight = each(depth, (count, size) => count - 2 - (2 * at(slope, size) - 1));
    expect(linesOf(bundle, 'back', 'hem')).toEqual(hem(back));
    expect(linesOf(bundle, 'back', 'body')[1]).toBe(`Work in stockinette ${length}`);
    expect(linesOf(bundle, 'back', 'armhole')).toEqual([
      `Bind off ${written(step)} sts at beg of next 2 rows. ${written(minus(back, step, step))} sts.`,
      `Dec 1 st each end every RS row ${written(slope)} times. ${written(across)} sts.`,
      `Work even for ${written(straight)} rows.`,
    ]);
    const [first, second, third] = steps;
    const afterFirst = minus(across, first, first);
    const afterSecond = minus(afterFirst, second, second);
    expect(minus(afterSecond, third, third)).toEqual(neck);
    expect(linesOf(bundle, 'back', 'shoulders')).toEqual([
      `Bind off ${written(first)} sts at beg of next 2 rows. ${written(afterFirst)} sts.`,
      `Bind off ${written(second)} sts at beg of next 2 rows. ${written(afterSecond)} sts.`,
      `Bind off ${written(third)} sts at beg of next 2 rows. ${written(neck)} sts.`,
      'Bind off all sts.',
    ]);
  });

  // V-neck: what is left of the front after armhole, shoulder and the two stitches of the cable.
  const vee = minus(front, step, slope, shoulder).map((count) => count - 2);
  const fourth = [8, 8, 10, 12, 13, 13, 15];
  const second = [5, 6, 4, 2, 2, 3, 1];

  /** Both shapings row by row from the first right-side row after the underarm: what is left. */
  function shapeRowByRow(count: number, size: number): { count: number; rows: number } {
    let left = count;
    let slopes = 0;
    let decreases = 0;
    let next = 1; // the row of the next neck decrease: on the next row, then …
    let row = 0;
    while (slopes < at(slope, size) || decreases < 1 + at(fourth, size) + at(second, size)) {
      row += 1;
      if (row % 2 === 1 && slopes < at(slope, size)) {
        slopes += 1;
        left -= 1;
      }
      if (row === next) {
        decreases += 1;
        left -= 1;
        next += decreases <= at(fourth, size) ? 4 : 2;
      }
    }
    return { count: left, rows: row };
  }

  it('shapes armhole and neck at the same time', () => {
    expect(numberOf(bundle, 'armhole-rows')).toBe(written(depth));
    expect(vee).toEqual([14, 15, 15, 15, 16, 17, 17]);
    vee.forEach((count, size) => {
      expect(1 + at(fourth, size) + at(second, size)).toBe(count);
      const shaped = shapeRowByRow(at(front, size) - at(step, size), size);
      expect(shaped.count).toBe(at(shoulder, size) + 2);
      // Two rows before, three even, the row that takes the cable in, and a wrong-side row after.
      expect(2 + shaped.rows + 3 + 1 + 1).toBe(at(depth, size));
    });
    const shaping = [
      `Dec 1 st at armhole edge every RS row ${written(slope)} times, AT THE SAME TIME, dec 1 st at neck edge on next row, then every 4th row ${written(fourth)} times, then every 2nd row ${written(second)} times. ${plus(shoulder, 2)} sts.`,
      'Work even for 3 rows.',
      `Dec row (RS): k to m, rm, p2, ssk, k2, k2tog, p2, rm, k to end. ${written(shoulder)} sts.`,
      'Next row (WS): p to end.',
    ];
    const bindOff = `Bind off ${written(step)} sts, work to end. ${written(minus(front, step))} sts.`;
    expect(linesOf(bundle, 'left-front', 'armhole')).toEqual([
      `Next row (RS): ${bindOff}`,
      'Next row (WS): Work to end.',
      ...shaping,
    ]);
    expect(linesOf(bundle, 'right-front', 'armhole')).toEqual([
      'Next row (RS): Work to end.',
      `Next row (WS): ${bindOff}`,
      ...shaping,
    ]);
  });

  it('keeps the cable four stitches from the neck at the shoulder, and in the same place below', () => {
    const neckSide = each(vee, (count) => count + 4);
    const armholeSide = minus(front, neckSide).map((count) => count - 10);
    const panel = 'p2, k1, m1L, k2, m1L, k1, p2, pm, k to end.';
    const body = (side: readonly number[], chart: string): string[] => [
      'Change to larger needles.',
      `Set-up row (RS): k${written(side)}, pm, ${panel} ${written(front)} sts.`,
      'Next row (WS): p to m, sm, k2, p6, k2, sm, p to end.',
      `Row 1 (RS): k to m, sm, work ${chart} to m, sm, k to end.`,
      `Row 2 (WS): p to m, sm, work ${chart} to m, sm, p to end.`,
      `Work even as established ${length}`,
    ];
    expect(linesOf(bundle, 'left-front', 'hem')).toEqual(hem(frontHem));
    expect(linesOf(bundle, 'right-front', 'hem')).toEqual(hem(frontHem));
    expect(linesOf(bundle, 'left-front', 'body')).toEqual(body(armholeSide, 'Chart A'));
    expect(linesOf(bundle, 'right-front', 'body')).toEqual(body(neckSide, 'Chart B'));
    // What is left of the armhole side is the rest of the shoulder.
    armholeSide.forEach((count, size) => {
      expect(count - at(step, size) - at(slope, size) + 8 + 4).toBe(at(shoulder, size));
    });
  });

  it('slopes the front shoulders in the steps of the back', () => {
    const [first, second_, third] = steps;
    const one = `Bind off ${written(first)} sts`;
    const two = `Bind off ${written(second_)} sts`;
    const after = [`${written(minus(shoulder, first))} sts.`, `${written(third)} sts.`];
    expect(linesOf(bundle, 'left-front', 'shoulder')).toEqual([
      `Next row (RS): ${one}, k to end. ${after[0]}`,
      'Next row (WS): Purl.',
      `Next row (RS): ${two}, k to end. ${after[1]}`,
      'Next row (WS): Purl.',
      'Bind off all sts.',
    ]);
    expect(linesOf(bundle, 'right-front', 'shoulder')).toEqual([
      'Next row (RS): Knit.',
      `Next row (WS): ${one}, p to end. ${after[0]}`,
      'Next row (RS): Knit.',
      `Next row (WS): ${two}, p to end. ${after[1]}`,
      'Next row (RS): Knit.',
      'Bind off all sts.',
    ]);
  });

  // Sleeve: about 2 in more than the arm, to an even count with selvedges.
  const sleeve = [60, 64, 68, 72, 80, 90, 98];
  const cuff = [44, 44, 46, 48, 50, 52, 54];
  const sleeveRows = [108, 112, 112, 116, 116, 118, 118];
  const rates = [
    { every: [12, 10, 10, 10, 8, 6, 6], times: [8, 10, 8, 6, 9, 17, 11] },
    { every: [10, 8, 8, 8, 6, 4, 4], times: [0, 0, 3, 6, 6, 2, 11] },
  ] as const;

  it('widens the sleeve at even rates within the arm length', () => {
    const [slow, fast] = rates;
    const used = each(sleeve, (count, size) => {
      const pairs = at(slow.times, size) + at(fast.times, size);
      expect(at(cuff, size) + 2 * pairs).toBe(count);
      const ease = (count - 2) / sts - at(upperArm, size);
      expect(ease).toBeGreaterThanOrEqual(1.75);
      expect(ease).toBeLessThanOrEqual(2.25);
      // An inch of garter and the rows: the arm length to a quarter of an inch.
      expect(Math.abs(1 + at(sleeveRows, size) / rows - at(armLength, size))).toBeLessThan(0.25);
      return 1 + at(slow.every, size) * at(slow.times, size) + at(fast.every, size) * at(fast.times, size); // prettier-ignore
    });
    expect(linesOf(bundle, 'sleeve', 'cuff')).toEqual(hem(cuff));
    expect(linesOf(bundle, 'sleeve', 'arm')).toEqual([
      'Change to larger needles.',
      'Next row (RS): Knit.',
      `Inc 1 st each end every ${written(slow.every)} rows ${written(slow.times)} times, then every ${written(fast.every)} rows ${written(fast.times)} times. ${written(sleeve)} sts.`,
      `Work even for ${written(minus(sleeveRows, used))} rows.`,
    ]);
  });

  // Cap: the step of the armhole, pairs every fourth and every second row, two steps of 3, the rest.
  const capFourth = [0, 1, 2, 4, 3, 0, 0];
  const capSecond = [13, 12, 12, 10, 14, 20, 21];
  const top = [14, 16, 16, 18, 18, 20, 24];

  it('sets a cap into the armhole with half an inch of ease', () => {
    const cap = minus(sleeve, step, step);
    cap.forEach((count, size) => {
      expect(count - 2 * (at(capFourth, size) + at(capSecond, size)) - 12).toBe(at(top, size));
      // Edge above the step, in inches, on each side: slanting lengths by Pythagoras.
      const slant = (across_: number, up: number): number => Math.hypot(across_ / sts, up / rows);
      const armhole =
        at(slope, size) * slant(1, 2) + (at(depth, size) - 2 - 2 * at(slope, size)) / rows;
      const edge =
        at(capFourth, size) * slant(1, 4) +
        at(capSecond, size) * slant(1, 2) +
        2 * slant(3, 2) +
        at(top, size) / 2 / sts;
      // A set-in cap is 0–2 in longer than its armhole, both sides together (common practice).
      expect(2 * (edge - armhole)).toBeGreaterThan(0.4);
      expect(2 * (edge - armhole)).toBeLessThan(0.6);
    });
    expect(linesOf(bundle, 'sleeve', 'cap')).toEqual([
      `Bind off ${written(step)} sts at beg of next 2 rows. ${written(cap)} sts.`,
      `Dec 1 st each end on next row, then every 4th row ${written(capFourth)} times, then every 2nd row ${plus(capSecond, -1)} times. ${plus(top, 12)} sts.`,
      'Next row (WS): Purl.',
      `Bind off 3 sts at beg of next 4 rows. ${written(top)} sts.`,
      'Bind off all sts.',
    ]);
  });

  // Band: along 14 in of front 5 sts to the inch; along the V its slant; along the back neck one for one.
  const along = each(vee, (count, size) => Math.round(Math.hypot(count / sts, at(depth, size) / rows) * sts)); // prettier-ignore

  it('picks up the band at the rate of the gauge and spaces five buttonholes', () => {
    const all = each(along, (count, size) => 2 * (14 * sts + count) + at(neck, size));
    const pick = (count: string, edge: string): string => `ick up and k ${count} sts along ${edge}`;
    expect(linesOf(bundle, 'band', 'band')).toEqual([
      `Next row (RS): P${pick('70', 'right front edge')}, p${pick(written(along), 'right front neck')}, p${pick(written(neck), 'back neck')}, p${pick(written(along), 'left front neck')}, p${pick('70', 'left front edge')}. ${written(all)} sts.`,
      'Knit 3 rows.',
      'Buttonhole row (RS): k3, *yo, k2tog, k14; rep from * 3 more times, yo, k2tog, k to end.',
      'Knit 5 rows.',
      'Bind off all sts.',
    ]);
    // The last buttonhole ends just below the V; ten rows of garter are an inch.
    expect(3 + 4 * (2 + 14) + 2).toBe(70 - 1);
    expect((1 + 3 + 1 + 5) / (40 / 4)).toBe(1);
  });

  it('measures what the counts give', () => {
    const through = (values: readonly number[]) => both(values.map((value) => value / rows));
    const wide = (values: readonly number[], less: number) =>
      both(values.map((value) => (value - less) / sts));
    expect(sizeOf(bundle, 'bust')).toEqual(
      both(half.map((inch, size) => inch + 2 * at(frontWidth, size) + 1)),
    );
    expect(sizeOf(bundle, 'width')).toEqual(wide(back, 2));
    // The front by its two gauges: stockinette beside the panel, and the panel.
    expect(sizeOf(bundle, 'front-width')).toEqual(
      both(front.map((count) => (count - 2 - 10) / sts + 10 / ropeSts)),
    );
    expect(sizeOf(bundle, 'length')).toEqual(both(depth.map((count) => 14 + count / rows)));
    expect(sizeOf(bundle, 'side-length')).toEqual(both([14]));
    expect(sizeOf(bundle, 'armhole')).toEqual(through(depth));
    expect(sizeOf(bundle, 'cross-back')).toEqual(wide(across, 2));
    expect(sizeOf(bundle, 'neck')).toEqual(wide(neck, 0));
    expect(sizeOf(bundle, 'shoulder')).toEqual(wide(shoulder, 1));
    expect(sizeOf(bundle, 'neck-depth')).toEqual(through(depth.map((count) => count - 2)));
    expect(sizeOf(bundle, 'upper-arm')).toEqual(wide(sleeve, 2));
    expect(sizeOf(bundle, 'cuff')).toEqual(wide(cuff, 2));
    expect(sizeOf(bundle, 'sleeve-length')).toEqual(
      both(sleeveRows.map((count) => 1 + count / rows)),
    );
    expect(sizeOf(bundle, 'cap')).toEqual(
      through(capFourth.map((count, size) => 2 + 4 * count + 2 * at(capSecond, size) + 4)),
    );
    expect(sizeOf(bundle, 'band')).toEqual(both([1]));
    expect(sizeOf(bundle, 'hem')).toEqual(both([1]));
  });

  it('has yarn enough', () => {
    // A blocked swatch of stockinette, 4 × 4 in, weighs 5.4 g, one of garter 6.4 g; 10 % to spare. The body is a
    // rectangle less 54 square inches of neck and armholes; a cap is about six tenths of the rectangle
    // it stands in. Hems, cuffs and bands are garter.
    const grams = each(half, (inch, size) => {
      const sleeves = (at(cuff, size) + at(sleeve, size) - 4) / sts;
      const capRows = 4 * at(capFourth, size) + 2 * at(capSecond, size) + 6;
      const caps = (2 * ((at(sleeve, size) - 2) / sts) * 0.62 * capRows) / rows;
      const bandArea = (2 * (70 + at(along, size)) + at(neck, size)) / sts;
      const area =
        2 * inch * (14 + at(depth, size) / rows) - 54 + sleeves * (1 + at(sleeveRows, size) / rows);
      const garter = 2 * inch + sleeves + bandArea;
      return (((area + caps + bandArea - garter) * 5.4 + garter * 6.4) / 16) * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 10) * 10);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(colour?.balls).toBe(written(rounded.map((weight) => Math.ceil(weight / 100))));
  });
});
