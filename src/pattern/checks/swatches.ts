/**
 * A gauge against the readings on its swatch: it is their mean, to the half stitch, and the readings lie
 * close together. A reading that is off by more than a stitch says that the swatch is too small, or was
 * counted at its edge (common practice).
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { averageGauge, readBase, toHalf } from '../grading/gauge.ts';
import type { CheckContext } from './context.ts';
import { unitsOf } from './measurements.ts';

/** Share of the gauge by which a single reading may lie from the mean. */
const SPREAD = 0.05;

export const checkSwatches = (context: CheckContext): readonly Finding[] => [
  ...againstReadings(context),
  ...sizesOfSwatches(context),
];

/** Its width and length are each one length in both units. */
function sizesOfSwatches(context: CheckContext): readonly Finding[] {
  return context.data.gauges.flatMap(({ id, swatch }, at) =>
    (['width', 'length'] as const).flatMap((side) => {
      const size = swatch?.[side];
      const pointer = pointerTo('', 'gauges', at, 'swatch', side);
      return size ? unitsOf(context, `swatch of gauge ${id}: ${side}`, size, pointer) : [];
    }),
  );
}

function againstReadings({ data }: CheckContext): readonly Finding[] {
  return data.gauges.flatMap(({ id, swatch, stitches, rows, over }, at) => {
    const [first, ...others] = swatch?.readings ?? [];
    if (!first) return [];
    const base = readBase(over);
    const mean = averageGauge([
      { ...first, over: base },
      ...others.map((each) => ({ ...each, over: base })),
    ]);
    const found: Finding[] = [];
    const place = (key: string) => ({
      file: 'pattern.json',
      pointer: pointerTo('', 'gauges', at, key),
      label: `Gauge ${id}`,
    });
    const counted = [mean.gauge.stitches, mean.gauge.rows] as const;
    const agrees = (one: number, other: number) =>
      toHalf(one) === other || Math.abs(one - other) < 0.01;
    if (!agrees(counted[0], stitches) || !agrees(counted[1], rows)) {
      const facts = {
        gauge: id,
        readings: others.length + 1,
        counted,
        stated: [stitches, rows],
        over,
      };
      found.push(finding('grade/gauge', place('stitches'), facts));
    }
    if (mean.spreadStitches > stitches * SPREAD || mean.spreadRows > rows * SPREAD) {
      const { spreadStitches, spreadRows } = mean;
      const facts = { gauge: id, stitches: spreadStitches, rows: spreadRows, over };
      found.push(finding('grade/spread', place('swatch'), facts));
    }
    return found;
  });
}
