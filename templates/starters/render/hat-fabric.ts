/**
 * The fabric of the Breakwater Hat in its middle size, wale by wale, as its rows make it: a brim of
 * twisted ribbing, ropes of six stitches that cross where the chart crosses them, grooves of two purl
 * stitches between, and a crown that takes the ropes together in the rounds the pattern names.
 */
import type { Fabric, Kind, Place, Wale } from './fabric.ts';
import type { ChartRows } from './chart-source.ts';

/** Size M: 120 stitches in the brim, 20 repeats of 8 above it. */
export const REPEATS = 20;
const REPEAT_STITCHES = 8;
/** Widths are counted in stitches of the body, all the way up. */
export const AROUND = REPEATS * REPEAT_STITCHES;
const BRIM_STITCHES = 120;

export const BRIM_ROWS = 16;
const CHART_TIMES = 6;
/** An increase round and one plain round before the chart. */
export const CHART_START = BRIM_ROWS + 2;
export const CROWN_START = CHART_START + 6 * CHART_TIMES;
export const ROWS = CROWN_START + 22;

/** Crown rounds in which wales end: what is left of a repeat after each. */
const PURL_JOINS = CROWN_START;
const THREE_TO_TWO = CROWN_START + 6;
const TWO_TO_ONE = CROWN_START + 12;
const ROPE_JOINS = CROWN_START + 17;
const GROOVE_JOINS = CROWN_START + 19;
const LAST_JOINS = CROWN_START + 21;

const step = (row: number, at: number, softness = 1.6): number => {
  const t = Math.min(1, Math.max(0, (row - at + softness) / (2 * softness)));
  return t * t * (3 - 2 * t);
};

/** Stitches of a strand (half a rope) at a height; falls smoothly so that positions do. */
const strandStitches = (row: number): number =>
  3 - step(row, THREE_TO_TWO) - step(row, TWO_TO_ONE) - 0.5 * step(row, ROPE_JOINS);

const grooveStitches = (row: number): number => 2 - step(row, PURL_JOINS);

/** Ropes draw together and grooves are hidden between them: a purl stitch is narrower. */
const PURL_SHARE = 0.58;

/** Width of a knit stitch in units, so that a repeat is eight units wide at every height. */
const knitWidth = (row: number): number =>
  REPEAT_STITCHES / (2 * strandStitches(row) + PURL_SHARE * grooveStitches(row));

/** Round of the chart in which the rope crosses, from 1 at the bottom. */
function crossingRound({ rows }: ChartRows): number {
  const found = rows.findIndex((row) => row.some((stitch) => stitch.endsWith('RC')));
  if (found < 0) throw new Error('the chart has no crossing that leans right');
  return found + 1;
}

/** Half turns of the rope: a whole number and a half in the middle of each crossing. */
const turns = (row: number, crossing: number, period: number): number =>
  (row - (CHART_START + crossing - 1) - 0.9) / period + 0.5;

/** Stays longer at the sides than an even wave would, as a rope between crossings does. */
const swing = (phase: number): number => 0.86 * (Math.sin(1.2 * Math.sin(phase)) / Math.sin(1.2));

/** Rows over which the first round above the brim settles into its ropes. */
const SETTLE_ROWS = 4;

/** Brim and body as one number: 0 in the brim, 1 where the ropes have their shape. */
const settled = (row: number): number =>
  step(row, BRIM_ROWS + SETTLE_ROWS / 2, SETTLE_ROWS / 2 + 0.5);

/** Where a stitch of the body grows out of the brim: four out of every three. */
function brimPlace(stitch: number): Place {
  const spacing = AROUND / BRIM_STITCHES;
  const inThree = [0, 1, 2, 2.5][((stitch % 4) + 4) % 4] ?? 0;
  const index = Math.floor(stitch / 4) * 3 + inThree;
  const isKnit = Math.abs(Math.round(index)) % 2 === 0;
  return { x: (index + 0.5) * spacing, z: isKnit ? 0.2 : -0.2, width: spacing * 0.9 };
}

const between = (a: Place, b: Place, share: number): Place => ({
  x: a.x + (b.x - a.x) * share,
  z: a.z + (b.z - a.z) * share,
  width: a.width + (b.width - a.width) * share,
});

/** The rope at a height: how far it has turned, and how wide its strands lie. */
function ropeAt(row: number, strand: 0 | 1, chart: ChartRows) {
  const phase = Math.PI * (turns(row, crossingRound(chart), chart.rows.length) + strand);
  const stitches = strandStitches(row);
  const front = Math.sin(phase);
  const side = -swing(phase + Math.PI / 2);
  // A strand that runs aslant is wider across than one that runs upright.
  const spread = 1 + 0.3 * Math.abs(front) ** 1.5;
  return {
    stitches,
    front,
    side,
    spread,
    halfWidth: Math.abs(side) * (stitches / 2) + (stitches / 2) * spread,
  };
}

function ropeWale(repeat: number, strand: 0 | 1, place: -1 | 0 | 1, chart: ChartRows): Wale {
  const centre = (repeat + 0.5) * REPEAT_STITCHES;
  const endRow = place === 1 ? THREE_TO_TWO : place === -1 ? TWO_TO_ONE : strand === 1 ? ROPE_JOINS : repeat % 2 ? LAST_JOINS : ROWS; // prettier-ignore
  const leftFirst = ropeAt(BRIM_ROWS, strand, chart).side < 0;
  const root = brimPlace(repeat * REPEAT_STITCHES + (leftFirst ? 1 : 4) + place);
  const at = (row: number): Place => {
    const { stitches, front, side, spread } = ropeAt(row, strand, chart);
    const width = knitWidth(row);
    const offset = place * Math.min(1, Math.max(0.001, (stitches - 1) / 2));
    const across = side * (stitches / 2) + offset * spread;
    const round = 0.36 * (1 - (offset * offset) / 1.2) * Math.min(1, stitches / 2);
    const own = { x: centre + across * width, z: 0.3 + 0.6 * front + round, width };
    return between(root, own, settled(row));
  };
  return {
    firstRow: BRIM_ROWS,
    endRow,
    place: at,
    kind: () => 'knit',
    order: (row) => centre + (ropeAt(row, strand, chart).side > 0 ? 1.5 : -1.5) + place * 0.3,
  };
}

function grooveWale(repeat: number, place: 0 | 1, chart: ChartRows): Wale {
  const edge = (repeat + 1) * REPEAT_STITCHES;
  const root = brimPlace(repeat * REPEAT_STITCHES + 6 + place);
  const at = (row: number): Place => {
    const { halfWidth } = ropeAt(row, 0, chart);
    const stitches = grooveStitches(row);
    // The groove fills what the ropes leave, and a little under their edges.
    const room = REPEAT_STITCHES - 2 * halfWidth * knitWidth(row) + 0.5;
    const width = Math.max(knitWidth(row) * PURL_SHARE, room / stitches);
    const own = { x: edge + (place - 0.5) * width * (stitches - 1), z: -0.5, width };
    return between(root, own, settled(row));
  };
  return {
    firstRow: BRIM_ROWS,
    endRow: place === 1 ? PURL_JOINS : GROOVE_JOINS,
    place: at,
    kind: () => 'purl',
    order: () => edge + (place - 0.5) * 0.4,
  };
}

/** Brim: knit through the back loop and purl in turn, the purl wales drawn in. */
function brimWale(index: number): Wale {
  const spacing = AROUND / BRIM_STITCHES;
  const isKnit = Math.abs(index) % 2 === 0;
  const kind: Kind = isKnit ? 'twisted' : 'purl';
  const place: Place = {
    x: (index + 0.5) * spacing,
    z: isKnit ? 0.3 : -0.42,
    width: spacing * (isKnit ? 1.28 : 0.74),
  };
  return {
    firstRow: 0,
    endRow: BRIM_ROWS,
    place: () => place,
    kind: () => kind,
    order: () => index,
  };
}

/** Wales between two places round the hat, in stitches of the body; the hat may go round more than once. */
export function hatFabric(chart: ChartRows, from: number, to: number): Fabric {
  const wales: Wale[] = [];
  const brim = AROUND / BRIM_STITCHES;
  for (let index = Math.ceil(from / brim); index * brim < to; index += 1)
    wales.push(brimWale(index));
  for (
    let repeat = Math.floor(from / REPEAT_STITCHES);
    repeat * REPEAT_STITCHES < to;
    repeat += 1
  ) {
    for (const strand of [0, 1] as const)
      for (const place of [-1, 0, 1] as const) wales.push(ropeWale(repeat, strand, place, chart));
    for (const place of [0, 1] as const) wales.push(grooveWale(repeat, place, chart));
  }
  return { wales, rows: ROWS };
}
