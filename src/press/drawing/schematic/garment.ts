/**
 * Outlines of a sleeve, with or without a cap, and of a circular yoke. Curves between measured points
 * are drawn for the eye; every measured point is where its measurement says.
 */
import type { PathStep } from '../drawing.ts';
import { given, within, type Lengths, type Outline } from './outline.ts';
import { borderAtFoot } from './plain.ts';

export function sleeve(lengths: Lengths): Outline {
  const cuff = lengths['cuff'] ?? 1;
  const upperArm = lengths['upperArm'] ?? cuff;
  const length = lengths['length'] ?? 1;
  const cap = Math.max(0, lengths['capDepth'] ?? 0);
  const wide = Math.max(cuff, upperArm);
  const capTop = within(lengths['capTop'] ?? upperArm * 0.3, 0, upperArm);
  const cuffDepth = within(lengths['cuffDepth'] ?? 0, 0, length);
  const [foot, arm, top] = [(wide - cuff) / 2, (wide - upperArm) / 2, (wide - capTop) / 2];
  const end = length + cap;
  const rise = top - arm;
  const capLeft: PathStep[] = cap > 0 ? [['L', arm + rise * 0.12, cap], ['C', arm + rise * 0.5, cap * 0.72, arm + rise * 0.45, cap * 0.1, top, 0]] : []; // prettier-ignore
  const capRight: PathStep[] = cap > 0 ? [['L', wide - top, 0], ['C', wide - arm - rise * 0.45, cap * 0.1, wide - arm - rise * 0.5, cap * 0.72, wide - arm - rise * 0.12, cap]] : []; // prettier-ignore
  const borders = borderAtFoot(cuffDepth, length, [foot, wide - foot], [arm, wide - arm], cap);
  return {
    widthInches: wide,
    heightInches: end,
    steps: [['M', foot, end], ['L', arm, cap], ...capLeft, ...capRight, ['L', wide - arm, cap], ['L', wide - foot, end], ['Z']], // prettier-ignore
    details: [],
    borders,
    dimensions: given(lengths, [
      { role: 'cuff', from: [foot, end], to: [wide - foot, end], side: 'below' },
      cap > 0
        ? {
            role: 'upperArm',
            from: [arm, cap + 0.35],
            to: [wide - arm, cap + 0.35],
            side: 'inside',
          }
        : { role: 'upperArm', from: [arm, 0], to: [wide - arm, 0], side: 'above' },
      { role: 'length', from: [wide - arm, cap], to: [wide - foot, end], side: 'right' },
      { role: 'cuffDepth', from: [foot, end - cuffDepth], to: [foot, end], side: 'left' },
      { role: 'capDepth', from: [wide - top, 0], to: [wide - arm, cap], side: 'right' },
      { role: 'capTop', from: [top, 0], to: [wide - top, 0], side: 'above' },
    ]),
  };
}

/** A circular yoke, folded: neck above, lower edge below, both curved as they hang. */
export function yoke(lengths: Lengths): Outline {
  const neck = (lengths['neck'] ?? 1) / 2;
  const bottom = (lengths['bottom'] ?? 2) / 2;
  const depth = lengths['depth'] ?? 1;
  const wide = Math.max(neck, bottom);
  const [neckLeft, foot] = [(wide - neck) / 2, (wide - bottom) / 2];
  const dip = neck * 0.12;
  const band = within(lengths['neckband'] ?? 0, 0, depth);
  const share = band / depth;
  const at = neckLeft + (foot - neckLeft) * share;
  const bandLine: PathStep[] = [['M', at, band], ['C', at + neck * 0.25, band + dip, wide - at - neck * 0.25, band + dip, wide - at, band]]; // prettier-ignore
  return {
    widthInches: wide,
    heightInches: depth,
    steps: [['M', foot, depth], ['L', neckLeft, 0], ['C', neckLeft + neck * 0.25, dip, wide - neckLeft - neck * 0.25, dip, wide - neckLeft, 0], ['L', wide - foot, depth], ['Z']], // prettier-ignore
    details: band > 0 ? [{ kind: 'edge', steps: bandLine }] : [],
    borders: [],
    dimensions: given(lengths, [
      { role: 'neck', from: [neckLeft, 0], to: [wide - neckLeft, 0], side: 'above', around: true },
      {
        role: 'bottom',
        from: [foot, depth],
        to: [wide - foot, depth],
        side: 'below',
        around: true,
      },
      { role: 'depth', from: [wide - neckLeft, 0], to: [wide - foot, depth], side: 'right' },
      { role: 'neckband', from: [neckLeft, 0], to: [at, band], side: 'left' },
    ]),
  };
}
