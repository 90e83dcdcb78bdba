/**
 * What stays the same while a piece is worked: the sizes, the written lines, and how stitches, charts,
 * stitch patterns and gauges are looked up by the names used in the rows. Also reads a sized number for
 * one size, minding lines that hold for some sizes only.
 */
import type { Sized } from '../bundle/size-list.ts';
import type { Action, Line } from '../notation/ast.ts';
import type { Chart, FabricMove, FabricRow, WrittenLine } from '../pattern.ts';
import type { RowDefinition } from './state.ts';

/** What the needle asks of a stitch. */
export interface StitchFlow {
  readonly takes: number;
  readonly makes: number;
}

/** A stitch pattern of the bundle with its rows read; `rows[0]` is row 1. */
export interface WorkedPattern {
  readonly id: string;
  readonly multiple: number;
  readonly plus: number;
  readonly form: 'flat' | 'round';
  readonly rows: readonly RowDefinition[];
  readonly chart?: string;
}

export interface Env {
  readonly sizes: readonly string[];
  /** Lines of the piece in order of working. */
  readonly lines: readonly WrittenLine[];
  readonly form: 'flat' | 'round';
  readonly firstSide: 'RS' | 'WS';
  /** Id of the piece. */
  readonly piece: string;
  /** How many pieces are made alike. */
  readonly made: number;
  stitch(name: string): StitchFlow | undefined;
  chart(name: string): Chart | undefined;
  stitchPattern(name: string): WorkedPattern | undefined;
  /** Rows of one inch of this fabric; of the piece's own gauge where none is named. */
  rowsPerInch(fabric?: string): number;
  /** The edge, seen from the right side, that neck and front shaping of this line is at. */
  neckEdge(line: number): 'left' | 'right';
  /** Is told of every row worked, for outlines. Absent where only counts are wanted. */
  readonly record?: Recorder;
  /** Is told of every stitch in order of working, for comparing a row with a chart. */
  readonly onStitch?: (stitch: string, times: number) => void;
}

export interface Recorder {
  row(row: FabricRow, times: number): void;
  /** Before the row in whose course it happens. */
  move(move: Omit<FabricMove, 'after'>): void;
}

/** Sizes a line holds for, as indexes; undefined for all. Unknown names are left out. */
export function sizesOfLine(line: Line, sizes: readonly string[]): readonly number[] | undefined {
  if (!line.onlySizes) return undefined;
  return line.onlySizes.sizes.map((name) => sizes.indexOf(name)).filter((size) => size >= 0);
}

/**
 * The number for one size. A list holds one number for all, one for each size of the pattern, or, in a
 * line for some sizes only, one for each of those. Null: does not apply, or the list has another length.
 */
export function numberIn(
  sized: Sized,
  size: number,
  sizes: number,
  only: readonly number[] | undefined,
): number | null {
  const { values } = sized;
  if (values.length === 1) return values[0] ?? null;
  if (values.length === sizes) return values[size] ?? null;
  if (only && values.length === only.length) return values[only.indexOf(size)] ?? null;
  return null;
}

export type NumberReader = (sized: Sized) => number | null;

type BySize = Extract<Action, { kind: 'bySize' }>;

/** What `k1 (k2tog, k0)` says for the size of this reader. */
export function alternativeIn(action: BySize, read: NumberReader): readonly Action[] {
  const index = read({ values: action.alternatives.map((_, at) => at), spans: [] });
  return (index === null ? undefined : action.alternatives[index]) ?? [];
}

/** Reads the sized numbers of one line, by its index; rows of stitch patterns have none. */
export function readerOf(env: Env, lineIndex: number, size: number): NumberReader {
  const line = env.lines[lineIndex]?.line;
  const only = line && sizesOfLine(line, env.sizes);
  return (sized) => numberIn(sized, size, env.sizes.length, only);
}
