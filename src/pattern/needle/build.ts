/**
 * Builds what a piece is worked in: looks up stitches, charts, stitch patterns and gauges of a pattern
 * by the names its rows use. Everything is looked up once and shared by all sizes.
 */
import { catalogueFor } from '../stitches/index.ts';
import { readBase } from '../grading/gauge.ts';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { GaugeData } from '../bundle/schema.ts';
import type { Line } from '../notation/ast.ts';
import type { Chart, Pattern, Piece, StitchPattern } from '../pattern.ts';
import type { Env, Recorder, StitchFlow, WorkedPattern } from './env.ts';
import type { RowDefinition } from './state.ts';

/** Lookups of a pattern that all of its pieces share. */
export interface Shelf {
  readonly pattern: Pattern;
  stitch(name: string): StitchFlow | undefined;
  chart(name: string): Chart | undefined;
  stitchPattern(name: string): WorkedPattern | undefined;
  readonly gauges: ReadonlyMap<string, GaugeData>;
}

const key = (name: string): string => name.trim().toLowerCase().replaceAll(/\s+/g, ' ');

export function shelfOf(pattern: Pattern): Shelf {
  const { data } = pattern.bundle;
  const catalogue = catalogueFor(data.stitches);
  const stitches = new Map<string, StitchFlow | undefined>();
  const charts = new Map<string, Chart>();
  for (const chart of pattern.charts.values()) {
    for (const name of [
      chart.data.id,
      chart.data.name,
      chart.data.name.replace(/^chart\s+/i, ''),
    ]) {
      charts.set(key(name), chart);
    }
  }
  const patterns = new Map(
    (pattern.stitchPatterns ?? []).map((each) => [key(each.data.id), worked(each)]),
  );
  return {
    pattern,
    stitch(name) {
      if (!stitches.has(name)) stitches.set(name, catalogue.lookup(name));
      return stitches.get(name);
    },
    chart: (name) => charts.get(key(name)) ?? charts.get(key(name).replace(/^chart /, '')),
    stitchPattern: (name) =>
      patterns.get(key(name)) ?? patterns.get(key(name).replaceAll(' ', '-')),
    gauges: new Map(data.gauges.map((gauge) => [gauge.id, gauge])),
  };
}

function worked({ data, lines }: StitchPattern): WorkedPattern {
  const rows = lines.flatMap((written) => (written.line ? rowsOf(written.line) : []));
  const byNumber = rows.every((row) => row.number !== undefined)
    ? [...rows].sort((a, b) => (a.number ?? 0) - (b.number ?? 0))
    : rows;
  const { id, multiple, plus, form, chart } = data;
  return { id, multiple, plus, form, rows: byNumber, ...(chart !== undefined && { chart }) };
}

/** Rows of one line of a stitch pattern: one for each number of its label. */
function rowsOf(line: Line): readonly RowDefinition[] {
  const actions = line.sentences.flatMap((sentence) =>
    sentence.kind === 'actions' ? sentence.actions : [],
  );
  const { label } = line;
  const unit = label && label.kind !== 'named' ? label.unit : 'row';
  const row: RowDefinition = { actions, unit, line: -1, foreign: true, short: false };
  if (label?.kind !== 'numbered') return [row];
  return label.ranges.flatMap(({ from, to }) => {
    const first = from.values[0] ?? 1;
    const last = Math.min(to.values[0] ?? first, first + 400);
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => ({
      ...row,
      number: first + at,
    }));
  });
}

/** Rows of one inch: converted only where the gauge was measured in centimetres. */
export function rowsPerInch(gauge: GaugeData | undefined): number {
  if (!gauge) return 1;
  const base = readBase(gauge.over);
  const perUnit = gauge.rows / base.amount;
  return base.unit === 'in' ? perUnit : perUnit * CENTIMETRES_PER_INCH;
}

export function envOf(shelf: Shelf, piece: Piece, record?: Recorder): Env {
  const { pattern, gauges } = shelf;
  const lines = piece.sections.flatMap((section) => section.lines);
  const own = rowsPerInch(gauges.get(piece.data.gauge));
  const byFabric = new Map(
    [...gauges.values()].map((gauge) => [key(gauge.pattern), rowsPerInch(gauge)]),
  );
  const neck = neckEdges(piece);
  return {
    sizes: pattern.sizes,
    lines,
    piece: piece.data.id,
    form: piece.data.form,
    firstSide: piece.data.firstSide,
    made: piece.data.make,
    stitch: (name) => shelf.stitch(name),
    chart: (name) => shelf.chart(name),
    stitchPattern: (name) => shelf.stitchPattern(name),
    rowsPerInch: (fabric) => (fabric === undefined ? own : (byFabric.get(key(fabric)) ?? own)),
    neckEdge: (line) => neck[line] ?? 'left',
    ...(record && { record }),
  };
}

/**
 * The edge that neck shaping is at, seen from the right side: at the right of a right front, at the
 * left of a left one, because the wearer's right is on the viewer's left and fronts meet in the middle.
 */
function neckEdges(piece: Piece): readonly ('left' | 'right')[] {
  const right = (name: string) => /right/i.test(name);
  return piece.sections.flatMap((section) => {
    const isRight = right(section.id) || (right(piece.data.id) && !/left/i.test(section.id));
    return section.lines.map(() => (isRight ? 'right' : 'left'));
  });
}
