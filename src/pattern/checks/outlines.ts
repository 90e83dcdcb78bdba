/**
 * Stated measurements against the outlines that the worked rows make: what the drawing calls the width
 * must be as wide as it says there. A measurement whose own counts are wrong is told elsewhere; here it
 * is one that is right in itself and stands at the wrong place of the drawing, or follows from nothing.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { MeasurementData } from '../bundle/schema.ts';
import { measuredOutline, type SchematicEntry } from '../outlines/index.ts';
import { type CheckContext, numberOf, numbersAt, placeOfNumber, valuesOf } from './context.ts';
import { trueInches } from './derive.ts';
import { measurementSay, named } from './measurements.ts';
import { inUnit, roundsTo, type Unit } from './rounding.ts';

export function checkOutlines(context: CheckContext): readonly Finding[] {
  return context.data.schematic.flatMap((entry) => {
    const drawn = drawnLengths(context, entry);
    return Object.entries(entry.measurements).flatMap(([role, id]) => {
      const at = context.data.measurements.findIndex((each) => each.id === id);
      const measurement = context.data.measurements[at];
      return measurement ? compare(context, measurement, at, (size) => drawn[size]?.get(role)) : [];
    });
  });
}

interface Drawn {
  readonly inches: number;
  /** A row, a stitch, or a fiftieth: how exactly a place can be found on the drawing. */
  readonly slackInches: number;
}

/** By size: the length at every role that the rows of this piece give. */
function drawnLengths(context: CheckContext, entry: SchematicEntry) {
  const checked = { pattern: context.pattern, pieces: context.pieces, findings: [] };
  return context.pattern.sizes.map((_, size): ReadonlyMap<string, Drawn> => {
    const outline = context.sizes.includes(size) && measuredOutline(checked, entry, size);
    if (!outline) return new Map();
    const { source, places } = outline;
    const row = source.worked.panels[0]?.rows[0];
    return new Map(
      places
        .filter(({ elsewhere }) => !elsewhere)
        .map(({ role, inches, from, to }) => {
          const level = Math.abs(from[1] - to[1]) < Math.abs(from[0] - to[0]);
          const step = level ? (row?.stitchesPerInch ?? 1) : (row?.rowsPerInch ?? 1);
          const less = level ? source.lessInches(role) : 0;
          return [role, { inches: inches - less, slackInches: Math.max(1.6 / step, inches / 50) }];
        }),
    );
  });
}

function compare(
  context: CheckContext,
  measurement: MeasurementData,
  at: number,
  drawn: (size: number) => Drawn | undefined,
): readonly Finding[] {
  if ('sum' in measurement.from) return [];
  const unit: Unit = measurement.size.in === undefined ? 'cm' : 'in';
  const stated = numbersAt(measurement.size[unit], pointerTo('', 'measurements', at, 'size', unit));
  if (!stated) return [];
  const affected = context.sizes.filter((size) => {
    const here = drawn(size);
    const value = numberOf(stated, size);
    return (
      here !== undefined && value !== null && !agrees(context, measurement, size, here, value, unit)
    );
  });
  if (affected.length === 0) return [];
  const facts = {
    name: measurementSay(measurement),
    unit,
    sizes: context.pattern.sizes,
    affected,
    drawn: valuesOf(context, (size) => {
      const inches = drawn(size)?.inches;
      return inches === undefined ? null : inUnit(inches, unit);
    }),
    stated: valuesOf(context, (size) => numberOf(stated, size)),
  };
  const where = placeOfNumber(stated, affected, `Measurement ${measurement.letter}`);
  return [finding('grade/outline', where, facts, { sizes: named(context, affected) })];
}

function agrees(
  context: CheckContext,
  { from }: MeasurementData,
  size: number,
  { inches, slackInches }: Drawn,
  stated: number,
  unit: Unit,
): boolean {
  if (roundsTo(stated, inUnit(inches, unit), unit)) return true;
  const exact = 'given' in from ? stated / inUnit(1, unit) : trueInches(context, from, size);
  return typeof exact !== 'number' || Math.abs(exact - inches) <= slackInches;
}
