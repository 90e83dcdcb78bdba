/**
 * Breakwater Hat, calculated by hand: from the head to the last stitches of the crown, as on the
 * designer's paper. No code of the checker is used; what is worked out here must stand in the bundle
 * word for word.
 */
import { describe, expect, it } from 'vitest';
import { both, centimetres, each, inches, linesOf, readStarter, sizeOf, written } from './paper.ts';

const bundle = readStarter('breakwater-hat');

// Heads to fit. Published ranges, "published size charts (common range)": child from 3 years
// 20–22 in, woman 21–23½ in, man 22–24½ in.
const head = [20, 21, 22, 23, 24];

// A brim is 1–2 in (about 10 %) smaller than the head (common practice).
const finished = each(head, (inch) => inch - 2); //                     18 19 20 21 22 in

// Ropes: 32 sts and 34 rnds over 4 in, so 8 sts and 8½ rnds to the inch.
const ropes = each(finished, (inch) => inch * (32 / 4)); //             144 152 160 168 176
const roundsPerInch = 34 / 4;

// Twisted rib: 24 sts over 4 in, so 6 to the inch for the same circumference.
const brim = each(finished, (inch) => inch * (24 / 4)); //              108 114 120 126 132

describe('Breakwater Hat, by hand', () => {
  it('has ease and heads as the size charts give them', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(head), cm: centimetres(head) });
    expect(head[0]).toBeGreaterThanOrEqual(20);
    expect(head[4]).toBeLessThanOrEqual(24.5);
    expect(bundle.measurements[0]?.ease?.size).toEqual({
      in: -2,
      cm: Math.round(-2 * 2.54 * 2) / 2,
    });
  });

  it('casts on an even count for twisted rib, in the round', () => {
    expect(brim.map((sts) => sts % 2)).toEqual([0, 0, 0, 0, 0]);
    expect(linesOf(bundle, 'hat', 'brim')).toEqual([
      `With smaller needles, cast on ${written(brim)} sts.`,
      'Place marker and join to work in the round.',
      'Rnd 1: *k1 tbl, p1; rep from * to end.',
      'Rep Rnd 1 until piece measures 2 in / 5 cm from cast-on edge.',
    ]);
  });

  // A group of 3 sts becomes 4: 36 (38, 40, 42, 44) groups.
  const groups = each(brim, (sts) => sts / 3);
  // One rope is 6 knit sts and a groove of 2: 18 (19, 20, 21, 22) ropes.
  const wedges = each(ropes, (sts) => sts / 8);

  it('goes from three to four stitches and fits whole ropes in every size', () => {
    expect(groups).toEqual([36, 38, 40, 42, 44]);
    expect(groups.map((group) => group * 4)).toEqual(ropes);
    expect(wedges).toEqual([18, 19, 20, 21, 22]);
  });

  // Plain rounds before the first chart round, then whole charts of 6 rounds, so that the crossing
  // of the crown comes six rounds after the last crossing of the body in every size.
  const plain = [1, 4, 1, 4, 1];
  const charts = [5, 5, 6, 6, 7];

  it('works the body in whole charts', () => {
    expect(linesOf(bundle, 'hat', 'body')).toEqual([
      'Change to larger needles.',
      `Inc rnd: *k3, m1L; rep from * to end. ${written(ropes)} sts.`,
      `Next ${written(plain)} rnds: *k6, p2; rep from * to end.`,
      `Work Rnds 1–6 of Chart A ${written(charts)} times.`,
    ]);
    const chart = bundle.charts[0];
    expect(chart?.rows.length).toBe(6);
    // The crossing stands in the third row from the bottom; every row is 6 knits and 2 purls.
    expect(chart?.rows.findIndex((row) => row.includes('R'))).toBe(6 - 3);
    expect(chart?.rows.every((row) => /^--(\.{6}|R{6})$/.test(row))).toBe(true);
  });

  // Stitches in one wedge after each decrease round of the crown.
  const left = { 1: 7, 7: 5, 13: 3, 18: 2, 20: 1 };
  const crownRounds = 22;

  it('narrows every wedge alike and keeps turning every sixth round', () => {
    const after = (round: keyof typeof left): string =>
      written(wedges.map((count) => count * left[round]));
    // The last round takes what is left two by two; an odd stitch stays alone.
    const odd = wedges.map((count) => count % 2);
    const last = wedges.map((count) => (count - (count % 2)) / 2 + (count % 2));
    expect(last).toEqual([9, 10, 10, 11, 11]);
    expect(linesOf(bundle, 'hat', 'crown')).toEqual([
      `Rnd 1: *k6, p2tog; rep from * to end. ${after(1)} sts.`, //            6 + 1
      'Rnd 2: *k6, p1; rep from * to end.',
      'Rnd 3: *3/3 RC, p1; rep from * to end.',
      'Rnds 4–6: *k6, p1; rep from * to end.',
      `Rnd 7: *ssk, k2, k2tog, p1; rep from * to end. ${after(7)} sts.`, //   1 + 2 + 1 + 1
      'Rnd 8: *k4, p1; rep from * to end.',
      'Rnd 9: *2/2 RC, p1; rep from * to end.',
      'Rnds 10–12: *k4, p1; rep from * to end.',
      `Rnd 13: *ssk, k2tog, p1; rep from * to end. ${after(13)} sts.`, //     1 + 1 + 1
      'Rnd 14: *k2, p1; rep from * to end.',
      'Rnd 15: *1/1 RC, p1; rep from * to end.',
      'Rnds 16 and 17: *k2, p1; rep from * to end.',
      `Rnd 18: *k2tog, p1; rep from * to end. ${after(18)} sts.`, //          1 + 1
      'Rnd 19: *k1, p1; rep from * to end.',
      `Rnd 20: *k2tog; rep from * to end. ${after(20)} sts.`, //              1
      'Rnd 21: Knit.',
      `Rnd 22: *k2tog; rep from * to last ${written(odd)} sts, k${written(odd)}. ${written(last)} sts.`,
      'Break yarn, draw through rem sts and fasten off.',
    ]);
    expect([3, 9, 15].map((round) => round % 6)).toEqual([3, 3, 3]);
  });

  // Rounds above the brim: the increase round, the plain rounds, the charts, the crown.
  const body = each(plain, (rounds, index) => 1 + rounds + 6 * (charts[index] ?? 0));
  const depth = body.map((rounds) => 2 + (rounds + crownRounds) / roundsPerInch);

  it('measures what the counts give', () => {
    expect(body).toEqual([32, 35, 38, 41, 44]);
    expect(sizeOf(bundle, 'brim-circumference')).toEqual(both(brim.map((sts) => sts / 6)));
    expect(sizeOf(bundle, 'circumference')).toEqual(both(ropes.map((sts) => sts / 8)));
    expect(sizeOf(bundle, 'depth')).toEqual(both(depth));
    expect(sizeOf(bundle, 'brim-depth')).toEqual(both([2]));
    expect(sizeOf(bundle, 'crown-depth')).toEqual(both([crownRounds / roundsPerInch]));
  });

  it('has yarn enough', () => {
    // A blocked swatch of the ropes, 6 × 6 in, weighs 15.8 g, one of the rib, 4 × 4 in, 5.5 g; 10 % to
    // spare. Rib and body are a tube; the crown is taken as six tenths of the tube of its depth, since
    // it closes faster than a cone at the top.
    const grams = each(finished, (around, index) => {
      const tube = around * ((body[index] ?? 0) / roundsPerInch);
      const crown = 0.6 * around * (crownRounds / roundsPerInch);
      return ((around * 2 * 5.5) / 16 + ((tube + crown) * 15.8) / 36) * 1.1;
    });
    const colour = bundle.yarns[0]?.colours[0];
    const rounded = grams.map((weight) => Math.ceil(weight / 5) * 5);
    expect(colour?.grams).toBe(written(rounded));
    expect(String(colour?.balls)).toBe(written(rounded.map((weight) => Math.ceil(weight / 50))));
    // 115 m are 125.8 yd.
    expect(bundle.yarns[0]?.ball.yards).toBe(Math.round(115 / 0.9144));
  });
});
