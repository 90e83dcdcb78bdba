/**
 * Grade curves: each measurement over the sizes, as it is stated and as the counts give it, with the
 * body it is worn on. Takes the check's view of the pattern and a unit; gives points for a plot and
 * for a table. Draws nothing.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { MeasurementData } from '../../pattern/bundle/schema.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { trueInches } from '../../pattern/checks/derive.ts';
import type { Values } from './derivations.ts';

export type LengthUnit = 'in' | 'cm';

export interface GradeCurve {
  readonly id: string;
  readonly letter: string;
  readonly name: string;
  readonly unit: LengthUnit;
  readonly stated: Values;
  /** Counts and rows through the gauge; null where nothing gives it. */
  readonly exact: Values;
  /** The body measurement under it, where ease is stated over one. */
  readonly body?: { readonly part: string; readonly values: Values };
}

/** One for each measurement; in the other unit where a measurement is stated in that alone. */
export function gradeCurves(context: CheckContext, unit: LengthUnit): readonly GradeCurve[] {
  return context.data.measurements.map((measurement) =>
    curveOf(context, measurement, measurement.size[unit] === undefined ? other(unit) : unit),
  );
}

const other = (unit: LengthUnit): LengthUnit => (unit === 'in' ? 'cm' : 'in');

function curveOf(
  context: CheckContext,
  { id, letter, name, size, from, ease }: MeasurementData,
  unit: LengthUnit,
): GradeCurve {
  const { data } = context;
  const over = (value: (at: number) => number | null | undefined): Values =>
    data.sizes.map((_, at) => value(at) ?? null);
  const scale = unit === 'cm' ? CENTIMETRES_PER_INCH : 1;
  const body = data.body.find(({ part }) => part === ease?.over);
  const values = over((at) => sizedValue(body?.size[unit], at));
  return {
    id,
    letter,
    name: (name.includes('.') ? id : name).replaceAll('-', ' '),
    unit,
    stated: over((at) => sizedValue(size[unit], at)),
    exact: over((at) => {
      const inches = trueInches(context, from, at);
      return typeof inches === 'number' ? inches * scale : null;
    }),
    ...(body && values.some((value) => value !== null) && { body: { part: body.part, values } }),
  };
}
