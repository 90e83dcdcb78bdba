/**
 * Numbers that nothing in a bundle can hold, because they come from outside it: the maker's ball band,
 * the designer's choice of needle. They are listed with the reason, never counted as pinned.
 */
import type { CheckContext } from './context.ts';
import type { BundleNumber } from './pin-numbers.ts';

const REASONS: readonly (readonly [RegExp, string])[] = [
  [/^\/yarns\/\d+\/weight$/, 'the yarn’s standard weight, from its band'],
  [/^\/yarns\/\d+\/ball\//, 'from the ball band'],
  [/^\/yarns\/\d+\/colours\/\d+\/grams/, 'weighed on the finished piece'],
  [/^\/yarns\/\d+\/colours\/\d+\/balls/, 'the balls that were bought'],
  [/^\/needles\/\d+\/mm$/, 'the needle the designer knits the gauge with'],
  [/^\/needles\/\d+\/length/, 'the length of needle the designer likes'],
  [/^\/notions\//, 'counted on the finished piece'],
];

/** Why a number is free by nature; undefined for a number that something should hold. */
export function freeByNature({ where }: BundleNumber, _context: CheckContext): string | undefined {
  return REASONS.find(([pointer]) => pointer.test(where.pointer))?.[1];
}
