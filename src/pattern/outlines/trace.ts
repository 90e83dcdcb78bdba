/**
 * The closed outline of flat panels: up the right-hand edge, across the top, down the left-hand one.
 * Where stitches were left on a holder and taken up again, the outline goes round the panel that grew
 * from them. Takes panels, gives points in inches, y upwards.
 */
import type { OpenStitches, Panel, PanelRow } from './panels.ts';
import { edgeLine, type EdgeStep, type Point, withoutDoubles } from './shape.ts';

/** Seam lines may leave the steps of the rows by this much of a stitch. */
const TOLERANCE = 0.6;

type Side = 'right' | 'left';

/** The outline of one panel with all that grew from it, counter-clockwise from its lower right corner. */
export function outlineOfPanels(panels: readonly Panel[], index = 0): Point[] {
  const panel = panels[index];
  if (!panel) return [];
  const { points } = traced(panels, index);
  return withoutDoubles(points);
}

/** From the lower right to the lower left corner. */
function traced(panels: readonly Panel[], index: number): { points: Point[] } {
  const panel = panels[index] as Panel;
  const grown = panels.flatMap((each, at) =>
    each.on?.panel === index && at !== index ? [{ at, open: each.on.open }] : [],
  );
  const up = side(panels, panel, grown, 'right');
  const down = side(panels, panel, grown, 'left').toReversed();
  const top = topLine(panels, panel, grown);
  return { points: [...up, ...top, ...down] };
}

interface Grown {
  readonly at: number;
  readonly open: OpenStitches;
}

/** One edge from the bottom up, in stretches between the places where something grew from it. */
function side(
  panels: readonly Panel[],
  panel: Panel,
  grown: readonly Grown[],
  which: Side,
): Point[] {
  const steps = stepsOf(panel.rows, which);
  const points: Point[] = [];
  let from = 0;
  for (const { at, open } of grown.filter((each) => liesAt(panel, each.open) === which)) {
    points.push(...seamLine(steps.slice(from, open.after), which));
    const around = traced(panels, at).points;
    points.push(...(which === 'right' ? around : around.toReversed()));
    from = open.after;
  }
  points.push(...seamLine(steps.slice(from), which));
  return points;
}

/** At the top where no rows follow; else at the edge that the stitches lay at. */
function liesAt(panel: Panel, open: OpenStitches): Side | 'top' {
  if (open.after >= panel.rows.length) return 'top';
  const row = panel.rows[open.after];
  if (!row) return 'top';
  return open.right - row.right > row.left - open.left ? 'right' : 'left';
}

function topLine(panels: readonly Panel[], panel: Panel, grown: readonly Grown[]): Point[] {
  const onTop = grown
    .filter(({ open }) => liesAt(panel, open) === 'top')
    .sort((one, other) => other.open.right - one.open.right);
  const slope = shortRowSlope(panel.rows);
  return [...slope, ...onTop.flatMap(({ at }) => traced(panels, at).points)];
}

/**
 * The left-hand edge is shaped on the wrong side, a row after the right-hand one: both are drawn at one
 * height, as they lie when the piece is sewn up.
 */
const stepsOf = (rows: readonly PanelRow[], which: Side): EdgeStep[] =>
  rows.map(({ low, high, right, left, stitchesPerInch, gauge, side: facing }, at) => {
    const next = rows[at + 1];
    const pairs = facing === 'RS' && next?.side === 'WS' && next.gauge === gauge;
    const edge = which === 'right' ? right : -(pairs ? next.left : left);
    return { low, high, out: edge, stitch: 1 / stitchesPerInch, gauge };
  });

function seamLine(steps: readonly EdgeStep[], which: Side): Point[] {
  const tolerance = (steps[0]?.stitch ?? 0) * TOLERANCE;
  const line = edgeLine(steps, { smooth: false, tolerance });
  return which === 'right' ? line : line.map(([out, y]): Point => [-out, y]);
}

/**
 * Short rows before the end raise one part of the top: the line goes through the corner of each step,
 * from right to left. Rows all across that follow, up to two, rise with it.
 */
function shortRowSlope(rows: readonly PanelRow[]): Point[] {
  const last = rows.at(-1);
  if (!last) return [];
  let end = rows.length;
  while (end > 0 && rows.length - end < 2 && !rows[end - 1]?.short) end -= 1;
  let start = end;
  while (start > 0 && rows[start - 1]?.short) start -= 1;
  const stretches = rows
    .slice(start, end)
    .flatMap(({ short, rowsPerInch }) => (short ? [{ ...short, height: 1 / rowsPerInch }] : []));
  if (stretches.length < 2) return [];
  const places = [...new Set(stretches.flatMap(({ right, left }) => [right, left]))].sort(
    (a, b) => b - a,
  );
  const raised = (x: number) =>
    stretches.reduce(
      (sum, { right, left, height }) => sum + (x < right && x > left ? height : 0),
      0,
    );
  return places.map((x): Point => {
    const [before, after] = [raised(x + 1e-6), raised(x - 1e-6)];
    return [x, last.high + Math.max(before, after)];
  });
}
