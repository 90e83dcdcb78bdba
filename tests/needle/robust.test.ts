/** Whatever text comes in: findings, never an exception, never a count that is no count, never long. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printFindingsJson } from '../../src/findings/json.ts';
import { printFindings } from '../../src/findings/text.ts';
import { countText } from '../../src/pattern/checks/count-text.ts';
import { CASES } from './cases.ts';

const LINES = CASES.flatMap(({ patternText }) => patternText?.split('\n') ?? []);

/** Forms the old books do not have. */
const MODERN = [
  'Cast on 80 (90, 100) sts.',
  'Place marker and join to work in the round.',
  'Row 2 and all WS rows: Purl.',
  'Rows 1 and 3: Knit.',
  'Dec row: k1, k2tog, k to last 3 sts, ssk, k1.',
  'Rnd 1: *k1, m1L, k to 1 st before m, m1R, k1, sm; rep from * to end.',
  'Rep last 2 rows until 10 sts remain.',
  'Rep Rows 1–4 until 4 sts remain.',
  'Rep Rnd 1, having 1 st less between decs, until 8 sts remain.',
  'Rep Dec row every 4th row 6 times.',
  '[Knit 3 rows, rep Dec row] 4 times.',
  'Dec 1 st each end every 4th row 5 times, AT THE SAME TIME, when armhole measures 2 in, dec 1 st at neck edge every 2nd row 8 times.',
  'AT THE SAME TIME, inc 1 st each end every 6th row 3 times.',
  'Work in stockinette until piece measures 14 in / 35.5 cm from cast-on edge, ending with a WS row.',
  'Place next 10 sts on holder for left front.',
  'Return 10 held sts of left front to needle.',
  'Short row 1: k10, w&t.',
  'Row 5: k to 1 st before gap, k2tog, k1, turn.',
  'Row 1: [[yo] 9999 times] 9999 times.',
  'Row 1: [pm] 9999 times.',
  'Break yarn, draw through rem sts and fasten off.',
];

const line = fc.oneof(fc.constantFrom(...LINES), fc.constantFrom(...MODERN));
const slip = fc.record({
  at: fc.nat(400),
  out: fc.integer({ min: 0, max: 3 }),
  put: fc.constantFrom('', '9', '0', '(', ')', '*', ',', '99999', ' to end', '–', '½'),
});

describe('any text', () => {
  it('is counted or refused, in no time', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 12 }), fc.option(slip), (lines, wrong) => {
        const whole = lines.join('\n');
        const text = wrong
          ? whole.slice(0, wrong.at) + wrong.put + whole.slice(wrong.at + wrong.out)
          : whole;
        const counted = countText(text);
        printFindings(counted.findings);
        printFindingsJson(counted.findings);
        for (const { before, after } of counted.lines) {
          for (const count of [...before, ...after]) {
            expect(count === null || (Number.isInteger(count) && count >= 0)).toBe(true);
          }
        }
      }),
      { numRuns: 150, seed: 20260305 },
    );
  });

  it('gives the same findings for the same text', () => {
    const text = [...MODERN, ...LINES.slice(0, 40)].join('\n');
    expect(printFindingsJson(countText(text).findings)).toBe(
      printFindingsJson(countText(text).findings),
    );
  });
}); // prettier-ignore
