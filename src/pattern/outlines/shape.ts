/**
 * Small geometry for outlines: from the steps of an edge to the line a seam would take, and how lines
 * are thinned out without moving further than a stitch. Points are inches; y grows upwards. Knows rows
 * as steps with a place, no garment.
 */
export type Point = readonly [x: number, y: number];

/** One row of an edge: how far out it stands over this height. */
export interface EdgeStep {
  readonly low: number;
  readonly high: number;
  readonly out: number;
  /** Width of a stitch there: moves of less than two are shaping, more are stitches bound off. */
  readonly stitch: number;
  readonly gauge: string;
  /** Stitches joined or left in this row: a step, however smooth the edge. */
  readonly step?: boolean;
}

/** A run of steps at one place. */
interface Run {
  readonly low: number;
  readonly high: number;
  readonly out: number;
  readonly stitch: number;
  readonly gauge: string;
  readonly rows: number;
  readonly step?: boolean;
}

/** A run this long, and so many times longer than its neighbours, is a straight edge and no slope. */
const STRAIGHT_INCHES = 1;
const STRAIGHT_TIMES = 2.2;
/**
 * Two stitches gone from an edge at once are bound off. One decreased there may come with one lost
 * further in, as over a cable: half of that shows at each edge, and is still shaping.
 */
const BOUND_OFF_STITCHES = 1.75;
/** Rows between two steps of a slope that is bound off in steps. */
const SLOPE_ROWS = 3;

/** A corner stays where it is; other points may be left out for the line between them. */
interface EdgePoint {
  readonly at: Point;
  readonly corner: boolean;
}

/**
 * The line along an edge from the bottom up. Single stitches taken every few rows become the slope they
 * make; stitches bound off at once stay a step; steps that follow each other closely are a slope.
 * `smooth`: no steps at all, as in the round, where a round's decreases lie all round. `tolerance`: how
 * far the line may leave the middle of the runs.
 */
export function edgeLine(
  steps: readonly EdgeStep[],
  options: { readonly smooth: boolean; readonly tolerance: number },
): Point[] {
  const runs = runsOf(steps.filter(({ low, high }) => high > low));
  const points = runs.flatMap((_, at) => pointsOfRun(runs, at, options.smooth));
  return runs.reduce(
    (line, run, at) => openedOut(line, runs[at - 1], run),
    thinnedBetweenCorners(points, options.tolerance),
  );
}

const LEAST_EASE_INCHES = 0.4;
const MOST_EASE_INCHES = 1.6;

/**
 * Where two fabrics meet, ribbing keeps its width and the wider fabric opens out from it, over about as
 * much height as it gains: its points nearer to the ribbing are left out.
 */
function openedOut(line: readonly Point[], lower: Run | undefined, upper: Run): Point[] {
  if (!lower || lower.gauge === upper.gauge) return [...line];
  const gain = upper.out - lower.out;
  if (Math.abs(gain) < 1e-9) return [...line];
  const y = upper.low;
  const ends = line.map(([, height]) => height);
  const room = gain > 0 ? Math.max(...ends) - y : y - Math.min(...ends);
  const ease = Math.min(Math.max(Math.abs(gain), LEAST_EASE_INCHES), MOST_EASE_INCHES, room * 0.6);
  const far = y + Math.sign(gain) * ease;
  const [from, to] = [Math.min(y, far), Math.max(y, far)];
  const inner: Point = [gain > 0 ? lower.out : upper.out, y];
  const outer: Point = [outAt(line, far), far];
  const below = line.filter(([, height]) => height < from - 1e-9);
  const above = line.filter(([, height]) => height > to + 1e-9);
  return [...below, ...(gain > 0 ? [inner, outer] : [outer, inner]), ...above];
}

/** Where a line from the bottom up stands at a height. */
function outAt(line: readonly Point[], y: number): number {
  for (let at = 1; at < line.length; at += 1) {
    const [[x, low], [nextX, high]] = [line[at - 1] as Point, line[at] as Point];
    if (y > high || high - low < 1e-12) continue;
    return x + ((nextX - x) * Math.max(0, y - low)) / (high - low);
  }
  return line.at(-1)?.[0] ?? 0;
}

function pointsOfRun(runs: readonly Run[], at: number, smooth: boolean): EdgePoint[] {
  const [before, run, after] = [runs[at - 1], runs[at] as Run, runs[at + 1]];
  const arriving = before ? kindOfStep(before, run, smooth) : 'none';
  const leaving = after ? kindOfStep(run, after, smooth) : 'none';
  const low: EdgePoint = { at: [run.out, run.low], corner: true };
  const high: EdgePoint = { at: [run.out, run.high], corner: true };
  if (isOnSlope(runs, at, smooth)) return [{ ...high, corner: leaving !== 'bound off' }];
  if (arriving === 'bound off' || !before) {
    const stays =
      !after || leaving === 'bound off' || leaving === 'fabric' || isStraight(runs, at, smooth);
    return stays ? [low, ...leavingPoints(run, after, leaving)] : [low];
  }
  if (!after) return [high];
  if (leaving !== 'shaping' || isStraight(runs, at, smooth)) {
    const start = arriving === 'shaping' && isStraight(runs, at, smooth) ? [low] : [];
    return [...start, ...leavingPoints(run, after, leaving)];
  }
  return arriving === 'fabric' ? [] : [{ at: [run.out, (run.low + run.high) / 2], corner: false }];
}

function leavingPoints(run: Run, after: Run | undefined, leaving: StepKind): EdgePoint[] {
  const high: EdgePoint = { at: [run.out, run.high], corner: true };
  if (leaving !== 'fabric' || !after) return [high];
  return [high, { at: [after.out, after.low], corner: true }];
}

/** Between two steps bound off: a point of the slope that the steps make. */
function isOnSlope(runs: readonly Run[], at: number, smooth: boolean): boolean {
  const [before, run, after] = [runs[at - 1], runs[at], runs[at + 1]];
  if (!before || !run || run.rows > SLOPE_ROWS) return false;
  if (kindOfStep(before, run, smooth) !== 'bound off') return false;
  if (after) return kindOfStep(run, after, smooth) === 'bound off';
  const earlier = runs[at - 2];
  return earlier !== undefined && before.rows <= SLOPE_ROWS && kindOfStep(earlier, before, smooth) === 'bound off'; // prettier-ignore
}

function isStraight(runs: readonly Run[], at: number, smooth: boolean): boolean {
  const run = runs[at];
  if (!run) return false;
  const height = run.high - run.low;
  const neighbours = [runs[at - 1], runs[at + 1]].filter(
    (each): each is Run => each !== undefined && kindOfStep(run, each, smooth) === 'shaping',
  );
  const longest = Math.max(0, ...neighbours.map(({ low, high }) => high - low));
  return height >= STRAIGHT_INCHES && height > STRAIGHT_TIMES * longest;
}

function runsOf(steps: readonly EdgeStep[]): Run[] {
  const runs: Run[] = [];
  for (const step of steps) {
    const last = runs.at(-1);
    if (last && last.gauge === step.gauge && Math.abs(last.out - step.out) < 1e-9)
      runs[runs.length - 1] = { ...last, high: step.high, rows: last.rows + 1 };
    else runs.push({ ...step, rows: 1 });
  }
  return runs;
}

type StepKind = 'none' | 'shaping' | 'bound off' | 'fabric';

function kindOfStep(from: Run, to: Run, smooth: boolean): StepKind {
  const move = Math.abs(to.out - from.out);
  if (from.gauge !== to.gauge) return 'fabric';
  if (move < 1e-9) return 'none';
  if (to.step) return 'bound off';
  return smooth || move < BOUND_OFF_STITCHES * to.stitch ? 'shaping' : 'bound off';
}

function thinnedBetweenCorners(points: readonly EdgePoint[], tolerance: number): Point[] {
  const line: Point[] = [];
  let stretch: Point[] = [];
  for (const { at, corner } of points) {
    stretch.push(at);
    if (!corner) continue;
    line.push(...thinned(stretch, tolerance).slice(line.length === 0 ? 0 : 1));
    stretch = [at];
  }
  return line;
}

// ---------------------------------------------------------------- thinning

/**
 * Leaves out points that lie within `tolerance` of the line between those kept (D. H. Douglas and
 * T. K. Peucker, 1973).
 */
export function thinned(points: readonly Point[], tolerance: number): Point[] {
  if (points.length < 3) return [...points];
  const [first, last] = [points[0] as Point, points.at(-1) as Point];
  let farthest = 0;
  let reach = 0;
  points.forEach((point, at) => {
    const away = distanceToLine(point, first, last);
    if (away > reach) [reach, farthest] = [away, at];
  });
  if (reach <= tolerance) return [first, last];
  const head = thinned(points.slice(0, farthest + 1), tolerance);
  return [...head.slice(0, -1), ...thinned(points.slice(farthest), tolerance)];
}

function distanceToLine([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = Math.hypot(dx, dy);
  if (length < 1e-12) return Math.hypot(x - ax, y - ay);
  return Math.abs(dy * (x - ax) - dx * (y - ay)) / length;
}

/** Points that follow each other at the same place are one. */
export const withoutDoubles = (points: readonly Point[]): Point[] =>
  points.filter(([x, y], at) => {
    const before = points[at - 1];
    return !before || Math.hypot(x - before[0], y - before[1]) > 1e-6;
  });

/** Area inside a closed outline (the surveyor's formula), positive either way round. */
export function areaInside(points: readonly Point[]): number {
  const sum = points.reduce((total, [x, y], at) => {
    const [nextX, nextY] = points[(at + 1) % points.length] ?? [0, 0];
    return total + (x * nextY - nextX * y);
  }, 0);
  return Math.abs(sum) / 2;
}

export function boundsOf(points: readonly Point[]) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    low: Math.min(...ys),
    high: Math.max(...ys),
  };
}

/** Where the outline is cut at a height: its outermost points, or undefined above and below it. */
export function widthAt(
  points: readonly Point[],
  y: number,
): { left: number; right: number } | undefined {
  const cuts: number[] = [];
  points.forEach(([x, height], at) => {
    const [nextX, nextY] = points[(at + 1) % points.length] ?? [x, height];
    const [low, high] = [Math.min(height, nextY), Math.max(height, nextY)];
    if (y < low - 1e-9 || y > high + 1e-9) return;
    if (high - low < 1e-9) cuts.push(x, nextX);
    else cuts.push(x + ((y - height) / (nextY - height)) * (nextX - x));
  });
  return cuts.length === 0 ? undefined : { left: Math.min(...cuts), right: Math.max(...cuts) };
}
