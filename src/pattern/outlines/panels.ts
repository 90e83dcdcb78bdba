/**
 * From worked rows to flat panels in inches. Takes a piece as the needle worked it in one size, gives
 * its panels: rows with their height and the place of both edges, stitches left open on holders and the
 * panels that go on from them. Edges move by what each row changed at them, through the gauge of that
 * row. Seen from the right side; x grows to the right, y grows upwards from the cast-on.
 */
import { perInch, readBase } from '../grading/gauge.ts';
import type { GaugeData } from '../bundle/schema.ts';
import type { FabricMove, FabricRow, PieceTrace } from '../pattern.ts';
import type { WorkedIn } from './worked-in.ts';

export interface PanelRow {
  /** Lower and upper edge of the row. A short row has no height of its own. */
  readonly low: number;
  readonly high: number;
  readonly right: number;
  readonly left: number;
  readonly stitches: number;
  readonly stitchesPerInch: number;
  readonly rowsPerInch: number;
  readonly gauge: string;
  readonly side: 'RS' | 'WS';
  readonly marks: readonly number[];
  /** The stretch a short row worked. */
  readonly short?: { readonly right: number; readonly left: number };
  /** Index of the line that worked it. */
  readonly by: number;
  /** Index in the fabric of the piece. */
  readonly at: number;
}

/** Stitches that wait on a holder, at the height where they were left. */
export interface OpenStitches {
  readonly holder: string;
  readonly count: number;
  readonly right: number;
  readonly left: number;
  readonly y: number;
  /** Rows of the panel below them. */
  readonly after: number;
}

export interface Panel {
  readonly start: 'castOn' | 'resume' | 'pickUp';
  readonly rows: readonly PanelRow[];
  readonly open: readonly OpenStitches[];
  /** Where a resumed panel goes on: which panel, and which of its open stitches. */
  readonly on?: { readonly panel: number; readonly open: OpenStitches };
  /** Stitches were bound off or held in the middle and the work went on across the gap. */
  readonly gapped: boolean;
}

export interface WorkedPiece {
  readonly panels: readonly Panel[];
  /** Height after each line of the piece; undefined before the first row. */
  readonly heightAfter: readonly (number | undefined)[];
  /** The row that was on the needle after each line. */
  readonly rowAfter: readonly (PanelRow | undefined)[];
}

interface Making {
  start: Panel['start'];
  rows: PanelRow[];
  open: OpenStitches[];
  on: Panel['on'];
  gapped: boolean;
  right: number;
  left: number;
  y: number;
  stitches: number;
}

export function panelsOf(
  trace: PieceTrace,
  workedIn: readonly WorkedIn[],
  size: number,
): WorkedPiece {
  const fabric = trace.fabric[size] ?? [];
  const moves = trace.moves[size] ?? [];
  const heights = rowHeights(trace, size);
  const panels: Making[] = [];
  let now: Making | undefined;
  for (let at = 0; at <= fabric.length; at += 1) {
    const here = moves.filter(({ after }) => after === at);
    for (const move of here.filter(({ inRow }) => !inRow))
      now = moveBetween(panels, now, move, perStitchAt(workedIn, fabric[at] ?? fabric[at - 1]));
    const row = fabric[at];
    if (!row) continue;
    now ??= begin(panels, 'pickUp', 0);
    const gauge = workedIn[row.by]?.gauge;
    const inRow = here.filter(({ inRow: inside }) => inside);
    workRow(now, row, at, inRow, gauge, row.short ? 0 : (heights.get(row.by) ?? 0));
  }
  return finish(panels, trace);
}

/** Height of one row of each line: the length the line made, shared by its rows that went all across. */
function rowHeights(trace: PieceTrace, size: number): ReadonlyMap<number, number> {
  const full = new Map<number, number>();
  for (const { by, short } of trace.fabric[size] ?? [])
    if (!short) full.set(by, (full.get(by) ?? 0) + 1);
  return new Map(
    [...full].map(([line, rows]) => [
      line,
      (trace.lines[line]?.outcomes[size]?.lengthInches ?? 0) / rows,
    ]),
  );
}

const perStitchAt = (workedIn: readonly WorkedIn[], row: FabricRow | undefined): number =>
  perStitch(row ? workedIn[row.by]?.gauge : workedIn[0]?.gauge);

const perStitch = (gauge: GaugeData | undefined): number =>
  gauge ? 1 / perInch(gauge.stitches, readBase(gauge.over)) : 1;

const rowsPerInchOf = (gauge: GaugeData | undefined): number =>
  gauge ? perInch(gauge.rows, readBase(gauge.over)) : 1;

function begin(panels: Making[], start: Panel['start'], y: number): Making {
  const panel: Making = {
    start, rows: [], open: [], on: undefined, gapped: false, right: 0, left: 0, y, stitches: 0,
  }; // prettier-ignore
  panels.push(panel);
  return panel;
}

// ---------------------------------------------------------------- one row

function workRow(
  panel: Making,
  row: FabricRow,
  at: number,
  moves: readonly FabricMove[],
  gauge: GaugeData | undefined,
  height: number,
): void {
  const unit = perStitch(gauge);
  const before = panel.stitches;
  regauge(panel, unit);
  for (const move of moves) noteInRow(panel, move, before, unit);
  const [changeRight, changeLeft] = evened(row);
  panel.right += changeRight * unit;
  panel.left -= changeLeft * unit;
  // Stitches that came from elsewhere in the course of the row lie on both sides of its middle.
  const missing = row.stitches * unit - (panel.right - panel.left);
  panel.right += missing / 2;
  panel.left -= missing / 2;
  panel.stitches = row.stitches;
  const { right, left, y } = panel;
  const short = row.short && {
    right: right - row.short.from * unit,
    left: right - row.short.to * unit,
  };
  panel.rows.push({
    low: y,
    high: y + height,
    right,
    left,
    stitches: row.stitches,
    stitchesPerInch: 1 / unit,
    rowsPerInch: rowsPerInchOf(gauge),
    gauge: gauge?.id ?? '',
    side: row.side,
    marks: row.marks,
    by: row.by,
    at,
    ...(short && { short }),
  });
  panel.y = y + height;
}

/** An odd number of changes spread over the row belongs to both halves alike. */
function evened({ changeRight, changeLeft }: FabricRow): readonly [number, number] {
  const spread = changeRight * changeLeft > 0 && Math.abs(changeRight - changeLeft) === 1;
  const half = (changeRight + changeLeft) / 2;
  return spread ? [half, half] : [changeRight, changeLeft];
}

/** In another fabric the same stitches are wider or narrower, about the middle of the row. */
function regauge(panel: Making, unit: number): void {
  const width = panel.stitches * unit;
  if (Math.abs(width - (panel.right - panel.left)) < 1e-9) return;
  const middle = (panel.right + panel.left) / 2;
  panel.right = middle + width / 2;
  panel.left = middle - width / 2;
}

function noteInRow(panel: Making, move: FabricMove, before: number, unit: number): void {
  if (move.kind !== 'hold' && move.kind !== 'bindOff') return;
  const right = panel.right - move.at * unit;
  const inside = move.at > 0 && move.at + move.count < before;
  if (inside) panel.gapped = true;
  if (move.kind === 'hold') openAt(panel, move, right, unit);
}

function openAt(panel: Making, move: FabricMove, right: number, unit: number): void {
  panel.open.push({
    holder: move.holder ?? '',
    count: move.count,
    right,
    left: right - move.count * unit,
    y: panel.y,
    after: panel.rows.length,
  });
}

// ---------------------------------------------------------------- between rows

function moveBetween(
  panels: Making[],
  now: Making | undefined,
  move: FabricMove,
  unit: number,
): Making | undefined {
  switch (move.kind) {
    case 'castOn':
    case 'pickUp':
      return join(panels, now, move, unit);
    case 'resume':
      return now && now.stitches > 0 ? join(panels, now, move, unit) : resume(panels, move, unit);
    case 'hold':
      if (now) leave(now, move, unit);
      return now;
    case 'bindOff':
    case 'end':
      if (now && move.kind === 'end') now.stitches = 0;
      return now && now.stitches > 0 ? now : undefined;
  }
}

function join(panels: Making[], now: Making | undefined, move: FabricMove, unit: number): Making {
  const panel = now && now.stitches > 0 ? now : begin(panels, 'castOn', 0);
  const width = move.count * unit;
  if (panel.stitches === 0) {
    panel.right = width / 2;
    panel.left = -width / 2;
  } else if (move.at === 0) panel.right += width;
  else panel.left -= width;
  panel.stitches += move.count;
  return panel;
}

function leave(panel: Making, move: FabricMove, unit: number): void {
  const right = panel.right - move.at * unit;
  openAt(panel, move, right, unit);
  panel.stitches -= move.count;
  const width = move.count * unit;
  if (move.at === 0) panel.right -= width;
  else if (move.at >= panel.stitches) panel.left += width;
  else panel.gapped = true;
}

/** Goes on from the open stitches of that name, else from the last ones of that number. */
function resume(panels: Making[], move: FabricMove, unit: number): Making {
  const found = panels.flatMap((panel, index) =>
    panel.open.map((open) => ({ panel: index, open })),
  );
  const same = found.filter(({ open }) => open.count === move.count);
  const on =
    same.find(({ open }) => namesAgree(open.holder, move.holder ?? '')) ??
    found.find(({ open }) => namesAgree(open.holder, move.holder ?? '')) ??
    same.at(-1);
  const panel = begin(panels, 'resume', on?.open.y ?? 0);
  const width = move.count * unit;
  const middle = on ? (on.open.right + on.open.left) / 2 : 0;
  panel.right = middle + width / 2;
  panel.left = middle - width / 2;
  panel.stitches = move.count;
  panel.on = on;
  return panel;
}

const FILLERS = new Set([
  'holder',
  'for',
  'the',
  'a',
  'held',
  'sts',
  'of',
  'waste',
  'yarn',
  'stitch',
]);

function namesAgree(one: string, other: string): boolean {
  const words = (name: string) =>
    name.toLowerCase().split(/\W+/).filter((word) => word !== '' && !FILLERS.has(word)); // prettier-ignore
  const [first, second] = [words(one), words(other)];
  if (first.length === 0 || second.length === 0) return false;
  return (
    first.every((word) => second.includes(word)) || second.every((word) => first.includes(word))
  );
}

// ---------------------------------------------------------------- the whole

function finish(panels: readonly Making[], trace: PieceTrace): WorkedPiece {
  const heightAfter: (number | undefined)[] = trace.lines.map(() => undefined);
  const rowAfter: (PanelRow | undefined)[] = trace.lines.map(() => undefined);
  for (const { rows } of panels)
    for (const row of rows) {
      heightAfter[row.by] = row.high;
      rowAfter[row.by] = row;
    }
  // A line without rows leaves the work where it stood.
  for (let line = 1; line < trace.lines.length; line += 1) {
    heightAfter[line] ??= heightAfter[line - 1];
    rowAfter[line] ??= rowAfter[line - 1];
  }
  const made = panels.filter(({ rows }) => rows.length > 0);
  return {
    panels: made.map(({ start, rows, open, on, gapped }) => ({
      start,
      rows,
      open,
      gapped,
      ...(on && { on: { ...on, panel: made.indexOf(panels[on.panel] as Making) } }),
    })),
    heightAfter,
    rowAfter,
  };
}
