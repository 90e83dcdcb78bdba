/**
 * Outline of a body: one flat piece, or the whole body folded at the sides, with straight or shaped
 * armholes or a raglan. Curves between measured points are drawn for the eye; every measured point is
 * where its measurement says.
 */
import type { PathStep } from '../drawing.ts';
import type { Point } from '../path.ts';
import {
  given,
  within,
  type Detail,
  type Dimension,
  type Lengths,
  type Outline,
} from './outline.ts';
import { halfFront, isHalfFront } from './front.ts';
import { borderAtFoot } from './plain.ts';

/** A neck whose width is not stated, as a share of the chest: the handbook's circular yoke. */
const NECK_SHARE = 0.4;
/** Shoulders and neck that make up nearly the whole width leave no armhole to draw. */
const NEARLY_ALL = 0.95;
/** Stitches bound off at the underarm of a raglan, as a share of the width; for the eye. */
const UNDERARM_SHARE = 0.035;

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
  /** Slanted edges run from the underarm to the neck. */
  readonly raglan: boolean;
}

/** Width above the armholes: stated, or shoulders and neck together, or that of the body. */
function crossBackOf(lengths: Lengths, width: number, neck: number): number {
  const [crossBack, shoulder] = [lengths['crossBack'], lengths['shoulder']];
  if (crossBack !== undefined) return within(crossBack, neck, width);
  if (shoulder === undefined || neck <= 0) return width;
  const together = neck + 2 * shoulder;
  return together < width * NEARLY_ALL ? together : width;
}

/**
 * Whether the body narrows straight from the underarm to the neck: a raglan, or a body in the round of
 * which nothing above the underarm is stated, so that a yoke must follow.
 */
const isRaglan = (lengths: Lengths, around: boolean): boolean =>
  lengths['raglan'] !== undefined ||
  (around &&
    lengths['sideLength'] !== undefined &&
    ['armhole', 'crossBack', 'shoulder', 'neck'].every((role) => lengths[role] === undefined));

function planBody(lengths: Lengths, width: number, hem: number, around: boolean): BodyPlan {
  const length = lengths['length'] ?? width;
  const raglan = isRaglan(lengths, around);
  const neck = within(lengths['neck'] ?? (raglan ? width * NECK_SHARE : 0), 0, width);
  const fromSide = length - (lengths['sideLength'] ?? length);
  const armhole = within(lengths['armhole'] ?? lengths['raglan'] ?? fromSide, 0, length);
  return {
    width,
    hem,
    length,
    crossBack: raglan ? neck : crossBackOf(lengths, width, neck),
    underarm: armhole,
    drop: within(lengths['shoulderDrop'] ?? 0, 0, armhole > 0 ? armhole / 2 : length / 4),
    neck,
    neckDepth: within(lengths['neckDepth'] ?? neck * SHALLOW_NECK, 0, length * 0.8),
    backNeckDepth: within(lengths['backNeckDepth'] ?? 0, 0, length * 0.8),
    raglan,
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

/** From the underarm up to the shoulder tip at the left: straight, curved in, or slanted. */
function armholeSteps(plan: BodyPlan, chest: number, tip: number): PathStep[] {
  const { underarm, width, drop, raglan } = plan;
  const inset = tip - chest;
  if (inset < 0.01) return [['L', tip, drop]];
  if (raglan)
    return [
      ['L', chest + Math.min(width * UNDERARM_SHARE, inset / 2), underarm],
      ['L', tip, 0],
    ];
  const curveTop = underarm - Math.min(underarm * 0.5, inset * 1.6);
  const low = underarm - (underarm - curveTop) * 0.35;
  return [
    ['L', chest + inset * 0.4, underarm],
    ['C', chest + inset * 0.75, underarm, tip, low, tip, curveTop],
    ['L', tip, drop],
  ];
}

/** The same edge walked the other way at the right of a piece `wide` across. */
function mirroredBack(steps: readonly PathStep[], start: Point, wide: number): PathStep[] {
  const back: PathStep[] = [];
  let end = start;
  for (const step of steps) {
    const [x, y] = [wide - end[0], end[1]];
    if (step[0] === 'C') {
      back.unshift(['C', wide - step[3], step[4], wide - step[1], step[2], x, y]);
      end = [step[5], step[6]];
    } else if (step[0] !== 'Z') {
      back.unshift(['L', x, y]);
      end = [step[1], step[2]];
    }
  }
  return [['L', wide - end[0], end[1]], ...back];
}

/** Left edge from the lower edge up to the neck; the right one is its mirror. */
function bodySteps(plan: BodyPlan): PathStep[] {
  const { width, hem, length, crossBack, underarm, neck, neckDepth } = plan;
  const wide = Math.max(width, hem);
  const [foot, chest, tip] = [(wide - hem) / 2, (wide - width) / 2, (wide - crossBack) / 2];
  const [neckLeft, neckRight] = [(wide - neck) / 2, (wide + neck) / 2];
  const left: PathStep[] = [['L', chest, underarm], ...armholeSteps(plan, chest, tip)];
  const top: PathStep[] =
    neck > 0 ? [['L', neckLeft, 0], ...neckCurve(neckLeft, neckRight, neckDepth)] : [];
  return [['M', foot, length], ...left, ...top, ...mirroredBack(left, [foot, length], wide), ['Z']];
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
    { role: 'raglan', from: [neckLeft, 0], to: [chest, underarm], side: 'left' },
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
  const plan = planBody(lengths, width, hem, around);
  const wide = Math.max(width, hem);
  const hemDepth = within(lengths['hemDepth'] ?? 0, 0, plan.length - plan.underarm);
  const foot = [(wide - hem) / 2, (wide + hem) / 2] as const;
  const chest = [(wide - width) / 2, (wide + width) / 2] as const;
  const sideLength = plan.length - plan.underarm;
  const borders = borderAtFoot(hemDepth, sideLength, foot, chest, plan.underarm);
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
    borders,
    dimensions: given(lengths, bodyDimensions(plan, hemDepth, widthRole, around)),
  } satisfies Outline;
}

/** One flat piece: back or front, or one front of two. */
export function body(lengths: Lengths): Outline {
  if (isHalfFront(lengths)) return halfFront(lengths);
  const width = lengths['width'] ?? 1;
  return bodyFrom(lengths, width, lengths['hem'] ?? width, 'width', false);
}

/** The whole body, folded at the sides. */
export function bodyRound(lengths: Lengths): Outline {
  const width = (lengths['circumference'] ?? 2) / 2;
  const hem = lengths['hem'] === undefined ? width : lengths['hem'] / 2;
  return bodyFrom(lengths, width, hem, 'circumference', true);
}
