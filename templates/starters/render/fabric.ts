/**
 * Knitted fabric as columns of stitches (wales) that may wander, cross and end. From them come the
 * loops: every stitch is a curve of yarn that rises from behind through the stitch below, lies in
 * front as the two legs of a V and turns back behind its neighbour. A purl stitch is the same loop
 * seen from the other side.
 */
import { lattice, noise2 } from './noise.ts';
import { curveThrough, type Strand, type Yarn } from './yarn.ts';

export type Kind = 'knit' | 'purl' | 'twisted';

/** Where a wale stands at a height in rows: across in stitches, forward in stitches. */
export interface Place {
  readonly x: number;
  readonly z: number;
  /** Width of a stitch there, 1 in plain fabric. */
  readonly width: number;
}

export interface Wale {
  readonly firstRow: number;
  /** One past the last row. */
  readonly endRow: number;
  place(row: number): Place;
  kind(row: number): Kind;
  /** Order on the needle, from left to right. */
  order(row: number): number;
}

export interface Fabric {
  readonly wales: readonly Wale[];
  readonly rows: number;
}

/** From stitches across, rows up and stitches forward to pixels: x right, y down, z to the eye. */
export type Drape = (x: number, row: number, z: number) => readonly [number, number, number];

/**
 * Half a loop from the middle of the strand to its left neighbour up to the head: across in stitch
 * widths, up in rows, forward in loop depths. Shaped by eye after relaxed plain fabric.
 */
const HALF_LOOP: readonly (readonly [number, number, number])[] = [
  [-0.5, -0.34, -1],
  [-0.27, -0.36, -0.95],
  [-0.11, -0.02, 0.05],
  [-0.19, 0.46, 1],
  [-0.33, 0.92, 0.75],
  [-0.3, 1.22, -0.45],
  [0, 1.36, -1],
];

/** Depth of a loop in stitch widths: legs and heads lie one yarn apart. */
const DEPTH = 0.21;

export interface LoopOptions {
  readonly drape: Drape;
  readonly yarnAt: (x: number, row: number) => Yarn;
  readonly seed: number;
  /** How uneven the hand is: 0 for a machine, about 1 for a good knitter. */
  readonly unevenness: number;
}

interface Standing {
  readonly wale: Wale;
  readonly x: number;
  readonly index: number;
}

/** The wales of a row from left to right as they stand. */
const standing = (fabric: Fabric, row: number): Standing[] =>
  fabric.wales
    .map((wale, index) => ({ wale, index }))
    .filter(({ wale }) => row >= wale.firstRow && row < wale.endRow)
    .map(({ wale, index }) => ({ wale, index, x: wale.place(row).x }))
    .toSorted((a, b) => a.wale.order(row) - b.wale.order(row));

const front = (kind: Kind): number => (kind === 'purl' ? -1 : 1);

/** How one stitch differs from the ideal: moved, and larger or smaller. */
interface Hand {
  readonly dx: number;
  readonly dy: number;
  readonly size: number;
}

/** A half loop of one stitch as points in the fabric (across, row, forward); `side` −1 is the left. */
function halfLoop(wale: Wale, row: number, side: 1 | -1, reach: number, hand: Hand) {
  const kind = wale.kind(row);
  return HALF_LOOP.map(([across, up, forward], index): [number, number, number] => {
    const place = wale.place(row + up);
    // A stitch worked through the back loop has its feet crossed.
    const crossed = kind === 'twisted' && (index === 1 || index === 2);
    const away = index === 0 ? -reach : across * (crossed ? -0.75 : 1) * hand.size;
    const lift = crossed ? -side * 0.7 : forward * front(kind);
    return [
      place.x - away * side * place.width + hand.dx * place.width,
      row + up * hand.size + hand.dy,
      place.z + lift * DEPTH,
    ];
  });
}

/** A neighbour further away than this is on the other side of an opening. */
const OPENING = 4;

/** The yarn of one row: one run of points, or several where an opening parts the row. */
function rowRuns(fabric: Fabric, row: number, options: LoopOptions): [number, number, number][][] {
  const stitches = standing(fabric, row);
  const { unevenness, seed } = options;
  const runs: [number, number, number][][] = [];
  const isNear = (a: Standing | undefined, b: Standing | undefined): boolean =>
    a !== undefined && b !== undefined && Math.abs(a.x - b.x) < OPENING;
  stitches.forEach((stitch, position) => {
    const { wale, index, x } = stitch;
    const [before, after] = [stitches[position - 1], stitches[position + 1]];
    const chance = (n: number) => (2 * lattice(index, row, seed + n) - 1) * unevenness;
    const hand = { dx: chance(1) * 0.035, dy: chance(2) * 0.05, size: 1 + chance(3) * 0.035 };
    const gap = (neighbour: Standing | undefined) =>
      neighbour && isNear(neighbour, stitch)
        ? Math.min(1.2, Math.abs(neighbour.x - x) / 2 / wale.place(row).width)
        : 0.5;
    const left = halfLoop(wale, row, -1, gap(before), hand);
    const right = halfLoop(wale, row, 1, gap(after), hand);
    if (!isNear(before, stitch)) runs.push([]);
    const knots = runs.at(-1) ?? [];
    joinSinker(knots, left);
    knots.push(...left.slice(1), ...right.toReversed().slice(1));
  });
  return runs;
}

/** The strand between two stitches passes through the middle of where both want it. */
function joinSinker(knots: [number, number, number][], left: readonly [number, number, number][]) {
  const [start] = left;
  const before = knots.at(-1);
  if (!start) return;
  if (!before) knots.push(start);
  else knots[knots.length - 1] = [(before[0] + start[0]) / 2, (before[1] + start[1]) / 2, (before[2] + start[2]) / 2]; // prettier-ignore
}

/** Slow wandering of the whole fabric, in stitches. */
const wander = (x: number, row: number, seed: number): number =>
  noise2(x / 9, row / 13, seed) * 0.1;

/** The strands of a piece of fabric, row by row. */
export function knitStrands(fabric: Fabric, options: LoopOptions): Strand[] {
  const { drape, seed, unevenness } = options;
  const placed = ([x, y, z]: readonly [number, number, number]) =>
    drape(
      x + unevenness * wander(x, y, seed),
      y + unevenness * wander(y + 200, x, seed + 1) * 1.5,
      z,
    );
  const strands: Strand[] = [];
  for (let row = 0; row < fabric.rows; row += 1)
    for (const knots of rowRuns(fabric, row, options)) {
      const middle = knots[Math.floor(knots.length / 2)];
      const yarn = options.yarnAt(middle?.[0] ?? 0, row);
      const points = Float32Array.from(curveThrough(knots.map(placed), yarn.radiusPixels / 6));
      strands.push({ points, yarn, startPixels: row * 977, seed: seed + row });
    }
  return strands;
}

/**
 * The inside of a piece, dark, so that no gap between stitches shows what lies behind: plain tubes a
 * little below the fabric, from edge to edge of each row.
 */
export function liningStrands(
  edges: (row: number) => readonly [from: number, to: number] | undefined,
  rows: number,
  depth: number,
  options: Pick<LoopOptions, 'drape' | 'yarnAt'>,
): Strand[] {
  const strands: Strand[] = [];
  for (let row = 0; row < rows; row += 0.5) {
    const ends = edges(row);
    if (!ends) continue;
    const [from, to] = ends;
    const pieces = Math.max(1, Math.ceil((to - from) / 1.5));
    const knots = Array.from({ length: pieces + 1 }, (_, index) =>
      options.drape(from + ((to - from) * index) / pieces, row, -depth),
    );
    const worn = options.yarnAt((from + to) / 2, row);
    const [red, green, blue] = worn.colour;
    const yarn: Yarn = { ...worn, colour: [red * 0.36, green * 0.36, blue * 0.36], radiusPixels: worn.radiusPixels * 2, relief: 0, heather: 0 }; // prettier-ignore
    const points = Float32Array.from(curveThrough(knots, yarn.radiusPixels / 3));
    strands.push({ points, yarn, startPixels: 0, seed: 1 });
  }
  return strands;
}

/** An edge that is cast on or bound off: two strands twisted round each other along a row. */
export function edgeStrands(
  from: number,
  to: number,
  row: number,
  stitchWidth: number,
  options: Pick<LoopOptions, 'drape' | 'yarnAt' | 'seed'>,
): Strand[] {
  const turns = (to - from) / stitchWidth;
  const steps = Math.ceil(turns * 8);
  return [0, 1].map((strand): Strand => {
    const knots = Array.from({ length: steps + 1 }, (_, index) => {
      const share = index / steps;
      const angle = share * turns * Math.PI + strand * Math.PI;
      return options.drape(from + (to - from) * share, row + 0.2 * Math.sin(angle), 0.22 * Math.cos(angle)); // prettier-ignore
    });
    const yarn = options.yarnAt(from, row);
    const points = Float32Array.from(curveThrough(knots, yarn.radiusPixels / 6));
    return { points, yarn, startPixels: strand * 500, seed: options.seed + strand };
  });
}
