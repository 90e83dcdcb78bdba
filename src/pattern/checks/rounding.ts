/**
 * How lengths are rounded for print: inches to the nearest ¼, centimetres to the nearest ½ (common
 * practice), or finer where the designer states finer. Both are rounded from the true value, never one
 * from the other.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';

export type Unit = 'in' | 'cm';

const STEPS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1 / 4, 1 / 8, 1 / 10, 1 / 20, 1 / 100],
  cm: [1 / 2, 1 / 4, 1 / 10, 1 / 20, 1 / 100],
};

const TINY = 1e-7;

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < TINY;

/** The fineness a length is stated in, at most the one of the trade. */
export const stepOf = (stated: number, unit: Unit): number =>
  STEPS[unit].find((step) => isMultiple(stated, step)) ?? 1 / 1000;

/** True where the stated length is the true one, rounded. A tie may go either way. */
export const roundsTo = (stated: number, exact: number, unit: Unit): boolean =>
  Math.abs(stated - exact) <= stepOf(stated, unit) / 2 + TINY;

export const rounded = (exact: number, unit: Unit): number => {
  const step = STEPS[unit][0] ?? 1;
  return Math.round(exact / step) * step;
};

export const inUnit = (inches: number, unit: Unit): number =>
  unit === 'in' ? inches : inches * CENTIMETRES_PER_INCH;

/** Inches and centimetres that can be roundings of one length: each, seen from the other. */
export const sameLength = (inches: number, centimetres: number): boolean =>
  roundsTo(centimetres, inches * CENTIMETRES_PER_INCH, 'cm') ||
  roundsTo(inches, centimetres / CENTIMETRES_PER_INCH, 'in');
