/**
 * Every stated measurement against its counts: stitches and rows through the gauge, in inches and in
 * centimetres, each rounded from the true value. A measurement that follows from nothing must at least
 * say the same length in both units.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { MeasurementData } from '../bundle/schema.ts';
import {
  type CheckContext,
  numberOf,
  type Numbers,
  numbersAt,
  placeOfNumber,
  valuesOf,
} from './context.ts';
import { sourceSay, trueInches } from './derive.ts';
import { inUnit, rounded, roundsTo, sameLength, type Unit } from './rounding.ts';

export function checkMeasurements(context: CheckContext): readonly Finding[] {
  return context.data.measurements.flatMap((measurement, at) => {
    const pointer = pointerTo('', 'measurements', at);
    if ('given' in measurement.from) {
      return unitsOf(
        context,
        `measurement ${measurement.letter}`,
        measurement.size,
        pointerTo(pointer, 'size'),
      );
    }
    return (['in', 'cm'] as const).flatMap((unit) => {
      const stated = numbersAt(measurement.size[unit], pointerTo(pointer, 'size', unit));
      return stated ? against(context, measurement, stated, unit) : [];
    });
  });
}

export const measurementSay = ({ letter, id }: MeasurementData): string =>
  `measurement ${letter} (${id})`;

function against(
  context: CheckContext,
  measurement: MeasurementData,
  stated: Numbers,
  unit: Unit,
): readonly Finding[] {
  const exact = (size: number): number | null => {
    const inches = trueInches(context, measurement.from, size);
    return typeof inches === 'number' ? inUnit(inches, unit) : null;
  };
  const affected = context.sizes.filter((size) => {
    const value = numberOf(stated, size);
    const wanted = exact(size);
    return value !== null && wanted !== null && !roundsTo(value, wanted, unit);
  });
  if (affected.length === 0) return [];
  const derived = valuesOf(context, exact);
  const facts = {
    name: measurementSay(measurement),
    unit,
    sizes: context.pattern.sizes,
    affected,
    stated: valuesOf(context, (size) => numberOf(stated, size)),
    derived,
    rounded: derived.map((value) => (value === null ? null : rounded(value, unit))),
    from: sourceSay(measurement.from),
  };
  const where = placeOfNumber(stated, affected, `Measurement ${measurement.letter}`);
  return [finding('measure/does-not-follow', where, facts, { sizes: named(context, affected) })];
}

export const named = (context: CheckContext, affected: readonly number[]): readonly string[] =>
  affected.length === context.pattern.sizes.length
    ? []
    : affected.map((size) => context.pattern.sizes[size] ?? '');

interface TwoUnits {
  readonly in?: Numbers['data'] | undefined;
  readonly cm?: Numbers['data'] | undefined;
}

/** Inches and centimetres of one length: each must be a rounding of the other. */
export function unitsOf(
  context: CheckContext,
  name: string,
  length: TwoUnits,
  pointer: string,
): readonly Finding[] {
  const inches = numbersAt(length.in, pointerTo(pointer, 'in'));
  const centimetres = numbersAt(length.cm, pointerTo(pointer, 'cm'));
  if (!inches || !centimetres) return [];
  const affected = context.sizes.filter((size) => {
    const one = numberOf(inches, size);
    const other = numberOf(centimetres, size);
    return one !== null && other !== null && !sameLength(one, other);
  });
  if (affected.length === 0) return [];
  const facts = {
    name,
    unit: 'cm' as const,
    sizes: context.pattern.sizes,
    affected,
    inches: valuesOf(context, (size) => numberOf(inches, size)),
    centimetres: valuesOf(context, (size) => numberOf(centimetres, size)),
  };
  const where = placeOfNumber(centimetres, affected);
  return [finding('measure/units-differ', where, facts, { sizes: named(context, affected) })];
}
