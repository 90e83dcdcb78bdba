/**
 * Finished measurements of test knitters against the pattern: what each should have come to at her own
 * gauge, how far it is from that, and which are outliers. Takes returned sheets, gives one judgement for
 * each measurement. With five knitters or more the others decide what is far, with fewer a tolerance.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { Basis, LengthPart } from '../testing/basis.ts';
import type { ReturnedSheet } from '../testing/read-return.ts';
import { median, modifiedScores, OUTLIER_SCORE } from './statistics.ts';

/** Fewer values say too little about each other. */
export const LEAST_FOR_SCORES = 5;

/** What a measurement is rounded to, on paper and with a tape (common practice). */
const TAPE_STEP = { in: 1 / 4, cm: 1 / 2 } as const;
/** Gauge is counted to the half stitch (common practice). */
const COUNT_STEP = 1 / 2;

export interface JudgedLength {
  readonly knitter: string;
  readonly size: string;
  readonly unit: 'in' | 'cm';
  readonly stated: number;
  readonly measured: number;
  /** At her gauge. */
  readonly expected: number;
  /** Her gauge for every part of it was counted; else the stated one was taken. */
  readonly isCorrected: boolean;
  readonly off: number;
  readonly isOutlier: boolean;
}

export interface JudgedMeasurement {
  readonly id: string;
  /** `scores`: modified z-scores among the knitters; `tolerance`: half a stitch and the tape. */
  readonly by: 'scores' | 'tolerance';
  readonly lengths: readonly JudgedLength[];
  /** Median of measured ÷ expected, less 1. */
  readonly medianShare: number;
  /** Most knitters are off to one side by more than the tolerance: the pattern is in question. */
  readonly isSuspect: boolean;
}

export interface GaugeAnswer {
  readonly stitches?: number | undefined;
  readonly rows?: number | undefined;
}

/** The gauge a knitter counted over the stated width, washed where nothing else is asked. */
export function gaugeOf(
  { answers }: ReturnedSheet,
  gauge: string,
  when: 'before' | 'after' = 'after',
): GaugeAnswer {
  const number = (kind: string) => {
    const value = answers.get(`gauge/${gauge}/${when}/${kind}`)?.value;
    return typeof value === 'number' ? value : undefined;
  };
  return { stitches: number('stitches'), rows: number('rows') };
}

export function statedGauge(
  { answers }: ReturnedSheet,
  gauge: string,
): Extract<Basis, { kind: 'gauge' }> | undefined {
  const basis = answers.get(`gauge/${gauge}/after/stitches`)?.about.basis;
  return basis?.kind === 'gauge' ? basis : undefined;
}

export function judgeLengths(sheets: readonly ReturnedSheet[]): readonly JudgedMeasurement[] {
  const keys = new Set(sheets.flatMap(({ answers }) => [...answers.keys()]));
  const measured = [...keys].filter((key) => key.startsWith('measure/'));
  return measured.flatMap((key) => {
    const all = sheets.flatMap((sheet) => lengthOn(sheet, key) ?? []);
    return all.length === 0 ? [] : [judge(key.replace('measure/', ''), all)];
  });
}

type Compared = Omit<JudgedLength, 'isOutlier'> & { readonly tolerance: number };

function judge(id: string, all: readonly Compared[]): JudgedMeasurement {
  const shares = all.map(({ measured, expected }) => measured / expected - 1);
  const scores = modifiedScores(shares);
  const by = all.length >= LEAST_FOR_SCORES ? 'scores' : 'tolerance';
  const lengths = all.map(({ tolerance, ...each }, at) => {
    const isFar = Math.abs(scores[at] ?? 0) > OUTLIER_SCORE;
    // A tape is not read finer than its step, however alike the others are.
    const isOutlier =
      by === 'scores'
        ? isFar && Math.abs(each.off) > TAPE_STEP[each.unit]
        : Math.abs(each.off) > tolerance;
    return { ...each, isOutlier };
  });
  const medianShare = median(shares);
  const beyond = all.filter(({ off, tolerance }) => Math.abs(off) > tolerance);
  const sameSide = beyond.filter(({ off }) => Math.sign(off) === Math.sign(medianShare));
  const isSuspect = sameSide.length >= 2 && sameSide.length * 2 > all.length;
  return { id, by, lengths, medianShare, isSuspect };
}

function lengthOn(sheet: ReturnedSheet, key: string): Compared | undefined {
  const answer = sheet.answers.get(key);
  if (!answer || typeof answer.value !== 'number') return undefined;
  const { about, value: measured } = answer;
  const { unit, stated, basis } = about;
  if ((unit !== 'in' && unit !== 'cm') || stated === null || stated <= 0) return undefined;
  const parts = basis?.kind === 'length' ? basis.parts : [];
  const scale = unit === 'cm' ? CENTIMETRES_PER_INCH : 1;
  const scaled = parts.map((part) => scaledPart(sheet, part));
  const expected = parts.length === 0 ? stated : scale * total(scaled, ({ inches }) => inches);
  const blur = scale * total(scaled, ({ blurInches }) => blurInches);
  return {
    knitter: sheet.knitter,
    size: sheet.head.size,
    unit,
    stated,
    measured,
    expected,
    isCorrected: scaled.every(({ isCorrected }) => isCorrected),
    off: measured - expected,
    tolerance: TAPE_STEP[unit] + blur,
  };
}

const total = <T>(list: readonly T[], value: (each: T) => number): number =>
  list.reduce((sum, each) => sum + value(each), 0);

/** A part at her gauge: as many stitches, each as wide as hers are. Length = stitches ÷ gauge. */
function scaledPart(sheet: ReturnedSheet, { by, gauge, inches }: LengthPart) {
  const stated = statedGauge(sheet, gauge);
  if (by === 'length' || !stated) return { inches, blurInches: 0, isCorrected: by === 'length' };
  const hers = gaugeOf(sheet, gauge)[by];
  const factor = hers === undefined ? 1 : stated[by] / hers;
  // What half a stitch over the swatch makes of this part.
  const blurInches = (inches * factor * COUNT_STEP) / stated[by];
  return { inches: inches * factor, blurInches, isCorrected: hers !== undefined };
}
