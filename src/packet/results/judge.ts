/**
 * What a group of returned sheets says together: counts, gauges, finished measurements, yarn, time and
 * remarks. Takes sheets that were read, refuses those of another pattern or version and those sent twice,
 * gives one report. Everything is said of code names; nobody is named.
 */
import type { Refusal, ReturnedSheet } from '../testing/read-return.ts';
import {
  type GaugeAnswer,
  gaugeOf,
  type JudgedMeasurement,
  judgeLengths,
  statedGauge,
} from './lengths.ts';
import { median } from './statistics.ts';
import { type JudgedYarn, judgeYarn } from './yarn.ts';

export interface JudgedCount {
  /** "Hat: crown, round 7" */
  readonly place: string;
  readonly stated: number;
  readonly counted: number;
  readonly knitter: string;
  readonly size: string;
  /** Another knitter is off by as much at this place: the pattern is in question, not she. */
  readonly isShared: boolean;
}

export interface JudgedGauge {
  readonly gauge: string;
  readonly knitter: string;
  readonly size: string;
  readonly stated: { readonly stitches: number; readonly rows: number };
  /** Washed. */
  readonly stitches: number | undefined;
  readonly rows: number | undefined;
  /** Before washing, where she counted it. */
  readonly before: GaugeAnswer;
}

export interface Results {
  readonly pattern: string;
  readonly version: string;
  readonly sheets: number;
  readonly sizes: readonly string[];
  /** Sizes nobody has knitted. */
  readonly untested: readonly string[];
  readonly counts: { readonly right: number; readonly wrong: readonly JudgedCount[] };
  readonly gauges: readonly JudgedGauge[];
  readonly measurements: readonly JudgedMeasurement[];
  readonly yarn: readonly JudgedYarn[];
  /** Median hours by size, where they were told. */
  readonly hours: readonly { readonly size: string; readonly median: number }[];
  readonly remarks: readonly {
    readonly knitter: string;
    readonly size: string;
    readonly text: string;
  }[];
}

export interface Judged {
  readonly results: Results | undefined;
  readonly refused: readonly Refusal[];
}

export function judgeReturns(sheets: readonly ReturnedSheet[]): Judged {
  const { fitting, refused } = sortOut(sheets);
  const [first] = fitting;
  if (!first) return { results: undefined, refused };
  const { pattern, version, sizes } = first.head;
  const tested = sizes.filter((size) => fitting.some(({ head }) => head.size === size));
  const results: Results = {
    pattern,
    version,
    sheets: fitting.length,
    sizes: tested,
    untested: sizes.filter((size) => !tested.includes(size)),
    counts: judgeCounts(fitting),
    gauges: gaugesOf(fitting),
    measurements: judgeLengths(fitting),
    yarn: judgeYarn(fitting),
    hours: hoursOf(fitting, tested),
    remarks: remarksOf(fitting),
  };
  return { results, refused };
}

/** The first sheet says which pattern and version is judged. */
function sortOut(sheets: readonly ReturnedSheet[]) {
  const [first] = sheets;
  const fitting: ReturnedSheet[] = [];
  const refused: Refusal[] = [];
  for (const sheet of sheets) {
    const { file, head, knitter } = sheet;
    const own = `${head.pattern} ${head.version}`;
    const wanted = `${first?.head.pattern} ${first?.head.version}`;
    const twin = fitting.find((each) => each.knitter === knitter && each.head.size === head.size);
    if (own !== wanted)
      refused.push({ file, place: '', says: `it is of ${own}, the others are of ${wanted}`, remedy: 'read the sheets of one version at a time' }); // prettier-ignore
    else if (twin)
      refused.push({ file, place: 'knitter', says: `${knitter}, size ${head.size}, was read already from ${twin.file}`, remedy: 'leave out one of the two, or give two knitters two code names' }); // prettier-ignore
    else fitting.push(sheet);
  }
  return { fitting, refused };
}

const answered = ({ answers }: ReturnedSheet, prefix: string) =>
  [...answers].flatMap(([key, { about, value }]) =>
    key.startsWith(prefix) && value !== undefined ? [{ key, about, value }] : [],
  );

// ---------------------------------------------------------------- counts

function judgeCounts(sheets: readonly ReturnedSheet[]): Results['counts'] {
  const all = sheets.flatMap((sheet) =>
    answered(sheet, 'count/').flatMap(({ key, about, value }) =>
      typeof value === 'number' && about.stated !== null
        ? [{ place: about.basis?.kind === 'count' ? about.basis.place : key, stated: about.stated, counted: value, knitter: sheet.knitter, size: sheet.head.size }]
        : [],
    ),
  ); // prettier-ignore
  const wrong = all.filter(({ counted, stated }) => counted !== stated);
  return {
    right: all.length - wrong.length,
    wrong: wrong.map((each) => {
      const alike = wrong.filter(
        (other) => other.place === each.place && other.counted - other.stated === each.counted - each.stated,
      ); // prettier-ignore
      return { ...each, isShared: alike.length > 1 };
    }),
  };
}

// ---------------------------------------------------------------- gauges, time, remarks

function gaugesOf(sheets: readonly ReturnedSheet[]): readonly JudgedGauge[] {
  return sheets.flatMap((sheet) => {
    const ids = [...sheet.answers.keys()].flatMap(
      (key) => /^gauge\/(.+)\/after\/stitches$/.exec(key)?.[1] ?? [],
    );
    return ids.flatMap((gauge): readonly JudgedGauge[] => {
      const stated = statedGauge(sheet, gauge);
      const { stitches, rows } = gaugeOf(sheet, gauge);
      const before = gaugeOf(sheet, gauge, 'before');
      if (!stated || (stitches === undefined && rows === undefined)) return [];
      const { knitter, head } = sheet;
      const own = { stitches: stated.stitches, rows: stated.rows };
      return [{ gauge, knitter, size: head.size, stated: own, stitches, rows, before }];
    });
  });
}

function hoursOf(sheets: readonly ReturnedSheet[], sizes: readonly string[]): Results['hours'] {
  return sizes.flatMap((size) => {
    const hours = sheets
      .filter(({ head }) => head.size === size)
      .flatMap(({ answers }) => {
        const value = answers.get('hours')?.value;
        return typeof value === 'number' ? [value] : [];
      });
    return hours.length === 0 ? [] : [{ size, median: median(hours) }];
  });
}

const remarksOf = (sheets: readonly ReturnedSheet[]): Results['remarks'] =>
  sheets.flatMap((sheet) =>
    ['unclear', 'remark'].flatMap((key) => {
      const value = sheet.answers.get(key)?.value;
      return typeof value === 'string' ? [{ knitter: sheet.knitter, size: sheet.head.size, text: value }] : []; // prettier-ignore
    }),
  );
