/**
 * Statistics that one wild value cannot spoil: the median, the median of the absolute deviations from it,
 * and the modified z-score that tells an outlier. Takes plain numbers, gives plain numbers; knows no
 * knitting.
 */
import { assert } from '../../base/assert.ts';

export function median(values: readonly number[]): number {
  assert(values.length > 0, 'a median is of something');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[middle - 1] ?? 0, sorted[middle] ?? 0];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}

/** Median of the absolute deviations from the median. */
export function medianDeviation(values: readonly number[]): number {
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle)));
}

/** Beyond this a value is taken for an outlier (B. Iglewicz and D. Hoaglin, 1993). */
export const OUTLIER_SCORE = 3.5;

/** The quantile of the normal distribution at ¾: makes the score one of standard deviations. */
const NORMAL_QUARTILE = 0.6745;
/** √(π/2): the same for the mean of the absolute deviations. */
const NORMAL_MEAN = 1.253314;

/**
 * Modified z-scores, 0.6745 · (x − median) ÷ MAD (B. Iglewicz and D. Hoaglin, How to Detect and Handle
 * Outliers, 1993; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17). Where more than half of the
 * values are alike the MAD is 0; the mean of the absolute deviations stands in, as is usual. All 0 where
 * all values are alike.
 */
export function modifiedScores(values: readonly number[]): readonly number[] {
  if (values.length === 0) return [];
  const middle = median(values);
  const spread = medianDeviation(values);
  if (spread > 0) return values.map((value) => (NORMAL_QUARTILE * (value - middle)) / spread);
  const mean = values.reduce((sum, value) => sum + Math.abs(value - middle), 0) / values.length;
  if (mean === 0) return values.map(() => 0);
  return values.map((value) => (value - middle) / (NORMAL_MEAN * mean));
}
