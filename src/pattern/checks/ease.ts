/**
 * Ease as promised: the finished measurement less the body measurement. The body may be a rounding in
 * one unit of what the table gives in the other, and the difference may be taken from the true or from
 * the rounded finished measurement; the stated ease must be one of these.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { type CheckContext, numberOf, numbersAt, placeOfNumber, valuesOf } from './context.ts';
import { trueInches } from './derive.ts';
import { checkMeasurements, measurementSay, named } from './measurements.ts';
import { inUnit, rounded, roundsTo, type Unit } from './rounding.ts';

type Measurement = CheckContext['data']['measurements'][number];

export function checkEase(context: CheckContext): readonly Finding[] {
  const wrong = new Set(checkMeasurements(context).map(({ where }) => where.label));
  return context.data.measurements.flatMap((measurement, at) => {
    // A measurement that does not follow is blamed once; its ease cannot be right either.
    if (wrong.has(`Measurement ${measurement.letter}`)) return [];
    return (['in', 'cm'] as const).flatMap((unit) => easeIn(context, measurement, at, unit));
  });
}

function easeIn(
  context: CheckContext,
  measurement: Measurement,
  at: number,
  unit: Unit,
): readonly Finding[] {
  const { ease } = measurement;
  if (!ease) return [];
  const stated = numbersAt(
    ease.size[unit],
    pointerTo('', 'measurements', at, 'ease', 'size', unit),
  );
  const index = context.data.body.findIndex(({ part }) => part === ease.over);
  const body = numbersAt(
    context.data.body[index]?.size[unit],
    pointerTo('', 'body', index, 'size', unit),
  );
  if (!stated || !body) return [];
  const exact = finishedIn(context, measurement, at, unit);
  const converted = bodyFromOtherUnit(context, index, unit);
  const affected = context.sizes.filter((size) => {
    const finished = exact(size);
    const bodies = [numberOf(body, size), converted(size)].filter((value) => value !== null);
    return !fits(numberOf(stated, size), finished, bodies, unit);
  });
  if (affected.length === 0) return [];
  const finished = valuesOf(context, (size) => {
    const value = exact(size);
    return value === null ? null : rounded(value, unit);
  });
  const facts = {
    name: measurementSay(measurement),
    unit,
    sizes: context.pattern.sizes,
    affected,
    finished,
    body: valuesOf(context, (size) => numberOf(body, size)),
    ease: finished.map((value, size) => {
      const under = numberOf(body, size);
      return value === null || under === null ? null : value - under;
    }),
    stated: valuesOf(context, (size) => numberOf(stated, size)),
  };
  const where = placeOfNumber(stated, affected, `Ease of measurement ${measurement.letter}`);
  return [finding('measure/ease', where, facts, { sizes: named(context, affected) })];
}

function finishedIn(context: CheckContext, measurement: Measurement, at: number, unit: Unit) {
  const own = numbersAt(measurement.size[unit], pointerTo('', 'measurements', at, 'size', unit));
  return (size: number): number | null => {
    if ('given' in measurement.from) return numberOf(own, size);
    const inches = trueInches(context, measurement.from, size);
    return typeof inches === 'number' ? inUnit(inches, unit) : null;
  };
}

/** The body measurement as the other unit gives it: 30 in is 76.2 cm, printed as 76. */
function bodyFromOtherUnit(context: CheckContext, index: number, unit: Unit) {
  const other: Unit = unit === 'in' ? 'cm' : 'in';
  const numbers = numbersAt(context.data.body[index]?.size[other], '');
  return (size: number): number | null => {
    const value = numberOf(numbers, size);
    if (value === null) return null;
    return unit === 'cm' ? value * CENTIMETRES_PER_INCH : value / CENTIMETRES_PER_INCH;
  };
}

function fits(
  promised: number | null,
  finished: number | null,
  bodies: readonly number[],
  unit: Unit,
): boolean {
  if (promised === null || finished === null || bodies.length === 0) return true;
  return bodies.some(
    (body) =>
      roundsTo(promised, finished - body, unit) ||
      roundsTo(promised, rounded(finished, unit) - body, unit),
  );
}
