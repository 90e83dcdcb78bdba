/**
 * Mackerel Sky Yoke, calculated by hand: body and sleeves to the underarm, and a round yoke in colours
 * whose chart shrinks from twelve stitches to four. No code of the checker is used; what is worked out
 * here must stand in the bundle word for word.
 */
import { describe, expect, it } from 'vitest';
import {
  at,
  both,
  centimetres,
  each,
  inches,
  linesOf,
  readStarter,
  sizeOf,
  written,
} from './paper.ts';

const bundle = readStarter('mackerel-sky-yoke');

// Craft Yarn Council, Standards & Guidelines, woman XS–4X. Bust: upper value (confirmed); upper arm,
// arm length and armhole depth: upper values (from memory).
const bust = [30, 34, 38, 42, 46, 50, 54, 58];
const upperArm = [9.75, 10.25, 11, 12, 13.5, 15.5, 17, 18.5];
const armLength = [16.5, 17, 17, 17.5, 17.5, 18, 18, 18.5];
const armholeDepth = [6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10];

// 24 sts and 32 rnds over 4 in; rib 26 sts over 4 in.
const [sts, rounds, ribSts] = [24 / 4, 32 / 4, 26 / 4];

const body = each(bust, (inch) => (inch + 4) * sts); //                204 228 252 … 372
const underarm = [16, 18, 20, 24, 26, 28, 30, 32];
const sleeve = [68, 72, 76, 84, 94, 104, 114, 124];

const plus = (values: readonly number[], more: number): string =>
  written(values.map((value) => value + more));

describe('Mackerel Sky Yoke, by hand', () => {
  it('keeps to the proportions of a round yoke', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(bust), cm: centimetres(bust) });
    body.forEach((count, size) => {
      // Elizabeth Zimmermann, Knitting Without Tears (1971): of the body, the upper sleeve is a third,
      // the underarm about 8 %, the neck about 40 %. Wide bodies have narrower sleeves and necks.
      expect(at(underarm, size) / count).toBeGreaterThan(0.075);
      expect(at(underarm, size) / count).toBeLessThan(0.09);
      expect(at(sleeve, size) / count).toBeGreaterThan(0.29);
      expect(at(sleeve, size) / count).toBeLessThan(0.34);
      const ease = at(sleeve, size) / sts - at(upperArm, size);
      expect(ease).toBeGreaterThanOrEqual(1.5);
      expect(ease).toBeLessThanOrEqual(2.25);
    });
  });

  const yoke = each(body, (count, size) => count + 2 * at(sleeve, size) - 4 * at(underarm, size));
  const repeats = each(yoke, (count) => count / 12);

  it('unites body and sleeves in whole repeats of the chart', () => {
    expect(yoke).toEqual([276, 300, 324, 348, 384, 420, 456, 492]);
    expect(repeats.every(Number.isInteger)).toBe(true);
    const half = each(body, (count, size) => count / 2 - at(underarm, size));
    const held = each(sleeve, (count, size) => count - at(underarm, size));
    const [h, u, s] = [written(half), written(underarm), written(held)];
    expect(linesOf(bundle, 'body', 'body')).toEqual([
      'Change to larger needles.',
      `Knit until piece measures ${inches(side)} in / ${centimetres(side)} cm from cast-on edge.`,
      `Dividing rnd: k${h}, place next ${u} sts on holder for left underarm, k${h}, place next ${u} sts on holder for right underarm. ${written(half.map((count) => 2 * count))} sts.`,
    ]);
    expect(linesOf(bundle, 'body', 'yoke')[0]).toBe(
      `Joining rnd: k${h}, return ${s} held sts of sleeve to needle, k${s}, k${h}, return ${s} held sts of sleeve to needle, k${s}. ${written(yoke)} sts.`,
    );
    expect(linesOf(bundle, 'sleeve', 'arm').slice(-2)).toEqual([
      `Next rnd: Place next ${u} sts on holder for sleeve underarm, k to end. ${s} sts.`,
      `Place rem ${s} sts on holder for sleeve.`,
    ]);
  });

  const side = [14, 14, 14.5, 14.5, 15, 15, 15.5, 15.5];

  // Worked as lists: what each square takes of the round below.
  const takes: Record<string, number> = { '.': 1, o: 1, d: 1, '/': 2, '#': 0 };
  const drawn = bundle.charts[0]?.rows.toReversed() ?? [];

  it('shrinks the repeat from twelve to nine, six and four', () => {
    let repeat = 12;
    const ends: number[] = [];
    for (const row of drawn) {
      const squares = row.split('');
      expect(squares.length).toBe(12);
      expect(squares.reduce((sum, square) => sum + (takes[square] ?? Number.NaN), 0)).toBe(repeat);
      repeat = squares.filter((square) => square !== '#').length;
      ends.push(repeat);
    }
    // Decrease rounds 21, 35 and 47: × 3/4, × 2/3 and × 2/3, as in Zimmermann's yokes (× 3/4, × 2/3,
    // × 3/5 in Knitting Around, 1989); the last one is gentler, and what is still too wide goes evenly.
    expect([20, 21, 34, 35, 46, 47, 48].map((round) => ends[round - 1])).toEqual([
      12, 9, 9, 6, 6, 4, 4,
    ]);
  });

  it('never carries a yarn behind more than five stitches, and never three in a round', () => {
    for (const row of drawn) {
      const around = row.replaceAll('#', '').replaceAll('/', '.').repeat(4);
      const colours = new Set(around);
      expect(colours.size).toBeLessThanOrEqual(2);
      if (colours.size === 2) expect(around).not.toMatch(/(.)\1{5}/);
    }
  });

  const end = each(repeats, (count) => 4 * count);
  const neck = [92, 96, 100, 104, 108, 112, 116, 120];
  // Depth: about 1½ in more than the armhole; 52 rounds are chart, decrease and three plain rounds.
  const yokeRounds = each(armholeDepth, (inch) => (inch + 1.5) * rounds);

  it('works the yoke in the depth of the armhole', () => {
    const plain = each(yokeRounds, (count) => count - 48 - 1 - 3);
    const less = each(end, (count, size) => count - at(neck, size));
    expect(linesOf(bundle, 'body', 'yoke').slice(1)).toEqual([
      `Knit ${written(plain)} rnds.`,
      `Work Rnds 1–48 of Chart A. ${written(end)} sts.`,
      `Dec rnd: dec ${written(less)} sts evenly. ${written(neck)} sts.`,
      'Knit 3 rnds.',
    ]);
    expect(neck.map((count) => count % 4)).toEqual(neck.map(() => 0));
  });

  const cuff = [44, 44, 48, 48, 52, 52, 56, 60];
  const pairs = each(sleeve, (count, size) => (count - at(cuff, size)) / 2);
  const armRounds = each(armLength, (inch) => (inch - 2.5) * rounds);

  it('widens the sleeve within the arm length, spread evenly', () => {
    // Eight rounds to the first pair, eight after the last; the others share what is left.
    const left = each(armRounds, (count) => count - 8 - 8);
    const every = each(left, (count, size) => Math.floor(count / (at(pairs, size) - 1)));
    const longer = each(left, (count, size) => count % (at(pairs, size) - 1));
    const shorter = each(longer, (times, size) => at(pairs, size) - 1 - times);
    expect(linesOf(bundle, 'sleeve', 'arm').slice(0, 5)).toEqual([
      'Change to larger needles.',
      'Knit 7 rnds.',
      `Inc rnd: k1, m1R, k to last st, m1L, k1. ${plus(cuff, 2)} sts.`,
      `Rep Inc rnd every ${written(every)} rnds ${written(shorter)} times, then every ${plus(every, 1)} rnds ${written(longer)} times. ${written(sleeve)} sts.`,
      'Knit 8 rnds.',
    ]);
    expect(linesOf(bundle, 'sleeve', 'cuff')[0]).toBe(
      `With smaller needles, cast on ${written(cuff)} sts.`,
    );
    expect(linesOf(bundle, 'body', 'hem')[0]).toBe(
      `With smaller needles, cast on ${written(body)} sts.`,
    );
    for (const count of [...cuff, ...body]) expect(count % 4).toBe(0);
  });

  it('measures what the counts give', () => {
    const across = (values: readonly number[]) => both(values.map((value) => value / sts));
    const depth = each(yokeRounds, (count) => count / rounds);
    expect(sizeOf(bundle, 'bust')).toEqual(across(body));
    expect(bundle.measurements[0]?.ease?.size).toEqual({ in: 4, cm: 10 });
    expect(sizeOf(bundle, 'side-length')).toEqual(both(side));
    expect(sizeOf(bundle, 'yoke-depth')).toEqual(both(depth));
    expect(sizeOf(bundle, 'length')).toEqual(
      both(depth.map((inch, size) => inch + at(side, size))),
    );
    expect(sizeOf(bundle, 'neck')).toEqual(across(neck));
    expect(sizeOf(bundle, 'yoke')).toEqual(across(yoke));
    expect(sizeOf(bundle, 'upper-arm')).toEqual(across(sleeve));
    expect(sizeOf(bundle, 'cuff')).toEqual(both(cuff.map((count) => count / ribSts)));
    expect(sizeOf(bundle, 'sleeve-length')).toEqual(both(armLength));
  });

  it('has yarn enough of each colour', () => {
    // Blocked swatches, 6 × 6 in: stockinette weighs 12.4 g, the yoke 8.6 g of the main colour, 3 g and
    // 2.6 g of the contrasts; the rib is taken as stockinette. 10 % to spare, 25 % for the small balls.
    // 446 of the 12 × 48 cells of the chart hold a stitch; the other rounds of the yoke are plain.
    const yokeArea = each(yoke, (count) => (count / sts) * (446 / (12 * 48)) * (48 / rounds));
    const main = each(body, (count, size) => {
      const sleeves = at(cuff, size) / ribSts + at(sleeve, size) / sts;
      const plain = (at(yoke, size) / sts) * ((at(yokeRounds, size) - 48) / rounds);
      const area = (count / sts) * at(side, size) + sleeves * at(armLength, size) + plain;
      return (area + at(neck, size) / ribSts) * 12.4 + at(yokeArea, size) * 8.6;
    });
    const needed = (weights: readonly number[], share: number, spare: number): number[] =>
      weights.map((weight) => Math.ceil(((weight / 36) * share * spare) / 5) * 5);
    const colours = [needed(main, 1, 1.1), needed(yokeArea, 3, 1.25), needed(yokeArea, 2.6, 1.25)];
    colours.forEach((grams, index) => {
      const colour = bundle.yarns[0]?.colours[index];
      expect(colour?.grams).toBe(written(grams));
      const balls = written(grams.map((weight) => Math.ceil(weight / 50)));
      expect(String(colour?.balls)).toBe(balls);
    });
  });
});
