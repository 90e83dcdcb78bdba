/**
 * The outline of a mitten worked round, laid flat with its thumb at the side: the hand folded, the
 * gusset beside it as it grows, and the thumb on top of the gusset. Takes a source, gives a draft.
 */
import { bandsOf, foldedStrips, sideLine, type Strip } from '../bands.ts';
import { across, beside, type Draft } from '../outline.ts';
import type { Panel } from '../panels.ts';
import type { Point } from '../shape.ts';
import type { OutlineSource } from '../source.ts';
import { given, rangePlace } from './plain.ts';

export function mitten(source: OutlineSource): Draft | undefined {
  const [main, ...others] = source.worked.panels;
  const last = main?.rows.at(-1);
  if (!main || !last) return undefined;
  const thumb = others.find(({ on }) => on?.panel === 0);
  const divided = thumb?.on?.open.after;
  const handRows = main.rows.filter((_, at) => divided === undefined || at >= divided);
  const hand = handRows[0]?.stitches ?? 0;
  // Below the thumb what is more than the hand is the gusset, from the first increase that stays.
  const gussetFrom = divided === undefined ? Infinity : firstOfGusset(main, hand, divided);
  const share = (at: number, stitches: number) =>
    at >= gussetFrom && divided !== undefined && at < divided ? Math.min(stitches, hand) : stitches;
  const strips = foldedStrips(main.rows, 1 / 2, (row) =>
    share(main.rows.indexOf(row), row.stitches),
  );
  const whole = foldedStrips(main.rows, 1 / 2);
  const height = last.high;
  const palm = strips.find(({ low }) => low >= (thumb?.on?.open.y ?? 0));
  if (!palm) return undefined;
  const left = sideLine(strips).map(([x, y]): Point => [-x, y]);
  const right =
    thumb && divided !== undefined ? withThumb(strips, whole, thumb, divided) : sideLine(strips);
  const cuff = strips[0];
  const split = thumb?.on?.open.y ?? height * 0.4;
  const level = split + (height - split) * 0.35;
  const tube = thumb ? tubeOf(thumb, palm.right) : undefined;
  const edge: Point[] = [...right, [0, height], ...left.toReversed()];
  return {
    edge,
    lines: tube
      ? [
          {
            kind: 'edge',
            points: [
              [palm.right, split],
              [palm.right, Math.min(tube.high, split + 0.05)],
            ],
          },
        ]
      : [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      across('hand', { left: palm.left, right: palm.right, y: level }, 'inside', true),
      cuff && across('cuff', { left: cuff.left, right: cuff.right, y: 0 }, 'below', true),
      beside('length', { low: 0, high: height }, 'left', edge),
      ...rangePlace(source, 'cuffDepth', 'left', edge),
      beside('toThumb', { low: 0, high: split }, 'right', edge),
      ...(tube
        ? [
            across(
              'thumb',
              { left: palm.right, right: tube.right, y: split + (tube.high - split) * 0.3 },
              'inside',
              true,
            ),
            beside('thumbLength', { low: split, high: tube.high }, 'right', edge),
          ]
        : []),
      ...rangePlace(source, 'tipDepth', 'right', edge),
    ]),
  };
}

function firstOfGusset({ rows }: Panel, hand: number, divided: number): number {
  let first = divided;
  while (first > 0 && (rows[first - 1]?.stitches ?? 0) > hand) first -= 1;
  return first;
}

interface Tube {
  readonly right: number;
  readonly high: number;
}

/** The thumb stands beside the hand, as wide as half its stitches at their widest. */
function tubeOf({ rows }: Panel, from: number): Tube {
  const [first] = rows;
  const width = first ? first.stitches / first.stitchesPerInch / 2 : 0;
  return { right: from + width, high: rows.at(-1)?.high ?? 0 };
}

/** The right-hand edge: hand, gusset, thumb, and on along the hand. */
function withThumb(
  strips: readonly Strip[],
  whole: readonly Strip[],
  thumb: Panel,
  divided: number,
): Point[] {
  const gusset = strips.slice(0, divided).map((strip, at) => {
    const own = whole[at] ?? strip;
    return { ...strip, right: strip.right + (own.right - strip.right) * 2 };
  });
  const palm = strips[divided]?.right ?? 0;
  const tube = thumb.rows.map((row) => ({ row, half: row.stitches / row.stitchesPerInch / 4 }));
  const middle = palm + (tube[0]?.half ?? 0);
  const right = sideLine(
    tube.map(({ row, half }) => ({
      low: row.low,
      high: row.high,
      right: half,
      left: -half,
      gauge: row.gauge,
      stitch: 1 / row.stitchesPerInch,
    })),
  ).map(([x, y]): Point => [middle + x, y]);
  const left = right.map(([x, y]): Point => [2 * middle - x, y]).toReversed();
  return [...sideLine(gusset), ...right, ...left, ...sideLine(strips.slice(divided))];
}
