/**
 * Is the grade sensible beside the body? Body measurements said to come from a published table lie in
 * it, and the room a garment leaves does not turn from too large to too small, or leap, between two
 * sizes. A designer's own table is as good as a published one: it is compared with nothing.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { bodyValue } from '../grading/body.ts';
import {
  type CheckContext,
  numberOf,
  type Numbers,
  numbersAt,
  placeOfNumber,
  valuesOf,
} from './context.ts';
import { measurementSay, named } from './measurements.ts';
import { inUnit, type Unit } from './rounding.ts';

export const checkGradeRules = (context: CheckContext): readonly Finding[] => [
  ...againstTables(context),
  ...roomOverBody(context),
];

// ---------------------------------------------------------------- published tables

/** Printed tables are rounded to the quarter inch and the half centimetre. */
const ROUNDING: Readonly<Record<Unit, number>> = { in: 0.25, cm: 0.75 };

function againstTables(context: CheckContext): readonly Finding[] {
  return context.data.body.flatMap(({ part, size: length, table }, at) => {
    if (!table) return [];
    const unit: Unit = length.in === undefined ? 'cm' : 'in';
    const stated = numbersAt(length[unit], pointerTo('', 'body', at, 'size', unit));
    if (!stated) return [];
    const bound = (size: number, end: 'fromInches' | 'toInches') => {
      const value = bodyValue(table, context.pattern.sizes[size] ?? '', part);
      return value ? inUnit(value[end], unit) : null;
    };
    const affected = context.sizes.filter((size) => {
      const [value, from, to] = [numberOf(stated, size), bound(size, 'fromInches'), bound(size, 'toInches')]; // prettier-ignore
      if (value === null || from === null || to === null) return false;
      return value < from - ROUNDING[unit] || value > to + ROUNDING[unit];
    });
    if (affected.length === 0) return [];
    const facts = {
      name: `body measurement ${part}`,
      unit,
      sizes: context.pattern.sizes,
      affected,
      group: table,
      values: valuesOf(context, (size) => numberOf(stated, size)),
      from: valuesOf(context, (size) => bound(size, 'fromInches')),
      to: valuesOf(context, (size) => bound(size, 'toInches')),
    };
    const where = placeOfNumber(stated, affected, `Body: ${part}`);
    return [finding('grade/table', where, facts, { sizes: named(context, affected) })];
  });
}

// ---------------------------------------------------------------- room over the body

/** Measurements by their known name, and the part of the body they go round. */
const WORN_OVER: Readonly<Record<string, string>> = {
  bust: 'bust',
  chest: 'chest',
  waist: 'waist',
  hip: 'hip',
  'upper-arm': 'upperArm',
  wrist: 'wrist',
  'hand-circumference': 'hand',
  'foot-circumference': 'foot',
};

/** A step of the room by more than this is felt; less than `NOTHING` is no room and no lack of it. */
const LEAP: Readonly<Record<Unit, number>> = { in: 1.75, cm: 4.5 };
const NOTHING: Readonly<Record<Unit, number>> = { in: 0.25, cm: 0.5 };

function roomOverBody(context: CheckContext): readonly Finding[] {
  const { body, measurements } = context.data;
  return measurements.flatMap((measurement, at) => {
    const part = measurement.ease?.over ?? WORN_OVER[measurement.name];
    const worn = body.find((each) => each.part === part);
    if (!worn || part === undefined) return [];
    const unit: Unit =
      measurement.size.in === undefined || worn.size.in === undefined ? 'cm' : 'in';
    const finished = numbersAt(measurement.size[unit], pointerTo('', 'measurements', at, 'size', unit)); // prettier-ignore
    const under = numbersAt(worn.size[unit], '');
    if (!finished || !under) return [];
    const room = (size: number): number | null => {
      const [outer, inner] = [numberOf(finished, size), numberOf(under, size)];
      return outer === null || inner === null ? null : outer - inner;
    };
    const name = measurementSay(measurement);
    return context.sizes
      .filter((size) => size > 0 && turnsOrLeaps(room(size - 1), room(size), unit))
      .map((size) => roomFinding(context, name, part, unit, finished, room, size));
  });
}

function turnsOrLeaps(before: number | null, here: number | null, unit: Unit): boolean {
  if (before === null || here === null) return false;
  const turns = Math.min(before, here) < -NOTHING[unit] && Math.max(before, here) > NOTHING[unit];
  return turns || Math.abs(here - before) > LEAP[unit];
}

function roomFinding(
  context: CheckContext,
  name: string,
  part: string,
  unit: Unit,
  finished: Numbers,
  room: (size: number) => number | null,
  size: number,
): Finding {
  const facts = {
    name,
    unit,
    sizes: context.pattern.sizes,
    affected: [size],
    part,
    ease: valuesOf(context, room),
  };
  const where = placeOfNumber(finished, [size]);
  return finding('grade/ease', where, facts, { sizes: named(context, [size]) });
}
