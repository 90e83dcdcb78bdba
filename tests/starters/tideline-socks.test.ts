/**
 * Tideline Socks, calculated by hand: from the cuff over flap, heel turn and gusset to the toe. No
 * code of the checker is used; what is worked out here must stand in the bundle word for word.
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

const bundle = readStarter('tideline-socks');

// Craft Yarn Council, foot size chart (from memory): woman S, M, L and man 12–14.
const foot = [7, 8, 9, 10];
const footLength = [9, 10, 11, 11.5];

// 32 sts and 44 rnds over 4 in: 8 sts and 11 rnds to the inch. A sock is an inch narrower than the foot.
const [sts, rounds] = [32 / 4, 44 / 4];
const sock = each(foot, (inch) => (inch - 1) * sts); //                48 56 64 72
const half = each(sock, (count) => count / 2); //                      24 28 32 36

const less = (values: readonly number[], by: number): string =>
  written(values.map((value) => value - by));

describe('Tideline Socks, by hand', () => {
  it('fits the foot and the pattern', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(foot), cm: centimetres(foot) });
    expect(bundle.body[1]?.size).toEqual({ in: inches(footLength), cm: centimetres(footLength) });
    // Rib and chart are multiples of 4, and so is the instep by itself.
    for (const count of [...sock, ...half]) expect(count % 4).toBe(0);
    expect(linesOf(bundle, 'sock', 'cuff')).toEqual([
      `Cast on ${written(sock)} sts.`,
      'Place marker and join to work in the round.',
      'Rnd 1: *k2, p2; rep from * to end.',
      'Rep Rnd 1 15 more times.',
    ]);
    // Every second round of the chart the rib of two steps one stitch to the left.
    expect(bundle.charts[0]?.rows.toReversed()).toEqual([
      '--..', '--..', '-..-', '-..-', '..--', '..--', '.--.', '.--.',
    ]); // prettier-ignore
  });

  // The flap is square in the old way: as many rows as stitches, so half as many slipped stitches
  // along each edge. Common practice: a flap of 36 sts has 36 rows, and 18 sts are picked up.
  const flapRows = half;
  const pickUp = each(flapRows, (count) => count / 2); //                12 14 16 18

  it('works a heel flap with a slipped stitch every second row', () => {
    expect(linesOf(bundle, 'sock', 'flap')).toEqual([
      `Row 1 (RS): *sl1, k1; rep from * ${written(half.map((count) => count / 2 - 1))} more times, place next ${written(half)} sts on holder for instep, turn. ${written(half)} sts.`,
      'Row 2 (WS): sl1, p to end.',
      'Row 3 (RS): *sl1, k1; rep from * to end.',
      'Row 4 (WS): sl1, p to end.',
      `Rep Rows 3 and 4 ${written(flapRows.map((count) => (count - 4) / 2))} more times.`,
    ]);
  });

  // Heel turn. Common practice, for a heel of n stitches: work n/2 + 2, decrease, 1; turn; slip 1, 5,
  // decrease, 1; then to the gap each time. A heel of 24 ends with 14, 28 with 16, 32 with 18, 36
  // with 20.
  const first = each(half, (count) => count / 2 + 2);
  const turned = [14, 16, 18, 20];

  it('turns the heel as the table of heels has it', () => {
    const lines = linesOf(bundle, 'sock', 'turn');
    turned.forEach((end, size) => {
      let all = at(half, size);
      // Row 1 leaves these unworked at its end, row 2 the same at the other end.
      let right = all - (at(first, size) + 2 + 1);
      all -= 1;
      let left = all - right - (1 + 5 + 2 + 1);
      all -= 1;
      expect(right).toBe(left);
      // In each pair of rows the decrease takes one waiting stitch, the stitch after it another.
      let pairs = 0;
      for (; right >= 2; pairs += 1) {
        right -= 2;
        left -= 2;
        all -= 2;
      }
      // Rows 3 and 4 are the first pair, the repeat works the others; rows 5 and 6 take the last two.
      expect(pairs - 1).toBe(at([2, 3, 4, 5], size));
      expect([right, left]).toEqual([1, 1]);
      expect(all - 2).toBe(end);
    });
    expect(lines).toEqual([
      `Row 1 (RS): k${written(first)}, ssk, k1, turn. ${less(half, 1)} sts.`,
      `Row 2 (WS): sl1, p5, p2tog, p1, turn. ${less(half, 2)} sts.`,
      `Row 3 (RS): sl1, k to 1 st before gap, ssk, k1, turn. ${less(half, 3)} sts.`,
      `Row 4 (WS): sl1, p to 1 st before gap, p2tog, p1, turn. ${less(half, 4)} sts.`,
      `Rep Rows 3 and 4 2 (3, 4, 5) more times. ${less(turned, -2)} sts.`,
      `Row 5 (RS): sl1, k to 1 st before gap, ssk, turn. ${less(turned, -1)} sts.`,
      `Row 6 (WS): sl1, p to 1 st before gap, p2tog, turn. ${written(turned)} sts.`,
    ]);
  });

  const wide = each(turned, (count, size) => count + 2 * at(pickUp, size) + at(half, size));
  // Each gusset round takes two; it ends when leg and foot are alike.
  const gusset = each(wide, (count, size) => (count - at(sock, size)) / 2);

  it('picks up the gussets and decreases them away', () => {
    expect(wide).toEqual([62, 72, 82, 92]);
    expect(gusset).toEqual([7, 8, 9, 10]);
    const heelSide = each(turned, (count, size) => count + at(pickUp, size));
    expect(linesOf(bundle, 'sock', 'gusset')).toEqual([
      `Next row (RS): k${written(turned)}, pick up and k ${written(pickUp)} sts along heel flap. ${written(heelSide)} sts.`,
      `Return ${written(half)} held sts of instep to needle.`,
      'Place marker and join to work in the round.',
      `Next rnd: Work Chart A over next ${written(half)} sts, pm, pick up and k ${written(pickUp)} sts along heel flap, k to end. ${written(wide)} sts.`,
      `Rnd 1: Work Chart A to m, sm, k1, ssk, k to last 3 sts, k2tog, k1. ${less(wide, 2)} sts.`,
      'Rnd 2: Work Chart A to m, sm, k to end.',
      `Rep Rnds 1 and 2 ${less(gusset, 1)} more times. ${written(sock)} sts.`,
    ]);
  });

  // Toe: four decreases every second round until half are left, then every round.
  const slow = each(half, (count) => count / 4);
  const fast = [3, 3, 4, 4];
  const end = each(half, (count, size) => count - 4 * at(fast, size));
  const toeRounds = each(slow, (count, size) => 2 * count + at(fast, size));

  it('closes the toe over equal halves', () => {
    expect(end).toEqual([12, 16, 16, 20]);
    const halves = written(end.map((count) => count / 2));
    expect(linesOf(bundle, 'sock', 'toe')).toEqual([
      `Rnd 1: k1, ssk, k to 3 sts before m, k2tog, k1, sm, k1, ssk, k to last 3 sts, k2tog, k1. ${less(sock, 4)} sts.`,
      'Rnd 2: Knit.',
      `Rep Rnds 1 and 2 ${less(slow, 1)} more times. ${written(half)} sts.`,
      `Rep Rnd 1 ${written(fast)} more times. ${written(end)} sts.`,
      `Place next ${halves} sts on holder for instep.`,
      `Place rem ${halves} sts on holder for sole.`,
      'Graft instep and sole.',
    ]);
  });

  const footRounds = [54, 58, 62, 62];
  // The sole from the back of the heel: all rows of the turn (2, the pairs, 2), then from the pick-up.
  const turnRows = each([2, 3, 4, 5], (more) => 2 + 2 * (more + 1) + 2);
  const soleRounds = each(gusset, (count, size) => 1 + 2 * count + at(footRounds, size) + at(toeRounds, size)); // prettier-ignore
  const legRounds = each(sock, () => 16 + 6 * 8); // cuff, and six charts of eight

  it('measures what the counts give', () => {
    expect(turnRows).toEqual([10, 12, 14, 16]);
    expect(linesOf(bundle, 'sock', 'leg')).toEqual(['Work Rnds 1–8 of Chart A 6 times.']);
    expect(linesOf(bundle, 'sock', 'foot')).toEqual([
      `Work even as established for ${written(footRounds)} rnds.`,
    ]);
    const through = (values: readonly number[]) => both(values.map((value) => value / rounds));
    const length = each(turnRows, (rows, size) => rows + at(soleRounds, size));
    expect(sizeOf(bundle, 'foot')).toEqual(both(sock.map((count) => count / sts)));
    expect(sizeOf(bundle, 'leg')).toEqual(both(sock.map((count) => count / sts)));
    expect(sizeOf(bundle, 'heel')).toEqual(through(turnRows));
    expect(sizeOf(bundle, 'sole')).toEqual(through(soleRounds));
    expect(sizeOf(bundle, 'foot-length')).toEqual(through(length));
    expect(sizeOf(bundle, 'toe')).toEqual(through(toeRounds));
    expect(sizeOf(bundle, 'leg-length')).toEqual(
      through(legRounds.map((count, size) => count + at(flapRows, size))),
    );
    expect(sizeOf(bundle, 'cuff-depth')).toEqual(through([16]));
    // About half an inch shorter than the foot, because the sock stretches.
    length.forEach((count, size) => {
      expect(Math.abs(at(footLength, size) - count / rounds - 0.5)).toBeLessThan(0.1);
    });
  });

  it('has yarn enough', () => {
    // A blocked swatch, 4 × 4 in, weighs 4 g; two socks; 10 % to spare.
    const grams = each(sock, (count, size) => {
      const tube = (count / sts) * ((at(legRounds, size) + at(soleRounds, size)) / rounds);
      const flap = (at(half, size) / sts) * (at(flapRows, size) / rounds);
      return ((2 * (tube + flap)) / 16) * 4 * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 5) * 5);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(Math.max(...rounded)).toBeLessThanOrEqual(100 * Number(colour?.balls));
    expect(bundle.yarns[0]?.ball.yards).toBe(Math.round(420 / 0.9144));
  });
});
