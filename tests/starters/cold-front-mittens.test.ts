/**
 * Cold Front Mittens, calculated by hand: a pair with a cable on the back of the hand and a thumb
 * gusset. No code of the checker is used; what is worked out here must stand in the bundle word for
 * word.
 */
import { describe, expect, it } from 'vitest';
import {
  at,
  both,
  each,
  inches,
  centimetres,
  linesOf,
  numberOf,
  readStarter,
  sizeOf,
  written,
} from './paper.ts';

const bundle = readStarter('cold-front-mittens');

// Hand circumferences of adults without the thumb, about 6½–9 in (common practice).
const hand = [6.75, 7.5, 8.25, 9];

// 20 sts and 28 rnds over 4 in; rib 22 sts over 4 in.
const [sts, rounds, ribSts] = [20 / 4, 28 / 4, 22 / 4];

// About half an inch of ease, to a multiple of 4 for the rib.
const cuff = each(hand, (inch) => Math.round(((inch + 0.5) * sts) / 4) * 4); //  36 40 44 48
// The cable takes up two stitches: they are added above the cuff and taken away below the tip.
const mitten = each(cuff, (count) => count + 2);
const half = each(cuff, (count) => count / 2);
const back = each(half, (count) => count + 2);

const plus = (values: readonly number[], more: number): string =>
  written(values.map((value) => value + more));

describe('Cold Front Mittens, by hand', () => {
  it('fits the hand with half an inch of ease', () => {
    expect(cuff).toEqual([36, 40, 44, 48]);
    expect(bundle.body[0]?.size).toEqual({ in: inches(hand), cm: centimetres(hand) });
    cuff.forEach((count, size) => {
      expect(Math.abs(count / sts - at(hand, size) - 0.5)).toBeLessThanOrEqual(0.125);
    });
  });

  const cuffLines = [
    `With smaller needles, cast on ${written(cuff)} sts.`,
    'Place marker and join to work in the round.',
    'Rnd 1: *k2, p2; rep from * to end.',
    'Rep Rnd 1 until piece measures 2½ in / 6.5 cm from cast-on edge.',
  ];
  // The chart of 10 stands in the middle of the back.
  const beside = each(back, (count) => (count - 10) / 2); //              5 6 7 8
  const setUp = [
    'Change to larger needles.',
    `Inc rnd: k${plus(half.map((count) => count / 2), -1)}, m1L, k2, m1L, k to end. ${written(mitten)} sts.`, // prettier-ignore
    `Next rnd: k${written(beside)}, work Chart A over next 10 sts, k${written(beside)}, pm, k to end.`,
  ];

  it('starts both mittens alike and sets the cable in the middle of the back', () => {
    expect(beside).toEqual([5, 6, 7, 8]);
    for (const piece of ['right', 'left']) {
      expect(linesOf(bundle, piece, 'cuff')).toEqual(cuffLines);
      expect(linesOf(bundle, piece, 'set-up')).toEqual(setUp);
    }
    // Half the back, an increase, 2 sts, an increase, half the back.
    half.forEach((count, size) => {
      expect(count / 2 - 1 + 1 + 2 + 1 + count / 2 - 1).toBe(at(back, size));
    });
    const chart = bundle.charts[0];
    expect(chart?.rows.toReversed()[2]).toBe('-LLLLRRRR-');
    expect(chart?.rows.filter((row) => row === '-........-').length).toBe(5);
  });

  // Thumb: one stitch, then pairs every third round.
  const pairs = [6, 6, 7, 7];
  const thumb = each(pairs, (count) => 1 + 2 * count); //                  13 13 15 15
  const wide = each(mitten, (count, size) => count + at(thumb, size));

  it('grows the gusset and sets it aside, at the left of the right hand and the right of the left', () => {
    const more = written(pairs.map((count) => count - 1));
    expect(linesOf(bundle, 'right', 'gusset')).toEqual([
      `Set-up rnd: Work to m, sm, m1L, pm, work to end. ${plus(mitten, 1)} sts.`,
      'Work even as established for 2 rnds.',
      `Inc rnd: Work to m, sm, m1R, k to m, m1L, sm, work to end. ${plus(mitten, 3)} sts.`,
      `Rep Inc rnd every 3rd rnd ${more} times. ${written(wide)} sts.`,
      'Work even as established for 2 rnds.',
      `Dividing rnd: Work to m, rm, place next ${written(thumb)} sts on holder for thumb, rm, pm, work to end. ${written(mitten)} sts.`,
    ]);
    expect(linesOf(bundle, 'left', 'gusset')).toEqual([
      `Set-up rnd: m1L, pm, work to end. ${plus(mitten, 1)} sts.`,
      'Work even as established for 2 rnds.',
      `Inc rnd: m1R, k to m, m1L, sm, work to end. ${plus(mitten, 3)} sts.`,
      `Rep Inc rnd every 3rd rnd ${more} times. ${written(wide)} sts.`,
      'Work even as established for 2 rnds.',
      `Dividing rnd: Place next ${written(thumb)} sts on holder for thumb, rm, work to end. ${written(mitten)} sts.`,
    ]);
  });

  // Tip: four stitches every second round, then every round, down to twelve.
  const slow = [3, 4, 4, 5];
  const fast = [3, 3, 4, 4];

  it('narrows the tip to twelve stitches', () => {
    const afterSlow = each(cuff, (count, size) => count - 4 * at(slow, size));
    const end = each(afterSlow, (count, size) => count - 4 * at(fast, size));
    expect(end).toEqual([12, 12, 12, 12]);
    // Over the cable: half the back less 3, a decrease, 2, a decrease, half the back less 3.
    const quarter = written(back.map((count) => count / 2 - 3));
    const tip = [
      `Dec rnd: k${quarter}, k2tog, k2, ssk, k to end. ${written(cuff)} sts.`,
      `Rnd 1: *k1, ssk, k to 3 sts before m, k2tog, k1, sm; rep from * to end. ${plus(cuff, -4)} sts.`,
      'Rnd 2: Knit.',
      `Rep Rnds 1 and 2 ${plus(slow, -1)} more times. ${written(afterSlow)} sts.`,
      `Rep Rnd 1 ${written(fast)} more times. 12 sts.`,
      'Break yarn, draw through rem sts and fasten off.',
    ];
    expect(linesOf(bundle, 'right', 'tip')).toEqual(tip);
    expect(linesOf(bundle, 'left', 'tip')).toEqual(tip);
  });

  // Gusset in rounds: increase, next, set-up, 2, first pair, three for each other pair, 2, dividing.
  const toThumb = each(pairs, (count) => 1 + 1 + 1 + 2 + 1 + 3 * (count - 1) + 2 + 1);
  const straight = [11, 13, 12, 14];
  const tipRounds = each(slow, (count, size) => 1 + 2 * count + at(fast, size));
  const around = each(thumb, (count) => count + 3);
  const thumbRounds = [12, 13, 15, 16];

  it('works the thumb from the held stitches and three picked up', () => {
    for (const piece of ['right', 'left']) {
      expect(linesOf(bundle, piece, 'palm')).toEqual([
        `Work even as established for ${written(straight)} rnds.`,
      ]);
      expect(linesOf(bundle, piece, 'thumb')).toEqual([
        `Return ${written(thumb)} held sts of thumb to needle.`,
        `Next rnd: k${written(thumb)}, pick up and k 3 sts along edge. ${written(around)} sts.`,
        'Place marker and join to work in the round.',
        `Knit ${written(thumbRounds)} rnds.`,
        `Dec rnd: *k2tog; rep from * to end. ${written(around.map((count) => count / 2))} sts.`,
        'Break yarn, draw through rem sts and fasten off.',
      ]);
    }
  });

  const handRounds = each(
    toThumb,
    (count, size) => count + at(straight, size) + at(tipRounds, size),
  );

  it('measures what the counts give', () => {
    expect(handRounds).toEqual([45, 49, 52, 56]);
    // Two rounds of the gusset's count lie before it: the increase above the cuff, and the next.
    expect(numberOf(bundle, 'gusset-rows')).toBe(plus(toThumb, -2));
    expect(numberOf(bundle, 'hand-rows')).toBe(
      written(straight.map((count, size) => count + at(tipRounds, size))),
    );
    expect(numberOf(bundle, 'thumb-rows')).toBe(plus(thumbRounds, 2));
    expect(sizeOf(bundle, 'hand')).toEqual(both(cuff.map((count) => count / sts)));
    expect(sizeOf(bundle, 'cuff')).toEqual(both(cuff.map((count) => count / ribSts)));
    expect(sizeOf(bundle, 'length')).toEqual(both(handRounds.map((count) => 2.5 + count / rounds)));
    expect(sizeOf(bundle, 'cuff-depth')).toEqual(both([2.5]));
    expect(sizeOf(bundle, 'to-thumb')).toEqual(both(toThumb.map((count) => 2.5 + count / rounds)));
    expect(sizeOf(bundle, 'thumb')).toEqual(both(around.map((count) => count / sts)));
    // Pick-up round, straight rounds, decrease round.
    expect(sizeOf(bundle, 'thumb-length')).toEqual(
      both(thumbRounds.map((count) => (count + 2) / rounds)),
    );
  });

  it('has yarn enough', () => {
    // A blocked swatch of stockinette, 6 × 6 in, weighs 12.2 g, one of the rib, 4 × 4 in, 5.8 g; the
    // cables take 10 % more, and 10 % are to spare. A pair; the hand tapers at the tip: nineteen
    // twentieths of a tube.
    const grams = each(cuff, (count, size) => {
      const hands = (count / sts) * (at(handRounds, size) / rounds) * 0.95;
      const thumbs = (at(around, size) / sts) * ((at(thumbRounds, size) + 2) / rounds);
      const rib = (count / ribSts) * 2.5;
      return 2 * ((rib * 5.8) / 16 + ((hands + thumbs) * 12.2 * 1.1) / 36) * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 5) * 5);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(Math.max(...rounded)).toBeLessThanOrEqual(100 * Number(colour?.balls));
  });
});
