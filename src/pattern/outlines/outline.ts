/**
 * What an outline is: the closed line of one piece in inches, the bands worked in another fabric at its
 * edges, lines inside it, and where each measurement runs, with the length it has there. Takes drafts
 * with y upwards, gives outlines as they are drawn: y down, the top left corner at 0, 0.
 */
import { boundsOf, type Point, widthAt } from './shape.ts';

/** A measured place of an outline. */
export interface MeasuredPlace {
  /** A role of the drawing: `width`, `neckDepth`, … */
  readonly role: string;
  readonly from: Point;
  readonly to: Point;
  /** Where its dimension line stands. */
  readonly side: 'above' | 'below' | 'left' | 'right' | 'inside';
  /** It goes round and is drawn folded, at half its length. */
  readonly around: boolean;
  /** Inches, as the rows make them: twice the drawn length where it goes round. */
  readonly inches: number;
  /** Follows from another piece and is only drawn here, as it is stated. */
  readonly elsewhere?: true;
}

export interface OutlineLine {
  /** `edge`: an edge of the fabric inside the outline, such as the other neckline. */
  readonly kind: 'fold' | 'edge';
  readonly points: readonly Point[];
}

export interface PieceOutline {
  readonly edge: readonly Point[];
  readonly lines: readonly OutlineLine[];
  /** Of each band: left at the end of the piece, left and right further in, right at the end. */
  readonly bands: readonly (readonly [Point, Point, Point, Point])[];
  readonly places: readonly MeasuredPlace[];
  readonly widthInches: number;
  readonly heightInches: number;
}

export type Draft = Pick<PieceOutline, 'edge' | 'lines' | 'bands' | 'places'>;

/** Turns a draft over, so that y runs down from its highest point and x from its leftmost. */
export function finishDraft(draft: Draft): PieceOutline {
  const { left, right, low, high } = boundsOf(draft.edge);
  const place = ([x, y]: Point): Point => [x - left, high - y];
  return {
    edge: draft.edge.map(place),
    lines: draft.lines.map((line) => ({ ...line, points: line.points.map(place) })),
    bands: draft.bands.map(([a, b, c, d]) => [place(a), place(b), place(c), place(d)] as const),
    places: draft.places.map((each) => ({ ...each, from: place(each.from), to: place(each.to) })),
    widthInches: right - left,
    heightInches: high - low,
  };
}

/** The draft upside down: a piece worked from the top is drawn the way it is worn. */
export function turnedOver(draft: Draft): Draft {
  const turn = ([x, y]: Point): Point => [x, -y];
  const swapped = { above: 'below', below: 'above', left: 'left', right: 'right', inside: 'inside' } as const; // prettier-ignore
  return {
    edge: draft.edge.map(turn),
    lines: draft.lines.map((line) => ({ ...line, points: line.points.map(turn) })),
    bands: draft.bands.map(([a, b, c, d]) => [turn(a), turn(b), turn(c), turn(d)] as const),
    places: draft.places.map((each) => ({
      ...each,
      from: turn(each.from),
      to: turn(each.to),
      side: swapped[each.side],
    })),
  };
}

/** An upright measurement at one side; its extension lines begin where the outline is at its ends. */
export function beside(
  role: string,
  range: { readonly low: number; readonly high: number },
  side: 'left' | 'right',
  edge: readonly Point[],
): MeasuredPlace {
  const { low, high } = range;
  const x = (y: number) => widthAt(edge, y)?.[side] ?? 0;
  const inches = Math.abs(high - low);
  return { role, from: [x(high), high], to: [x(low), low], side, around: false, inches };
}

/** A level measurement at one height. */
export function across(
  role: string,
  at: { readonly left: number; readonly right: number; readonly y: number },
  side: MeasuredPlace['side'],
  around = false,
): MeasuredPlace {
  const { left, right, y } = at;
  const inches = (right - left) * (around ? 2 : 1);
  return { role, from: [left, y], to: [right, y], side, around, inches };
}
