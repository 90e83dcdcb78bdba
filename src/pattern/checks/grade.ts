/**
 * Is the grade smooth? A measurement that falls as the size grows, or a step more than twice its
 * neighbours, is almost always a slip (common practice). Steps that differ by less than rounding can
 * explain are let pass.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { remarkOnGrade } from '../grading/body.ts';
import { checkBody } from './body.ts';
import { type CheckContext, numberOf, type Numbers, numbersAt, placeOfNumber } from './context.ts';
import { checkMeasurements, measurementSay, named } from './measurements.ts';
import type { Unit } from './rounding.ts';

/** Two roundings, each to the nearest ¼ in or ½ cm, may make a step look this much longer. */
const ROUNDING: Readonly<Record<Unit, number>> = { in: 0.5, cm: 1.25 };

export function checkGrade(context: CheckContext): readonly Finding[] {
  const { body, measurements } = context.data;
  // A number that is wrong in itself is blamed once; of course it does not grow smoothly.
  const wrong = new Set([...checkMeasurements(context), ...checkBody(context)].map(placeKey));
  const remarks = [
    ...measurements.flatMap((measurement, at) =>
      gradeOf(
        context,
        measurementSay(measurement),
        measurement.size,
        pointerTo('', 'measurements', at, 'size'),
      ),
    ),
    ...body.flatMap(({ part, size }, at) =>
      gradeOf(context, `body measurement ${part}`, size, pointerTo('', 'body', at, 'size')),
    ),
  ];
  return remarks.filter((remark) => !wrong.has(placeKey(remark)));
}

/** The measurement a finding is about, whichever unit it stands in. */
const placeKey = ({ where }: Finding): string => where.pointer.replace(/\/(in|cm)(\/\d+)?$/, '');

type Length = CheckContext['data']['measurements'][number]['size'];

/** One unit is enough: the other is held to it by another check. */
function gradeOf(
  context: CheckContext,
  name: string,
  length: Length,
  pointer: string,
): readonly Finding[] {
  const unit: Unit = length.in === undefined ? 'cm' : 'in';
  const numbers = numbersAt(length[unit], pointerTo(pointer, unit));
  if (!numbers) return [];
  const sizes = context.pattern.sizes.map((_, size) => size);
  const known = sizes.filter((size) => numberOf(numbers, size) !== null);
  const values = known.map((size) => numberOf(numbers, size) ?? 0);
  const remarks = remarkOnGrade(values).filter(
    (remark) => remark.kind === 'falls' || remark.step - 2 * remark.usual > ROUNDING[unit],
  );
  return remarks.map((remark) =>
    remarkFinding(context, name, unit, numbers, known[remark.at] ?? 0, remark),
  );
}

function remarkFinding(
  context: CheckContext,
  name: string,
  unit: Unit,
  numbers: Numbers,
  size: number,
  remark: ReturnType<typeof remarkOnGrade>[number],
): Finding {
  const values = context.pattern.sizes.map((_, each) => numberOf(numbers, each));
  const facts = { name, unit, sizes: context.pattern.sizes, affected: [size], values };
  const where = placeOfNumber(numbers, [size]);
  const more = { sizes: named(context, [size]) };
  if (remark.kind === 'falls') return finding('measure/falls', where, facts, more);
  const { step, usual } = remark;
  return finding('measure/jumps', where, { ...facts, step, usual }, more);
}
