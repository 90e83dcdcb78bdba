/**
 * What the catalogue says of one stitch: what it takes from the left needle, what it makes on the
 * right, how it leans, how it looks and how it is read from the other side. Entries are data; shared
 * code asks these properties and never asks which stitch it is.
 */
import type { StitchName } from '../notation/ast.ts';

export type StitchFamily =
  | 'basic'
  | 'twisted'
  | 'slipped'
  | 'decrease'
  | 'increase'
  | 'cable'
  | 'bobble'
  | 'brioche'
  | 'wrap'
  | 'other';

/** Chart symbols by what they show; drawn by `press/drawing/symbols`. Cables are drawn by rule. */
export type SymbolName = string;

/** A crossing of `front` stitches over `back` stitches, by width and lean. */
export interface Crossing {
  readonly left: number; // stitches that end up on the left
  readonly right: number;
  /** Which group lies on top: LC = the stitches moving to the left lie in front. */
  readonly lean: 'left' | 'right';
  /** The stitches behind are purled (`LPC`, `RPC`). */
  readonly purlBehind: boolean;
  /** Worked through the back loop (twisted travelling stitches). */
  readonly twisted: boolean;
  /** Stitches that stay between the two groups (`2/1/2 LC`); purled where `purlBehind` is set. */
  readonly middle?: number;
}

export interface Stitch {
  /** Canonical US form with single spaces: `k`, `k tbl`, `sl wyif`, `k2tog`, `2/2 LC`. */
  readonly name: StitchName;
  readonly family: StitchFamily;
  readonly takes: number;
  /** Negative where a stitch only lifts stitches off the right needle (`psso`). */
  readonly makes: number;
  readonly lean: 'left' | 'right' | 'centre' | 'none';
  /** What the fabric shows on the side that faces while it is worked. */
  readonly face: 'knit' | 'purl' | 'mixed';
  /** The stitch that, worked on the wrong side, shows this one on the right side: k ↔ p. */
  readonly otherSide?: StitchName;
  /** `true`: written with a number of stitches (`k5`); `false`: written once each (`k2tog`). */
  readonly counted: boolean;
  readonly symbol: SymbolName;
  readonly crossing?: Crossing;
  /** Other written forms that mean this stitch, British ones included. Lower case. */
  readonly also?: readonly string[];
}
