/**
 * Small documents with the findings they must raise, in the trade's own words. Every code that the
 * needle and the checks know stands here at least once; a test watches that none is left out.
 */
import type { Bundle } from '../../src/pattern/pattern.ts';
import type { SmallPattern } from '../needle/working.ts';

export interface TestDocument extends SmallPattern {
  readonly title: string;
  /** Codes with the headlines, in the order of printing. */
  readonly findings: readonly (readonly [string, string])[];
}

type Data = Partial<Bundle['data']>;

const SIZES = ['S', 'M', 'L', 'XL'];

const chart = (
  rows: readonly string[],
  key: Record<string, { stitch: string; colour?: string }>,
  more: Partial<Bundle['data']['charts'][number]> = {},
): Data => ({
  charts: [
    { id: 'chart-a', name: 'Chart A', form: 'round', firstSide: 'RS', key, rows: [...rows], ...more },
  ],
}); // prettier-ignore

const KP = { '.': { stitch: 'k' }, '-': { stitch: 'p' } };

const measured = (
  from: Bundle['data']['measurements'][number]['from'],
  size: Bundle['data']['measurements'][number]['size'],
  more: Partial<Bundle['data']['measurements'][number]> = {},
): Data => ({ measurements: [{ id: 'width', name: 'width', letter: 'A', size, from, ...more }] });

const pattern = (more: Partial<Bundle['data']['stitchPatterns'][number]>): Data => ({
  stitchPatterns: [
    { id: 'rib', name: 'rib', multiple: 4, plus: 0, form: 'flat', lines: [], ...more },
  ],
});

const yarn = (more: Partial<Bundle['data']['yarns'][number]>): Data => ({
  yarns: [
    {
      id: 'main', name: 'Ebbtide', weight: 3, fibres: [{ fibre: 'wool', percent: 100 }],
      ball: { grams: 50, metres: 115, yards: 126 }, colours: [], ...more,
    },
  ],
}); // prettier-ignore

const colour = { id: 'slate', name: 'Slate', swatch: '#4f6478', role: 'main' as const };

const twoPieces = (join: Partial<Bundle['data']['joins'][number]>): Data => {
  const piece = (id: string, count: number, rows: number): Bundle['data']['pieces'][number] => ({
    id,
    title: id,
    form: 'flat',
    firstSide: 'RS',
    gauge: 'body',
    make: 1,
    sections: [
      {
        id: 'all',
        lines: [
          { id: 'edge', text: `Cast on ${count} sts.` },
          { id: 'side', text: `Work in stockinette for ${rows} rows.` },
          'Bind off all sts.',
        ],
      },
    ],
  });
  return {
    pieces: [piece('back', 40, 60), piece('front', 42, 64), piece('band', 30, 4)],
    joins: [{ kind: 'equal', parts: ['back/edge'], to: ['front/edge'], ...join }],
  };
};

export const DOCUMENTS: readonly TestDocument[] = [
  {
    title: 'a hat brim that comes out',
    form: 'round',
    sizes: SIZES,
    lines: [
      'Cast on 80 (88, 96, 104) sts.',
      'Join to work in the round.',
      'Rnd 1: *k2, p2; rep from * to end.',
      'Rep Rnd 1 until piece measures 2 in / 5 cm from cast-on edge.',
      'Dec rnd: *k6, k2tog; rep from * to end. 70 (77, 84, 91) sts.',
    ],
    findings: [],
  },
  {
    title: 'a line that cannot be read accuses no other',
    form: 'round',
    lines: [
      'Cast on 80 sts.',
      'Join to work in the round.',
      'Dec rnd: *k6, k2tgo; rep from * to end.',
      'Next rnd: *k5, k2tog; rep from * to end.',
      'Next rnd: Knit. (60 sts)',
      'Next rnd: *k4, k2tog; rep from * to end. (50 sts)',
      'Plaec next 10 sts on holder for thumb.',
      'Return 10 held sts of thumb to needle.',
    ],
    findings: [
      ['notation/unknown-word', '“k2tgo” is not a known stitch or term'],
      ['notation/unknown-word', '“Plaec” is not a known stitch or term'],
    ],
  },
  {
    title: 'a count that is not the one stated',
    form: 'round',
    sizes: SIZES,
    lines: [
      'Cast on 80 (88, 96, 104) sts.',
      'Dec rnd: *k6, k2tog; rep from * to end. 70 (77, 85, 91) sts.',
      'Next rnd: *k5, k2tog; rep from * to end. 60 (66, 72, 78) sts.',
    ],
    findings: [
      ['count/stated', 'size L ends the decrease round with 84 sts; the pattern states 85'],
    ],
  },
  {
    title: 'a change that is not the one stated',
    lines: ['Cast on 20 sts.', 'Row 1: k2tog, k to last 2 sts, k2tog. (3 sts decreased)'],
    findings: [
      ['count/stated-change', 'it goes from 20 to 18 sts in row 1; the pattern states 3 decreased'],
    ],
  },
  {
    title: 'a row that asks for too much',
    lines: ['Cast on 20 sts.', 'Row 1: k15, k2tog, k8.'],
    findings: [['count/too-few', 'it runs out of stitches in row 1: “k8” needs 8, 3 left']],
  },
  {
    title: 'a row that leaves stitches',
    lines: ['Cast on 20 sts.', 'Row 1: k15, k2tog, k2.'],
    findings: [['count/left-over', 'it has 1 st left over at the end of row 1']],
  },
  {
    title: 'a repeat that does not divide',
    sizes: SIZES,
    lines: ['Cast on 80 (87, 96, 103) sts.', 'Row 1: *k6, k2tog; rep from * to end.'],
    findings: [
      [
        'count/repeat',
        'the repeat of 8 sts does not divide in row 1: sizes M and XL have 7 sts left over',
      ],
    ],
  },
  {
    title: 'a repeat that never ends',
    lines: ['Cast on 20 sts.', 'Row 1: *yo; rep from * to end.'],
    findings: [['count/endless', 'the repeat in row 1 takes no stitches and never ends']],
  },
  {
    title: 'a goal that lies behind',
    lines: ['Cast on 20 sts.', 'Row 1: k18, p to last 4 sts, k4.'],
    findings: [['count/goal', 'it has 2 sts left in row 1 where 4 are to stay']],
  },
  {
    title: 'a marker nobody placed',
    lines: ['Cast on 20 sts.', 'Row 1: k to m, sm, k to end.'],
    findings: [['count/no-marker', 'a marker is needed in row 1, and none lies ahead']],
  },
  {
    title: 'a marker that is not there yet',
    lines: ['Cast on 20 sts.', 'Row 1: k5, pm, k to end.', 'Row 2: p10, sm, p to end.'],
    findings: [
      ['count/marker-away', 'it is 5 sts before a marker where it should come next in row 2'],
    ],
  },
  {
    title: 'a turn that leaves another number',
    lines: ['Cast on 20 sts.', 'Row 1: k12, turn leaving 9 sts unworked.'],
    findings: [['count/turn', 'it leaves 8 sts unworked in row 1; the pattern states 9']],
  },
  {
    title: 'more decreases than the row has room for',
    lines: ['Cast on 20 sts.', 'Row 1: Dec 12 sts evenly across row.'],
    findings: [['count/evenly', 'it has 20 sts in row 1, too few to decrease 12']],
  },
  {
    title: 'a holder with nothing on it',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.', 'Return 10 held sts of left front to needle.'],
    findings: [
      [
        'count/no-holder',
        'no stitches are on hold as “left front” for the stitches taken up again',
      ],
    ],
  },
  {
    title: 'a holder with another number on it',
    lines: [
      'Cast on 20 sts.',
      'Row 1: k10, place next 10 sts on holder for left front. 10 sts.',
      'Bind off all sts.',
      'Return 11 held sts of left front to needle.',
    ],
    findings: [
      [
        'count/held',
        'it has 10 sts on hold as “left front”; 11 are taken up in the stitches taken up again',
      ],
    ],
  },
  {
    title: 'shoulders that are not equal',
    lines: [
      'Cast on 20 sts.',
      'Row 1: Knit.',
      'Place next 9 sts on holder for front shoulder.',
      'Place rem 11 sts on holder for back shoulder.',
      'Join front shoulder and back shoulder with three-needle bind-off.',
    ],
    findings: [['count/join', 'it joins 9 sts (front shoulder) to 11 (back shoulder) in the join']],
  },
  {
    title: 'a label on the wrong side',
    lines: ['Cast on 20 sts.', 'Row 1 (RS): Knit.', 'Row 2 (RS): Purl.'],
    findings: [
      ['count/side', 'the wrong side faces at row 2, which the label calls the right side'],
    ],
  },
  {
    title: 'a stretch that ends on the other side',
    lines: ['Cast on 20 sts.', 'Work in stockinette for 7 rows, ending with a WS row.'],
    findings: [
      [
        'count/ending',
        'the right side is worked last in the rows worked even; the pattern states the wrong side',
      ],
    ],
  },
  {
    title: 'a count that is stepped over',
    form: 'round',
    lines: [
      'Cast on 42 sts.',
      'Rnd 1: *k5, k2tog; rep from * to end. (36 sts)',
      'Rep Rnd 1 until 10 sts remain.',
    ],
    findings: [
      // 36 does not divide by 7; the row that is repeated cannot be worked again.
      ['count/repeat', 'the repeat of 7 sts does not divide in the repeated rows: it has 1 st left over'],
    ],
  }, // prettier-ignore
  {
    title: 'a count that is never reached',
    lines: [
      'Cast on 21 sts.',
      'Row 1: k1, k2tog, k to last 3 sts, ssk, k1. (19 sts)',
      'Rep Row 1 until 10 sts remain.',
    ],
    findings: [['count/never', 'it never comes to 10 sts in the repeated rows; the nearest is 11']],
  },
  {
    title: 'a number nobody could mean',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.', 'Rep Row 1 30000 more times.'],
    findings: [['count/limit', 'more than 20000 rows are asked for in the repeated rows']],
  },
  {
    title: 'a length that lies behind',
    lines: [
      'Cast on 20 sts.',
      'Work in stockinette until piece measures 4 in from cast-on edge.',
      'Work in garter until piece measures 3 in from cast-on edge.',
    ],
    findings: [
      [
        'count/longer',
        'it already measures 4 in before the rows worked even, where work is to go on until 3',
      ],
    ],
  },
  {
    title: 'shaping that does not fit its length',
    lines: [
      'Cast on 40 sts.',
      'Work in stockinette for 20 rows, AT THE SAME TIME, dec 1 st each end every 4th row 6 times.',
    ],
    findings: [
      ['count/shaping-rows', 'it needs 24 rows for the shaping in the rows worked even; there are 20'],
    ],
  }, // prettier-ignore
  {
    title: 'a label with too few rows',
    lines: ['Cast on 40 sts.', 'Rows 1–4: Dec 1 st each end every other row 3 times.'],
    findings: [['count/label-rows', 'it works 6 rows in rows 1–4, whose label names 4']],
  },
  {
    title: 'a stitch pattern on the wrong count',
    sizes: SIZES,
    lines: ['Cast on 80 (86, 96, 104) sts.', 'Work in rib for 8 rows.'],
    data: pattern({ lines: ['Row 1: *k2, p2; rep from * to end.'] }),
    findings: [
      [
        'count/multiple',
        'size M comes to the rows worked even with 86 sts; rib needs a multiple of 4',
      ],
    ],
  },
  {
    title: 'a row repeated before it is written',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.', 'Rep Rows 1–3 5 more times.'],
    findings: [
      [
        'count/no-such-row',
        '“Rep Rows 1–3 5 more times” names rows that are not written before it',
      ],
    ],
  },
  {
    title: 'a chart row above the chart',
    form: 'round',
    lines: ['Cast on 20 sts.', 'Rnd 1: Work row 3 of Chart A.'],
    data: chart(['.-.-', '-.-.'], KP),
    findings: [
      ['count/chart-row', 'row 3 of Chart A is asked for in round 1; the chart has 2 rows'],
    ],
  },
  {
    title: 'no end in sight',
    lines: ['Cast on 20 sts.', 'Work even in stockinette.'],
    findings: [
      ['count/open-ended', 'no number of rows and no length is given for the rows worked even'],
    ],
  },
  {
    title: 'a row left out',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.', 'Row 2: Purl.', 'Row 4: Purl.'],
    findings: [['count/row-missing', 'row 3 is not written before row 4']],
  },
  {
    title: 'a row numbered twice',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.', 'Row 2: Purl.', 'Row 2: Purl.'],
    findings: [
      ['count/row-order', 'a number from 3 on is expected at row 2, not 2'],
    ],
  }, // prettier-ignore
  {
    title: 'a chart out of step',
    form: 'round',
    lines: [
      'Cast on 20 sts.',
      'Rnds 1–4: Work Chart A.',
      'Rep Rnds 1–4 3 more times.',
    ],
    data: chart(['.-.-', '-.-.', '....', '----'], KP, {
      repeat: { fromStitch: 1, toStitch: 4, fromRow: 2, toRow: 4 },
    }),
    findings: [['count/chart-step', 'row 2 of Chart A is worked as row 1 in the repeated rows']],
  }, // prettier-ignore
  {
    title: 'a stitch worked no times',
    lines: ['Cast on 20 sts.', 'Row 1: k20, p0.'],
    findings: [['count/zero', '“p0” in row 1 works nothing in any size']],
  },
  {
    title: 'decreases that are not mirrored',
    lines: ['Cast on 20 sts.', 'Row 1: k2, ssk, k to last 3 sts, k2tog, k1.'],
    findings: [
      ['count/asymmetric', 'in row 1 ssk stands 2 from its edge and k2tog 1'],
    ],
  }, // prettier-ignore
  {
    title: 'one size unlike the others',
    sizes: SIZES,
    lines: [
      'Cast on 49 (55, 61, 67) sts.',
      'Row 1: k16 (19, 23, 25), place next 17 sts on holder for neck, k to end. 32 (38, 44, 50) sts.',
    ],
    findings: [
      [
        'count/odd-size',
        'in row 1 “k16 (19, 23, 25)” and “k to end” are alike in the other sizes, but 23 and 21 in size L',
      ],
    ],
  },
  {
    title: 'a stitch pattern that needs less than it says',
    lines: ['Cast on 20 sts.', 'Work in rib for 8 rows.'],
    data: pattern({ lines: ['Row 1: *k1, p1; rep from * to end.'] }),
    findings: [
      [
        'count/pattern-smaller',
        'rib states a multiple of 4; its rows work on a multiple of 2',
      ],
    ],
  }, // prettier-ignore
  {
    title: 'a stitch pattern that does not keep its multiple',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: pattern({ lines: ['Row 1: *k2, p2; rep from * to end.', 'Row 2: *k3, p2; rep from * to end.'] }),
    findings: [
      ['count/pattern', 'row 2 of rib does not come out over 8 sts, a multiple of 4'],
    ],
  }, // prettier-ignore
  {
    title: 'a stitch pattern that grows',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: pattern({ lines: ['Row 1: *k4, yo; rep from * to end.'] }),
    findings: [
      [
        'count/pattern-returns',
        'the rows of rib begin with 8 sts and end with 10, so that they cannot be repeated',
      ],
    ],
  },
  {
    title: 'a ragged chart',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['....', '.-.', '-.-.'], KP),
    findings: [
      ['chart/ragged', 'row 2 of Chart A is 3 cells wide; the others are 4'],
      ['chart/row-count', 'row 2 of Chart A takes 3 sts in all; row 1 leaves 4'],
      ['chart/row-count', 'row 3 of Chart A takes 4 sts in all; row 2 leaves 3'],
    ],
  },
  {
    title: 'a cell without a key',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['..x.', '-.-.'], KP),
    findings: [
      ['chart/no-key', '“x” in row 2 of Chart A, cell 2 from the right, is not in the key'],
      ['chart/row-count', 'row 2 of Chart A takes 3 sts in all; row 1 leaves 4'],
    ],
  },
  {
    title: 'a key without a cell',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['....'], KP),
    findings: [['chart/unused-key', 'the key of Chart A has “-”, which stands in no cell']],
  },
  {
    title: 'a key with an unknown stitch',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['..=='], { '.': { stitch: 'k' }, '=': { stitch: 'k2tgo' } }),
    findings: [
      [
        'chart/unknown-stitch',
        'the key of Chart A explains “=” as “k2tgo”, which is not a known stitch',
      ],
    ],
  },
  {
    title: 'a cable too wide',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['.CCCCC.', '.......'], { '.': { stitch: 'k' }, C: { stitch: '2/2 LC' } }),
    findings: [
      ['chart/cable-width', '2/2 LC in row 2 of Chart A covers 5 cells; it crosses 4 stitches'],
      ['chart/row-count', 'row 2 of Chart A takes 6 sts in all; row 1 leaves 7'],
    ],
  },
  {
    title: 'a box beyond the chart',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['.-.-'], KP, { repeat: { fromStitch: 1, toStitch: 6 } }),
    findings: [['chart/box', 'the repeat of Chart A ends at stitch 6; the chart is 4 cells wide']],
  },
  {
    title: 'a lace chart that loses a stitch',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['....', '/...'], { '.': { stitch: 'k' }, '/': { stitch: 'k2tog' } }),
    findings: [
      // Row 1 takes five and leaves four, which row 2 takes: the chart is right.
    ],
  },
  {
    title: 'a lace chart that loses a stitch and does not say so',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['o/..', './..'], {
      '.': { stitch: 'k' },
      '/': { stitch: 'k2tog' },
      o: { stitch: 'yo' },
    }),
    findings: [],
  },
  {
    title: 'a chart row that takes more than there is',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['./../', './../'], { '.': { stitch: 'k' }, '/': { stitch: 'k2tog' } }),
    findings: [['chart/row-count', 'row 2 of Chart A takes 7 sts in all; row 1 leaves 5']],
  },
  {
    title: 'a box that does not return',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['.o..', '....'], { '.': { stitch: 'k' }, o: { stitch: 'm1' } }, {
      repeat: { fromStitch: 1, toStitch: 4, fromRow: 1, toRow: 2 },
    }),
    findings: [
      ['chart/row-count', 'row 2 of Chart A takes 3 sts in the box; row 1 leaves 4'],
    ],
  }, // prettier-ignore
  {
    title: 'a box that grows',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(['....o', '....x'], { '.': { stitch: 'k' }, o: { stitch: 'm1' }, x: { stitch: 'none' } }, {
      repeat: { fromStitch: 1, toStitch: 5, fromRow: 1, toRow: 2 },
    }),
    findings: [
      ['chart/returns', 'the box of Chart A ends with 5 sts in the box and begins again with 4'],
    ],
  }, // prettier-ignore
  {
    title: 'a cable on the wrong side',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: chart(
      ['CCCC', '....'],
      { '.': { stitch: 'k' }, C: { stitch: '2/2 LC' } },
      { form: 'flat' },
    ),
    findings: [
      [
        'chart/other-side',
        'row 2 of Chart A is a wrong-side row with 2/2 LC, which is known on the right side only',
      ],
    ],
  },
  {
    title: 'a long float',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: {
      ...chart(['.......-', '.-.-.-.-'], {
        '.': { stitch: 'k', colour: 'slate' },
        '-': { stitch: 'k', colour: 'sand' },
      }),
      ...yarn({ colours: [colour, { ...colour, id: 'sand', name: 'Sand' }] }),
    },
    findings: [
      [
        'chart/float',
        'row 2 of Chart A works 7 sts in slate without a change: the other yarn floats behind them',
      ],
    ],
  },
  {
    title: 'a chart that shows another multiple',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: { ...chart(['.-.-.'], KP), ...pattern({ chart: 'chart-a', form: 'round' }) },
    findings: [['chart/multiple', 'rib states a multiple of 4 + 0; Chart A shows 5 + 0']],
  },
  {
    title: 'a chart that says something else than its rows',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: {
      ...chart(['--..', '--..'], KP),
      ...pattern({
        chart: 'chart-a',
        form: 'round',
        lines: ['Rnd 1: *k2, p2; rep from * to end.', 'Rnd 2: *k1, p3; rep from * to end.'],
      }),
    },
    findings: [
      [
        'chart/differs',
        'row 2, stitch 2: Chart A shows k, the written row of rib works p',
      ],
    ],
  }, // prettier-ignore
  {
    title: 'a chart with more rows than are written',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: {
      ...chart(['--..', '--..'], KP),
      ...pattern({
        chart: 'chart-a',
        form: 'round',
        lines: ['Rnd 1: *k2, p2; rep from * to end.'],
      }),
    },
    findings: [['chart/rows-differ', 'Chart A has 2 rows; rib writes 1']],
  },
  {
    title: 'a measurement that does not follow',
    sizes: SIZES,
    lines: ['#hem Cast on 80 (90, 100, 110) sts.', 'Row 1: Knit.'],
    data: measured(
      { width: 'piece/hem' },
      { in: '16 (18, 20½, 22)', cm: '40.5 (45.5, 51, 56)' },
    ),
    findings: [
      [
        'measure/does-not-follow',
        'measurement A (width) for size L: the stitches at piece/hem give 20 in; the pattern states 20½',
      ],
    ],
  }, // prettier-ignore
  {
    title: 'centimetres taken from rounded inches',
    // 83 sts at 20 sts to 4 in are 16.6 in, which is 16½ in print, and 42.16 cm, which is 42.
    lines: ['#hem Cast on 83 sts.', 'Row 1: Knit.'],
    data: measured({ width: 'piece/hem' }, { in: 16.5, cm: 41.5 }),
    findings: [
      [
        'measure/does-not-follow',
        'measurement A (width): the stitches at piece/hem give 42.16 cm; the pattern states 41.5',
      ],
    ],
  },
  {
    title: 'a length whose two units differ',
    lines: ['Cast on 20 sts.', 'Work in stockinette until piece measures 4 in / 12 cm from cast-on edge.'],
    findings: [['measure/units-differ', 'the length: 4 in is 10.16 cm, not 12']],
  }, // prettier-ignore
  {
    title: 'ease that is not there',
    lines: ['#hem Cast on 80 sts.', 'Row 1: Knit.'],
    data: {
      ...measured(
        { width: 'piece/hem' },
        { in: 16 },
        { ease: { over: 'head', size: { in: -3 } } },
      ),
      body: [{ part: 'head', size: { in: 18 } }],
    },
    findings: [
      [
        'measure/ease',
        'ease of measurement A (width): the garment is -2 in larger than the body; the pattern states -3',
      ],
    ],
  }, // prettier-ignore
  {
    title: 'a measurement that falls',
    sizes: SIZES,
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: measured({ given: true }, { in: '16 (18, 17½, 20)' }),
    findings: [['measure/falls', 'measurement A (width) falls to 17½ in at size L']],
  },
  {
    title: 'a measurement that jumps',
    sizes: SIZES,
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: measured({ given: true }, { in: '16 (17, 20, 21)' }),
    findings: [['measure/jumps', 'measurement A (width) grows by 3 in to size L, and by 1 beside it']],
  }, // prettier-ignore
  {
    title: 'fibres that do not add up',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: yarn({ fibres: [{ fibre: 'wool', percent: 70 }, { fibre: 'linen', percent: 20 }] }),
    findings: [['measure/fibres', 'the fibres of Ebbtide add up to 90 %']],
  }, // prettier-ignore
  {
    title: 'yards that are not the metres',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: yarn({ ball: { grams: 50, metres: 115, yards: 105 } }),
    findings: [
      ['measure/yardage', 'a ball of Ebbtide has 115 m, which is 126 yd; the bundle states 105'],
    ],
  },
  {
    title: 'balls that are not enough',
    sizes: SIZES,
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: yarn({ colours: [{ ...colour, grams: '95 (100, 105, 150)', balls: '2 (2, 2, 3)' }] }),
    findings: [['measure/balls', 'Slate for size L: the grams need another number of balls']],
  },
  {
    title: 'a list one short',
    sizes: SIZES,
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: measured({ given: true }, { in: '16 (18, 20)' }),
    findings: [['measure/size-list', 'the list has 3 numbers for 4 sizes']],
  },
  {
    title: 'a text for a number',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: measured({ given: true }, { in: 'sixteen' }),
    findings: [['measure/unreadable', '“sixteen” is not a number or a list of numbers']],
  },
  {
    title: 'edges that are joined and not equal',
    lines: [],
    data: twoPieces({}),
    findings: [
      [
        'join/unequal',
        'back/edge comes to 40 sts and front/edge to 42 in it; they are joined one to one',
      ],
    ],
  },
  {
    title: 'parts that do not add up',
    lines: [],
    data: twoPieces({ kind: 'sum', parts: ['back/edge', 'front/edge'], to: ['band/edge'] }),
    findings: [
      [
        'join/sum',
        'back/edge and front/edge come to 82 sts and band/edge to 30 in it; the parts should add up',
      ],
    ],
  },
  {
    title: 'sides that are eased in',
    lines: [],
    data: twoPieces({ kind: 'seam', parts: ['back/side'], to: ['front/side'] }),
    findings: [
      [
        'join/eased',
        'back/side comes to 60 rows and front/side to 64 in it; the longer edge has to be eased in',
      ],
    ],
  },
  {
    title: 'sides that cannot be sewn',
    lines: [],
    data: twoPieces({ kind: 'seam', parts: ['back/side'], to: ['band/side'] }),
    findings: [
      [
        'join/seam',
        'back/side comes to 60 rows and band/side to 4 in it; the edges are sewn together',
      ],
    ],
  },
  {
    title: 'stitches picked up at another rate',
    // 60 rows at 20 sts and 28 rows are 42.9 stitches; the band has 30.
    lines: [],
    data: twoPieces({ kind: 'pickUp', parts: ['band/edge'], to: ['back/side'] }),
    findings: [
      [
        'join/pick-up',
        'band/edge comes to 30 sts and back/side to 42.9 in it; through the gauge they would lie flat',
      ],
    ],
  },
  {
    title: 'a gauge that is not there',
    lines: ['#hem Cast on 20 sts.', 'Row 1: Knit.'],
    data: measured({ width: 'piece/hem', gauge: 'bdoy' }, { in: 4 }),
    findings: [['reference/unknown', 'there is no gauge “bdoy” in the bundle']],
  },
  {
    title: 'two lines with one name',
    lines: ['#hem Cast on 20 sts.', '#hem Row 1: Knit.'],
    findings: [['reference/twice', 'two lines have the name “hem”']],
  },
  {
    title: 'a depth between two pieces',
    lines: [],
    data: {
      ...twoPieces({ kind: 'equal', parts: ['back/edge'], to: [] }),
      ...measured({ depth: ['back/edge', 'front/side'] }, { in: 4 }),
    },
    findings: [
      [
        'reference/two-pieces',
        'back/edge and front/side are not in one piece, so no rows lie between them',
      ],
    ],
  },
  {
    title: 'an acceptance that has outlived its reason',
    lines: ['Cast on 20 sts.', 'Row 1: Knit.'],
    data: { accepted: [{ code: 'count/open-ended', where: '/pieces/0', reason: 'as in the sample' }] },
    findings: [
      [
        'reference/unused-acceptance',
        'no warning count/open-ended is found at /pieces/0',
      ],
    ],
  }, // prettier-ignore
];
