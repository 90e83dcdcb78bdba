/**
 * What real instructions contain, counted by hand: rows promised by other rows, repeats with endings,
 * held stitches, short rows, lines for some sizes, two shapings at once.
 */
import { describe, expect, it } from 'vitest';
import { countsOf, rowsOf, type SmallPattern, work } from './working.ts';

interface Example extends SmallPattern {
  readonly title: string;
  /** After every line, in the first size. */
  readonly counts: readonly number[];
  readonly rows?: readonly number[];
}

const EXAMPLES: readonly Example[] = [
  {
    title: 'row 2 and all WS rows are worked before a repeat begins again',
    lines: [
      'Cast on 20 sts.',
      'Row 1 (RS): Knit.',
      'Row 2 and all WS rows: Purl.',
      'Row 3: k1, k2tog, k to end.',
      'Row 5: k1, k2tog, k to end.',
      'Rep Rows 1–6 2 more times.',
    ],
    counts: [20, 20, 20, 19, 18, 14],
    // Row 4 before row 5; row 6 before the repeat, which is twelve rows.
    rows: [0, 1, 1, 1, 2, 13],
  },
  {
    title: 'rows 1 and 3, then rows 2 and 4',
    lines: ['Cast on 20 sts.', 'Rows 1 and 3: k2tog, k to end.', 'Rows 2 and 4: Purl.'],
    counts: [20, 19, 18],
    rows: [0, 1, 3],
  },
  {
    title: 'three more times is three more, three times in all is two more',
    lines: [
      'Cast on 40 sts.',
      'Row 1: k2tog, k to end.',
      'Row 2: Purl.',
      'Rep Rows 1 and 2 3 more times.',
      'Rep Rows 1 and 2 3 times in all.',
    ],
    counts: [40, 39, 39, 36, 34],
  },
  {
    title: 'the last repeat ends otherwise',
    lines: ['Cast on 23 sts.', 'Row 1: *k5, p2; rep from * to end, ending with k2.'],
    counts: [23, 23],
  },
  {
    title: 'a row as another but for one thing',
    lines: [
      'Cast on 30 sts.',
      'Row 1: k10, k2tog, k to end.',
      'Row 2: Purl.',
      'Row 3: As Row 1, but k9 instead of k10.',
    ],
    counts: [30, 29, 29, 28],
  },
  {
    title: 'a bind-off that counts its last stitch in the next, and one that does not',
    lines: [
      'Cast on 21 sts.',
      'Row 1: bind off 8 sts, 1 st on right needle, k10, k1 tbl, sl1. (13 sts)',
      'Row 2: bind off 3 sts, k10. (10 sts)',
    ],
    counts: [21, 13, 10],
  },
  {
    title: 'an underarm: stitches held, cast on, and taken up again',
    form: 'round',
    lines: [
      'Cast on 100 sts.',
      'Join to work in the round.',
      'Dividing rnd: k30, place next 20 sts on holder for right sleeve, cast on 6 sts, k30, place next 20 sts on holder for left sleeve, cast on 6 sts. (72 sts)',
      'Bind off all sts.',
      'Return 20 held sts of right sleeve to needle.',
      'Next rnd: k20, pick up and k 8 sts along underarm. (28 sts)',
    ],
    counts: [100, 100, 72, 0, 20, 28],
  },
  {
    title: 'short rows in a flat piece, wrapped or German, keep the count',
    lines: [
      'Cast on 30 sts.',
      'Row 1 (RS): k20, w&t.',
      'Row 2 (WS): p10, w&t.',
      'Row 3 (RS): k to 5 sts past gap, turn.',
      'Row 4 (WS): p to end.',
      'Row 5 (RS): Knit.',
    ],
    counts: [30, 30, 30, 30, 30, 30],
  },
  {
    title: 'a stretch in steps',
    form: 'round',
    lines: [
      'Cast on 60 sts.',
      'Join to work in the round.',
      'Dec rnd: k1, k2tog, k to last 3 sts, ssk, k1.',
      '[Knit 5 rnds, rep Dec rnd] 4 times. (50 sts)',
    ],
    counts: [60, 60, 58, 50],
    rows: [0, 0, 1, 24],
  },
  {
    title: 'until a count: whole cycles where the rows after it keep the count',
    form: 'round',
    lines: [
      'Cast on 96 sts.',
      'Join to work in the round.',
      'Rnd 1: *k2tog, k10; rep from * to end.',
      'Rnd 2: Knit.',
      'Rep Rnds 1 and 2, having 1 st less between decs, until 8 sts remain.',
    ],
    counts: [96, 96, 88, 88, 8],
    rows: [0, 0, 1, 1, 20],
  },
  {
    title: 'a shaping that begins when the armhole measures something',
    // 28 rows to 4 in: the neck begins after 14 rows (2 in) and takes 4 stitches over 8 rows; the
    // armhole takes 5 over 10 rows. 40 − 5 − 4.
    lines: [
      'Cast on 44 sts.',
      'Next row: bind off 4 sts, k to end.',
      'Dec 1 st at armhole edge every 2nd row 5 times, AT THE SAME TIME, when armhole measures 2 in, dec 1 st at neck edge every 2nd row 4 times.',
    ],
    counts: [44, 40, 31],
  },
  {
    title: 'increases at each side of each marker',
    form: 'round',
    lines: [
      'Cast on 40 sts.',
      'Place marker and join to work in the round.',
      'Set-up rnd: k10, pm, k10, pm, k10, pm, k to end.',
      'Inc 1 st each side of each marker every other rnd 3 times. (58 sts)',
    ],
    counts: [40, 40, 40, 58],
    rows: [0, 0, 1, 6],
  },
  {
    title: 'two needles’ worth grafted',
    lines: [
      'Cast on 16 sts.',
      'Row 1: Knit.',
      'Place next 8 sts on holder for instep.',
      'Graft instep and needle.',
    ],
    counts: [16, 16, 8, 0],
  },
  {
    title: 'what one size works, another leaves out',
    sizes: ['S', 'M', 'L'],
    lines: [
      'Cast on 40 (44, 48) sts.',
      'Bind off 0 (2, 3) sts at beg of next 2 rows.',
      'Sizes M and L only: Row 1: k2tog, k to last 2 sts, ssk. 38 (40) sts.',
      'Next row: k20 (–, 20), p to end.',
    ],
    counts: [40, 40, 40, 40],
    rows: [0, 0, 0, 1],
  },
];

describe('constructions', () => {
  it.each(EXAMPLES.map((each) => [each.title, each] as const))('%s', (_, each) => {
    const worked = work(each);
    expect(worked.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(countsOf(worked).map(([count]) => count)).toEqual(each.counts);
    if (each.rows) expect(rowsOf(worked)).toEqual(each.rows);
  });
});
