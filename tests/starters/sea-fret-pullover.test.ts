/**
 * Sea Fret Pullover, calculated by hand: from the body table to the neckband, as on the designer's
 * paper. No code of the checker is used; what is worked out here must stand in the bundle word for
 * word.
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

const bundle = readStarter('sea-fret-pullover');

// Craft Yarn Council, Standards & Guidelines, woman XS–5X. Bust: upper value of each size
// (confirmed). Upper arm and armhole depth: upper value (from memory).
const bust = [30, 34, 38, 42, 46, 50, 54, 58, 62];
const upperArm = [9.75, 10.25, 11, 12, 13.5, 15.5, 17, 18.5, 19.5];
const armholeDepth = [6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10, 10.5];

// 20 sts and 28 rows over 4 in: 5 sts and 7 rows to the inch. Rib: 22 sts over 4 in.
const [sts, rows, ribSts] = [20 / 4, 28 / 4, 22 / 4];

// Ease: 4 in over the bust. The council's loose fit is 4–6 in (figures from memory).
const width = each(bust, (inch) => (inch + 4) / 2); //                17 19 21 23 25 27 29 31 33 in
// One selvedge stitch at each side is counted on the needle and vanishes in the seam.
const body = each(width, (inch) => inch * sts + 2); //                87 97 107 … 167

describe('Sea Fret Pullover, by hand', () => {
  it('has the bust and the arm of the body table', () => {
    expect(bundle.body[0]?.size).toEqual({ in: inches(bust), cm: centimetres(bust) });
    expect(bundle.body[1]?.size).toEqual({ in: inches(upperArm), cm: centimetres(upperArm) });
    expect(bundle.measurements[0]?.ease?.size).toEqual({ in: 4, cm: 10 });
    expect(body).toEqual([87, 97, 107, 117, 127, 137, 147, 157, 167]);
  });

  // k2, p2 with k2 at both ends needs a multiple of 4, plus 2: the counts next below the body with
  // at least 5 stitches to add.
  const hem = each(body, (count) => [5, 6, 7, 8].map((less) => count - less).find((rest) => rest % 4 === 2) ?? 0); // prettier-ignore
  const added = each(body, (count, size) => count - at(hem, size));
  // The increases are spread by eye: a margin at each edge and equal gaps between.
  const gap = [16, 13, 20, 16, 24, 19, 28, 22, 32];
  const margin = each(hem, (count, size) => (count - (at(added, size) - 1) * at(gap, size)) / 2);

  const hemLines = [
    `With smaller needles, cast on ${written(hem)} sts.`,
    'Row 1 (RS): *k2, p2; rep from * to last 2 sts, k2.',
    'Row 2 (WS): *p2, k2; rep from * to last 2 sts, p2.',
    'Rep Rows 1 and 2 until piece measures 2½ in / 6.5 cm from cast-on edge, ending with a WS row.',
  ];
  const increaseRow =
    `Inc row (RS): k${written(margin)}, m1L, *k${written(gap)}, m1L; rep from * ` +
    `${written(added.map((count) => count - 2))} more times, k${written(margin)}. ` +
    `${written(body)} sts.`;

  it('casts on for the rib and spreads the increases above it', () => {
    expect(hem).toEqual([82, 90, 102, 110, 122, 130, 142, 150, 162]);
    expect(added).toEqual([5, 7, 5, 7, 5, 7, 5, 7, 5]);
    expect(margin).toEqual([9, 6, 11, 7, 13, 8, 15, 9, 17]);
    // Written out for the first size: 9 sts, then an increase and 16 sts four times, an increase, 9.
    expect(9 + 1 + (16 + 1) * 4 + 9).toBe(87);
    expect(linesOf(bundle, 'back', 'hem')).toEqual(hemLines);
    expect(linesOf(bundle, 'front', 'hem')).toEqual(hemLines);
    expect(linesOf(bundle, 'back', 'body')[1]).toBe(increaseRow);
    expect(linesOf(bundle, 'front', 'body')[1]).toBe(increaseRow);
  });

  // Sleeve at the top: about twice a drop armhole an inch deeper than the body's, to an even count so
  // that it grows from the even cuff by pairs, selvedges included.
  const top = [78, 82, 88, 92, 98, 102, 108, 112, 118];
  const topWidth = each(top, (count) => (count - 2) / sts);
  // The armhole is half the sleeve deep, to an even number of rows (it starts and ends after a WS row).
  const armRows = each(topWidth, (inch) => Math.round((inch / 2) * rows));
  const evenRows = [54, 56, 60, 64, 68, 70, 74, 78, 82];

  it('has an armhole that fits the sleeve', () => {
    topWidth.forEach((inch, size) => {
      expect(Math.abs(inch - 2 * (at(armholeDepth, size) + 1))).toBeLessThanOrEqual(0.25);
      expect(inch).toBeGreaterThan(at(upperArm, size) + 2);
      expect(Math.abs(at(evenRows, size) - at(armRows, size))).toBeLessThanOrEqual(1);
      // Along the seam: twice the depth against the width of the sleeve, in inches.
      expect(Math.abs((2 * at(evenRows, size)) / rows - inch)).toBeLessThan(1 / 3);
    });
    expect(evenRows.every((count) => count % 2 === 0)).toBe(true);
  });

  // Back neck, about 7½–9 in; the rest is two shoulders.
  const neck = [37, 37, 37, 39, 41, 41, 43, 43, 45];
  const shoulder = each(body, (count, size) => (count - at(neck, size)) / 2);
  // Front neck: 3 + 2 bound off and 5 decreased at each side, the rest bound off in the middle.
  const middle = each(neck, (count) => count - 2 * (3 + 2 + 5));
  const side = each(shoulder, (count) => count + 3 + 2 + 5);
  const rest = each(side, (count, size) => count + at(middle, size));

  it('divides the back into neck and shoulders', () => {
    expect(shoulder).toEqual([25, 30, 35, 39, 43, 48, 52, 57, 61]);
    expect(linesOf(bundle, 'back', 'armhole')).toEqual([
      `Work even for ${written(evenRows)} rows.`,
      `Place next ${written(shoulder)} sts on holder for right back shoulder.`,
      `Place next ${written(neck)} sts on holder for back neck.`,
      `Place rem ${written(shoulder)} sts on holder for left back shoulder.`,
    ]);
    body.forEach((count, size) => {
      expect(2 * at(shoulder, size) + at(neck, size)).toBe(count);
      expect(at(side, size) + at(rest, size)).toBe(count);
    });
  });

  it('centres the panel', () => {
    const plain = each(body, (count) => (count - 17) / 2);
    expect(plain.every(Number.isInteger)).toBe(true);
    expect(linesOf(bundle, 'front', 'body')[3]).toBe(
      `Row 1 (RS): k${written(plain)}, pm, work Chart A over next 17 sts, pm, k to end.`,
    );
    // The middle bind-off covers the panel in every size, so the sides are plain stockinette.
    expect(Math.min(...middle)).toBe(17);
    const chart = bundle.charts[0];
    expect(chart?.rows.every((row) => row.length === 17)).toBe(true);
    // Drawn left and right alike, but for the lean of the twists.
    chart?.rows.forEach((row) => {
      const plain = row.replaceAll(/[LR]/g, 'X');
      expect(plain.split('').toReversed().join('')).toBe(plain);
    });
  });

  it('shapes both sides of the front neck to the same shoulder over twenty rows', () => {
    const less = (count: number): string => written(side.map((from) => from - count));
    // Dividing row 1; bind off in rows 2 and 4; decrease in rows 5, 7, 9, 11, 13; then to row 20.
    expect(1 + 3 + 2 * 5 + 6).toBe(20);
    expect(linesOf(bundle, 'front', 'armhole')).toEqual([
      `Work even for ${written(evenRows.map((count) => count - 20))} rows.`,
      `Dividing row (RS): k${written(side)}, place next ${written(rest)} sts on holder for right front, turn. ${written(side)} sts.`,
    ]);
    expect(linesOf(bundle, 'front', 'left-front')).toEqual([
      `Next row (WS): Bind off 3 sts, p to end. ${less(3)} sts.`,
      'Next row (RS): Knit.',
      `Next row (WS): Bind off 2 sts, p to end. ${less(5)} sts.`,
      `Dec row (RS): k to last 3 sts, k2tog, k1. ${less(6)} sts.`,
      'Next row (WS): Purl.',
      `Rep last 2 rows 4 more times. ${less(10)} sts.`,
      'Work even for 6 rows.',
      `Place rem ${less(10)} sts on holder for left front shoulder.`,
    ]);
    // Middle bind-off in row 1; bind off in rows 3 and 5; decrease in rows 7 to 15; then to row 20.
    expect(6 + 2 * 5 + 4).toBe(20);
    expect(linesOf(bundle, 'front', 'right-front')).toEqual([
      `Return ${written(rest)} held sts of right front to needle.`,
      'Join yarn.',
      `Next row (RS): Bind off ${written(middle)} sts, k to end. ${less(0)} sts.`,
      'Next row (WS): Purl.',
      `Next row (RS): Bind off 3 sts, k to end. ${less(3)} sts.`,
      'Next row (WS): Purl.',
      `Next row (RS): Bind off 2 sts, k to end. ${less(5)} sts.`,
      'Next row (WS): Purl.',
      `Dec row (RS): k1, ssk, k to end. ${less(6)} sts.`,
      'Next row (WS): Purl.',
      `Rep last 2 rows 4 more times. ${less(10)} sts.`,
      'Work even for 4 rows.',
      `Place rem ${less(10)} sts on holder for right front shoulder.`,
    ]);
    expect(side.map((count) => count - 10)).toEqual(shoulder);
    expect(numberOf(bundle, 'neck-rows')).toBe('20');
  });

  // Sleeve: a cuff of about 7–10 in for k2, p2 with k2 at both ends.
  const cuff = [42, 42, 46, 46, 50, 50, 54, 54, 58];
  // 18 in with a cuff of 2½ in: 15½ in are 108.5 rows, so 108, an even number.
  const sleeveRows = 108;
  // Pairs of increases over 104 rows, counted from the knit row that is row 1: 1 + 104 + 3 = 108.
  const sixth = [16, 12, 10, 6, 4, 0, 0, 0, 0];
  const fourth = [2, 8, 11, 17, 20, 26, 25, 23, 22];
  const second = [0, 0, 0, 0, 0, 0, 2, 6, 8];

  it('widens the sleeve at even rates within its length', () => {
    cuff.forEach((count, size) => {
      const times = at(sixth, size) + at(fourth, size) + at(second, size);
      expect(count + 2 * times).toBe(at(top, size));
      expect(6 * at(sixth, size) + 4 * at(fourth, size) + 2 * at(second, size)).toBe(104);
      expect(count % 4).toBe(2);
    });
    expect(1 + 104 + 3).toBe(sleeveRows);
    expect(linesOf(bundle, 'sleeve', 'cuff')).toEqual([
      `With smaller needles, cast on ${written(cuff)} sts.`,
      ...hemLines.slice(1),
    ]);
    expect(linesOf(bundle, 'sleeve', 'arm')).toEqual([
      'Change to larger needles.',
      'Next row (RS): Knit.',
      `Inc 1 st each end every 6th row ${written(sixth)} times, then every 4th row ` +
        `${written(fourth)} times, then every 2nd row 0 (0, 0, 0, 0) [0, 2, 6, 8] times. ` +
        `${written(top)} sts.`,
      'Work even for 3 rows.',
      'Bind off all sts.',
    ]);
  });

  // Along each side of the front neck: 5 bound-off stitches one for one, and 16 rows at three for four.
  const along = 5 + (16 * 3) / 4;
  const band = each(neck, (count, size) => count + along + at(middle, size) + along);

  it('picks up a neckband that fits its rib', () => {
    expect(along).toBe(17);
    expect(band.map((count) => count % 4)).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect(linesOf(bundle, 'neckband', 'band').slice(0, 2)).toEqual([
      `Return ${written(neck)} held sts of back neck to needle.`,
      `Next rnd: k${written(neck)}, pick up and k 17 sts along left front neck, pick up and k ${written(middle)} sts along front neck, pick up and k 17 sts along right front neck. ${written(band)} sts.`,
    ]);
  });

  it('measures what the counts give', () => {
    const across = each(body, (count) => (count - 2) / sts);
    const armhole = each(evenRows, (count) => count / rows);
    expect(sizeOf(bundle, 'bust')).toEqual(both(across.map((inch) => 2 * inch)));
    expect(across.map((inch, size) => 2 * inch - at(bust, size))).toEqual(bust.map(() => 4));
    expect(sizeOf(bundle, 'width')).toEqual(both(across));
    expect(sizeOf(bundle, 'length')).toEqual(both(armhole.map((inch) => 14.5 + inch)));
    expect(sizeOf(bundle, 'side-length')).toEqual(both([14.5]));
    expect(sizeOf(bundle, 'armhole')).toEqual(both(armhole));
    expect(sizeOf(bundle, 'neck')).toEqual(both(neck.map((count) => count / sts)));
    // One selvedge stitch of the shoulder goes into the armhole seam.
    expect(sizeOf(bundle, 'shoulder')).toEqual(both(shoulder.map((count) => (count - 1) / sts)));
    expect(sizeOf(bundle, 'neck-depth')).toEqual(both([20 / rows]));
    expect(sizeOf(bundle, 'hem-depth')).toEqual(both([2.5]));
    expect(sizeOf(bundle, 'upper-arm')).toEqual(both(topWidth));
    expect(sizeOf(bundle, 'cuff')).toEqual(both(cuff.map((count) => (count - 2) / ribSts)));
    expect(sizeOf(bundle, 'sleeve-length')).toEqual(both([2.5 + sleeveRows / rows]));
    expect(sizeOf(bundle, 'cuff-depth')).toEqual(both([2.5]));
  });

  it('has yarn enough', () => {
    // A blocked swatch of stockinette, 6 × 6 in, weighs 12.2 g, one of the rib, 4 × 4 in,
    // 5.8 g; 10 % to spare. Two body rectangles and two sleeves that widen from cuff to top.
    const grams = each(width, (across, size) => {
      const length = 14.5 + at(evenRows, size) / rows;
      const sleeve = ((at(cuff, size) - 2) / ribSts + at(topWidth, size)) / 2;
      const area = 2 * across * length + 2 * sleeve * (2.5 + sleeveRows / rows);
      const rib = 2 * across * 2.5 + 2 * ((at(cuff, size) - 2) / ribSts) * 2.5;
      return (((area - rib) * 12.2) / 36 + (rib * 5.8) / 16) * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 10) * 10);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(colour?.balls).toBe(written(rounded.map((weight) => Math.ceil(weight / 100))));
    expect(bundle.yarns[0]?.ball.yards).toBe(Math.round(200 / 0.9144));
  });
});
