/**
 * Outlines of garment pieces: body (flat piece, or the whole body folded), sleeve with or without a
 * cap, and circular yoke. Curves between measured points are drawn for the eye; every measured point
 * is where its measurement says.
 */
import type { PathStep } from '../drawing.ts';
import { openPath, type Point } from '../path.ts';
import {
  given,
  within,
  type Detail,
  type Dimension,
  type Lengths,
  type Outline,
} from './outline.ts';
import { borderAtFoot } from './plain.ts';

/** A back neck without a stated depth is drawn this deep, as a share of its width. */
const SHALLOW_NECK = 0.09;

interface BodyPlan {
  readonly width: number;
  readonly hem: number;
  readonly length: number;
  readonly crossBack: number;
  readonly underarm: number; // y
  readonly drop: number;
  readonly neck: number;
  readonly neckDepth: number;
  /** 0 where only one neck line is shown. */
  readonly backNeckDepth: number;
}

function planBody(lengths: Lengths, width: number, hem: number): BodyPlan {
  const length = lengths['length'] ?? width;
  const neck = within(lengths['neck'] ?? 0, 0, width);
  const shoulder = lengths['shoulder'];
  const fromShoulders = shoulder !== undefined && neck > 0 ? neck + 2 * shoulder : width;
  const crossBack = within(lengths['crossBack'] ?? fromShoulders, neck, width);
  const fromSide = length - (lengths['sideLength'] ?? length);
  const armhole = within(lengths['armhole'] ?? fromSide, 0, length);
  return {
    width,
    hem,
    length,
    crossBack,
    underarm: armhole,
    drop: within(lengths['shoulderDrop'] ?? 0, 0, armhole > 0 ? armhole / 2 : length / 4),
    neck,
    neckDepth: within(lengths['neckDepth'] ?? neck * SHALLOW_NECK, 0, length * 0.8),
    backNeckDepth: within(lengths['backNeckDepth'] ?? 0, 0, length * 0.8),
  };
}

/** From shoulder point to shoulder point: down steeply, flat in the middle, up again. */
function neckCurve(left: number, right: number, depth: number): PathStep[] {
  const width = right - left;
  const flat = width * 0.2;
  const middle = (left + right) / 2;
  return [
    ['C', left + width * 0.03, depth * 0.62, left + width * 0.16, depth, middle - flat / 2, depth],
    ['L', middle + flat / 2, depth],
    ['C', right - width * 0.16, depth, right - width * 0.03, depth * 0.62, right, 0],
  ];
}

/** Left edge from the lower edge up to the shoulder tip; the right one is its mirror. */
function bodySteps(plan: BodyPlan): PathStep[] {
  const { width, hem, length, crossBack, underarm, drop, neck, neckDepth } = plan;
  const wide = Math.max(width, hem);
  const [foot, chest, tip] = [(wide - hem) / 2, (wide - width) / 2, (wide - crossBack) / 2];
  const [neckLeft, neckRight] = [(wide - neck) / 2, (wide + neck) / 2];
  const inset = tip - chest;
  const curveTop = underarm - Math.min(underarm * 0.5, inset * 1.6);
  const left: PathStep[] = openPath([foot, length], [chest, underarm]);
  const rightDown: PathStep[] = [['L', wide - chest, underarm], ['L', wide - foot, length], ['Z']];
  const armLeft: PathStep[] = inset > 0.01 ? [['L', chest + inset * 0.4, underarm], ['C', chest + inset * 0.75, underarm, tip, underarm - (underarm - curveTop) * 0.35, tip, curveTop]] : []; // prettier-ignore
  const armRight: PathStep[] = inset > 0.01 ? [['L', wide - tip, curveTop], ['C', wide - tip, underarm - (underarm - curveTop) * 0.35, wide - chest - inset * 0.75, underarm, wide - chest - inset * 0.4, underarm]] : []; // prettier-ignore
  const top: PathStep[] =
    neck > 0 ? [['L', neckLeft, 0], ...neckCurve(neckLeft, neckRight, neckDepth)] : [];
  return [...left, ...armLeft, ['L', tip, drop], ...top, ['L', wide - tip, drop], ...armRight, ...rightDown]; // prettier-ignore
}

function bodyDimensions(plan: BodyPlan, hemDepth: number, widthRole: string, around: boolean) {
  const { width, hem, length, crossBack, underarm, drop, neck, neckDepth, backNeckDepth } = plan;
  const wide = Math.max(width, hem);
  const [foot, chest, tip] = [(wide - hem) / 2, (wide - width) / 2, (wide - crossBack) / 2];
  const [neckLeft, neckRight] = [(wide - neck) / 2, (wide + neck) / 2];
  const backNeckAt = wide / 2 + neck * 0.2;
  const level = underarm > 0 ? underarm + (length - underarm) * 0.25 : length * 0.5;
  const widest: Dimension =
    hem === width
      ? { role: widthRole, from: [chest, length], to: [wide - chest, length], side: 'below', around } // prettier-ignore
      : { role: widthRole, from: [chest, level], to: [wide - chest, level], side: 'inside', around }; // prettier-ignore
  const dimensions: Dimension[] = [
    widest,
    { role: 'hem', from: [foot, length], to: [wide - foot, length], side: 'below', around },
    { role: 'length', from: [neckRight, 0], to: [wide - foot, length], side: 'right' },
    { role: 'sideLength', from: [chest, underarm], to: [foot, length], side: 'left' },
    { role: 'hemDepth', from: [foot, length - hemDepth], to: [foot, length], side: 'left' },
    { role: 'armhole', from: [neckLeft, 0], to: [chest, underarm], side: 'left' },
    { role: 'crossBack', from: [tip, drop], to: [wide - tip, drop], side: 'above' },
    { role: 'neck', from: [neckLeft, 0], to: [neckRight, 0], side: 'above' },
    { role: 'shoulder', from: [neckRight, 0], to: [wide - tip, drop], side: 'above' },
    { role: 'neckDepth', from: [wide / 2, 0], to: [wide / 2, neckDepth], side: 'inside' },
    {
      role: 'backNeckDepth',
      from: [backNeckAt, 0],
      to: [backNeckAt, backNeckDepth],
      side: 'inside',
    },
    { role: 'shoulderDrop', from: [neckRight, 0], to: [wide - tip, drop], side: 'right' },
  ];
  return dimensions;
}

function bodyFrom(
  lengths: Lengths,
  width: number,
  hem: number,
  widthRole: string,
  around: boolean,
) {
  const plan = planBody(lengths, width, hem);
  const wide = Math.max(width, hem);
  const hemDepth = within(lengths['hemDepth'] ?? 0, 0, plan.length - plan.underarm);
  const foot = [(wide - hem) / 2, (wide + hem) / 2] as const;
  const chest = [(wide - width) / 2, (wide + width) / 2] as const;
  const sideLength = plan.length - plan.underarm;
  const border = borderAtFoot(hemDepth, sideLength, foot, chest).map(({ corners }) => ({
    corners: corners.map(([x, y]): Point => [x, y + plan.underarm]) as unknown as typeof corners,
  }));
  const backNeck = plan.backNeckDepth;
  const [neckLeft, neckRight] = [(wide - plan.neck) / 2, (wide + plan.neck) / 2];
  const details: Detail[] =
    backNeck > 0 && plan.neck > 0
      ? [{ kind: 'edge', steps: [['M', neckLeft, 0], ...neckCurve(neckLeft, neckRight, backNeck)] }]
      : [];
  return {
    widthInches: wide,
    heightInches: plan.length,
    steps: bodySteps(plan),
    details,
    borders: border,
    dimensions: given(lengths, bodyDimensions(plan, hemDepth, widthRole, around)),
  } satisfies Outline;
}

/** One flat piece: back or front. */
export function body(lengths: Lengths): Outline {
  const width = lengths['width'] ?? 1;
  return bodyFrom(lengths, width, lengths['hem'] ?? width, 'width', false);
}

/** The whole body, folded at the sides. */
export function bodyRound(lengths: Lengths): Outline {
  const width = (lengths['circumference'] ?? 2) / 2;
  const hem = lengths['hem'] === undefined ? width : lengths['hem'] / 2;
  return bodyFrom(lengths, width, hem, 'circumference', true);
}

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
  const borders = borderAtFoot(cuffDepth, length, [foot, wide - foot], [arm, wide - arm]).map(
    ({ corners: [a, b, c, d] }) => {
      const lower = ([x, y]: Point): Point => [x, y + cap];
      return { corners: [lower(a), lower(b), lower(c), lower(d)] as const };
    },
  );
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
