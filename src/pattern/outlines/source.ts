/**
 * What an outline is made from: the panels of one piece in one size, and where the measurements of the
 * drawing lie on it. Takes the checked pattern and one entry of the bundle's schematic; answers for a
 * role at which heights it begins and ends, and in which row it is measured across.
 */
import type { BundleData, MeasurementData } from '../bundle/schema.ts';
import { valueFor } from '../bundle/size-list.ts';
import { readSized } from '../bundle/sized-data.ts';
import type { CheckedPattern, PieceTrace } from '../pattern.ts';
import { type PanelRow, panelsOf, type WorkedPiece } from './panels.ts';
import { workedInOf } from './worked-in.ts';

export type SchematicEntry = BundleData['schematic'][number];

export interface OutlineSource {
  readonly entry: SchematicEntry;
  readonly trace: PieceTrace;
  readonly size: number;
  readonly worked: WorkedPiece;
  /** Rows and stitches of the piece's own gauge; other fabrics are bands. */
  readonly ownGauge: string;
  readonly has: (role: string) => boolean;
  /** Heights of a measurement that follows from rows of this piece. */
  readonly range: (role: string) => { readonly low: number; readonly high: number } | undefined;
  /** The row in which a measurement across is taken, where it follows from this piece. */
  readonly row: (role: string) => PanelRow | undefined;
  /** Inches as stated, for places that follow from another piece. */
  readonly stated: (role: string) => number | undefined;
  /** Inches that the measurement leaves out of the width: selvedges in the seams. */
  readonly lessInches: (role: string) => number;
}

export function sourceOf(
  { pattern, pieces }: CheckedPattern,
  entry: SchematicEntry,
  size: number,
): OutlineSource | undefined {
  const { data } = pattern.bundle;
  const trace = pieces.find(({ piece }) => piece.data.id === entry.piece);
  if (
    !trace ||
    trace.lines.some(({ outcomes }) => outcomes[size]?.failed === true && !outcomes[size]?.skipped)
  )
    return undefined;
  const worked = panelsOf(trace, workedInOf(data, trace.piece), size);
  if (worked.panels.length === 0) return undefined;
  const lines = lineIndexes(trace);
  const measurementOf = (role: string) => {
    const id = entry.measurements[role];
    return data.measurements.find((each) => each.id === id);
  };
  const anchors = { piece: entry.piece, lines, worked };
  return {
    entry,
    trace,
    size,
    worked,
    ownGauge: trace.piece.data.gauge,
    has: (role) => entry.measurements[role] !== undefined,
    range: (role) => rangeOf(data, measurementOf(role), anchors, 0),
    row(role) {
      const from = measurementOf(role)?.from;
      if (!from || !('width' in from)) return undefined;
      const line = lineOf(from.width, anchors);
      return typeof line === 'number' ? worked.rowAfter[line] : undefined;
    },
    stated: (role) => statedInches(measurementOf(role), size),
    lessInches: (role) => lessOf(data, measurementOf(role), size, trace.piece.data.gauge),
  };
}

function statedInches(measurement: MeasurementData | undefined, size: number): number | undefined {
  const { in: inches, cm } = measurement?.size ?? {};
  const value = (data: typeof inches) => {
    const sized = data === undefined ? undefined : readSized(data);
    return sized ? (valueFor(sized, size) ?? undefined) : undefined;
  };
  const centimetres = value(cm);
  return value(inches) ?? (centimetres === undefined ? undefined : centimetres / 2.54);
}

interface Anchors {
  readonly piece: string;
  readonly lines: ReadonlyMap<string, number>;
  readonly worked: WorkedPiece;
}

function lineIndexes({ lines }: PieceTrace): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  lines.forEach(({ line: { id } }, at) => {
    if (id !== undefined && !found.has(id)) found.set(id, at);
  });
  return found;
}

/** Index of the line an anchor names, `whole` for the piece itself; undefined in another piece. */
function lineOf(anchor: string, { piece, lines }: Anchors): number | 'whole' | undefined {
  const [of, line] = anchor.split('/');
  if (of !== piece) return undefined;
  return line === undefined ? 'whole' : lines.get(line);
}

/** Parts of a sum follow each other; this much may lie between them, such as a dividing row. */
const GAP_INCHES = 0.5;

function rangeOf(
  data: BundleData,
  measurement: MeasurementData | undefined,
  anchors: Anchors,
  depth: number,
): { low: number; high: number } | undefined {
  if (!measurement || depth > 8) return undefined;
  const { from } = measurement;
  if ('depth' in from) return depthRange(from.depth, anchors);
  if (!('sum' in from)) return undefined;
  const parts = from.sum.map(
    (id) =>
    rangeOf(data, data.measurements.find((each) => each.id === id), anchors, depth + 1), // prettier-ignore
  );
  if (parts.some((part) => part === undefined)) return undefined;
  const known = parts.filter((part) => part !== undefined).sort((a, b) => a.low - b.low);
  const apart = known.some(
    (part, at) => at > 0 && part.low - (known[at - 1]?.high ?? 0) > GAP_INCHES,
  );
  const [first] = known;
  if (apart || !first) return undefined;
  return { low: first.low, high: Math.max(...known.map(({ high }) => high)) };
}

function depthRange(depth: readonly [string, string], anchors: Anchors) {
  const [start, end] = depth.map((anchor) => lineOf(anchor, anchors));
  if (start === undefined || end === undefined) return undefined;
  const { heightAfter } = anchors.worked;
  const low = start === 'whole' ? 0 : (heightAfter[start] ?? 0);
  const high = heightAfter[end === 'whole' ? heightAfter.length - 1 : end];
  return high === undefined || high < low ? undefined : { low, high };
}

function lessOf(
  data: BundleData,
  measurement: MeasurementData | undefined,
  size: number,
  ownGauge: string,
): number {
  const from = measurement?.from;
  if (!from || !('width' in from) || from.less === undefined) return 0;
  const sized = readSized(from.less);
  const gauge = data.gauges.find(({ id }) => id === (from.gauge ?? ownGauge));
  const less = sized ? (valueFor(sized, size) ?? 0) : 0;
  return gauge ? (less * widthOf(gauge.over)) / gauge.stitches : 0;
}

const widthOf = (over: BundleData['gauges'][number]['over']): number => {
  const [amount = '1', unit] = over.split(' ');
  return Number(amount) / (unit === 'cm' ? 2.54 : 1);
};
