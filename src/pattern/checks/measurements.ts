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
  const wrong = new Map<string, ReadonlySet<number>>();
  const found = inOrder(context.data.measurements).flatMap(([measurement, at]) => {
    const pointer = pointerTo('', 'measurements', at);
    if ('given' in measurement.from) {
      const name = `measurement ${measurement.letter}`;
      return unitsOf(context, name, measurement.size, pointerTo(pointer, 'size'));
    }
    const { from } = measurement;
    const parts = 'sum' in from ? from.sum.map((id) => wrong.get(id)) : [];
    const sizes = context.sizes.filter((size) => !parts.some((part) => part?.has(size)));
    const found = against({ ...context, sizes }, measurement, pointer);
    wrong.set(measurement.id, new Set(found.flatMap(({ facts }) => facts.affected as number[])));
    return found;
  });
  return folded(found);
}

/**
 * Measurements over the same rows are wrong by the same length where one row is wrong. They are one
 * finding, that of the shortest of them; the others are named in it.
 */
function folded(findings: readonly Finding[]): readonly Finding[] {
  const main: Finding[] = [];
  for (const each of findings) {
    const at = main.findIndex((one) => isSameSlip(one, each));
    const one = main[at];
    if (!one) main.push(each);
    else {
      const [short, long] = lengthOf(one) <= lengthOf(each) ? [one, each] : [each, one];
      const also = [...listOf(one), ...listOf(each), nameOf(long)];
      main[at] = { ...short, facts: { ...short.facts, others: [...new Set(also)] } };
    }
  }
  return main;
}

const nameOf = ({ facts }: Finding): string => facts['name'] as string;

const listOf = ({ facts }: Finding): readonly string[] => (facts['others'] as string[]) ?? [];

type Values = readonly (number | null)[];

const lengthOf = ({ facts }: Finding): number => {
  const derived = facts['derived'] as Values;
  return Math.max(...derived.map((value) => value ?? 0));
};

/** The same sizes, and in each of them as much too long or too short, give or take the rounding. */
function isSameSlip(one: Finding, other: Finding): boolean {
  if (one.code !== 'measure/does-not-follow' || other.code !== one.code) return false;
  const sizes = one.facts['affected'] as readonly number[];
  if (!sameSizes(sizes, other.facts['affected'] as readonly number[])) return false;
  if (one.facts['unit'] !== other.facts['unit']) return false;
  const off = ({ facts }: Finding, size: number) =>
    ((facts['derived'] as Values)[size] ?? 0) - ((facts['stated'] as Values)[size] ?? 0);
  return sizes.every((size) => Math.abs(off(one, size) - off(other, size)) <= 0.25);
}

/** Sums come after their parts, so that a wrong part is not blamed a second time in its sum. */
const inOrder = (
  measurements: readonly MeasurementData[],
): readonly (readonly [MeasurementData, number])[] =>
  measurements
    .map((measurement, at) => [measurement, at] as const)
    .sort(
      ([a, one], [b, other]) => Number('sum' in a.from) - Number('sum' in b.from) || one - other,
    );

export const measurementSay = ({ letter, id }: MeasurementData): string =>
  `measurement ${letter} (${id})`;

/** Both units are rounded from one true value: what is wrong in both is one finding. */
function against(
  context: CheckContext,
  measurement: MeasurementData,
  pointer: string,
): readonly Finding[] {
  const units = (['in', 'cm'] as const).flatMap((unit) => {
    const stated = numbersAt(measurement.size[unit], pointerTo(pointer, 'size', unit));
    return stated ? [{ unit, stated, affected: unlike(context, measurement, stated, unit) }] : [];
  });
  const [first, second] = units.filter(({ affected }) => affected.length > 0);
  if (!first) return [];
  const both = second && sameSizes(first.affected, second.affected) ? second : undefined;
  const one = measurementFinding(context, measurement, first, both);
  return both || !second ? [one] : [one, measurementFinding(context, measurement, second)];
}

interface InUnit {
  readonly unit: Unit;
  readonly stated: Numbers;
  readonly affected: readonly number[];
}

const sameSizes = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && one.every((size, at) => size === other[at]);

const exactIn =
  (context: CheckContext, { from }: MeasurementData, unit: Unit) =>
  (size: number) => {
    const inches = trueInches(context, from, size);
    return typeof inches === 'number' ? inUnit(inches, unit) : null;
  };

function unlike(
  context: CheckContext,
  measurement: MeasurementData,
  stated: Numbers,
  unit: Unit,
): readonly number[] {
  const exact = exactIn(context, measurement, unit);
  return context.sizes.filter((size) => {
    const value = numberOf(stated, size);
    const wanted = exact(size);
    return value !== null && wanted !== null && !roundsTo(value, wanted, unit);
  });
}

function measurementFinding(
  context: CheckContext,
  measurement: MeasurementData,
  { unit, stated, affected }: InUnit,
  also?: InUnit,
): Finding {
  const values = (numbers: Numbers) => valuesOf(context, (size) => numberOf(numbers, size));
  const facts = {
    name: measurementSay(measurement),
    unit,
    sizes: context.pattern.sizes,
    affected,
    stated: values(stated),
    ...derivedIn(context, measurement, unit),
    from: sourceSay(measurement.from),
    ...(also && {
      also: { stated: values(also.stated), ...derivedIn(context, measurement, also.unit) },
    }),
  };
  const where = placeOfNumber(stated, affected, `Measurement ${measurement.letter}`);
  return finding('measure/does-not-follow', where, facts, { sizes: named(context, affected) });
}

function derivedIn(context: CheckContext, measurement: MeasurementData, unit: Unit) {
  const derived = valuesOf(context, exactIn(context, measurement, unit));
  return {
    derived,
    rounded: derived.map((value) => (value === null ? null : rounded(value, unit))),
  };
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
