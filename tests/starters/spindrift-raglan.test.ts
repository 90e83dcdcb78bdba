/**
 * Spindrift Raglan, calculated by hand: a top-down raglan in nine sizes whose body and sleeves grow at
 * different rates. No code of the checker is used; what is worked out here must stand in the bundle
 * word for word.
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

const bundle = readStarter('spindrift-raglan');

// Craft Yarn Council, Standards & Guidelines, woman XS–5X. Bust: upper value (confirmed); upper arm,
// arm length and armhole depth: upper values (from memory).
const bust = [30, 34, 38, 42, 46, 50, 54, 58, 62];
const upperArm = [9.75, 10.25, 11, 12, 13.5, 15.5, 17, 18.5, 19.5];
const armLength = [16.5, 17, 17, 17.5, 17.5, 18, 18, 18.5, 18.5];
const armholeDepth = [6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10, 10.5];

// 24 sts and 32 rnds over 4 in; rib 26 sts over 4 in.
const [sts, rounds, ribSts] = [24 / 4, 32 / 4, 26 / 4];

// Body: 3 in of ease (the council's classic fit is 2–4 in, figures from memory).
const body = each(bust, (inch) => (inch + 3) * sts); //                      198 222 246 … 390
const underarm = [6, 8, 10, 12, 14, 16, 18, 20, 22];
const back = [37, 39, 41, 41, 43, 43, 45, 45, 47];
const sleeve = 13;
const castOn = each(back, (count) => 2 * count + 2 * sleeve);

// Sleeve at the underarm: 1½–2¼ in more than the arm, to an odd count (13 and pairs).
const arm = [71, 75, 79, 85, 93, 105, 113, 121, 129];

// Pairs of increases: half the body is back + 2 × pairs + underarm; the sleeve likewise.
const bodyPairs = each(
  back,
  (count, size) => (at(body, size) / 2 - count - at(underarm, size)) / 2,
);
const sleevePairs = each(arm, (count, size) => (count - sleeve - at(underarm, size)) / 2);

// Rounds of the yoke: about 1½ in more than the armhole of the body table, at 8 rounds to the inch.
const yokeRounds = each(armholeDepth, (inch) => (inch + 1.5) * rounds);

// Three kinds of rounds. Each line of the yoke works one of them again and again:
//   twos   Rnds 1–2: both, plain                     body +1, sleeve +1, in 2 rounds
//   fast   Rnds 3–4: both, body only                 body +2, sleeve +1, in 2 rounds
//   slow   Rnds 5–8: both, plain, body only, plain   body +2, sleeve +1, in 4 rounds
const twos = [24, 22, 20, 19, 21, 26, 28, 29, 31];
const fast = [0, 0, 0, 3, 5, 8, 10, 13, 15];
const slow = [2, 5, 8, 8, 7, 4, 3, 2, 1];
const plain = [8, 4, 0, 0, 0, 0, 0, 0, 0];

const full = '*k1, m1L, k to 1 st before m, m1R, k1, sm; rep from * to end.';
const bodyOnly = '*k to m, sm, k1, m1L, k to 1 st before m, m1R, k1, sm; rep from * to end.';
const some = 'Sizes L, 1X, 2X, 3X, 4X and 5X only:';

describe('Spindrift Raglan, by hand', () => {
  it('takes its measurements from the body table', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(bust), cm: centimetres(bust) });
    expect(bundle.body[1]?.size).toEqual({ in: inches(armLength), cm: centimetres(armLength) });
    arm.forEach((count, size) => {
      const ease = count / sts - at(upperArm, size);
      expect(ease).toBeGreaterThanOrEqual(1.5);
      expect(ease).toBeLessThanOrEqual(2.25);
    });
  });

  it('casts on a neck that fits the rib', () => {
    expect(castOn).toEqual([100, 104, 108, 108, 112, 112, 116, 116, 120]);
    expect(castOn.map((count) => count % 4)).toEqual(castOn.map(() => 0));
    expect(linesOf(bundle, 'body', 'neckband')).toEqual([
      `With smaller needles, cast on ${written(castOn)} sts.`,
      'Place marker and join to work in the round.',
      'Rnd 1: *k2, p2; rep from * to end.',
      'Rep Rnd 1 until piece measures 1 in / 2.5 cm from cast-on edge.',
    ]);
  });

  it('raises the back neck by six short rows, four stitches apart', () => {
    // Sleeve, back and sleeve lie before the front. Turn 4 stitches before the front; coming back, turn
    // 4 stitches before the round began.
    const there = each(back, (count) => sleeve + count + sleeve - 4);
    const home = each(there, (count) => count - 4);
    const again = (way: string): string => `${way} to 4 sts before gap, turn.`;
    expect(linesOf(bundle, 'body', 'back-neck')).toEqual([
      'Change to larger needles.',
      `Set-up rnd: k13, pm, k${written(back)}, pm, k13, pm, k to end.`,
      `Short row 1 (RS): k${written(there)}, turn.`,
      `Short row 2 (WS): p${written(home)}, turn.`,
      `Short row 3 (RS): ${again('k')}`,
      `Short row 4 (WS): ${again('p')}`,
      `Short row 5 (RS): ${again('k')}`,
      `Short row 6 (WS): ${again('p')}`,
      'Next rnd: k to end.',
    ]);
    // Three turns at each side, 4 stitches apart, all fall on the 13 stitches of the sleeve.
    expect(sleeve - 3 * 4).toBeGreaterThan(0);
  });

  it('gives body and sleeves their pairs within the rounds of the yoke', () => {
    expect(bodyPairs).toEqual([28, 32, 36, 41, 45, 50, 54, 59, 63]);
    expect(sleevePairs).toEqual([26, 27, 28, 30, 33, 38, 41, 44, 47]);
    bodyPairs.forEach((pairs, size) => {
      const [a, b, c] = [at(twos, size), at(fast, size), at(slow, size)];
      expect(a + 2 * b + 2 * c).toBe(pairs);
      expect(a + b + c).toBe(at(sleevePairs, size));
      expect(2 * a + 2 * b + 4 * c + at(plain, size)).toBe(at(yokeRounds, size));
    });
  });

  it('counts the yoke', () => {
    const afterTwos = each(castOn, (count, size) => count + 8 * at(twos, size));
    const afterFast = each(afterTwos, (count, size) => count + 12 * at(fast, size));
    const afterSlow = each(afterFast, (count, size) => count + 12 * at(slow, size));
    const bigger = (values: readonly number[]): string => written(values.slice(3));
    const plus = (values: readonly number[], more: number): number[] =>
      values.map((value) => value + more);
    expect(fast.map((times) => times > 0)).toEqual(fast.map((_, size) => size >= 3));
    expect(linesOf(bundle, 'body', 'yoke')).toEqual([
      `Rnd 1: ${full} ${written(plus(castOn, 8))} sts.`,
      'Rnd 2: Knit.',
      `Rep Rnds 1 and 2 ${written(plus(twos, -1))} more times. ${written(afterTwos)} sts.`,
      `${some} Rnd 3: ${full} ${bigger(plus(afterTwos, 8))} sts.`,
      `${some} Rnd 4: ${bodyOnly} ${bigger(plus(afterTwos, 12))} sts.`,
      `${some} Rep Rnds 3 and 4 ${bigger(plus(fast, -1))} more times. ${bigger(afterFast)} sts.`,
      `Rnd 5: ${full} ${written(plus(afterFast, 8))} sts.`,
      'Rnd 6: Knit.',
      `Rnd 7: ${bodyOnly} ${written(plus(afterFast, 12))} sts.`,
      'Rnd 8: Knit.',
      `Rep Rnds 5–8 ${written(plus(slow, -1))} more times. ${written(afterSlow)} sts.`,
      `Knit ${written(plain)} rnds.`,
    ]);
    afterSlow.forEach((count, size) => {
      const sleeves = 2 * (sleeve + 2 * at(sleevePairs, size));
      expect(count).toBe(sleeves + 2 * (at(back, size) + 2 * at(bodyPairs, size)));
    });
  });

  const held = each(sleevePairs, (pairs) => sleeve + 2 * pairs);

  it('divides and works the body', () => {
    const hold = `place next ${written(held)} sts on holder for sleeve, rm, cast on ${written(underarm)} sts`;
    expect(linesOf(bundle, 'body', 'divide')).toEqual([
      `Dividing rnd: P${hold.slice(1)}, k to m, rm, ${hold}, k to end. ${written(body)} sts.`,
    ]);
    body.forEach((count, size) => {
      const piece = at(back, size) + 2 * at(bodyPairs, size) + at(underarm, size);
      expect(2 * piece).toBe(count);
    });
    // The body is 2 more than a multiple of 4 in every size: one decrease in each half.
    const half = each(body, (count) => count / 2);
    expect(body.map((count) => count % 4)).toEqual(body.map(() => 2));
    expect(linesOf(bundle, 'body', 'body')).toEqual([
      `Knit until piece measures ${inches(plainBody)} in / ${centimetres(plainBody)} cm from underarm.`,
      `Dec rnd: *k${written(half.map((count) => count - 2))}, k2tog; rep from * to end. ${written(body.map((count) => count - 2))} sts.`,
      'Change to smaller needles.',
      'Rnd 1: *k2, p2; rep from * to end.',
      `Rep Rnd 1 until piece measures ${inches(side)} in / ${centimetres(side)} cm from underarm.`,
      'Bind off all sts in pattern.',
    ]);
  });

  const side = [13, 13, 13.5, 13.5, 14, 14, 14.5, 14.5, 15];
  const plainBody = side.map((inch) => inch - 2);

  // Sleeve: cuffs for k2, p2; one stitch decreased at the start, then pairs.
  const cuff = [44, 44, 48, 48, 52, 52, 56, 56, 60];
  const pairs = each(arm, (count, size) => (count - 1 - at(cuff, size)) / 2);
  // The arm length less 2½ in of cuff. The first pair falls on round 8.
  const armRounds = each(armLength, (inch) => (inch - 2.5) * rounds);
  // The others share the rounds that are left: q = rounds ÷ pairs, r over; r pairs wait q + 1 rounds.
  // Even spacing as in Brunette, Sweater 101 (1991).
  const left = each(armRounds, (count) => count - 8);
  const short = each(left, (count, size) => Math.floor(count / (at(pairs, size) - 1)));
  const longTimes = each(left, (count, size) => count % (at(pairs, size) - 1));
  const shortTimes = each(longTimes, (times, size) => at(pairs, size) - 1 - times);

  it('ends the sleeve with a cuff of 2½ in', () => {
    expect(linesOf(bundle, 'sleeve', 'cuff')).toEqual([
      'Change to smaller needles.',
      'Work in rib for 2½ in / 6.5 cm.',
      'Bind off all sts in pattern.',
    ]);
  });

  it('tapers the sleeve to its cuff within the length of the arm', () => {
    expect(pairs).toEqual([13, 15, 15, 18, 20, 26, 28, 32, 34]);
    expect(cuff.map((count) => count % 4)).toEqual(cuff.map(() => 0));
    const half = each(underarm, (count) => count / 2);
    const pick = `ick up and k ${written(half)} sts along underarm`;
    expect(linesOf(bundle, 'sleeve', 'arm')).toEqual([
      `Return ${written(held)} held sts of sleeve to needle.`,
      `Next rnd: P${pick}, k${written(held)}, p${pick}. ${written(arm)} sts.`,
      'Place marker and join to work in the round.',
      `Next rnd: k2tog, k to end. ${written(arm.map((count) => count - 1))} sts.`,
      'Knit 5 rnds.',
      `Dec rnd: k1, k2tog, k to last 3 sts, ssk, k1. ${written(arm.map((count) => count - 3))} sts.`,
      `Rep Dec rnd every ${written(short)} rnds ${written(shortTimes)} times, then every ` +
        `${written(short.map((count) => count + 1))} rnds ${written(longTimes)} times. ` +
        `${written(cuff)} sts.`,
    ]);
    // Pick-up round, decrease, 5 plain, decrease: 8 rounds.
    expect(1 + 1 + 5 + 1).toBe(8);
  });

  it('measures what the counts give', () => {
    const yoke = each(yokeRounds, (count) => count / rounds);
    expect(sizeOf(bundle, 'bust')).toEqual(both(body.map((count) => count / sts)));
    expect(bundle.measurements[0]?.ease?.size).toEqual({ in: 3, cm: 7.5 });
    expect(sizeOf(bundle, 'yoke-depth')).toEqual(both(yoke));
    expect(sizeOf(bundle, 'side-length')).toEqual(both(side));
    expect(sizeOf(bundle, 'length')).toEqual(both(yoke.map((inch, size) => inch + at(side, size))));
    expect(sizeOf(bundle, 'neck')).toEqual(both(castOn.map((count) => count / ribSts)));
    expect(sizeOf(bundle, 'upper-arm')).toEqual(both(arm.map((count) => count / sts)));
    expect(sizeOf(bundle, 'cuff')).toEqual(both(cuff.map((count) => count / ribSts)));
    expect(sizeOf(bundle, 'sleeve-length')).toEqual(
      both(armRounds.map((count) => count / rounds + 2.5)),
    );
  });

  it('has yarn enough', () => {
    // A blocked swatch of stockinette, 6 × 6 in, weighs 9.5 g; 10 % to spare. The yoke is taken as
    // the mean of its first and last round, the rib as stockinette.
    const grams = each(body, (count, size) => {
      const neckToYoke = at(castOn, size) + 4 * at(sleevePairs, size) + 4 * at(bodyPairs, size);
      const yoke = (at(castOn, size) + neckToYoke) / 2 / sts;
      const sleeves = at(arm, size) / sts + at(cuff, size) / ribSts;
      const area =
        (count / sts) * at(side, size) +
        (yoke * at(yokeRounds, size)) / rounds +
        sleeves * at(armLength, size);
      return (area / 36) * 9.5 * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 5) * 5);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(colour?.balls).toBe(written(rounded.map((weight) => Math.ceil(weight / 50))));
    expect(bundle.yarns[0]?.ball.yards).toBe(Math.round(150 / 0.9144));
  });
});
