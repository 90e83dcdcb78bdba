/**
 * From "until piece measures 14 in" to a number of rows: the length that is missing, through the row
 * gauge, rounded to the nearest row on which the work may stop. The fabric is then as long as it says,
 * so that roundings do not add up from one stretch to the next.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { Extent, Length, Side } from '../notation/ast.ts';
import type { NumberReader } from './env.ts';
import type { State } from './state.ts';

export type LengthExtent = Extract<Extent, { kind: 'length' }>;

/** A written length in inches: as written in inches, else converted from centimetres. */
export function inchesOf(length: Length, read: NumberReader): number | null {
  const inches = length.inches ? read(length.inches) : null;
  if (inches !== null) return inches;
  const centimetres = length.centimetres ? read(length.centimetres) : null;
  return centimetres === null ? null : centimetres / CENTIMETRES_PER_INCH;
}

/** The height the fabric will have, in inches from the cast-on; null: does not apply to this size. */
export function targetOf(state: State, extent: LengthExtent, read: NumberReader): number | null {
  const inches = inchesOf(extent.length, read);
  if (inches === null) return null;
  if (extent.from === 'here') return state.inches + inches;
  return (state.heights[extent.from] ?? 0) + inches;
}

/** Rows of a cycle on which work may stop: any, those with a side, or those with a number. */
export interface StoppingPlace {
  readonly side?: Side;
  /** Rows are taken in whole cycles of so many, plus `rest`. */
  readonly cycle?: number;
  readonly rest?: number;
}

/** The number of rows nearest to `wanted` after which work may stop; a tie works the longer one. */
export function nearestRows(wanted: number, state: State, place: StoppingPlace): number {
  const step = place.cycle ?? (place.side && state.form === 'flat' ? 2 : 1);
  const rest = place.cycle !== undefined ? (place.rest ?? 0) : restForSide(state, place.side);
  const least = step === 1 ? 0 : rest % step;
  const cycles = Math.floor((wanted - least) / step + 0.5 + 1e-9);
  return Math.max(0, cycles) * step + least;
}

/** An odd number of rows ends with the side that faces now. */
function restForSide(state: State, side: Side | undefined): number {
  if (!side || state.form !== 'flat') return 0;
  return side === state.side ? 1 : 0;
}

/** Inches of rows still missing to a height, the roundings of earlier lengths taken off. */
export const missingInches = (state: State, target: number): number =>
  target - state.inches - state.drift;

/** The fabric is as long as it says; what the rows differ from that is kept for the next length. */
export const heightReached = (state: State, target: number): State => ({
  ...state,
  inches: target,
  drift: state.drift + state.inches - target,
});
