/**
 * The outline of a sock worked from the cuff, seen from the side: the leg folded, the heel flap down
 * the back of it, the gusset running out along the foot, the toe closing as its decreases do. Takes a
 * source, gives a draft; the lengths are those of the worked rows, the bends are drawn for the eye.
 */
import { bandsOf, foldedStrips, sideLine } from '../bands.ts';
import { across, beside, type Draft, type MeasuredPlace } from '../outline.ts';
import type { Panel, PanelRow } from '../panels.ts';
import type { Point } from '../shape.ts';
import type { OutlineSource } from '../source.ts';
import { given } from './plain.ts';

interface Parts {
  readonly leg: readonly PanelRow[];
  readonly flap: readonly PanelRow[];
  readonly turn: readonly PanelRow[];
  /** From the first round over all stitches to the end of the gusset. */
  readonly gusset: readonly PanelRow[];
  readonly foot: readonly PanelRow[];
  readonly toe: readonly PanelRow[];
}

export function sock(source: OutlineSource): Draft | undefined {
  const parts = partsOf(source.worked.panels);
  const legEnd = parts?.leg.at(-1);
  const footEnd = parts?.foot.at(-1);
  if (!parts || !legEnd || !footEnd) return undefined;
  const size = sizesOf(parts, legEnd, footEnd);
  const { high, leg, foot, ball, flap } = size;
  const bend = Math.min(flap * 0.9, (ball - leg) * 0.6, high - foot);
  const heel = Math.min(size.turn, foot / 2) * 1.2;
  const edge: Point[] = [
    [0, high],
    ...bow([0, heel], [0, 0], [heel, 0]),
    [ball, 0],
    ...toeLine([footEnd, ...parts.toe], ball, foot),
    [ball, foot],
    ...bow([leg + bend, foot], [leg, foot], [leg, foot + bend]),
    [leg, high],
  ];
  const gussetEnd = size.turn + lengthOf(parts.gusset);
  return {
    edge,
    lines: [
      { kind: 'fold', points: [[ball, 0], [ball, foot]] },
      { kind: 'fold', points: [[0, flap], [leg / 2, flap], [gussetEnd, foot / 2], [ball, foot / 2]] },
      { kind: 'fold', points: [[leg / 2, flap], [Math.max(size.turn, heel), 0]] },
    ], // prettier-ignore
    bands: cuffBand(source, parts.leg, high),
    places: given(source, placesOf(source, size, edge)),
  };
}

const lengthOf = (rows: readonly PanelRow[]): number =>
  rows.reduce((sum, { low, high }) => sum + high - low, 0);

/** Points of a bend from one point to another about a corner (a parabola). */
function bow(from: Point, corner: Point, to: Point): Point[] {
  return Array.from({ length: 9 }, (_, step): Point => {
    const t = step / 8;
    const mix = (axis: 0 | 1) =>
      (1 - t) ** 2 * from[axis] + 2 * t * (1 - t) * corner[axis] + t ** 2 * to[axis];
    return [mix(0), mix(1)];
  });
}

// ---------------------------------------------------------------- its parts

/** The leg ends where half the round is left waiting; all of it is on the needle again at the gusset. */
function partsOf(panels: readonly Panel[]): Parts | undefined {
  const rows = panels.flatMap((panel) => panel.rows);
  const divided = panels[0]?.open[0]?.after;
  if (divided === undefined || divided === 0) return undefined;
  const legStitches = rows[divided - 1]?.stitches ?? 0;
  const joined = rows.findIndex((row, at) => at > divided && row.stitches > legStitches * 0.9);
  if (joined < 0) return undefined;
  const heel = rows.slice(divided, joined);
  const turnAt = heel.findIndex(({ short }) => short);
  const pickedUp = heel.findIndex(
    (row, at) => at > 0 && row.stitches > (heel[at - 1]?.stitches ?? 0),
  );
  const round = rows.slice(joined);
  const footStitches = steady(round);
  const footFrom = round.findIndex((row) => row.stitches === footStitches);
  const toeFrom = round.findLastIndex((row) => row.stitches === footStitches) + 1;
  return {
    leg: rows.slice(0, divided),
    flap: heel.slice(0, turnAt < 0 ? undefined : turnAt),
    turn: turnAt < 0 ? [] : heel.slice(turnAt, pickedUp < 0 ? undefined : pickedUp),
    gusset: round.slice(0, footFrom),
    foot: round.slice(footFrom, toeFrom),
    toe: round.slice(toeFrom),
  };
}

/** The count that most rounds have. */
function steady(rows: readonly PanelRow[]): number {
  const counts = new Map<number, number>();
  for (const { stitches } of rows) counts.set(stitches, (counts.get(stitches) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}

/** Inches of the drawing: widths folded, the floor at 0. */
interface Sizes {
  readonly high: number;
  readonly leg: number;
  readonly foot: number;
  readonly flap: number;
  /** What the turned heel adds to the sole: its rows, short as they are, through the row gauge. */
  readonly turn: number;
  readonly ball: number;
  readonly tip: number;
}

function sizesOf(parts: Parts, legEnd: PanelRow, footEnd: PanelRow): Sizes {
  const half = ({ stitches, stitchesPerInch }: PanelRow) => stitches / stitchesPerInch / 2;
  const flap = lengthOf(parts.flap);
  const turn = parts.turn.length / (parts.turn[0]?.rowsPerInch ?? 1);
  const ball = turn + lengthOf(parts.gusset) + lengthOf(parts.foot);
  return {
    high: lengthOf(parts.leg) + flap,
    leg: half(legEnd),
    foot: half(footEnd),
    flap,
    turn,
    ball,
    tip: ball + lengthOf(parts.toe),
  };
}

function toeLine(toe: readonly PanelRow[], ball: number, foot: number): Point[] {
  const from = toe[0]?.high ?? 0;
  const line = sideLine(foldedStrips(toe, 1 / 2));
  const place = ([half, y]: Point, side: 1 | -1): Point => [
    Math.max(ball, ball + y - from),
    foot / 2 + side * Math.min(half, foot / 2),
  ];
  return [
    ...line.map((point) => place(point, -1)),
    ...line.map((point) => place(point, 1)).toReversed(),
  ];
}

function cuffBand(source: OutlineSource, leg: readonly PanelRow[], high: number): Draft['bands'] {
  const [own] = bandsOf(foldedStrips(leg, 1 / 2), source.ownGauge);
  const range = source.range('cuffDepth');
  const depth = range ? range.high - range.low : own ? Math.abs(own[1][1] - own[0][1]) : 0;
  const [first] = leg;
  if (depth <= 0 || !first) return [];
  const width = first.stitches / first.stitchesPerInch / 2;
  return [[[0, high], [0, high - depth], [width, high - depth], [width, high]]]; // prettier-ignore
}

function placesOf(source: OutlineSource, size: Sizes, edge: readonly Point[]): MeasuredPlace[] {
  const { high, leg, foot, ball, tip } = size;
  const cuff = source.range('cuffDepth');
  const footAt = (leg + ball) / 2;
  const round: MeasuredPlace = {
    role: 'foot',
    from: [footAt, foot],
    to: [footAt, 0],
    side: 'inside',
    around: true,
    inches: foot * 2,
  };
  return [
    across('leg', { left: 0, right: leg, y: high }, 'above', true),
    round,
    across('footLength', { left: 0, right: tip, y: 0 }, 'below'),
    across('toeDepth', { left: ball, right: tip, y: 0 }, 'below'),
    beside('legLength', { low: 0, high }, 'left', edge),
    ...(cuff
      ? [beside('cuffDepth', { low: high - cuff.high + cuff.low, high }, 'left', edge)]
      : []),
  ];
}
