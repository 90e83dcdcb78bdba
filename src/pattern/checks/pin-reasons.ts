/**
 * Numbers that nothing in a bundle can hold, because they come from outside it: the maker's ball band,
 * the designer's choice of needle. They are listed with the reason, never counted as pinned.
 */
import type { BundleData } from '../bundle/schema.ts';
import type { BundleNumber } from './pin-numbers.ts';

const REASONS: readonly (readonly [RegExp, string])[] = [
  [/^\/yarns\/\d+\/weight$/, 'the yarn’s standard weight, from its band'],
  [/^\/yarns\/\d+\/ball\//, 'from the ball band'],
  [/^\/yarns\/\d+\/colours\/\d+\/grams/, 'weighed on the finished piece'],
  [/^\/yarns\/\d+\/colours\/\d+\/balls/, 'the balls that were bought'],
  [/^\/gauges\/\d+\/swatch\/grams/, 'weighed on the swatch'],
  [/^\/gauges\/\d+\/swatch\/before\//, 'counted before washing: only how long to knit follows'],
  [/^\/needles\/\d+\/mm$/, 'the needle the designer knits the gauge with'],
  [/^\/needles\/\d+\/length/, 'the length of needle the designer likes'],
  [/^\/pieces\/\d+\/make$/, 'how many are made alike is the design itself'],
  [/^\/charts\/\d+\/repeat\/(from|to)Row$/, 'which rows are boxed changes no count'],
  [/^\/notions\//, 'counted on the finished piece'],
];

/** Why a number is free by nature; undefined for a number that something should hold. */
export function freeByNature({ where }: BundleNumber, data: BundleData): string | undefined {
  const known = REASONS.find(([pointer]) => pointer.test(where.pointer))?.[1];
  return known ?? swatchOnly(where.pointer, data);
}

/** A gauge that no piece is worked to and no measurement goes by is there for the swatch. */
function swatchOnly(pointer: string, data: BundleData): string | undefined {
  const match = /^\/gauges\/(\d+)\/(stitches|rows)$/.exec(pointer);
  const id = data.gauges[Number(match?.[1])]?.id;
  if (!match || data.pieces.some(({ gauge }) => gauge === id)) return undefined;
  const kinds = match[2] === 'rows' ? ['depth', 'rows'] : ['width', 'stitches'];
  const used = data.measurements.some(
    ({ from }) => kinds.some((kind) => kind in from) && 'gauge' in from && from.gauge === id,
  );
  return used ? undefined : 'it stands for the swatch; nothing in the pattern is measured by it';
}
