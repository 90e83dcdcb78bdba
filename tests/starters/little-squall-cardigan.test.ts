/**
 * Little Squall Cardigan, calculated by hand: a baby's garter-stitch jacket in one piece, sleeves
 * joined at the yoke, bands picked up. No code of the checker is used; what is worked out here must
 * stand in the bundle word for word.
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

const bundle = readStarter('little-squall-cardigan');

// Craft Yarn Council, Standards & Guidelines, baby 3, 6, 12, 18, 24 months (from memory).
const chest = [16, 17, 18, 19, 20];
const armLength = [6, 6.5, 7.5, 8, 8.5];
const upperArm = [5.5, 6, 6.5, 7, 7.5];
const armholeDepth = [3.25, 3.5, 3.75, 4, 4.25];

// Garter: 24 sts and 48 rows over 4 in, so 6 sts and 12 rows to the inch.
const [sts, rows] = [24 / 4, 48 / 4];

// Two inches of ease; the bands lie over each other and add one inch.
const body = each(chest, (inch) => (inch + 2 - 1) * sts); //             102 108 114 120 126
const back = [52, 54, 58, 60, 64];
const front = each(body, (count, size) => (count - at(back, size)) / 2);

const plus = (values: readonly number[], more: number): string =>
  written(values.map((value) => value + more));

describe('Little Squall Cardigan, by hand', () => {
  it('warns: it is a baby’s garment with buttons', () => {
    expect(bundle.wearer).toEqual({ age: 'baby', features: ['buttons'] });
    expect(bundle.body[0]?.size).toEqual({ in: inches(chest), cm: centimetres(chest) });
    expect(bundle.body[1]?.size).toEqual({ in: inches(armLength), cm: centimetres(armLength) });
    expect(front.every(Number.isInteger)).toBe(true);
  });

  const cuff = [31, 33, 35, 37, 39];
  const sleeve = [41, 43, 45, 49, 51];
  const pairs = each(sleeve, (count, size) => (count - at(cuff, size)) / 2);
  const every = [12, 14, 16, 14, 16];
  const sleeveRows = each(armLength, (inch) => inch * rows);
  const held = each(sleeve, (count) => count - 2 * 3);

  it('works the sleeves in the length of the arm', () => {
    // Row 1, the increases, and the rest.
    const rest = each(sleeveRows, (count, size) => count - 1 - at(every, size) * at(pairs, size));
    expect(linesOf(bundle, 'sleeve', 'sleeve')).toEqual([
      `Cast on ${written(cuff)} sts.`,
      'Next row (RS): Knit.',
      `Inc 1 st each end every ${written(every)} rows ${written(pairs)} times. ${written(sleeve)} sts.`,
      `Knit ${written(rest)} rows.`,
      `Bind off 3 sts at beg of next 2 rows. ${written(held)} sts.`,
      `Place rem ${written(held)} sts on holder for sleeve.`,
    ]);
    // All increases fall on right-side rows: an even number of rows after row 1.
    expect(every.every((count) => count % 2 === 0)).toBe(true);
    sleeve.forEach((count, size) => {
      expect(count / sts - at(upperArm, size)).toBeGreaterThanOrEqual(1);
      expect(count / sts - at(upperArm, size)).toBeLessThan(1.5);
    });
  });

  // To the underarm: half an inch more in each size, from 5½ in.
  const sideRows = [5.5, 6, 6.5, 7, 7.5].map((inch) => inch * rows);
  // Six stitches are bound off at each underarm, three of the front and three of the back.
  const frontLeft = each(front, (count) => count - 3);
  const backLeft = each(back, (count) => count - 6);
  const divided = each(frontLeft, (count, size) => 2 * count + at(backLeft, size));
  const joined = each(divided, (count, size) => count + 2 * at(held, size));

  // Yoke: eight stitches each time, every fourth row and then every second.
  const slow = [10, 11, 11, 12, 12];
  const fast = [4, 4, 5, 5, 6];
  const afterSlow = each(joined, (count, size) => count - 8 * at(slow, size));
  const neck = each(afterSlow, (count, size) => count - 8 * at(fast, size));
  const yokeRows = each(slow, (count, size) => 4 * count + 2 * at(fast, size));

  it('divides, joins and decreases the yoke', () => {
    const [f, b, s] = [written(frontLeft), written(backLeft), written(held)];
    expect(linesOf(bundle, 'body', 'body')).toEqual([
      `Cast on ${written(body)} sts.`,
      `Knit ${written(sideRows)} rows.`,
      `Dividing row (RS): k${f}, bind off 6 sts, k${b}, bind off 6 sts, k to end. ${written(divided)} sts.`,
    ]);
    const dec = '*k to 3 sts before m, k2tog, k1, sm, k1, ssk; rep from * 3 more times, k to end.';
    expect(linesOf(bundle, 'body', 'yoke')).toEqual([
      `Joining row (WS): k${f}, pm, return ${s} held sts of sleeve to needle, k${s}, pm, k${b}, pm, return ${s} held sts of sleeve to needle, k${s}, pm, k${f}. ${written(joined)} sts.`,
      `Dec row (RS): ${dec} ${plus(joined, -8)} sts.`,
      'Knit 3 rows.',
      `Rep last 4 rows ${plus(slow, -1)} more times. ${written(afterSlow)} sts.`,
      `Dec row (RS): ${dec} ${plus(afterSlow, -8)} sts.`,
      'Next row (WS): Knit.',
      `Rep last 2 rows ${plus(fast, -1)} more times. ${written(neck)} sts.`,
    ]);
    // What is left of each part at the neck: fronts, sleeves and back all keep stitches.
    neck.forEach((count, size) => {
      const times = at(slow, size) + at(fast, size);
      const parts = [
        at(frontLeft, size) - times,
        at(held, size) - 2 * times,
        at(backLeft, size) - 2 * times,
      ];
      expect(Math.min(...parts)).toBeGreaterThanOrEqual(7);
      expect(2 * (parts[0] ?? 0) + 2 * (parts[1] ?? 0) + (parts[2] ?? 0)).toBe(count);
      // About three quarters of an inch deeper than the armhole of the body table.
      const ease = at(yokeRows, size) / rows - at(armholeDepth, size);
      expect(ease).toBeGreaterThanOrEqual(0.7);
      expect(ease).toBeLessThanOrEqual(0.85);
    });
  });

  // Rows along a front: to the underarm, dividing row, joining row, yoke, six of the neckband.
  const frontRows = each(sideRows, (count, size) => count + 2 + at(yokeRows, size) + 6);
  // Garter: one stitch in each ridge, a ridge being two rows (common practice).
  const pick = each(frontRows, (count) => count / 2);
  const buttons = [5, 5, 5, 6, 6];
  const between = [11, 12, 13, 11, 12];
  const edge = [3, 4, 4, 4, 3];

  it('picks up the bands and spaces the buttonholes', () => {
    expect(pick).toEqual([61, 66, 70, 75, 79]);
    expect(linesOf(bundle, 'button-band', 'band')).toEqual([
      `Next row (RS): Pick up and k ${written(pick)} sts along left front edge.`,
      'Knit 11 rows.',
      'Bind off all sts.',
    ]);
    expect(linesOf(bundle, 'buttonhole-band', 'band')).toEqual([
      `Next row (RS): Pick up and k ${written(pick)} sts along right front edge.`,
      'Knit 5 rows.',
      `Buttonhole row (RS): k${written(edge)}, *yo, k2tog, k${written(between)}; rep from * ${plus(buttons, -2)} more times, yo, k2tog, k4.`,
      'Knit 5 rows.',
      'Bind off all sts.',
    ]);
    expect(1 + 5 + 1 + 5).toBe(12); // rows of a band: one inch
    pick.forEach((count, size) => {
      const holes = at(buttons, size);
      expect(at(edge, size) + 2 * holes + (holes - 1) * at(between, size) + 4).toBe(count);
    });
    expect(bundle.notions[0]).toMatchObject({ kind: 'buttons', count: written(buttons) });
  });

  it('measures what the counts give', () => {
    const through = (values: readonly number[]) => both(values.map((value) => value / rows));
    const across = (values: readonly number[]) => both(values.map((value) => value / sts));
    expect(sizeOf(bundle, 'around')).toEqual(across(body));
    expect(sizeOf(bundle, 'band')).toEqual(through([12]));
    expect(sizeOf(bundle, 'chest')).toEqual(both(body.map((count) => count / sts + 1)));
    expect(body.map((count, size) => count / sts + 1 - at(chest, size))).toEqual(
      chest.map(() => 2),
    );
    expect(sizeOf(bundle, 'length')).toEqual(through(frontRows));
    expect(sizeOf(bundle, 'side-length')).toEqual(through(sideRows));
    expect(sizeOf(bundle, 'yoke-depth')).toEqual(through(yokeRows));
    expect(sizeOf(bundle, 'neck')).toEqual(across(neck));
    expect(sizeOf(bundle, 'upper-arm')).toEqual(across(sleeve));
    expect(sizeOf(bundle, 'cuff')).toEqual(across(cuff));
    expect(sizeOf(bundle, 'sleeve-length')).toEqual(through(sleeveRows));
  });

  it('has yarn enough', () => {
    // A blocked garter swatch of cotton, 6 × 6 in, weighs 14 g; 10 % to spare. Sleeves and yoke are
    // taken as the mean of their first and last row; two bands of an inch, half an inch of neckband.
    const grams = each(body, (count, size) => {
      const area =
        (count * at(sideRows, size)) / (sts * rows) +
        ((at(cuff, size) + at(sleeve, size)) / sts) * at(armLength, size) +
        (((at(joined, size) + at(neck, size)) / 2) * at(yokeRows, size)) / (sts * rows) +
        (2 * at(pick, size)) / sts +
        (at(neck, size) / sts) * 0.5;
      return (area / 36) * 14 * 1.1;
    });
    const rounded = grams.map((weight) => Math.ceil(weight / 5) * 5);
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(written(rounded));
    expect(colour?.balls).toBe(written(rounded.map((weight) => Math.ceil(weight / 50))));
  });
});
