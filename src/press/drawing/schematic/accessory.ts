/**
 * Outlines of small things that are worked round: hat, mitten and sock, laid flat. Circumferences are
 * drawn at half their length, as the folded piece lies on a table.
 */
import type { PathStep } from '../drawing.ts';
import { closedPath, type Point } from '../path.ts';
import { given, within, type Border, type Lengths, type Outline } from './outline.ts';

/** A field between two widths about the middle line `x`. */
const bandAbout = (x: number, lower: number, low: number, upper: number, high: number): Border => ({
  corners: [
    [x - lower / 2, low],
    [x - upper / 2, high],
    [x + upper / 2, high],
    [x + lower / 2, low],
  ],
});

export function hat(lengths: Lengths): Outline {
  const wide = (lengths['circumference'] ?? 2) / 2;
  const brim = lengths['brim'] === undefined ? wide : lengths['brim'] / 2;
  const height = lengths['height'] ?? wide;
  const brimDepth = within(lengths['brimDepth'] ?? 0, 0, height * 0.8);
  const crown = within(lengths['crownDepth'] ?? height * 0.3, 0, height - brimDepth);
  const width = Math.max(wide, brim);
  const middle = width / 2;
  const [foot, side] = [middle - brim / 2, middle - wide / 2];
  const shoulder: Point = [side, crown];
  const lower: PathStep[] = brimDepth > 0 && brim !== wide ? [['L', foot, height - brimDepth], ['C', foot, height - brimDepth * 1.6, side, height - brimDepth * 1.7, side, Math.max(crown, height - brimDepth * 2.2)]] : []; // prettier-ignore
  const left: PathStep[] = [['M', foot, height], ...lower, ['L', ...shoulder]];
  const dome: PathStep[] = [
    ['C', side, crown * 0.42, middle - wide * 0.27, 0, middle, 0],
    ['C', middle + wide * 0.27, 0, width - side, crown * 0.42, width - side, crown],
  ];
  const right: PathStep[] = brimDepth > 0 && brim !== wide ? [['L', width - side, Math.max(crown, height - brimDepth * 2.2)], ['C', width - side, height - brimDepth * 1.7, width - foot, height - brimDepth * 1.6, width - foot, height - brimDepth]] : []; // prettier-ignore
  return {
    widthInches: width,
    heightInches: height,
    steps: [...left, ...dome, ...right, ['L', width - foot, height], ['Z']],
    details: [],
    borders: brimDepth > 0 ? [bandAbout(middle, brim, height, brim, height - brimDepth)] : [],
    dimensions: given(lengths, [
      lengths['brim'] === undefined
        ? { role: 'circumference', from: [side, height], to: [width - side, height], side: 'below', around: true } // prettier-ignore
        : { role: 'circumference', from: [side, crown + (height - brimDepth - crown) * 0.3], to: [width - side, crown + (height - brimDepth - crown) * 0.3], side: 'inside', around: true }, // prettier-ignore
      {
        role: 'brim',
        from: [foot, height],
        to: [width - foot, height],
        side: 'below',
        around: true,
      },
      { role: 'height', from: [middle, 0], to: [width - foot, height], side: 'right' },
      { role: 'brimDepth', from: [foot, height - brimDepth], to: [foot, height], side: 'left' },
      { role: 'crownDepth', from: [middle, 0], to: [side, crown], side: 'left' },
    ]),
  };
}

/** A left mitten seen from the back of the hand: the thumb at the right. */
export function mitten(lengths: Lengths): Outline {
  const hand = (lengths['hand'] ?? 2) / 2;
  const cuff = lengths['cuff'] === undefined ? hand : lengths['cuff'] / 2;
  const length = lengths['length'] ?? hand * 2.4;
  const cuffDepth = within(lengths['cuffDepth'] ?? 0, 0, length * 0.6);
  const toThumb = within(lengths['toThumb'] ?? cuffDepth + length * 0.2, cuffDepth, length * 0.8);
  const thumb = (lengths['thumb'] ?? hand * 0.8) / 2;
  const thumbLength = within(lengths['thumbLength'] ?? hand * 0.6, 0, length - 0.1);
  const tip = within(lengths['tipDepth'] ?? hand * 0.55, 0, length - toThumb);
  const [foot, middle] = [(hand - cuff) / 2, hand / 2];
  const split = length - toThumb;
  const top = Math.max(0, split - thumbLength);
  const wide = hand + thumb;
  const thumbSteps: PathStep[] = [
    ['L', hand, split],
    ['L', hand + thumb * 0.08, top + thumb * 0.45],
    ['C', hand + thumb * 0.1, top, wide, top, wide, top + thumb * 0.5],
    ['L', wide, split],
    ['C', wide, split + (length - cuffDepth - split) * 0.5, hand - foot, length - cuffDepth * 1.1, hand - foot, length - cuffDepth], // prettier-ignore
  ];
  return {
    widthInches: wide,
    heightInches: length,
    steps: [
      ['M', foot, length],
      ['L', foot, length - cuffDepth],
      ['L', 0, split],
      ['L', 0, tip],
      ['C', 0, tip * 0.35, middle * 0.5, 0, middle, 0],
      ['C', middle * 1.5, 0, hand, tip * 0.35, hand, tip],
      ...thumbSteps,
      ['L', hand - foot, length],
      ['Z'],
    ],
    details: [],
    borders: cuffDepth > 0 ? [bandAbout(middle, cuff, length, cuff, length - cuffDepth)] : [],
    dimensions: given(lengths, [
      { role: 'hand', from: [0, split * 0.62 + tip * 0.38], to: [hand, split * 0.62 + tip * 0.38], side: 'inside', around: true }, // prettier-ignore
      {
        role: 'cuff',
        from: [foot, length],
        to: [hand - foot, length],
        side: 'below',
        around: true,
      },
      { role: 'thumb', from: [hand, split], to: [wide, split], side: 'inside', around: true },
      { role: 'length', from: [middle, 0], to: [foot, length], side: 'left' },
      { role: 'cuffDepth', from: [foot, length - cuffDepth], to: [foot, length], side: 'left' },
      { role: 'toThumb', from: [hand, split], to: [hand - foot, length], side: 'right' },
      { role: 'thumbLength', from: [hand + thumb / 2, top], to: [hand, split], side: 'right' },
      { role: 'tipDepth', from: [middle, 0], to: [hand, tip], side: 'right' },
    ]),
  };
}

/** Seen from the side: leg upright, toe to the right. */
export function sock(lengths: Lengths): Outline {
  const foot = (lengths['foot'] ?? 2) / 2;
  const leg = (lengths['leg'] ?? foot * 2) / 2;
  const footLength = Math.max(lengths['footLength'] ?? 3, leg * 1.2);
  const legLength = Math.max(lengths['legLength'] ?? 3, foot * 1.2);
  const cuffDepth = within(lengths['cuffDepth'] ?? 0, 0, legLength - foot);
  const toe = within(lengths['toeDepth'] ?? foot * 0.6, foot * 0.3, footLength - leg);
  const [end, instep] = [legLength, legLength - foot];
  const heel = Math.min(leg, foot) * 0.5;
  const ball = footLength - toe;
  const bend = Math.min((ball - leg) * 0.6, instep * 0.5, foot * 0.7);
  const corners: readonly [Point, Point] = [
    [0, cuffDepth],
    [leg, cuffDepth],
  ];
  return {
    widthInches: footLength,
    heightInches: legLength,
    steps: [
      ['M', 0, 0],
      ['L', leg, 0],
      ['L', leg, instep - bend],
      ['C', leg, instep - bend * 0.3, leg + bend * 0.3, instep, leg + bend, instep],
      ['L', ball, instep],
      [
        'C',
        ball + toe * 0.7,
        instep,
        footLength,
        instep + foot * 0.25,
        footLength,
        end - foot * 0.4,
      ],
      ['C', footLength, end - foot * 0.1, footLength - toe * 0.3, end, ball, end],
      ['L', heel, end],
      ['C', heel * 0.35, end, 0, end - heel * 0.35, 0, end - heel],
      ['Z'],
    ],
    details: [
      {
        kind: 'fold',
        steps: [
          ['M', ball, instep],
          ['L', ball, end],
        ],
      },
      { kind: 'fold', steps: [['M', 0, end - foot], ['L', leg * 0.5, end - foot * 0.5], ['L', heel, end]] }, // prettier-ignore
    ],
    borders: cuffDepth > 0 ? [{ corners: [corners[0], [0, 0], [leg, 0], corners[1]] }] : [],
    dimensions: given(lengths, [
      { role: 'leg', from: [0, 0], to: [leg, 0], side: 'above', around: true },
      { role: 'foot', from: [(leg + ball) / 2, instep], to: [(leg + ball) / 2, end], side: 'inside', around: true }, // prettier-ignore
      { role: 'footLength', from: [0, end], to: [footLength, end], side: 'below' },
      { role: 'toeDepth', from: [ball, end], to: [footLength, end], side: 'below' },
      { role: 'legLength', from: [0, 0], to: [0, end], side: 'left' },
      { role: 'cuffDepth', from: [leg, 0], to: [leg, cuffDepth], side: 'right' },
    ]),
  };
}

/** The outline of a polygon that was worked out elsewhere, for instance from the simulated rows. */
export const polygonSteps = (points: readonly Point[]): PathStep[] => closedPath(...points);
