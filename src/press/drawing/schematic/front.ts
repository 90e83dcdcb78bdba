/**
 * Outline of one front of two, as of a cardigan: armhole at the left, front edge at the right, the
 * neck slanting from the front edge to the shoulder. Where along the width the shoulder stands is not
 * measured and drawn for the eye.
 */
import type { PathStep } from '../drawing.ts';
import { given, within, type Lengths, type Outline } from './outline.ts';
import { borderAtFoot } from './plain.ts';

/** Of what the shoulder leaves of the width, this share lies under the arm, the rest at the neck. */
const ARMHOLE_SHARE = 0.32;

/** A front without a neck width, but with one shoulder and a neck depth, is one of two. */
export const isHalfFront = (lengths: Lengths): boolean =>
  lengths['neck'] === undefined &&
  lengths['shoulder'] !== undefined &&
  lengths['neckDepth'] !== undefined;

export function halfFront(lengths: Lengths): Outline {
  const width = lengths['width'] ?? 1;
  const length = lengths['length'] ?? width * 2;
  const shoulder = within(lengths['shoulder'] ?? width / 2, 0, width);
  const armhole = within(lengths['armhole'] ?? length - (lengths['sideLength'] ?? length), 0, length); // prettier-ignore
  const neckDepth = within(lengths['neckDepth'] ?? 0, 0, length * 0.95);
  const drop = within(lengths['shoulderDrop'] ?? 0, 0, armhole / 2);
  const hemDepth = within(lengths['hemDepth'] ?? 0, 0, length - armhole);
  const tip = (width - shoulder) * (armhole > 0 ? ARMHOLE_SHARE : 0);
  const neckPoint = tip + shoulder;
  const curveTop = armhole - Math.min(armhole * 0.5, tip * 1.6);
  const arm: PathStep[] = tip > 0.01 ? [['L', tip * 0.4, armhole], ['C', tip * 0.75, armhole, tip, armhole - (armhole - curveTop) * 0.35, tip, curveTop]] : []; // prettier-ignore
  return {
    widthInches: width,
    heightInches: length,
    steps: [
      ['M', 0, length],
      ['L', 0, armhole],
      ...arm,
      ['L', tip, drop],
      ['L', neckPoint, 0],
      ['L', width, neckDepth],
      ['L', width, length],
      ['Z'],
    ],
    details: [],
    borders: borderAtFoot(hemDepth, length - armhole, [0, width], [0, width], armhole),
    dimensions: given(lengths, [
      { role: 'width', from: [0, length], to: [width, length], side: 'below' },
      { role: 'length', from: [neckPoint, 0], to: [width, length], side: 'right' },
      { role: 'neckDepth', from: [neckPoint, 0], to: [width, neckDepth], side: 'right' },
      { role: 'shoulder', from: [tip, drop], to: [neckPoint, 0], side: 'above' },
      { role: 'armhole', from: [tip, 0], to: [0, armhole], side: 'left' },
      { role: 'sideLength', from: [0, armhole], to: [0, length], side: 'left' },
      { role: 'hemDepth', from: [0, length - hemDepth], to: [0, length], side: 'left' },
      { role: 'shoulderDrop', from: [neckPoint, 0], to: [tip, drop], side: 'left' },
    ]),
  };
}
