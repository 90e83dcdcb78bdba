/**
 * Counts from measurements under the rules of the place: a multiple plus edge stitches, odd or even,
 * selvedges that are on the needle and not in the width. Takes a target and rules, gives the count and
 * how far it lies from the target, in inches and centimetres. Pure arithmetic; knows no bundle.
 */
import { assert } from '../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { type Gauge, lengthInches, rowsInLength, stitchesInWidth, widthInches } from './gauge.ts';

export interface CountRule {
  /** The count is `multiple` × n + `plus`. */
  readonly multiple: number;
  readonly plus: number;
  /** Stitches on the needle that seams take up; not part of the width. */
  readonly selvedges: number;
  readonly rounding: 'nearest' | 'up' | 'down';
}

export const PLAIN_RULE: CountRule = { multiple: 1, plus: 0, selvedges: 0, rounding: 'nearest' };

export interface Counted {
  readonly count: number;
  readonly unrounded: number;
  /** Made minus wanted. */
  readonly deviationInches: number;
  readonly deviationCentimetres: number;
}

/** The nearest count of stitches for a width that keeps the rule of the place. */
export function stitchesForWidth(inches: number, gauge: Gauge, rule = PLAIN_RULE): Counted {
  const unrounded = stitchesInWidth(inches, gauge);
  const count = roundToRule(unrounded + rule.selvedges, rule);
  return counted(count, unrounded, widthInches(count - rule.selvedges, gauge) - inches);
}

/** The nearest count of rows for a length that keeps the rule of the place. */
export function rowsForLength(inches: number, gauge: Gauge, rule = PLAIN_RULE): Counted {
  const unrounded = rowsInLength(inches, gauge);
  const count = roundToRule(unrounded, rule);
  return counted(count, unrounded, lengthInches(count, gauge) - inches);
}

/**
 * The count nearest to `value` of the form multiple × n + plus, never below plus. A tie goes up,
 * because fabric that is a little large can be blocked in (common practice).
 */
export function roundToRule(value: number, { multiple, plus, rounding }: CountRule): number {
  assert(multiple >= 1 && plus >= 0, 'a rule has a multiple of at least 1');
  const repeats = (value - plus) / multiple;
  // The guard keeps 7.000000001 repeats, born of a division, from being rounded up to 8.
  const exact = Math.abs(repeats - Math.round(repeats)) < 1e-9 ? Math.round(repeats) : repeats;
  const whole =
    rounding === 'up'
      ? Math.ceil(exact)
      : rounding === 'down'
        ? Math.floor(exact)
        : Math.floor(exact + 0.5);
  return Math.max(0, whole) * multiple + plus;
}

function counted(count: number, unrounded: number, deviationInches: number): Counted {
  const deviationCentimetres = deviationInches * CENTIMETRES_PER_INCH;
  return { count, unrounded, deviationInches, deviationCentimetres };
}

/** A finished length rounded for print: inches to the nearest ¼, centimetres to the nearest ½. */
export const printedInches = (inches: number): number => Math.round(inches * 4) / 4;
export const printedCentimetres = (inches: number): number =>
  Math.round(inches * CENTIMETRES_PER_INCH * 2) / 2;
