/**
 * Outlines of plain pieces from their rows: rectangle and trapezoid, flat or round, and the hat and the
 * circular yoke, which are worked round and drawn folded. Each takes a source and gives a draft.
 */
import { bandsOf, flatStrips, foldedStrips, type Strip, symmetricEdge, widest } from '../bands.ts';
import { heightOf, isWorkedFromTop } from '../direction.ts';
import { across, beside, type Draft, type MeasuredPlace, turnedOver } from '../outline.ts';
import type { Point } from '../shape.ts';
import type { OutlineSource } from '../source.ts';
import { outlineOfPanels } from '../trace.ts';

const levelOf = ({ left, right }: Strip, y: number) => ({ left, right, y });

/**
 * A place by the rows between two lines. Where it follows from another piece it is placed as long as it
 * is stated, from the height `from` upwards.
 */
export function rangePlace(
  source: OutlineSource,
  role: string,
  side: 'left' | 'right',
  edge: readonly Point[],
  from?: number,
): readonly MeasuredPlace[] {
  const range = source.range(role);
  if (range) return [beside(role, range, side, edge)];
  const stated = source.stated(role);
  if (from === undefined || stated === undefined) return [];
  const place = beside(role, { low: from, high: from + stated }, side, edge);
  return [{ ...place, elsewhere: true }];
}

export const given = (
  source: OutlineSource,
  places: readonly (MeasuredPlace | undefined)[],
): MeasuredPlace[] =>
  places.filter((place): place is MeasuredPlace => place !== undefined && source.has(place.role));

export function rectangle(source: OutlineSource): Draft | undefined {
  return upright(source, 'width', undefined);
}

export function trapezoid(source: OutlineSource): Draft | undefined {
  return upright(source, 'bottom', 'top');
}

function upright(source: OutlineSource, bottomRole: string, topRole: string | undefined) {
  const [panel] = source.worked.panels;
  if (!panel || panel.gapped) return undefined;
  const round = source.trace.piece.data.form === 'round';
  const strips = round ? foldedStrips(panel.rows, 1 / 2) : flatStrips(panel.rows);
  const [bottom, top, wide] = [strips[0], strips.at(-1), widest(strips)];
  if (!bottom || !top || !wide) return undefined;
  const height = heightOf(source);
  const measured = topRole === undefined ? wide : bottom;
  const edge = round ? symmetricEdge(strips) : outlineOfPanels(source.worked.panels);
  const draft: Draft = {
    edge,
    lines: [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      across(bottomRole, levelOf(measured, 0), 'below'),
      topRole === undefined ? undefined : across(topRole, levelOf(top, height), 'above'),
      beside('length', { low: 0, high: height }, 'right', edge),
      ...rangePlace(source, 'hemDepth', 'left', edge),
    ]),
  };
  const ends = { lower: ['hemDepth', 'bottom'], upper: ['top'] };
  return isWorkedFromTop(source, ends, false) ? turnedOver(draft) : draft;
}

// ---------------------------------------------------------------- worked round, drawn folded

export function hat(source: OutlineSource): Draft | undefined {
  const [panel] = source.worked.panels;
  const strips = panel ? foldedStrips(panel.rows, 1 / 2) : [];
  const [first, last] = [strips[0], strips.at(-1)];
  if (!first || !last) return undefined;
  const ends = { lower: ['brimDepth', 'brim'], upper: ['crownDepth'] };
  const fromTop = isWorkedFromTop(source, ends, first.right < last.right / 2);
  const [brim, crown] = fromTop ? [last, first] : [first, last];
  const wide = widest(strips.filter(({ gauge }) => gauge === source.ownGauge)) ?? brim;
  const height = heightOf(source);
  const [foot, top] = fromTop ? [height, 0] : [0, height];
  // The last stitches are drawn together in the middle of the crown.
  const edge = symmetricEdge(strips);
  const closed = edge.flatMap(([x, y], at): Draft['edge'][number][] => {
    const drawn = Math.abs(y - top) < 1e-9 && Math.abs(crown.right) < wide.right / 2;
    return drawn && at === edge.findIndex((point) => point[1] === y) ? [[x, y], [0, y]] : [[x, y]]; // prettier-ignore
  });
  const level = height * (fromTop ? 0.6 : 0.4);
  const draft: Draft = {
    edge: closed,
    lines: [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      source.has('brim')
        ? across('circumference', levelOf(wide, level), 'inside', true)
        : across('circumference', levelOf(wide, foot), fromTop ? 'above' : 'below', true),
      across('brim', levelOf(brim, foot), fromTop ? 'above' : 'below', true),
      beside('height', { low: 0, high: height }, 'right', closed),
      ...rangePlace(source, 'brimDepth', 'left', closed),
      ...rangePlace(source, 'crownDepth', 'left', closed),
    ]),
  };
  return fromTop ? turnedOver(draft) : draft;
}

/** A circular yoke: the rows between the line where it is joined and its neck edge. */
export function yoke(source: OutlineSource): Draft | undefined {
  const range = source.range('depth') ?? { low: 0, high: heightOf(source) };
  const rows = source.worked.panels
    .flatMap((panel) => panel.rows)
    .filter(
      ({ low, high, short }) => !short && low >= range.low - 1e-6 && high <= range.high + 1e-6,
    );
  const strips = foldedStrips(rows, 1 / 2);
  const [first, last] = [strips[0], strips.at(-1)];
  if (!first || !last) return undefined;
  const fromTop = first.right < last.right;
  const [bottom, neck] = fromTop ? [last, first] : [first, last];
  const [foot, top] = fromTop ? [range.high, range.low] : [range.low, range.high];
  const edge = symmetricEdge(strips);
  const draft: Draft = {
    edge,
    lines: [],
    bands: [],
    places: given(source, [
      across('neck', levelOf(neck, top), fromTop ? 'below' : 'above', true),
      across('bottom', levelOf(bottom, foot), fromTop ? 'above' : 'below', true),
      beside('depth', range, 'right', edge),
      ...rangePlace(source, 'neckband', 'left', edge),
    ]),
  };
  return fromTop ? turnedOver(draft) : draft;
}
