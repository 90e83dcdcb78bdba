/**
 * Gauge: from counts on a swatch to stitches and rows per unit, and back from counts to lengths.
 * Takes readings and the base they were taken over, gives numbers in that base; never converts to the
 * other base and back, because 4 in and 10 cm differ by 1.6 %. Knows no pattern and no page.
 */
import { assert } from '../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';

/** The width a swatch is counted over. */
export interface Base {
  readonly amount: number;
  readonly unit: 'in' | 'cm';
}

/** `'4 in'`, `'10 cm'`: as a bundle writes it. */
export function readBase(text: string): Base {
  const match = /^(\d+(?:\.\d+)?) (in|cm)$/.exec(text);
  assert(match, `a gauge is counted over a width like 4 in, not ${text}`);
  return { amount: Number(match[1]), unit: match[2] === 'in' ? 'in' : 'cm' };
}

export interface Gauge {
  readonly stitches: number;
  readonly rows: number;
  readonly over: Base;
}

/** Stitches or rows in one inch. The base is converted only where it was measured in centimetres. */
export function perInch(count: number, over: Base): number {
  return over.unit === 'in' ? count / over.amount : (count / over.amount) * CENTIMETRES_PER_INCH;
}

export function perCentimetre(count: number, over: Base): number {
  return over.unit === 'cm' ? count / over.amount : count / over.amount / CENTIMETRES_PER_INCH;
}

/** Fabric width in inches of so many stitches: stitches ÷ gauge (common practice). */
export const widthInches = (count: number, gauge: Gauge): number =>
  count / perInch(gauge.stitches, gauge.over);

/** Fabric length in inches of so many rows. */
export const lengthInches = (count: number, gauge: Gauge): number =>
  count / perInch(gauge.rows, gauge.over);

export const stitchesInWidth = (inches: number, gauge: Gauge): number =>
  inches * perInch(gauge.stitches, gauge.over);

export const rowsInLength = (inches: number, gauge: Gauge): number =>
  inches * perInch(gauge.rows, gauge.over);

// ---------------------------------------------------------------- from a swatch

/** One place counted on a swatch: half stitches are counted too. */
export interface Reading {
  readonly stitches: number;
  readonly rows: number;
  readonly over: Base;
}

export interface SwatchGauge {
  readonly gauge: Gauge;
  /** Largest difference of a reading from the mean, in stitches and rows over the base. */
  readonly spreadStitches: number;
  readonly spreadRows: number;
}

/** The mean of several readings over one base. Readings over different bases are refused. */
export function averageGauge(readings: readonly [Reading, ...Reading[]]): SwatchGauge {
  const [{ over }] = readings;
  assert(
    readings.every((each) => each.over.unit === over.unit && each.over.amount === over.amount),
    'readings of one gauge are taken over the same width',
  );
  const stitches = mean(readings.map((each) => each.stitches));
  const rows = mean(readings.map((each) => each.rows));
  return {
    gauge: { stitches, rows, over },
    spreadStitches: Math.max(...readings.map((each) => Math.abs(each.stitches - stitches))),
    spreadRows: Math.max(...readings.map((each) => Math.abs(each.rows - rows))),
  };
}

/** Counts are told to the half stitch; a tie goes up. */
export const toHalf = (count: number): number => Math.floor(count * 2 + 0.5) / 2;

export interface WashChange {
  /** Factor on widths: 0.97 where the fabric draws in by 3 %. */
  readonly width: number;
  readonly length: number;
}

/** How washing changes the fabric: gauge before ÷ gauge after, per direction. */
export function changeByWashing(before: Gauge, after: Gauge): WashChange {
  return {
    width: perInch(before.stitches, before.over) / perInch(after.stitches, after.over),
    length: perInch(before.rows, before.over) / perInch(after.rows, after.over),
  };
}

/** The length to knit so that washing leaves the wanted one: "knit to X before washing". */
export const lengthBeforeWashing = (wantedInches: number, change: WashChange): number =>
  wantedInches / change.length;

/**
 * What an error of gauge does to a finished width. At 20 sts over 4 in a 200-stitch body is 40 in; a
 * knitter at 21 gets 38.1 in (common practice).
 */
export function widthAtOtherGauge(count: number, gauge: Gauge, errorStitches: number): number {
  return widthInches(count, { ...gauge, stitches: gauge.stitches + errorStitches });
}

export interface GaugeError {
  /** Inches at a gauge of one step less, and of one more, stitches or rows over the base. */
  readonly looserInches: number;
  readonly tighterInches: number;
}

/** What half a stitch, or half a row, over the base does to a length that follows from it. */
export function effectOfError(
  inches: number,
  gauge: Gauge,
  kind: 'stitches' | 'rows',
  step = 0.5,
): GaugeError {
  const count = gauge[kind];
  assert(count > step, 'a gauge has more than half a stitch');
  return {
    looserInches: (inches * count) / (count - step),
    tighterInches: (inches * count) / (count + step),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
