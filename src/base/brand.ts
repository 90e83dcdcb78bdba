/**
 * Counts and lengths that must not be mixed up. A branded number is an ordinary number at run time;
 * the compiler refuses to add stitches to rows. The constructors assert what the brand promises.
 */
import { assert } from './assert.ts';

declare const brand: unique symbol;
type Brand<Name extends string> = number & { readonly [brand]: Name };

/** A whole number of stitches on a needle; may be negative as a difference. */
export type Stitches = Brand<'stitches'>;
/** A whole number of rows or rounds. */
export type Rows = Brand<'rows'>;
/** A length on paper in PostScript points, 72 to the inch. */
export type Points = Brand<'points'>;
/** A length of fabric in inches, unrounded. */
export type Inches = Brand<'inches'>;
/** A length of fabric in centimetres, unrounded. */
export type Centimetres = Brand<'centimetres'>;

export function stitches(value: number): Stitches {
  assert(Number.isInteger(value), `stitches are counted whole, not ${value}`);
  return value as Stitches;
}

export function rows(value: number): Rows {
  assert(Number.isInteger(value) && value >= 0, `rows are counted whole, not ${value}`);
  return value as Rows;
}

export const points = (value: number): Points => value as Points;
export const inches = (value: number): Inches => value as Inches;
export const centimetres = (value: number): Centimetres => value as Centimetres;

/** The inch is 25.4 mm exactly (international yard and pound agreement, 1959). */
export const CENTIMETRES_PER_INCH = 2.54;
export const MILLIMETRES_PER_POINT = 25.4 / 72;
/** The yard is 0.9144 m exactly (international yard and pound agreement, 1959). */
export const METRES_PER_YARD = 0.9144;
