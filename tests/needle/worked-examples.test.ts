/**
 * Worked examples from outside the project: the counts stand in the handbooks named, or follow from the
 * geometry they name. Nothing here was computed by the program.
 */
import { describe, expect, it } from 'vitest';
import { countsOf, rowsOf, work } from './working.ts';

const last = (counts: readonly (readonly number[])[]): readonly number[] => counts.at(-1) ?? [];
const codes = ({ findings }: ReturnType<typeof work>) => findings.map(({ code }) => code);

describe('pi shawl (Elizabeth Zimmermann, Knitter’s Almanac, 1974)', () => {
  // Cast on 9; 1, 3, 6, 12, 24 and 48 plain rounds, each followed by a round of *yo, k1.
  const plain = [1, 3, 6, 12, 24, 48];
  const after = [18, 36, 72, 144, 288, 576];
  const increaseOnRound = [2, 6, 13, 26, 51, 100];

  it('doubles on the rounds the book gives', () => {
    const worked = work({
      form: 'round',
      lines: [
        'Cast on 9 sts.',
        'Join to work in the round.',
        ...plain.flatMap((rounds, at) => [
          `Knit ${rounds} rnds.`,
          `Next rnd: *yo, k1; rep from * to end. (${after[at]} sts)`,
        ]),
      ],
    });
    expect(codes(worked)).toEqual([]);
    const [piece] = worked.pieces;
    const doubling = piece?.lines.filter(({ line }) => line.text.includes('yo')) ?? [];
    expect(doubling.map(({ outcomes }) => outcomes[0]?.rowAfter)).toEqual(increaseOnRound);
    expect(doubling.map(({ outcomes }) => outcomes[0]?.after)).toEqual(after);
  });
});

describe('percentage yoke (Elizabeth Zimmermann, Knitting Without Tears, 1971; Knitting Around, 1989)', () => {
  it('268, 179, 120, 80 by thirds', () => {
    const worked = work({
      form: 'round',
      lines: [
        'Cast on 268 sts.',
        'Join to work in the round.',
        'Next rnd: *k1, k2tog; rep from * to last st, k1. (179 sts)',
        'Next rnd: *k1, k2tog; rep from * to last 2 sts, k2. (120 sts)',
        'Next rnd: *k1, k2tog; rep from * to end. (80 sts)',
      ],
    });
    expect(codes(worked)).toEqual([]);
    expect(countsOf(worked).map(([count]) => count)).toEqual([268, 268, 179, 120, 80]);
  });

  it('268, 201, 134, 80 by a quarter, a third and two fifths', () => {
    const worked = work({
      form: 'round',
      lines: [
        'Cast on 268 sts.',
        'Join to work in the round.',
        'Next rnd: *k2, k2tog; rep from * to end. (201 sts)',
        'Next rnd: *k1, k2tog; rep from * to end. (134 sts)',
        'Next rnd: *k1, k2tog, k2tog; rep from * to last 4 sts, [k2tog] twice. (80 sts)',
      ],
    });
    // 134 is 26 × 5 + 4: 26 × 3 + 2 stitches stay.
    expect(codes(worked)).toEqual([]);
  });
});

describe('heel turn (common practice: p n/2 + 2, p2tog, p1; sl1, k5, dec, k1; then to 1 before gap)', () => {
  const table = [
    [24, 14], [26, 16], [28, 16], [30, 18], [32, 18], [34, 20], [36, 20],
  ] as const; // prettier-ignore

  it.each(table)('%i stitches turn to %i', (heel, left) => {
    const first = heel / 2 + 2;
    const worked = work({
      firstSide: 'WS',
      lines: [
        `Cast on ${heel} sts.`,
        `Row 1 (WS): p${first}, p2tog, p1, turn.`,
        'Row 2 (RS): sl1, k5, ssk, k1, turn.',
        ...turnsFrom(heel),
      ],
    });
    expect(codes(worked)).toEqual([]);
    expect(last(countsOf(worked))).toEqual([left]);
  });

  /** Rows go on to the gap until all stitches are worked; where one is left alone, it is taken in. */
  function turnsFrom(heel: number): readonly string[] {
    const rows: string[] = [];
    // After rows 1 and 2 each side has heel/2 − 5 stitches unworked; each row takes up two of them.
    const left = [heel / 2 - 5, heel / 2 - 5];
    for (let row = 3; left.some((each) => each > 0); row += 1) {
      const side = row % 2 === 1 ? 0 : 1;
      const stitch = side === 0 ? 'p' : 'k';
      const decrease = side === 0 ? 'p2tog' : 'ssk';
      const both = (left[side] ?? 0) >= 2;
      rows.push(
        `Row ${row}: sl1, ${stitch} to 1 st before gap, ${decrease}${both ? `, ${stitch}1` : ''}, turn.`,
      );
      left[side] = Math.max(0, (left[side] ?? 0) - 2);
    }
    return rows;
  }
});

describe('crown from the top (common practice: 4 stitches, kfb twice, then 8 more every other round)', () => {
  it('24, 32, 40 … 96', () => {
    const stated = [24, 32, 40, 48, 56, 64, 72, 80, 88, 96];
    const worked = work({
      form: 'round',
      lines: [
        'Cast on 4 sts.',
        'Join to work in the round.',
        'Next rnd: *kfb; rep from * to end. (8 sts)',
        'Next rnd: *kfb; rep from * to end. (16 sts)',
        ...stated.flatMap((count, at) => [
          `Next rnd: *k${at + 1}, kfb; rep from * to end. (${count} sts)`,
          'Next rnd: Knit.',
        ]),
      ],
    });
    expect(codes(worked)).toEqual([]);
  });
});

describe('mitred square (from memory, common practice)', () => {
  it('n = 20: cast on 41, 40 rows, one stitch left', () => {
    const worked = work({
      lines: [
        'Cast on 41 sts.',
        'Row 1 (RS): k19, s2kp, k to end. (39 sts)',
        'Row 2 (WS): Knit.',
        'Rep Rows 1 and 2 19 more times, having 1 st less before and after decs. (1 st)',
      ].slice(0, 3),
    });
    expect(codes(worked)).toEqual([]);
    const rows = Array.from({ length: 20 }, (_, at) => [
      `Row ${2 * at + 1} (RS): k${19 - at}, s2kp, k to end. (${39 - 2 * at} sts)`,
      `Row ${2 * at + 2} (WS): Knit.`,
    ]).flat();
    const square = work({ lines: ['Cast on 41 sts.', ...rows] });
    expect(codes(square).filter((code) => code !== 'count/zero')).toEqual([]);
    expect(last(countsOf(square))).toEqual([1]);
    expect(rowsOf(square).reduce((sum, each) => sum + each, 0)).toBe(40);
  });
});

describe('raglan (Barbara G. Walker, Knitting from the Top, 1972, from memory): 8 a round', () => {
  it('four lines of two', () => {
    const worked = work({
      sizes: ['S', 'M', 'L'],
      form: 'round',
      lines: [
        'Cast on 80 (88, 96) sts.',
        'Place marker and join to work in the round.',
        'Set-up rnd: k10, pm, k30 (34, 38), pm, k10, pm, k to end.',
        'Inc rnd: *k1, m1L, k to 1 st before m, m1R, k1, sm; rep from * to end. (88, 96, 104 sts)'.replace(
          '(88, 96, 104 sts)',
          '88 (96, 104) sts.',
        ),
        'Next rnd: Knit.',
        'Rep last 2 rnds 19 (21, 23) more times. 240 (264, 288) sts.',
      ],
    });
    expect(codes(worked)).toEqual([]);
    expect(last(countsOf(worked))).toEqual([240, 264, 288]);
  });
});

describe('shaping over rows (common practice)', () => {
  const sleeve = (text: string) => work({ lines: ['Cast on 50 sts.', 'Row 1 (RS): Knit.', text] });

  it.each([
    // 14 decreases in 90 rows: every 6th row 11 times, then every 8th row 3 times (66 + 24 = 90).
    ['Dec 1 st each end every 6th row 11 times, then every 8th row 3 times.', 22, 90],
    // Counting starts after the row just worked …
    ['Dec 1 st each end every 4th row 5 times.', 40, 20],
    // … unless the next row is said to be the first: then it is one more.
    ['Dec 1 st each end on next row, then every 4th row 5 times.', 38, 21],
    ['Inc 1 st each end every other row 4 times.', 58, 8],
    ['Dec 1 st at beg of each row, 27 times.', 23, 27],
    ['Bind off 4 sts at beg of next 2 rows.', 42, 2],
  ] as const)('%s', (text, count, rows) => {
    const worked = sleeve(text);
    expect(codes(worked)).toEqual([]);
    expect(last(countsOf(worked))).toEqual([count]);
    expect(rowsOf(worked).at(-1)).toBe(rows);
  });
});

describe('at the same time', () => {
  it('armhole and neck, row by row', () => {
    // By hand: the armhole takes one stitch on every 2nd row five times (rows 2, 4, 6, 8, 10), the neck
    // one on every 4th row four times (rows 4, 8, 12, 16): 40 − 5 − 4 = 31 after 16 rows.
    const worked = work({
      lines: [
        'Cast on 40 sts.',
        'Row 1 (RS): Knit.',
        'Dec 1 st at armhole edge every 2nd row 5 times, AT THE SAME TIME, dec 1 st at neck edge every 4th row 4 times.',
      ],
    });
    expect(codes(worked)).toEqual([]);
    expect(last(countsOf(worked))).toEqual([31]);
    expect(rowsOf(worked).at(-1)).toBe(16);
    const fabric = worked.pieces[0]?.fabric[0]?.slice(1).map(({ stitches }) => stitches);
    expect(fabric).toEqual([40, 39, 39, 37, 37, 36, 36, 34, 34, 33, 33, 32, 32, 32, 32, 31]);
  });
});

describe('rows and lengths', () => {
  it('works a length through the row gauge, to the side that is asked for', () => {
    // 28 rows to 4 in: 2 in is 14 rows; 15 rows would end with a right-side row.
    const worked = work({
      lines: [
        'Cast on 40 sts.',
        'Row 1 (RS): Knit.',
        'Work in stockinette until piece measures 2 in from cast-on edge, ending with a WS row.',
      ],
    });
    expect(rowsOf(worked)).toEqual([0, 1, 13]);
    expect(worked.pieces[0]?.lines[2]?.outcomes[0]?.lengthInches).toBeCloseTo(2 - 1 / 7, 10);
  });

  it('does not add roundings up from one length to the next', () => {
    const lines = Array.from(
      { length: 9 },
      (_, at) => `Work in stockinette until piece measures ${at + 1} in from cast-on edge.`,
    );
    const worked = work({ lines: ['Cast on 40 sts.', ...lines], gaugeRows: 30 });
    // 30 rows to 4 in are 67.5 rows in 9 in.
    expect(rowsOf(worked).reduce((sum, each) => sum + each, 0)).toBe(68);
  });

  it('counts a billion repeats as a slip, not as work', () => {
    const worked = work({
      lines: ['Cast on 40 sts.', 'Row 1: Knit.', 'Rep Row 1 99999 more times.', 'Row 2: [k1] 99999 times.'],
    }); // prettier-ignore
    expect(codes(worked)).toEqual(['count/limit', 'count/too-few']);
  });
});
