/**
 * Where a stitch pattern goes round or across a measured width, and the ways it can be made to fit there
 * in every size. Takes what a check sees, gives each place with its ways, best first; nothing here is a
 * finding, for a motif that does not come out even may be meant.
 */
import type { BundleData, GaugeData, MeasurementData } from '../bundle/schema.ts';
import { type Gauge, readBase } from '../grading/gauge.ts';
import { fitMotif, type MotifFit, WIDEST_PANEL } from '../grading/motif.ts';
import type { CheckContext } from './context.ts';
import { trueInches } from './derive.ts';

type PatternData = BundleData['stitchPatterns'][number];

export interface MotifPlace {
  readonly pattern: PatternData;
  readonly measurement: MeasurementData;
  readonly gauge: GaugeData;
  readonly aroundInches: readonly number[];
  readonly ways: readonly MotifFit[];
}

export function motifPlaces(context: CheckContext): readonly MotifPlace[] {
  const { data } = context;
  return data.stitchPatterns.flatMap((pattern) => {
    const gauge = data.gauges.find((each) => each.pattern === pattern.id);
    if (!gauge || pattern.multiple < 2) return [];
    return data.measurements.flatMap((measurement): MotifPlace[] => {
      if (countedBy(context, measurement, gauge) !== 'stitches') return [];
      const around = inchesOf(context, measurement);
      const aroundInches = around.filter((each) => each !== null);
      if (aroundInches.length < around.length) return [];
      const ways = fitMotif({
        motif: { stitches: pattern.multiple, plus: pattern.plus },
        aroundInches,
        gauge: gaugeFrom(gauge),
        seamStitches: pattern.form === 'flat' ? 1 : undefined,
        panel: { min: 1, max: WIDEST_PANEL },
      });
      return [{ pattern, measurement, gauge, aroundInches, ways }];
    });
  });
}

export const gaugeFrom = ({ stitches, rows, over }: GaugeData): Gauge => ({
  stitches,
  rows,
  over: readBase(over),
});

/** By size; null where nothing is counted. */
export const inchesOf = (
  context: CheckContext,
  { from }: MeasurementData,
): readonly (number | null)[] =>
  context.data.sizes.map((_, size) => {
    const inches = trueInches(context, from, size);
    return typeof inches === 'number' ? inches : null;
  });

/** Whether a measurement follows from stitches of this gauge, from its rows, or from neither. */
export function countedBy(
  { data }: CheckContext,
  { from }: MeasurementData,
  gauge: GaugeData,
): 'stitches' | 'rows' | undefined {
  const pieceGauge = (anchor: string) =>
    data.pieces.find(({ id }) => id === anchor.split('/')[0])?.gauge;
  if ('width' in from)
    return (from.gauge ?? pieceGauge(from.width)) === gauge.id ? 'stitches' : undefined;
  if ('stitches' in from) return from.gauge === gauge.id ? 'stitches' : undefined;
  if ('rows' in from) return from.gauge === gauge.id ? 'rows' : undefined;
  return undefined;
}
