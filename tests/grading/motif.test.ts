/**
 * Motifs round the body in every size: every way keeps its own promises, and the ranking is by
 * deviation. Worked by hand at 20 sts over 4 in: 5 sts an inch.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBase } from '../../src/pattern/grading/gauge.ts';
import {
  alignToMotif,
  bestMotifRow,
  fitMotif,
  type MotifWay,
  motifRowAt,
  overShoulder,
} from '../../src/pattern/grading/motif.ts';

const gauge = { stitches: 20, rows: 28, over: readBase('4 in') };
const wish = {
  motif: { stitches: 12, plus: 0 },
  aroundInches: [36, 40, 44, 48],
  gauge,
  seamStitches: undefined,
  panel: { min: 2, max: 12 },
};
const way = (name: MotifWay, changes: Partial<Parameters<typeof fitMotif>[0]> = {}) =>
  fitMotif({ ...wish, ...changes }).find((each) => each.way === name);

describe('motif fit', () => {
  it('whole repeats: 36 in are 180 sts, 15 repeats; 40 in are 200, nearest 204', () => {
    const { sizes } = way('whole repeats') ?? { sizes: [] };
    expect(sizes.map(({ repeats, stitches }) => [repeats, stitches])).toEqual([[15, 180], [17, 204], [18, 216], [20, 240]]); // prettier-ignore
    expect(sizes[1]?.deviationInches).toBeCloseTo(0.8, 10);
  });

  it('centred front and back: an even number of repeats', () => {
    const { sizes } = way('centred front and back') ?? { sizes: [] };
    expect(sizes.map(({ repeats }) => repeats)).toEqual([16, 16, 18, 20]); // 180: 15 is a tie of 14 and 16
    const flat = way('centred front and back', { seamStitches: 1 });
    expect(flat?.sizes.map(({ half }) => half)).toEqual([98, 98, 110, 122]); // with a seam stitch each side
  });

  it('across the side seams: an odd number of repeats leaves half a motif at each edge', () => {
    const { sizes, reason } = way('across the side seams', { seamStitches: 1 }) ?? {
      sizes: [],
      reason: '',
    };
    expect(sizes.map(({ repeats, cut, half }) => [repeats, cut, half])).toEqual([[15, 6, 92], [17, 6, 104], [18, 0, 110], [20, 0, 122]]); // prettier-ignore
    expect(reason).toMatch(/2 of 4 sizes/);
    expect(way('across the side seams')).toBeUndefined(); // no seams in the round
    expect(way('across the side seams', { seamStitches: 1, motif: { stitches: 11, plus: 0 } })).toBeUndefined(); // prettier-ignore
  });

  it('side panels, mirrored, between their bounds', () => {
    const { sizes, worstDeviationInches } = way('side panels') ?? {
      sizes: [],
      worstDeviationInches: 9,
    };
    expect(worstDeviationInches).toBeLessThanOrEqual(0.2 + 1e-9);
    for (const { repeats, panel, stitches } of sizes) {
      expect(repeats % 2).toBe(0);
      expect(panel).toBeGreaterThanOrEqual(2);
      expect(panel).toBeLessThanOrEqual(12);
      expect(stitches).toBe(repeats * 12 + 2 * panel);
    }
    expect(way('side panels', { panel: { min: 0, max: 0 } })).toBeUndefined();
  });

  it('another gauge, at most two stitches away', () => {
    const other = way('another gauge');
    expect(Math.abs((other?.gaugeStitches ?? 99) - 20)).toBeLessThanOrEqual(2);
    expect(other?.worstDeviationInches).toBeLessThan(
      way('whole repeats')?.worstDeviationInches ?? 0,
    );
    expect(other?.reason).toMatch(/needle/);
  });

  it('ranks by deviation, and permuting sizes permutes the results', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 28, max: 70 }), { minLength: 1, maxLength: 9 }),
        fc.integer({ min: 2, max: 24 }),
        fc.integer({ min: 0, max: 3 }),
        (aroundInches, stitches, plus) => {
          const motif = { stitches, plus };
          const ways = fitMotif({ ...wish, aroundInches, motif });
          const worst = ways.map((each) => each.worstDeviationInches);
          expect([...worst].sort((a, b) => a - b)).toEqual(worst);
          const turned = fitMotif({ ...wish, aroundInches: aroundInches.toReversed(), motif });
          for (const each of ways.filter(({ way: name }) => name !== 'another gauge'))
            expect(turned.find((other) => other.way === each.way)?.sizes).toEqual(each.sizes.toReversed()); // prettier-ignore
          for (const { way: name, sizes } of ways.filter(
            ({ way: each }) => each === 'whole repeats',
          ))
            for (const size of sizes)
              if (size.repeats > 1)
                expect(Math.abs(size.deviationInches), name).toBeLessThanOrEqual(
                  stitches / 2 / 5 + 1e-9,
                );
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('rows of a motif', () => {
  it('which row falls at a height', () => {
    expect([motifRowAt(0, 8), motifRowAt(8, 8), motifRowAt(9, 8)]).toEqual([0, 8, 1]);
  });

  it('a landmark on one row of the motif in every size', () => {
    expect(alignToMotif([54, 56, 60], 8, 8)).toEqual([
      { rows: 56, deviationRows: 2 },
      { rows: 56, deviationRows: 0 },
      { rows: 64, deviationRows: 4 },
    ]);
    // Row 4: 52, 60 and 60; none is further than 4 rows away. Row 6: 54, 54 and 62, within 2.
    expect(bestMotifRow([54, 56, 60], 8)).toBe(6);
  });

  it('over the shoulder: columns meet at equal distance, rows make one motif', () => {
    const motif = { stitches: 12, rows: 8 };
    expect(overShoulder(motif, { column: 4, rows: 3 }, { column: 7, rows: 5 })).toEqual({
      columnsMeet: true,
      rowsMissing: 0,
    });
    expect(overShoulder(motif, { column: 4, rows: 3 }, { column: 4, rows: 3 })).toEqual({
      columnsMeet: false,
      rowsMissing: 2,
    });
  });
});
