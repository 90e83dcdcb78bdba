/**
 * The outline of a triangle from its rows. A shawl begun in the middle of its long edge, with increases
 * at both ends and on both sides of a spine, is two triangles side by side that share the spine; any
 * other triangle is as wide as its rows are. Takes a source, gives a draft.
 */
import { flatStrips, widest } from '../bands.ts';
import { heightOf } from '../direction.ts';
import { across, beside, type Draft, turnedOver } from '../outline.ts';
import type { PanelRow } from '../panels.ts';
import type { OutlineSource } from '../source.ts';
import type { Point } from '../shape.ts';
import { outlineOfPanels } from '../trace.ts';
import { given } from './plain.ts';

export function triangle(source: OutlineSource): Draft | undefined {
  const [panel] = source.worked.panels;
  if (!panel || panel.gapped) return undefined;
  const spined = spinedRows(panel.rows);
  return spined ? fromTheNeck(source, spined) : fromRows(source);
}

/**
 * Rows from the first that has its markers about the middle and grows on; undefined where there is no
 * spine: the stitches grow by four every second row, two at the ends and two at the spine.
 */
function spinedRows(rows: readonly PanelRow[]): readonly PanelRow[] | undefined {
  const last = rows.at(-1);
  if (!last) return undefined;
  const middle = last.stitches / 2;
  const atSpine = last.marks.some((mark) => Math.abs(mark - middle) <= 3);
  const from = rows.findIndex(({ marks }) => marks.length > 0);
  const grown = rows.slice(Math.max(0, from));
  const first = grown[0];
  return atSpine && first && first.stitches < last.stitches / 4 ? grown : undefined;
}

/**
 * Each half is a triangle whose base is half of the last row and whose height is that of the rows; the
 * long edge and the spine are its two other sides, equal because both grow alike (geometry).
 */
function fromTheNeck(source: OutlineSource, rows: readonly PanelRow[]): Draft | undefined {
  const last = rows.at(-1);
  if (!last) return undefined;
  const base = last.stitches / last.stitchesPerInch / 2;
  const height = rows.reduce((sum, { low, high }) => sum + high - low, 0);
  const side = Math.hypot(base / 2, height);
  const half = Math.atan2(base / 2, height);
  const tip: Point = [side * Math.sin(2 * half), -side * Math.cos(2 * half)];
  const left: Point = [-tip[0], tip[1]];
  const level = Math.max(0, tip[1]);
  const edge: Point[] = [[0, 0], tip, [0, -side], left];
  return {
    edge,
    lines: [{ kind: 'fold', points: [[0, 0], [0, -side]] }],
    bands: [],
    places: given(source, [
      // Measured along the two halves of the edge, which blocking draws straight.
      { ...across('width', { left: left[0], right: tip[0], y: level }, 'above'), inches: 2 * side },
      { role: 'length', from: [0, 0], to: [0, -side], side: 'right', around: false, inches: side },
    ]),
  }; // prettier-ignore
}

function fromRows(source: OutlineSource): Draft | undefined {
  const strips = flatStrips(source.worked.panels[0]?.rows ?? []);
  const [wide, first, last] = [widest(strips), strips[0], strips.at(-1)];
  if (!wide || !first || !last) return undefined;
  const height = heightOf(source);
  const fromTip = first.right - first.left < last.right - last.left;
  const at = fromTip ? height : 0;
  const edge = outlineOfPanels(source.worked.panels);
  const draft: Draft = {
    edge,
    lines: [],
    bands: [],
    places: given(source, [
      across('width', { left: wide.left, right: wide.right, y: at }, fromTip ? 'above' : 'below'),
      beside('length', { low: 0, high: height }, 'right', edge),
    ]),
  };
  return fromTip ? draft : turnedOver(draft);
}
