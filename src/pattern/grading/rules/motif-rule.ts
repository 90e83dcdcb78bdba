/**
 * The rule that makes a motif go round in a chosen way: in all sizes the same way, or each its own. Takes
 * a bundle's data, a number whose count is made from a length at the gauge of a stitch pattern, and the
 * choice; gives the ways that fit and the text of the rule. What the rule then does to other numbers is
 * reckoned by `choose.ts`.
 */
import type { BundleData, NumberData } from '../../bundle/schema.ts';
import { sizedValue } from '../../bundle/sized-data.ts';
import { readBase, stitchesInWidth, widthInches } from '../gauge.ts';
import { fitMotif, type FittedSize, type MotifFit, type MotifWay, WIDEST_PANEL } from '../motif.ts';
import { printSizes } from './in-rows.ts';
import { readRule } from './read-rule.ts';
import { resolveNumbers } from './resolve.ts';
import type { Grid } from './rule.ts';
import { settleNumbers } from './settle.ts';

type PatternData = BundleData['stitchPatterns'][number];

/** A number whose stitches a motif goes across. */
export interface MotifNumber {
  readonly number: NumberData;
  readonly pattern: PatternData;
  /** The gauge through which the count was made. */
  readonly gauge: BundleData['gauges'][number];
  /** 2 where the number counts one half of a flat round: a front, a back. */
  readonly parts: 1 | 2;
  /** By size: the wanted width of one part, without edges that stand beside the motif. */
  readonly wantedInches: readonly number[];
  /** By size: stitches beside the motif, such as those of the seams. */
  readonly edges: readonly number[];
}

/** Changes to the motif itself; absent: as the stitch pattern says. By size, or one for all. */
export interface MotifSize {
  readonly stitches?: readonly number[];
  readonly plus?: readonly number[];
}

/** Ways that change the count alone. Another gauge is knitted and measured first, never only written. */
export type WrittenWay = Exclude<MotifWay, 'another gauge'>;

export const WRITTEN_WAYS: readonly WrittenWay[] = [
  'whole repeats',
  'centred front and back',
  'across the side seams',
  'side panels',
];

/** Undefined where no motif goes across the number, or its width is not known in every size. */
export function motifNumber(data: BundleData, id: string): MotifNumber | undefined {
  const resolved = resolveNumbers(data);
  const own = resolved.byId.get(id);
  if (!own?.rule || own.problem || own.data.unit !== 'sts') return undefined;
  const derived = settleNumbers(data, resolved).map(({ derived: each }) => each.get(id));
  const amounts = derived.map((each) => (each?.amount.unit === 'length' ? undefined : each?.amount)); // prettier-ignore
  const gauge = amounts[0]?.gauge;
  const pattern = gauge && patternOf(data, own.rule.rounding?.grid, gauge.pattern);
  if (!gauge || !pattern || pattern.multiple < 2) return undefined;
  const exact = amounts.flatMap((each) => (each?.wanted ? each.value : []));
  if (exact.length < data.sizes.length) return undefined;
  const width = { ...gauge, over: readBase(gauge.over) };
  const beside = exact.map((count, size) =>
    Math.round(count - stitchesInWidth(amounts[size]?.wanted?.inches ?? 0, width)),
  );
  // Where the rule counts in repeats of the pattern already, its edges are a part of them.
  const grid = own.rule.rounding?.grid;
  const edges = grid && keepsRepeats(grid, pattern) ? beside.map(() => 0) : beside;
  const wantedInches = exact.map((count, size) => widthInches(count - (edges[size] ?? 0), width));
  const parts = pattern.form === 'flat' && countsHalf(data, own.data) ? 2 : 1;
  return { number: own.data, pattern, gauge, parts, wantedInches, edges };
}

function keepsRepeats(grid: Grid, { multiple, plus }: PatternData): boolean {
  if (grid.kind === 'length') return false;
  if (grid.kind === 'pattern') return true;
  const rest = (value: number | null) => (value ?? 0) % multiple;
  return (
    grid.multiple.values.every((each) => rest(each) === 0) &&
    grid.plus.values.every((each) => rest(each) === plus % multiple)
  );
}

/** The pattern that the rule names, else the one its gauge was counted over. */
function patternOf(
  { stitchPatterns }: BundleData,
  grid: Grid | undefined,
  fabric: string,
): PatternData | undefined {
  const named = grid?.kind === 'pattern' ? grid.id : fabric;
  return stitchPatterns.find(({ id }) => id === named);
}

/** Some measurement takes a piece of this number twice: the round is this number and its like. */
function countsHalf({ measurements }: BundleData, { places = [] }: NumberData): boolean {
  const pieces = new Set(places.flat().map(pieceOf));
  return measurements.some(
    ({ from }) => 'width' in from && from.times === 2 && pieces.has(pieceOf(from.width)),
  );
}

const pieceOf = (anchor: string): string => anchor.split('/')[0] ?? anchor;

// ---------------------------------------------------------------- the ways

/** Every way that fits in all sizes, the least deviation first; sizes may have motifs of their own. */
export function motifFits(motif: MotifNumber, size: MotifSize = {}): readonly MotifFit[] {
  const { pattern, gauge, parts, wantedInches } = motif;
  const each = wantedInches.map((inches, at) =>
    fitMotif({
      motif: motifIn(pattern, size, at),
      aroundInches: [inches * parts],
      gauge: { ...gauge, over: readBase(gauge.over) },
      seamStitches: parts === 2 ? 0 : undefined,
      // A single flat width has no sides to fill.
      panel: pattern.form === 'flat' && parts === 1 ? { min: 0, max: 0 } : { min: 1, max: WIDEST_PANEL }, // prettier-ignore
    }),
  );
  const ways = WRITTEN_WAYS.filter((way) => way !== 'centred front and back' || pattern.form === 'round' || parts === 2); // prettier-ignore
  return ways
    .flatMap((way) => {
      const found = each.flatMap((fits) => fits.find((fit) => fit.way === way) ?? []);
      return found.length < each.length ? [] : [joined(way, found)];
    })
    .sort((one, other) => one.worstDeviationInches - other.worstDeviationInches);
}

function joined(way: MotifWay, found: readonly MotifFit[]): MotifFit {
  const sizes = found.flatMap((fit) => fit.sizes);
  return {
    way,
    sizes,
    gaugeStitches: found[0]?.gaugeStitches ?? 0,
    worstDeviationInches: Math.max(...found.map((fit) => fit.worstDeviationInches)),
    reason: found[0]?.reason ?? '',
  };
}

export const motifIn = (
  pattern: { readonly multiple: number; readonly plus: number },
  { stitches = [], plus = [] }: MotifSize,
  size: number,
): { readonly stitches: number; readonly plus: number } => ({
  stitches: valueIn(stitches, size) ?? pattern.multiple,
  plus: valueIn(plus, size) ?? pattern.plus,
});

const valueIn = (values: readonly number[], size: number): number | undefined =>
  values.length === 1 ? values[0] : values[size];

// ---------------------------------------------------------------- the rule

export interface MotifRule {
  /** The rule as it is to be written. */
  readonly text: string;
  /** By size, the round as it will be. */
  readonly fitted: readonly FittedSize[];
}

/** `ways` by size. Undefined where one of them does not fit its size. */
export function motifRule(
  data: BundleData,
  motif: MotifNumber,
  ways: readonly WrittenWay[],
  size: MotifSize = {},
): MotifRule | undefined {
  const { number, pattern } = motif;
  const read = number.rule === undefined ? undefined : readRule(number.rule);
  if (!read || 'problem' in read) return undefined;
  const fits = motifFits(motif, size);
  const fitted = ways.flatMap((way, at) => fits.find((fit) => fit.way === way)?.sizes[at] ?? []);
  if (fitted.length < data.sizes.length) return undefined;
  const grids = fitted.map((round, at) => gridFor(motif, ways[at] ?? 'whole repeats', motifIn(pattern, size, at), round.panel, motif.edges[at] ?? 0)); // prettier-ignore
  const { rule } = read;
  const { start, end } = rule.expression.span;
  const within = rule.within ? `, ${rule.text.slice(rule.within.span.start, rule.within.span.end)}` : ''; // prettier-ignore
  const text = `${rule.text.slice(start, end)}, nearest multiple of ${gridText(grids, pattern)}${within}`;
  return { text, fitted };
}

interface GridNumbers {
  readonly multiple: number;
  readonly plus: number;
}

/**
 * The counts that keep a way in one size, of one part: repeats of `multiple`, and beside them the
 * balancing stitches, the panels and the edges.
 */
function gridFor(
  { parts }: MotifNumber,
  way: WrittenWay,
  { stitches, plus }: { readonly stitches: number; readonly plus: number },
  panel: number,
  edge: number,
): GridNumbers {
  const both = 2 / parts;
  switch (way) {
    case 'whole repeats':
      return least(stitches, plus + edge);
    case 'centred front and back':
      return least(both * stitches, plus + edge);
    case 'across the side seams':
      return least(stitches / 2, edge);
    case 'side panels':
      return { multiple: both * stitches, plus: both * (plus + panel) + edge };
  }
}

/** Edges may be fewer than none; the grid begins at the first count that is a number. */
const least = (multiple: number, plus: number): GridNumbers => ({
  multiple,
  plus: plus < 0 ? ((plus % multiple) + multiple) % multiple : plus,
});

/** The pattern's own name where it says the same; else the numbers, by size where they differ. */
function gridText(grids: readonly GridNumbers[], pattern: PatternData): string {
  if (grids.every(({ multiple, plus }) => multiple === pattern.multiple && plus === pattern.plus))
    return pattern.id;
  const of = (key: keyof GridNumbers) => printSizes(grids.map((grid) => grid[key]), 'sts'); // prettier-ignore
  return grids.every(({ plus }) => plus === 0)
    ? of('multiple')
    : `${of('multiple')} + ${of('plus')}`;
}

/** How far from the motif's own width another repeat is looked for, in stitches. */
const REPEAT_REACH = 4;

/** Repeats of another width that come out nearer in their worst size, the nearest first. */
export function otherRepeats(
  motif: MotifNumber,
): readonly { readonly stitches: number; readonly worstInches: number }[] {
  const best = (size: MotifSize) =>
    motifFits(motif, size).find(({ way }) => way !== 'side panels')?.worstDeviationInches ??
    Infinity;
  const { multiple } = motif.pattern;
  const own = best({});
  return Array.from({ length: 2 * REPEAT_REACH + 1 }, (_, at) => multiple + at - REPEAT_REACH)
    .filter((stitches) => stitches >= 2 && stitches !== multiple)
    .map((stitches) => ({ stitches, worstInches: best({ stitches: [stitches] }) }))
    .filter(({ worstInches }) => worstInches < own - 1e-9)
    .toSorted((one, other) => one.worstInches - other.worstInches);
}

/** The way in which a count stands now, size by size; undefined where it keeps none. */
export function standingWays(
  data: BundleData,
  motif: MotifNumber,
): readonly (WrittenWay | undefined)[] {
  const fits = motifFits(motif);
  return data.sizes.map((_, size) => {
    const count = sizedValue(motif.number.value, size);
    return WRITTEN_WAYS.find((way) => {
      const round = fits.find((fit) => fit.way === way)?.sizes[size];
      return (
        round !== undefined && round.stitches / motif.parts + (motif.edges[size] ?? 0) === count
      );
    });
  });
}
