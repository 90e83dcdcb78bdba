/**
 * Numbers that nothing in a bundle can hold, because they come from outside it: the maker's ball band,
 * the designer's choice of needle. They are listed with the reason, never counted as pinned.
 */
import type { BundleNumber } from './pin-numbers.ts';

const REASONS: readonly (readonly [RegExp, string])[] = [
  [/^\/yarns\/\d+\/weight$/, 'the yarn’s standard weight, from its band'],
  [/^\/yarns\/\d+\/ball\//, 'from the ball band'],
  [/^\/yarns\/\d+\/colours\/\d+\/grams/, 'weighed on the finished piece'],
  [/^\/yarns\/\d+\/colours\/\d+\/balls/, 'the balls that were bought'],
  [/^\/needles\/\d+\/mm$/, 'the needle the designer knits the gauge with'],
  [/^\/needles\/\d+\/length/, 'the length of needle the designer likes'],
  [/^\/gauges\/\d+\/rows$/, 'no length of the pattern is counted in these rows'],
  [/^\/pieces\/\d+\/make$/, 'how many are made alike is the design itself'],
  [/^\/charts\/\d+\/repeat\/(from|to)Row$/, 'which rows are boxed changes no count'],
  [/^\/notions\//, 'counted on the finished piece'],
];

/** Why a number is free by nature; undefined for a number that something should hold. */
export function freeByNature({ where }: BundleNumber): string | undefined {
  return REASONS.find(([pointer]) => pointer.test(where.pointer))?.[1];
}
