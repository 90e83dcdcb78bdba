/**
 * Yarn that test knitters used against what the pattern states: brought to the stated gauge, fitted over
 * the area of the fabric, and turned into a suggestion for every size. Takes returned sheets, gives one
 * estimate for each colour.
 */
import { wholeBalls, YARN_ALLOWANCE } from '../../pattern/grading/yarn.ts';
import type { ReturnedSheet } from '../testing/read-return.ts';
import { gaugeOf, LEAST_FOR_SCORES, statedGauge } from './lengths.ts';
import { median, modifiedScores, OUTLIER_SCORE } from './statistics.ts';

export interface YarnSample {
  readonly knitter: string;
  readonly size: string;
  readonly grams: number;
  /** What she would have used at the stated gauge. */
  readonly gramsAtGauge: number;
  readonly isOutlier: boolean;
}

export interface YarnSuggestion {
  readonly size: string;
  readonly stated: number | null;
  /** By the fit, without allowance. */
  readonly needed: number;
  /** With allowance, rounded up to what is printed. */
  readonly suggested: number;
  readonly balls: number;
  readonly verdict:
    'fits' | 'too little' | 'little to spare' | 'far more than needed' | 'not stated';
}

export interface JudgedYarn {
  readonly colour: string;
  readonly samples: readonly YarnSample[];
  /** Median of grams ÷ area among the samples that are no outliers. */
  readonly gramsPerSquareInch: number;
  readonly allowance: number;
  readonly sizes: readonly YarnSuggestion[];
}

/** Amounts are printed to five grams (common practice). */
const PRINTED_STEP_GRAMS = 5;
/** Less than this in reserve is little; 5 to 10 % is usual (common practice). */
const LEAST_SPARE = 1.05;
/** More than this is no caution but a slip; the check on yarn goes by the same. */
const FAR_MORE = 1.5;

/**
 * Yarn in a stitch at one gauge against another. The length of yarn in a stitch goes with one over the
 * root of the stitches per area (D. L. Munden, The geometry and dimensional properties of plain-knit
 * fabrics, Journal of the Textile Institute 50, 1959: S = k ÷ l²), and the stitches are the same.
 */
export const yarnFactor = (
  hers: { readonly stitches: number; readonly rows: number },
  stated: { readonly stitches: number; readonly rows: number },
): number => Math.sqrt((hers.stitches * hers.rows) / (stated.stitches * stated.rows));

export function judgeYarn(sheets: readonly ReturnedSheet[]): readonly JudgedYarn[] {
  const keys = new Set(sheets.flatMap(({ answers }) => [...answers.keys()]));
  return [...keys]
    .filter((key) => key.startsWith('yarn/'))
    .flatMap((key) => judgeColour(key, sheets) ?? []);
}

function judgeColour(key: string, sheets: readonly ReturnedSheet[]): JudgedYarn | undefined {
  const used = sheets.flatMap((sheet) => sampleOf(sheet, key) ?? []);
  const [first] = used;
  if (!first) return undefined;
  const scores = modifiedScores(used.map(({ ratio }) => ratio));
  const isOutlier = (at: number) =>
    used.length >= LEAST_FOR_SCORES && Math.abs(scores[at] ?? 0) > OUTLIER_SCORE;
  const kept = used.filter((_, at) => !isOutlier(at)).map(({ ratio }) => ratio);
  const gramsPerSquareInch = median(kept);
  const { areas, grams, ballGrams } = first.basis;
  return {
    colour: key.replace('yarn/', ''),
    samples: used.map(({ sample }, at) => ({ ...sample, isOutlier: isOutlier(at) })),
    gramsPerSquareInch,
    allowance: YARN_ALLOWANCE,
    sizes: first.sizes.map((size, at) =>
      suggest(size, (areas[at] ?? 0) * gramsPerSquareInch, grams[at] ?? null, ballGrams),
    ),
  };
}

function sampleOf(sheet: ReturnedSheet, key: string) {
  const answer = sheet.answers.get(key);
  const basis = answer?.about.basis;
  if (typeof answer?.value !== 'number' || basis?.kind !== 'yarn') return undefined;
  const { size, sizes } = sheet.head;
  const area = basis.areas[sizes.indexOf(size)] ?? 0;
  if (area <= 0) return undefined;
  const grams = answer.value;
  const gramsAtGauge = grams * gaugeFactor(sheet);
  const sample = { knitter: sheet.knitter, size, grams, gramsAtGauge };
  return { sample, basis, sizes, ratio: gramsAtGauge / area };
}

/** The mean over the gauges she counted; 1 where she counted none. */
function gaugeFactor(sheet: ReturnedSheet): number {
  const ids = new Set(
    [...sheet.answers.keys()].flatMap((key) => /^gauge\/(.+)\/after\/stitches$/.exec(key)?.[1] ?? []),
  ); // prettier-ignore
  const factors = [...ids].flatMap((id) => {
    const [stated, { stitches, rows }] = [statedGauge(sheet, id), gaugeOf(sheet, id)];
    if (!stated || stitches === undefined || rows === undefined) return [];
    return [yarnFactor({ stitches, rows }, stated)];
  });
  return factors.length === 0 ? 1 : factors.reduce((sum, each) => sum + each, 0) / factors.length;
}

function suggest(
  size: string,
  needed: number,
  stated: number | null,
  ballGrams: number,
): YarnSuggestion {
  const wanted = needed * (1 + YARN_ALLOWANCE);
  const suggested = Math.ceil(wanted / PRINTED_STEP_GRAMS - 1e-9) * PRINTED_STEP_GRAMS;
  return {
    size,
    stated,
    needed,
    suggested,
    balls: wholeBalls(suggested, ballGrams),
    verdict: verdictOn(stated, needed),
  };
}

function verdictOn(stated: number | null, needed: number): YarnSuggestion['verdict'] {
  if (stated === null) return 'not stated';
  if (stated < needed) return 'too little';
  if (stated < needed * LEAST_SPARE) return 'little to spare';
  return stated > needed * FAR_MORE ? 'far more than needed' : 'fits';
}
