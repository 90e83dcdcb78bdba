/**
 * The outline of a flat back or front from its rows: hem, armholes, shoulders and neck, as the edges of
 * the panels really run. Takes a source, gives a draft; measured places are found on the shape itself,
 * and by the lines of the bundle where the shape has no corner there.
 */
import { bandsOf, flatStrips, type Strip, widest, widthOfStrip } from '../bands.ts';
import { heightOf, isWorkedFromTop } from '../direction.ts';
import { across, beside, type Draft, type MeasuredPlace, turnedOver } from '../outline.ts';
import type { Panel, PanelRow } from '../panels.ts';
import type { Point } from '../shape.ts';
import type { OutlineSource } from '../source.ts';
import { outlineOfPanels } from '../trace.ts';
import { given, rangePlace } from './plain.ts';

export function body(source: OutlineSource): Draft | undefined {
  const { panels } = source.worked;
  const [main] = panels;
  if (!main || main.start !== 'castOn' || panels.some(({ gapped }) => gapped)) return undefined;
  const strips = flatStrips(main.rows);
  const [hem, wide] = [strips[0], widest(strips.filter(({ gauge }) => gauge === source.ownGauge))];
  if (!hem || !wide) return undefined;
  const height = heightOf(source);
  const underarm = underarmOf(source, main);
  const edge = outlineOfPanels(panels);
  const neck = neckOf(panels, height);
  const last = panels.at(-1)?.rows.at(-1);
  const arm = armholeSide(main);
  const tip = neck?.tip ?? main.rows[(firstStepOfSlope(main) ?? 0) - 1]?.high ?? height;
  const draft: Draft = {
    edge,
    lines: [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      ...widths(source, hem, wide, underarm),
      beside('length', { low: 0, high: topOfLength(source, tip, height) }, 'right', edge),
      beside('sideLength', { low: 0, high: underarm }, arm, edge),
      ...rangePlace(source, 'armhole', arm, edge, underarm),
      ...rangePlace(source, 'hemDepth', arm, edge, 0),
      ...acrossArmholes(source),
      ...(neck
        ? neckPlaces(neck, height)
        : oneFront(source, last, arm === 'left' ? 'right' : 'left', edge)),
    ]),
  };
  const ends = { lower: ['hemDepth', 'sideLength'], upper: ['armhole', 'neckDepth'] };
  return isWorkedFromTop(source, ends, false) ? turnedOver(draft) : draft;
}

/** A length is measured to the neck, or to the tip of the shoulder: whichever its rows come to. */
function topOfLength(source: OutlineSource, tip: number, height: number): number {
  const wanted = source.range('length')?.high ?? source.stated('length') ?? height;
  return Math.abs(tip - wanted) < Math.abs(height - wanted) ? tip : height;
}

const INSIDE_SHARE = 0.72;

function widths(source: OutlineSource, hem: Strip, wide: Strip, underarm: number): MeasuredPlace[] {
  const same = Math.abs(widthOfStrip(hem) - widthOfStrip(wide)) < 0.3;
  const level = { left: wide.left, right: wide.right, y: same ? 0 : underarm * INSIDE_SHARE };
  const width = across('width', level, same ? 'below' : 'inside');
  if (!source.has('hem')) return [width];
  return [width, across('hem', { left: hem.left, right: hem.right, y: 0 }, 'below')];
}

/** Where stitches are first bound off at an edge to stay off; else where the measurements say. */
function underarmOf(source: OutlineSource, main: Panel): number {
  const shaped = main.rows.find((row, at) => at > 0 && isBoundOff(main, row, at));
  return (
    source.range('armhole')?.low ??
    source.range('sideLength')?.high ??
    source.stated('sideLength') ??
    shaped?.low ??
    heightOf(source) * 0.62
  );
}

/** One front of two: the armhole is where stitches are bound off. A whole piece has one at each side. */
function armholeSide(main: Panel): 'left' | 'right' {
  const at = main.rows.findIndex((row, index) => index > 0 && isBoundOff(main, row, index));
  const [before, row, next] = [main.rows[at - 1], main.rows[at], main.rows[at + 1]];
  if (!before || !row) return 'left';
  const movesLeft = (next ?? row).left - before.left > 1.5 / row.stitchesPerInch;
  return movesLeft ? 'left' : 'right';
}

function isBoundOff({ rows, open }: Panel, row: PanelRow, at: number): boolean {
  const before = rows[at - 1];
  if (!before || before.gauge !== row.gauge || open.some(({ after }) => after === at)) return false;
  const limit = 1.5 / row.stitchesPerInch;
  return before.right - row.right > limit || row.left - before.left > limit;
}

function acrossArmholes(source: OutlineSource): MeasuredPlace[] {
  const row = source.row('crossBack');
  if (!row) return [];
  const { left, right, high } = row;
  return [across('crossBack', { left, right, y: high + 0.6 }, 'inside')];
}

// ---------------------------------------------------------------- shoulders and neck

interface Top {
  readonly right: number;
  readonly left: number;
}

function neckPlaces({ opening, shoulder, bottom, tip }: Neck, height: number): MeasuredPlace[] {
  const middle = (opening.left + opening.right) / 2;
  const drop: MeasuredPlace = {
    role: 'shoulderDrop',
    from: [shoulder.left, height],
    to: [shoulder.right, tip],
    side: 'right',
    around: false,
    inches: height - tip,
  };
  return [
    across('neck', { ...opening, y: height }, 'above'),
    across('shoulder', { ...shoulder, y: tip }, 'above'),
    upright('neckDepth', middle, bottom, height),
    drop,
  ];
}

const upright = (role: string, x: number, low: number, high: number): MeasuredPlace => ({
  role,
  from: [x, high],
  to: [x, low],
  side: 'inside',
  around: false,
  inches: high - low,
});

interface Neck {
  readonly opening: Top;
  /** The shoulder at the right, seen from the right side. */
  readonly shoulder: Top;
  readonly bottom: number;
  readonly tip: number;
}

/** Between two shoulders: panels that end apart, three sets of held stitches, or steps bound off. */
function neckOf(panels: readonly Panel[], height: number): Neck | undefined {
  return neckBetweenPanels(panels, height) ?? neckOnTop(panels, height) ?? neckInSteps(panels);
}

function neckBetweenPanels(panels: readonly Panel[], height: number): Neck | undefined {
  const tops = panels
    .flatMap((panel) => panel.rows.at(-1) ?? [])
    .sort((one, other) => other.right - one.right);
  const [first, second] = tops;
  if (!first || !second || tops.length > 2) return undefined;
  const bottom = Math.min(...panels.flatMap(({ on }) => (on ? [on.open.y] : [])), height);
  return {
    opening: { right: first.left, left: second.right },
    shoulder: { right: first.right, left: first.left },
    bottom,
    tip: height,
  };
}

function neckOnTop(panels: readonly Panel[], height: number): Neck | undefined {
  const [main] = panels;
  const open = (main?.open ?? [])
    .filter(({ after }) => after >= (main?.rows.length ?? 0))
    .sort((one, other) => other.right - one.right);
  const [first, middle, last] = open;
  if (!first || !middle || !last || open.length !== 3) return undefined;
  const { right, left } = middle;
  return { opening: { right, left }, shoulder: first, bottom: height, tip: height };
}

/** Shoulders bound off in steps at both edges: what is left at the end is the neck. */
function neckInSteps(panels: readonly Panel[]): Neck | undefined {
  const [main] = panels;
  const last = main?.rows.at(-1);
  if (!main || !last || panels.length > 1) return undefined;
  const from = firstStepOfSlope(main);
  const before = from === undefined ? undefined : main.rows[from - 1];
  if (!before) return undefined;
  const [right, left] = [before.right - last.right, last.left - before.left];
  if (right < 1e-6 || Math.abs(right - left) > right / 4) return undefined;
  return {
    opening: { right: last.right, left: last.left },
    shoulder: { right: before.right, left: last.right },
    bottom: last.high,
    tip: before.high,
  };
}

/** The row of the first of the steps that follow each other to the end. */
function firstStepOfSlope(panel: Panel): number | undefined {
  let first: number | undefined;
  for (let at = panel.rows.length - 1; at > 0; at -= 1) {
    const row = panel.rows[at];
    if (row && isBoundOff(panel, row, at)) first = at;
    else if (first !== undefined && first - at > 3) break;
    else if (first === undefined && panel.rows.length - at > 3) break;
  }
  return first;
}

/** One front: its shoulder is what was on the needle before the last steps. */
function oneFront(
  source: OutlineSource,
  last: PanelRow | undefined,
  neckSide: 'left' | 'right',
  edge: readonly Point[],
): MeasuredPlace[] {
  const row = source.row('shoulder') ?? last;
  if (!row) return [];
  const top = heightOf(source);
  const from = top - (source.stated('neckDepth') ?? 0);
  return [
    across('shoulder', { left: row.left, right: row.right, y: row.high }, 'above'),
    ...rangePlace(source, 'neckDepth', neckSide, edge, from),
  ];
}
