/**
 * What a check sees: the pattern, what the needle counted after every line, and sized numbers of the
 * bundle with their places. A check asks here and nowhere else, so that it can be asked again with one
 * number changed, for some sizes only.
 */
import { pointerTo, type Span } from '../../base/span.ts';
import type { Place } from '../../findings/finding.ts';
import type { GaugeData, SizedData } from '../bundle/schema.ts';
import { readSizeList, type Sized, spanFor, valueFor } from '../bundle/size-list.ts';
import { lengthsIn, unitsDiffer } from './written-lengths.ts';
import type { Bundle, Outcome, Pattern, Piece, PieceTrace } from '../pattern.ts';

/** A place in the instructions: a whole piece, or after one of its lines. */
export interface Anchor {
  readonly name: string;
  readonly piece: number;
  /** Undefined for the whole piece. */
  readonly line: number | undefined;
}

export interface CheckContext {
  readonly data: Bundle['data'];
  readonly pattern: Pattern;
  readonly pieces: readonly PieceTrace[];
  /** Indexes of the sizes to be checked; all of them in an ordinary run. */
  readonly sizes: readonly number[];
  outcome(piece: number, line: number, size: number): Outcome | undefined;
  /** A length of this line says one thing in inches and another in centimetres. */
  lengthInDoubt(piece: number, line: number, size: number): boolean;
  anchor(name: string): Anchor | undefined;
  gauge(id: string): GaugeData | undefined;
}

export function contextOf(pattern: Pattern, pieces: readonly PieceTrace[]): CheckContext {
  const { data } = pattern.bundle;
  const anchors = anchorsOf(pattern.pieces);
  const doubts = lengthDoubts(pattern);
  const gauges = new Map(data.gauges.map((gauge) => [gauge.id, gauge]));
  return {
    data,
    pattern,
    pieces,
    sizes: pattern.sizes.map((_, size) => size),
    outcome: (piece, line, size) => pieces[piece]?.lines[line]?.outcomes[size],
    lengthInDoubt: (piece, line, size) => doubts.get(`${piece}/${line}`)?.includes(size) === true,
    anchor: (name) => anchors.get(name),
    gauge: (id) => gauges.get(id),
  };
}

/** Lines whose lengths differ between their units, with the sizes in which they do. */
function lengthDoubts(pattern: Pattern): ReadonlyMap<string, readonly number[]> {
  const doubts = new Map<string, readonly number[]>();
  const all = pattern.sizes.map((_, size) => size);
  pattern.pieces.forEach((piece, at) => {
    const lines = piece.sections.flatMap((section) => section.lines);
    lines.forEach(({ line }, index) => {
      const sizes = line
        ? lengthsIn(line).flatMap((length) => unitsDiffer(pattern, line, length, all))
        : [];
      if (sizes.length > 0) doubts.set(`${at}/${index}`, sizes);
    });
  });
  return doubts;
}

/** Lines with an id, and pieces; the first of two with one name. */
function anchorsOf(pieces: readonly Piece[]): ReadonlyMap<string, Anchor> {
  const anchors = new Map<string, Anchor>();
  const put = (anchor: Anchor) => {
    if (!anchors.has(anchor.name)) anchors.set(anchor.name, anchor);
  };
  pieces.forEach((piece, index) => {
    put({ name: piece.data.id, piece: index, line: undefined });
    const lines = piece.sections.flatMap((section) => section.lines);
    lines.forEach(({ id }, line) => {
      if (id !== undefined) put({ name: `${piece.data.id}/${id}`, piece: index, line });
    });
  });
  return anchors;
}

// ---------------------------------------------------------------- sized numbers of the bundle

/** A sized number of the bundle, read, with where each of its values stands. */
export interface Numbers {
  readonly data: SizedData;
  readonly pointer: string;
  readonly sized: Sized;
}

const READ = new Map<string, Sized | undefined>();

/** Reads a sized number; undefined where the text is none. Texts are read once. */
export function numbersAt(data: SizedData | undefined, pointer: string): Numbers | undefined {
  if (data === undefined) return undefined;
  const sized = sizedOfData(data);
  return sized && { data, pointer, sized };
}

function sizedOfData(data: SizedData): Sized | undefined {
  if (typeof data === 'number') return { values: [data], spans: [] };
  if (typeof data !== 'string') return { values: data, spans: [] };
  if (READ.has(data)) return READ.get(data);
  const read = readSizeList(data);
  const sized = 'sized' in read && data.slice(read.end).trim() === '' ? read.sized : undefined;
  if (READ.size > 5000) READ.clear();
  READ.set(data, sized);
  return sized;
}

export const numberOf = (numbers: Numbers | undefined, size: number): number | null =>
  numbers ? valueFor(numbers.sized, size) : null;

/** The place of a value: a span in a text, an entry of a list, or the number itself. */
export function placeOfNumber(
  { data, pointer, sized }: Numbers,
  sizes: readonly number[],
  label?: string,
): Place {
  const base = { file: 'pattern.json', ...(label !== undefined && { label }) };
  const [first = 0] = sizes;
  const last = sizes.at(-1) ?? first;
  if (typeof data === 'number') return { ...base, pointer };
  if (typeof data !== 'string') return { ...base, pointer: pointerTo(pointer, first) };
  const start = spanFor(sized, first);
  const end = spanFor(sized, last);
  const span: Span | undefined = start && end && { start: start.start, end: end.end };
  return { ...base, pointer, text: data, ...(span && { span }) };
}

export const valuesOf = (
  context: CheckContext,
  value: (size: number) => number | null | undefined,
): readonly (number | null)[] => context.pattern.sizes.map((_, size) => value(size) ?? null);
