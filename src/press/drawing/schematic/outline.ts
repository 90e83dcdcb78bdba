/**
 * The geometry of one piece in inches, y down: its closed outline, lines that show a border or a
 * fold, and where each measurement runs. It knows lengths by role, not letters, ink or scale.
 */
import type { PathStep } from '../drawing.ts';
import type { Point } from '../path.ts';

/** Lengths in inches by role; a role that is not given is undefined. */
export type Lengths = Readonly<Record<string, number | undefined>>;

export interface Dimension {
  readonly role: string;
  readonly from: Point;
  readonly to: Point;
  /** Where the dimension line stands. `inside` runs from point to point where it is measured. */
  readonly side: 'above' | 'below' | 'left' | 'right' | 'inside';
  /** Drawn as a curve: the measurement goes round, and the piece is drawn folded. */
  readonly around?: boolean;
}

export interface Detail {
  readonly kind: 'fold' | 'edge';
  readonly steps: readonly PathStep[];
}

/** A ribbed or otherwise bordered field, shaded with upright lines. */
export interface Border {
  /** Lower left, upper left, upper right, lower right. */
  readonly corners: readonly [Point, Point, Point, Point];
}

export interface Outline {
  readonly widthInches: number;
  readonly heightInches: number;
  readonly steps: readonly PathStep[];
  readonly details: readonly Detail[];
  readonly borders: readonly Border[];
  readonly dimensions: readonly Dimension[];
}

/** A length between limits; picture proportions stay possible even where a bundle's numbers are not. */
export const within = (value: number, least: number, most: number): number =>
  Math.min(Math.max(value, least), Math.max(least, most));

/** Keeps the dimensions whose role has a length. */
export const given = (lengths: Lengths, dimensions: readonly Dimension[]): Dimension[] =>
  dimensions.filter(({ role }) => lengths[role] !== undefined);
