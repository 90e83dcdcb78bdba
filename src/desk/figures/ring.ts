/**
 * A motif round the body in one size, seen from above with the front below: repeats as fields in turn
 * filled and open, side panels hatched by lines, balancing stitches left bare, the side seams as short
 * strokes, the middle of the front as a point. Every stitch has its share of the round.
 */
import type { FittedSize, Motif } from '../../pattern/grading/motif.ts';
import { figure, shape, words } from './svg.ts';

const SIDE = 132;
const CENTRE = SIDE / 2;
const OUTER = 52;
const INNER = 38;

interface Field {
  readonly kind: 'repeat' | 'other' | 'panel' | 'bare';
  /** Stitches from the right-hand side of the front, which stands at the left of the drawing. */
  readonly from: number;
  readonly to: number;
}

export function motifRing(size: FittedSize, motif: Motif, name: string, said: string): string {
  const { stitches } = size;
  const angle = (stitch: number) => Math.PI - (stitch / stitches) * 2 * Math.PI;
  const fields = fieldsOf(size, motif).flatMap(({ kind, from, to }) => [
    shape('path', { class: kind, d: wedge(angle(from), angle(to)) }),
    ...(kind === 'panel' ? [hatching(angle, from, to)] : []),
  ]);
  const seams = [0, stitches / 2].map((at) => shape('path', { class: 'seam', d: ray(angle(at), OUTER + 2, OUTER + 9) })); // prettier-ignore
  const front = shape('path', {
    class: 'front',
    d: `M${CENTRE} ${CENTRE + OUTER + 3}l-4 7h8z`,
  });
  const label = words({ class: 'name', x: CENTRE, y: CENTRE + 6, 'text-anchor': 'middle' }, name);
  return figure({ width: SIDE, height: SIDE, kind: 'round' }, [...fields, ...seams, front, label], said); // prettier-ignore
}

/** Front first, then back, each half alike; a motif cut by the seams is drawn across them. */
function fieldsOf({ repeats, panel, cut, stitches }: FittedSize, motif: Motif): readonly Field[] {
  if (cut > 0) return acrossSeams(repeats, motif.stitches, stitches);
  const bare = (stitches - repeats * motif.stitches - 2 * panel) / 2;
  const fields: Field[] = [];
  let at = 0;
  const put = (kind: Field['kind'], count: number) => {
    if (count > 0) fields.push({ kind, from: at, to: at + count });
    at += count;
  };
  // Whole repeats in the round need not be an even number; then the last one reaches over the side.
  const halves = repeats % 2 === 0 ? [repeats / 2, repeats / 2] : [repeats];
  for (const count of halves) {
    put('panel', panel / 2);
    for (let each = 0; each < count; each += 1) put(each % 2 === 0 ? 'repeat' : 'other', motif.stitches); // prettier-ignore
    put('bare', halves.length === 2 ? bare : 2 * bare);
    put('panel', panel / 2);
  }
  return fields;
}

/** Centred on the middle of the front, a quarter of the round from the side. */
function acrossSeams(repeats: number, width: number, stitches: number): readonly Field[] {
  const start = stitches / 4 - width / 2;
  return Array.from({ length: repeats }, (_, at) => ({
    kind: at % 2 === 0 ? ('repeat' as const) : ('other' as const),
    from: start + at * width,
    to: start + (at + 1) * width,
  }));
}

const point = (angle: number, radius: number): string =>
  `${fixed(CENTRE + radius * Math.cos(angle))} ${fixed(CENTRE + radius * Math.sin(angle))}`;

/** Angles fall from one to the other: the front is walked below, from left to right. */
function wedge(from: number, to: number): string {
  const large = from - to > Math.PI ? 1 : 0;
  const outer = `A${OUTER} ${OUTER} 0 ${large} 0 ${point(to, OUTER)}`;
  const inner = `A${INNER} ${INNER} 0 ${large} 1 ${point(from, INNER)}`;
  return `M${point(from, OUTER)}${outer}L${point(to, INNER)}${inner}Z`;
}

const ray = (angle: number, from: number, to: number): string =>
  `M${point(angle, from)}L${point(angle, to)}`;

/** One line for each stitch of a panel. */
function hatching(angle: (stitch: number) => number, from: number, to: number): string {
  const lines: string[] = [];
  for (let at = from + 0.5; at < to; at += 1) lines.push(ray(angle(at), INNER + 2, OUTER - 2));
  return lines.length === 0 ? '' : shape('path', { class: 'hatch', d: lines.join('') });
}

const fixed = (value: number): string => String(Math.round(value * 100) / 100);
