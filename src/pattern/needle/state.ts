/**
 * Everything the needle remembers between two lines, in one size. A state is a value: working a line
 * gives a new one and leaves the old as it was, so that any line can be worked again from where it
 * stood, with another number in it, without working what came before.
 */
import type { Action, RowRole, Side } from '../notation/ast.ts';
import type { Strand } from './strands.ts';
import { countStitches } from './strands.ts';

/** A written row that can be worked again: "Rep Row 4". */
export interface RowDefinition {
  readonly actions: readonly Action[];
  readonly unit: 'row' | 'round';
  /** The number in its label. */
  readonly number?: number;
  /** `Dec row`: what the row is for. */
  readonly role?: RowRole;
  /** A short row, which in the round may run past the beginning of the round. */
  readonly short: boolean;
  /** Reads the size lists of the line it was written in. */
  readonly line: number;
  /** Rows its label names from 1 on: "Rnds 1–6" of a chart with six rows go in step with it. */
  readonly ofLabel?: number;
  /** Its words are not those of that line: a row changed by "but k9 instead of k10". */
  readonly foreign?: boolean;
}

/** `Row 2 and all WS rows`: holds for rows that are not written. */
export interface Standing {
  readonly from: number;
  readonly which: 'WS' | 'RS' | 'even' | 'odd' | 'following';
  readonly row: RowDefinition;
}

export interface History {
  readonly row: RowDefinition;
  readonly before: History | undefined;
}

/** The last rows worked in order of working; fewer where fewer were worked. */
export function lastRows(state: State, count: number): readonly RowDefinition[] {
  const rows: RowDefinition[] = [];
  for (let at = state.history; at && rows.length < count; at = at.before) rows.push(at.row);
  return rows.reverse();
}

/** Stitches on a holder, in the order in which they would be worked next: last entry first. */
export interface Held {
  readonly strands: readonly Strand[];
  /** Pieces made alike leave one set each. */
  readonly sets: number;
  /** The piece that left them. */
  readonly piece: string;
  /** Put there by a row that could not be worked, or after one: the count is not known. */
  readonly guessed?: boolean;
  /** Where the work stood, so that it goes on from there. */
  readonly inches: number;
  readonly row: number;
  readonly heights: Readonly<Record<string, number>>;
}

export interface State {
  /** Stitches still to be worked on the side that faces; after a short row, up to the turn. */
  readonly left: readonly Strand[];
  /** Stitches already worked, or behind an earlier turn. */
  readonly right: readonly Strand[];
  readonly form: 'flat' | 'round';
  /** The side that faces when the next row is worked. */
  readonly side: Side;
  /** Rows worked since the cast-on, short rows included. */
  readonly row: number;
  /** Length of the fabric since the cast-on in inches, unrounded. */
  readonly inches: number;
  /** By how much the rows worked are longer than the lengths stated, in inches: not to add up. */
  readonly drift: number;
  /** Length at which `from underarm`, `from marker` … are measured. */
  readonly heights: Readonly<Record<string, number>>;
  readonly holders: ReadonlyMap<string, Held>;
  readonly written: ReadonlyMap<number, RowDefinition>;
  readonly standing: readonly Standing[];
  /** Rows labelled before their turn: `Rows 1 and 3`. */
  readonly waiting: readonly RowDefinition[];
  /** The number of the row worked last, where it has one. */
  readonly number: number | undefined;
  /** The rows worked, newest first: `Rep last 2 rows`. */
  readonly history: History | undefined;
  /** The number of the last row with a role that is numbered: `Short row 3`. */
  readonly roleNumber: number | undefined;
  /** The last row of each role: `rep Dec row`. */
  readonly roles: ReadonlyMap<RowRole, RowDefinition>;
  /** Last row worked of each chart and stitch pattern, and the row of the piece it was. */
  readonly fabricRows: ReadonlyMap<string, { readonly patternRow: number; readonly row: number }>;
  /** A line could not be read: counts are not trusted until one is stated. */
  readonly unsure: boolean;
  /** A count was resumed and not proven: where markers and holders stand is only guessed. */
  readonly guessed: boolean;
  /** Lines whose rows could not be worked; worked again, they are only gone over plain. */
  readonly faulty: ReadonlySet<number>;
  /** A row number was wrong: the numbers after it are not held against anybody. */
  readonly misnumbered: boolean;
}

const NO_LINES: ReadonlySet<number> = new Set();

export function startState(
  form: 'flat' | 'round',
  side: Side,
  holders: ReadonlyMap<string, Held>,
): State {
  return {
    left: [],
    right: [],
    form,
    side: form === 'round' ? 'RS' : side,
    row: 0,
    inches: 0,
    drift: 0,
    heights: {},
    holders,
    written: new Map(),
    standing: [],
    waiting: [],
    number: undefined,
    history: undefined,
    roleNumber: undefined,
    roles: new Map(),
    fabricRows: new Map(),
    unsure: false,
    guessed: false,
    faulty: NO_LINES,
    misnumbered: false,
  };
}

export const stitchesOn = (state: State): number =>
  countStitches(state.left) + countStitches(state.right);
