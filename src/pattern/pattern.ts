/**
 * The pattern as the rooms share it: the bundle's data with every written line parsed and every size
 * list read, before and after the needle has run. Types only. Knows no language, page or cloud.
 */
import type { Finding } from '../findings/finding.ts';
import type { BundleData, ChartData, PieceData, ProseData, SourceRecord } from './bundle/schema.ts';
import type { Line, StitchName } from './notation/ast.ts';

/** A bundle as loaded: validated data, prose by language, pictures by file name. */
export interface Bundle {
  readonly data: BundleData;
  readonly prose: ReadonlyMap<string, ProseData>;
  /** By language: what each translated text was translated from, where that is recorded. */
  readonly sources?: ReadonlyMap<string, SourceRecord>;
  /** Undecoded bytes by file name inside `photos/`. */
  readonly photos: ReadonlyMap<string, Uint8Array>;
  /** SHA-256 over the canonical data, prose and pictures: names the run. */
  readonly hash: string;
}

/** One written line, parsed, with its place. `line` is undefined where the text could not be read. */
export interface WrittenLine {
  readonly text: string;
  readonly pointer: string;
  readonly id?: string;
  readonly note?: string;
  readonly line?: Line;
}

export interface Section {
  readonly id: string;
  readonly title?: string;
  readonly intro?: string;
  readonly pointer: string;
  readonly lines: readonly WrittenLine[];
}

export interface Piece {
  readonly data: PieceData;
  readonly pointer: string;
  readonly sections: readonly Section[];
}

/** A chart cell: one stitch and the columns it covers, or a cell without a stitch. */
export interface ChartCell {
  /** A name of the catalogue, or `none` for a cell without a stitch. */
  readonly stitch: StitchName;
  readonly colour?: string;
  /** Leftmost column, from 0 at the left. */
  readonly column: number;
  /** Columns covered: 6 for a 3/3 cable. */
  readonly columns: number;
}

export interface ChartRow {
  /** 1 at the bottom. */
  readonly number: number;
  readonly side: 'RS' | 'WS';
  /** From left to right as drawn. */
  readonly cells: readonly ChartCell[];
  /** Stitches taken and made by the whole row. */
  readonly takes: number;
  readonly makes: number;
}

export interface Chart {
  readonly data: ChartData;
  readonly pointer: string;
  readonly columns: number;
  /** From the bottom up: index 0 is row 1. */
  readonly rows: readonly ChartRow[];
}

/** A stitch pattern of the bundle with its rows parsed. */
export interface StitchPattern {
  readonly data: BundleData['stitchPatterns'][number];
  readonly pointer: string;
  readonly lines: readonly WrittenLine[];
}

/** A bundle whose every line is parsed. */
export interface Pattern {
  readonly bundle: Bundle;
  readonly sizes: readonly string[];
  readonly pieces: readonly Piece[];
  readonly charts: ReadonlyMap<string, Chart>;
  readonly stitchPatterns?: readonly StitchPattern[];
}

// ---------------------------------------------------------------- after the needle

/** What one line did in one size. */
export interface Outcome {
  readonly before: number;
  readonly after: number;
  /** Rows or rounds the line worked, 0 for a cast-on or a marker. */
  readonly rows: number;
  /** Fabric length the line made in inches: rows through the gauge, or the length it states. */
  readonly lengthInches: number;
  /** Row number of the piece after the line, counted from the cast-on. */
  readonly rowAfter: number;
  /** Charts and stitch patterns, by id, that the last row followed, and which of their rows it was. */
  readonly patternRows?: Readonly<Record<string, number>>;
  /** The line does not apply to this size. */
  readonly skipped: boolean;
  /** The simulation could not work the line; `after` was resumed from the stated count. */
  readonly failed: boolean;
  /** A later line does not follow from this one, and which of the two is wrong is not known. */
  readonly doubtful?: boolean;
}

export interface LineTrace {
  readonly line: WrittenLine;
  /** One per size. */
  readonly outcomes: readonly Outcome[];
}

/** One worked row of the fabric in one size, for outlines: counts of all stitches on the needle. */
export interface FabricRow {
  readonly row: number;
  readonly stitches: number;
  /** Stitches cast on or bound off, and changes, at the right-hand and left-hand edge seen from RS. */
  readonly changeRight: number;
  readonly changeLeft: number;
  readonly line: string; // pointer of the line it is written in
  /** Index of the line that works it, which may be another: "Rep Rows 1 and 2 …". */
  readonly by: number;
  /** The side that faced; rounds are worked from the right side. */
  readonly side: 'RS' | 'WS';
  /** Stitches to the right of each marker after the row, seen from the right side. */
  readonly marks: readonly number[];
  /** A short row: the stitches it worked, counted from the right-hand edge seen from RS. */
  readonly short?: { readonly from: number; readonly to: number };
}

/**
 * Stitches that join or leave the needle otherwise than by being knitted. `at` counts the stitches to
 * the right of them, seen from the right side: in the row before for those that leave, in the row
 * itself for those that join.
 */
export interface FabricMove {
  readonly kind: 'castOn' | 'pickUp' | 'resume' | 'bindOff' | 'hold' | 'end';
  /** Rows of the fabric worked before it. */
  readonly after: number;
  /** In the course of the next row; else between two rows. */
  readonly inRow: boolean;
  readonly at: number;
  readonly count: number;
  readonly holder?: string;
  /** Stitches taken up again: the piece that left them. */
  readonly from?: string;
}

export interface PieceTrace {
  readonly piece: Piece;
  readonly lines: readonly LineTrace[];
  /** By size, bottom up. */
  readonly fabric: readonly (readonly FabricRow[])[];
  /** By size, in order of working. */
  readonly moves: readonly (readonly FabricMove[])[];
}

/** A pattern that has been worked in every size. Rooms further down take only this. */
export interface CheckedPattern {
  readonly pattern: Pattern;
  readonly pieces: readonly PieceTrace[];
  readonly findings: readonly Finding[];
}
