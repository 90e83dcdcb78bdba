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

export const ODD: CountRule = { ...PLAIN_RULE, multiple: 2, plus: 1 };
export const EVEN: CountRule = { ...PLAIN_RULE, multiple: 2 };

/**
 * Symmetry about a centre: the same on both sides of `centre` stitches, each side a multiple of its own
 * stitch pattern. With sides of any width the count is odd where the centre is.
 */
export const symmetricRule = (
  centre: number,
  side: Pick<CountRule, 'multiple' | 'plus'> = PLAIN_RULE,
): CountRule => ({
  ...PLAIN_RULE,
  multiple: 2 * side.multiple,
  plus: centre + 2 * side.plus,
});

/**
 * Both rules at once: counts that are a multiple of 4 + 2 and of 6 + 4 are a multiple of 12 + 10.
 * Undefined where no count keeps both (Chinese remainder theorem). Selvedges add up; the rounding is
 * the first one's.
 */
export function bothRules(one: CountRule, other: CountRule): CountRule | undefined {
  const step = (one.multiple * other.multiple) / commonFactor(one.multiple, other.multiple);
  const least = Math.max(one.plus, other.plus);
  for (let plus = least; plus < least + step; plus += 1) {
    const keeps = ({ multiple, plus: rest }: CountRule) => (plus - rest) % multiple === 0;
    if (keeps(one) && keeps(other))
      return { ...one, multiple: step, plus, selvedges: one.selvedges + other.selvedges };
  }
  return undefined;
}

const commonFactor = (a: number, b: number): number => (b === 0 ? a : commonFactor(b, a % b));

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
  return Math.max(0, roundRepeats((value - plus) / multiple, rounding)) * multiple + plus;
}

/**
 * Whole repeats. What a division leaves at the tenth decimal is no part of the number: 7.0000000001
 * repeats are 7, also when rounded up.
 */
export function roundRepeats(repeats: number, rounding: CountRule['rounding']): number {
  const exact = Math.round(repeats * 1e9) / 1e9;
  if (rounding === 'up') return Math.ceil(exact);
  return rounding === 'down' ? Math.floor(exact) : Math.floor(exact + 0.5);
}

function counted(count: number, unrounded: number, deviationInches: number): Counted {
  const deviationCentimetres = deviationInches * CENTIMETRES_PER_INCH;
  return { count, unrounded, deviationInches, deviationCentimetres };
}

/** A finished length rounded for print: inches to the nearest ¼, centimetres to the nearest ½. */
export const printedInches = (inches: number): number => Math.round(inches * 4) / 4;
export const printedCentimetres = (inches: number): number =>
  Math.round(inches * CENTIMETRES_PER_INCH * 2) / 2;
