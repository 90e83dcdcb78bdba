/**
 * Rows as level strips of a drawing, whichever way they were worked, with what most outlines ask of
 * them: the widest, the lowest, and the bands at the ends that are worked in another fabric.
 */
import type { Draft } from './outline.ts';
import type { PanelRow } from './panels.ts';
import { edgeLine, type Point } from './shape.ts';

/** One row as it is drawn. */
export interface Strip {
  readonly low: number;
  readonly high: number;
  readonly right: number;
  readonly left: number;
  readonly gauge: string;
  readonly stitch: number;
  /** Stitches joined or left in this row. */
  readonly step?: boolean;
}

/** Rows about the middle line at a share of their width: a half where they are drawn folded. */
export const foldedStrips = (
  rows: readonly PanelRow[],
  share: number,
  stitches = (row: PanelRow): number => row.stitches,
  steps: ReadonlySet<number> = new Set(),
): Strip[] =>
  rows
    .filter(({ short }) => !short)
    .map((row) => {
      const half = ((stitches(row) / row.stitchesPerInch) * share) / 2;
      const { low, high, gauge, at } = row;
      const stitch = 1 / row.stitchesPerInch;
      return { low, high, right: half, left: -half, gauge, stitch, step: steps.has(at) };
    });

export const flatStrips = (rows: readonly PanelRow[]): Strip[] =>
  rows
    .filter(({ short }) => !short)
    .map(({ low, high, right, left, gauge, stitchesPerInch }) => ({
      low, high, right, left, gauge, stitch: 1 / stitchesPerInch,
    })); // prettier-ignore

export const widthOfStrip = ({ right, left }: Pick<Strip, 'right' | 'left'>): number =>
  right - left;

/** The first of the widest strips. */
export const widest = (strips: readonly Strip[]): Strip | undefined =>
  strips.reduce<Strip | undefined>(
    (best, strip) => (best && widthOfStrip(best) >= widthOfStrip(strip) - 1e-9 ? best : strip),
    undefined,
  );

/** How far an edge worked round may leave its rows, in inches. */
const TOLERANCE = 0.05;

/** The right-hand edge of strips drawn about a middle, from the bottom up. */
export const sideLine = (strips: readonly Strip[]): Point[] =>
  edgeLine(
    strips.map(({ right, ...strip }) => ({ ...strip, out: right })),
    { smooth: true, tolerance: TOLERANCE },
  );

/** A closed outline that is the same on both sides of the middle. */
export function symmetricEdge(strips: readonly Strip[]): Point[] {
  const line = sideLine(strips);
  return [...line, ...line.toReversed().map(([x, y]): Point => [-x, y])];
}

/** Bands at both ends in a fabric that is not the piece's own; the end of the piece comes first. */
export function bandsOf(strips: readonly Strip[], own: string): Draft['bands'] {
  const isBand = ({ gauge }: Strip) => gauge !== own;
  const lower = strips.slice(
    0,
    Math.max(
      0,
      strips.findIndex((strip) => !isBand(strip)),
    ),
  );
  const upper = strips.slice(strips.findLastIndex((strip) => !isBand(strip)) + 1);
  if (lower.length === strips.length) return [];
  return [...bandOf(lower, false), ...bandOf(upper, true)];
}

function bandOf(band: readonly Strip[], isUpper: boolean): Draft['bands'] {
  const [first, last] = [band[0], band.at(-1)];
  if (!first || !last) return [];
  const [lower, upper] = [
    { left: [first.left, first.low], right: [first.right, first.low] },
    { left: [last.left, last.high], right: [last.right, last.high] },
  ] as const;
  const [end, inner] = isUpper ? [upper, lower] : [lower, upper];
  return [[end.left, inner.left, inner.right, end.right]];
}
