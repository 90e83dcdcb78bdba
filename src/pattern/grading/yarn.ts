/**
 * Yarn for every size: the weight of a blocked swatch over its area gives weight per area, the areas of
 * the pieces give the total, an allowance is added, and whole balls are bought. Takes areas by gauge
 * and colour, gives grams, metres and balls by colour. Method: common practice.
 */
import { assert } from '../../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { BundleData, GaugeData } from '../bundle/schema.ts';
import { sizedValue } from '../bundle/sized-data.ts';
import { perInch, readBase } from './gauge.ts';

/** Added for seams, tails and a little caution; 5 to 10 % is usual (common practice). */
export const YARN_ALLOWANCE = 0.1;

export interface SwatchWeight {
  readonly widthInches: number;
  readonly lengthInches: number;
  readonly grams: number;
}

export const gramsPerSquareInch = ({ widthInches, lengthInches, grams }: SwatchWeight): number => {
  assert(widthInches > 0 && lengthInches > 0, 'a swatch has an area');
  return grams / (widthInches * lengthInches);
};

/** Area worked in one gauge with one colour on the needles. */
export interface WorkedArea {
  readonly gauge: string;
  readonly colour: string | undefined;
  readonly squareInches: number;
}

export interface YarnNeed {
  readonly colour: string;
  /** Without allowance. */
  readonly grams: number;
  /** A gauge without a weighed swatch was reckoned from another one's weight a stitch. */
  readonly estimated: boolean;
}

/**
 * Grams by colour for these areas; undefined where no swatch of the bundle was weighed. A swatch weighed
 * by colour shares its area out among them; else the colour on the needles takes all. A fabric whose
 * swatch was not weighed is taken to weigh as much a stitch as one that was, since its yarn is the same.
 */
export function yarnNeeds(
  data: BundleData,
  areas: readonly WorkedArea[],
): readonly YarnNeed[] | undefined {
  const densities = new Map(data.gauges.map((gauge) => [gauge.id, densityOf(gauge)]));
  const known = data.gauges.find((gauge) => densities.get(gauge.id) !== undefined);
  if (!known) return undefined;
  const perStitch = (totalOf(densities.get(known.id)) ?? 0) / stitchesPerSquareInch(known);
  const needs = new Map<string, YarnNeed>();
  const add = (colour: string, grams: number, estimated: boolean): void => {
    const before = needs.get(colour);
    needs.set(colour, {
      colour,
      grams: (before?.grams ?? 0) + grams,
      estimated: estimated || (before?.estimated ?? false),
    });
  };
  for (const { gauge: id, colour, squareInches } of areas) {
    const density = densities.get(id);
    const gauge = data.gauges.find((each) => each.id === id) ?? known;
    const own = colour ?? '';
    if (density === undefined) {
      add(own, squareInches * stitchesPerSquareInch(gauge) * perStitch, true);
    } else if (typeof density === 'number') add(own, squareInches * density, false);
    else for (const [each, share] of density) add(each, squareInches * share, false);
  }
  return [...needs.values()];
}

type Density = number | ReadonlyMap<string, number>;

/** Grams of a square inch, by colour where the swatch was weighed by colour. */
function densityOf({ swatch }: GaugeData): Density | undefined {
  const width = lengthInches(swatch?.width);
  const length = lengthInches(swatch?.length);
  if (!swatch?.grams || width === undefined || length === undefined) return undefined;
  const { grams } = swatch;
  const per = (weight: number) =>
    gramsPerSquareInch({ widthInches: width, lengthInches: length, grams: weight });
  if (typeof grams === 'number') return per(grams);
  return new Map(Object.entries(grams).map(([colour, weight]) => [colour, per(weight)]));
}

const totalOf = (density: Density | undefined): number | undefined =>
  typeof density === 'object'
    ? [...density.values()].reduce((sum, each) => sum + each, 0)
    : density;

const stitchesPerSquareInch = ({ stitches, rows, over }: GaugeData): number =>
  perInch(stitches, readBase(over)) * perInch(rows, readBase(over));

type Length = NonNullable<NonNullable<GaugeData['swatch']>['width']>;

function lengthInches(length: Length | undefined): number | undefined {
  const inches = sizedValue(length?.in, 0);
  if (typeof inches === 'number' && inches > 0) return inches;
  const centimetres = sizedValue(length?.cm, 0);
  return typeof centimetres === 'number' && centimetres > 0
    ? centimetres / CENTIMETRES_PER_INCH
    : undefined;
}

// ---------------------------------------------------------------- what is bought

/** Whole balls for so many grams. */
export const wholeBalls = (grams: number, ballGrams: number): number =>
  Math.ceil(grams / ballGrams - 1e-9);

export const metresOf = (
  grams: number,
  ball: { readonly grams: number; readonly metres: number },
): number => (grams / ball.grams) * ball.metres;
