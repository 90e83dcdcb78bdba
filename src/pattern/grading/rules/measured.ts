/**
 * What a changed count does to the garment's measurements: those that are counted from it, and sums of
 * them, with the body they are worn over. Takes a bundle's data and the count before and after; gives
 * lengths in inches. Rows are not worked here: a measurement belongs to a number where its own sum,
 * taken over the number, gives what is stated.
 */
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import type { BundleData, GaugeData, MeasurementData } from '../../bundle/schema.ts';
import { sizedValue } from '../../bundle/sized-data.ts';
import { perInch, readBase } from '../gauge.ts';
import type { ChosenNumber } from './choose.ts';

export interface MeasuredSize {
  readonly statedInches: number | null;
  readonly beforeInches: number | null;
  readonly afterInches: number | null;
  /** Measured at the body; null where no ease over it is stated. */
  readonly bodyInches: number | null;
}

export interface MeasuredChange {
  readonly measurement: MeasurementData;
  readonly sizes: readonly MeasuredSize[];
}

/** How far a stated length may lie from what a number gives and still be counted from it. */
const NEAR = 0.05;

export function measuredChanges(data: BundleData, number: ChosenNumber): readonly MeasuredChange[] {
  const direct = data.measurements.flatMap((measurement) => {
    const lengthOf = lengthBy(data, measurement, number);
    if (!lengthOf) return [];
    const sizes = number.sizes.map(({ before, after }, size) =>
      measuredSize(data, measurement, size, [lengthOf(before, size), lengthOf(after, size)]),
    );
    const known = sizes.some(({ beforeInches }) => beforeInches !== null);
    return known && sizes.every(isNear) ? [{ measurement, sizes }] : [];
  });
  return [...direct, ...sumsOver(data, direct)];
}

const isNear = ({ statedInches, beforeInches }: MeasuredSize): boolean =>
  statedInches === null ||
  beforeInches === null ||
  Math.abs(statedInches - beforeInches) <= NEAR * statedInches;

/** The length of a count as this measurement takes it; undefined where it takes no such number. */
function lengthBy(data: BundleData, { from }: MeasurementData, { data: own }: ChosenNumber) {
  const pieces = new Set((own.places ?? []).flat().map(pieceOf));
  if ('width' in from && own.unit === 'sts' && pieces.has(pieceOf(from.width))) {
    const per = perInchOf(data, from.gauge, from.width, 'stitches');
    const less = (size: number) => (from.less === undefined ? 0 : (sizedValue(from.less, size) ?? 0)); // prettier-ignore
    if (per === undefined) return undefined;
    return (count: number | null, size: number) =>
      count === null ? null : ((count - less(size)) * (from.times ?? 1)) / per;
  }
  if ('depth' in from && own.unit === 'rows' && hasRows(own.places, from.depth)) {
    const per = perInchOf(data, from.gauge, from.depth[0], 'rows');
    return per === undefined ? undefined : (count: number | null) => (count === null ? null : count / per); // prettier-ignore
  }
  return undefined;
}

const pieceOf = (anchor: string): string => anchor.split('/')[0] ?? anchor;

const hasRows = (places: ChosenNumber['data']['places'] = [], depth: readonly string[]): boolean =>
  places.some((place) => typeof place !== 'string' && place.join(' ') === depth.join(' '));

function perInchOf(
  { gauges, pieces }: BundleData,
  named: string | undefined,
  anchor: string,
  kind: 'stitches' | 'rows',
): number | undefined {
  const id = named ?? pieces.find((piece) => piece.id === pieceOf(anchor))?.gauge;
  const gauge: GaugeData | undefined = gauges.find((each) => each.id === id);
  return gauge && perInch(gauge[kind], readBase(gauge.over));
}

function measuredSize(
  data: BundleData,
  { size: stated, ease }: MeasurementData,
  size: number,
  [beforeInches, afterInches]: readonly [number | null, number | null],
): MeasuredSize {
  const body = ease && data.body.find(({ part }) => part === ease.over);
  return {
    statedInches: inchesIn(stated, size),
    beforeInches,
    afterInches,
    bodyInches: body ? inchesIn(body.size, size) : null,
  };
}

function inchesIn(length: MeasurementData['size'], size: number): number | null {
  const inches = sizedValue(length.in, size) ?? null;
  const centimetres = sizedValue(length.cm, size) ?? null;
  return inches ?? (centimetres === null ? null : centimetres / CENTIMETRES_PER_INCH);
}

/** A sum changes by what its parts change, from what is stated. */
function sumsOver(data: BundleData, parts: readonly MeasuredChange[]): readonly MeasuredChange[] {
  return data.measurements.flatMap((measurement) => {
    const { from } = measurement;
    if (!('sum' in from)) return [];
    const own = from.sum.flatMap((id) => parts.find((each) => each.measurement.id === id) ?? []);
    if (own.length === 0) return [];
    const sizes = data.sizes.map((_, size) => {
      const stated = inchesIn(measurement.size, size);
      const changes = own.map(({ sizes: each }) => changeIn(each[size]));
      const change = changes.reduce<number | null>((sum, one) => (sum === null || one === null ? null : sum + one), 0); // prettier-ignore
      const after = stated === null || change === null ? null : stated + change;
      return measuredSize(data, measurement, size, [stated, after]);
    });
    return [{ measurement, sizes }];
  });
}

const changeIn = (size: MeasuredSize | undefined): number | null =>
  size?.beforeInches == null || size.afterInches === null
    ? null
    : size.afterInches - size.beforeInches;
