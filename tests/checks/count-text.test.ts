/** Running text as a designer pastes it: sizes found, pieces told apart, places given by line. */
import { describe, expect, it } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import { countText } from '../../src/pattern/checks/count-text.ts';

const HAT = `Sizes: S (M, L)
Hat
Cast on 80 (88, 96) sts. Join to work in the round.
Rnds 1-8: *k2, p2; rep from * to end.
Rnds 9-30: Knit.
Rnd 31: *k6, k2tog; rep from * to end. 70 (77, 84) sts.
Rnd 32: Knit.
Rnd 33: *k5, k2tog; rep from * to end. 60 (66, 73) sts.
Rep Rnds 32 and 33, having 1 st less between decs, until 20 (22, 24) sts remain.
Break yarn, draw through rem sts and fasten off.`;

describe('counting running text', () => {
  const counted = countText(HAT);

  it('gives a table of lines with the stitches before and after each', () => {
    expect(counted.sizes).toEqual(['S', 'M', 'L']);
    expect(counted.lines.map(({ after }) => after)).toEqual([
      [80, 88, 96], [80, 88, 96], [80, 88, 96], [80, 88, 96], [70, 77, 84], [70, 77, 84],
      [60, 66, 72], [20, 22, 24], [0, 0, 0],
    ]); // prettier-ignore
    expect(counted.lines.map(({ rows }) => rows[0])).toEqual([0, 0, 8, 22, 1, 1, 1, 8, 0]);
  });

  it('places what it finds by the line of the text', () => {
    expect(counted.findings.map((each) => [each.where.label, wordingOf(each).headline])).toEqual([
      ['line 8', 'size L ends round 33 with 72 sts; the pattern states 73'],
    ]);
  });

  it('numbers the sizes where the text does not name them', () => {
    expect(countText('Cast on 10 (12, 14) sts.').sizes).toEqual(['1', '2', '3']);
    const named = countText('Cast on 10 (12, 14) sts.', { sizes: ['S', 'M', 'L'] });
    expect(named.sizes).toEqual(['S', 'M', 'L']);
  });

  it('begins a piece of its own under a heading with a cast-on', () => {
    const text = 'Back\nCast on 40 sts.\nRow 1: Knit.\n\nFront\nCast on 42 sts.\nRow 1: Purl.';
    const { lines, findings } = countText(text);
    expect(findings).toEqual([]);
    expect(lines.map(({ after }) => after[0])).toEqual([40, 40, 42, 42]);
  });

  it('counts no rows where a length is given, because the text has no gauge', () => {
    const text =
      'Cast on 40 sts.\nWork in stockinette until piece measures 4 in from cast-on edge.';
    expect(countText(text).lines.map(({ rows }) => rows[0])).toEqual([0, null]);
  });
});
