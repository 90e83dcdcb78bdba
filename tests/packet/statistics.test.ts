/** The robust statistics against published examples: papers and manuals that are not ours. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  median,
  medianDeviation,
  modifiedScores,
  OUTLIER_SCORE,
} from '../../src/packet/results/statistics.ts';

describe('the median of absolute deviations', () => {
  it.each([
    // C. Leys and others, Detecting outliers, Journal of Experimental Social Psychology 49 (2013),
    // from memory: eight observations, median 7, deviation 3.5, times 1.4826 is 5.1891.
    { values: [1, 3, 3, 6, 8, 10, 10, 1000], middle: 7, deviation: 3.5 },
    // The manual of R, stats::mad, examples: mad(c(1:9), constant = 1) is that of c(1:8, 100), and 2.
    { values: [1, 2, 3, 4, 5, 6, 7, 8, 9], middle: 5, deviation: 2 },
    { values: [1, 2, 3, 4, 5, 6, 7, 8, 100], middle: 5, deviation: 2 },
    // Wikipedia, Median absolute deviation, from memory.
    { values: [1, 1, 2, 2, 4, 6, 9], middle: 2, deviation: 1 },
  ])('of $values', ({ values, middle, deviation }) => {
    expect(median(values)).toBe(middle);
    expect(medianDeviation(values)).toBe(deviation);
  });

  it('is scaled to the standard deviation by 1.4826, which is 1 ÷ 0.6745', () => {
    const [first = 0] = modifiedScores([1, 3, 3, 6, 8, 10, 10, 1000]);
    expect(first).toBeCloseTo((1 - 7) / 5.1891, 3);
  });
});

describe('modified z-scores', () => {
  it('find the one value of the NIST example that Grubbs’ test finds', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1: 245.57 is the outlier.
    const values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    const far = values.filter((_, at) => Math.abs(modifiedScores(values)[at] ?? 0) > OUTLIER_SCORE);
    expect(far).toEqual([245.57]);
  });

  it('are 0 for values that are all alike, and find one among many that are', () => {
    expect(modifiedScores([4, 4, 4])).toEqual([0, 0, 0]);
    const [last] = modifiedScores([...Array.from({ length: 9 }, () => 0), 1]).slice(-1);
    // Mean of the deviations 0.1: 1 ÷ (1.253314 × 0.1).
    expect(last).toBeCloseTo(7.979, 3);
  });

  it('do not change when all values are moved or scaled', () => {
    const amount = fc
      .double({ min: -50, max: 50, noNaN: true })
      .map((value) => Math.round(value * 4) / 4);
    fc.assert(
      fc.property(fc.array(amount, { minLength: 3, maxLength: 12 }), (values) => {
        const scores = modifiedScores(values);
        const moved = modifiedScores(values.map((value) => value * 2 + 8));
        moved.forEach((score, at) => expect(score).toBeCloseTo(scores[at] ?? 0, 6));
      }),
    );
  });
});
