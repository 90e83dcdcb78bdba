/**
 * What test knitters sent back as tables of a page: what is in question first, then the rest. Takes the
 * judgement of returned sheets; numbers are rounded as the command line rounds them, words are the desk's.
 */
import type { Results } from '../packet/results/judge.ts';
import type { JudgedMeasurement } from '../packet/results/lengths.ts';
import type { JudgedYarn } from '../packet/results/yarn.ts';
import type { Say } from './wording.ts';

export interface TableView {
  readonly id: string;
  readonly title: string;
  readonly notes: readonly string[];
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** Two decimals are finer than any tape. */
const rounded = (value: number | null | undefined): number | string =>
  value === undefined || value === null ? '' : Math.round(value * 100) / 100;

export function resultsView(results: Results, say: Say) {
  const { sheets, sizes, untested, counts, hours, remarks } = results;
  const list = (words: readonly string[]) => words.join(', ');
  return {
    lead: say('results.lead', { count: sheets, sizes: list(sizes) }),
    untested: untested.length === 0 ? '' : say('results.untested', { sizes: list(untested) }),
    counts: say('results.counts', { right: counts.right, wrong: counts.wrong.length }),
    wrong: counts.wrong.map(({ place, knitter, size, stated, counted, isShared }) => ({
      says: say('results.wrong', { place, size, knitter, counted, stated }),
      asks: say(isShared ? 'results.shared' : 'results.alone'),
    })),
    tables: [gauges(results, say), ...results.measurements.map((each, at) => lengths(each, at, say)), ...results.yarn.flatMap((each, at) => yarn(each, at, say))].filter(({ rows }) => rows.length > 0),
    hours: hours.length === 0 ? '' : say('results.hours', { hours: list(hours.map(({ size, median }) => `${size} ${say('results.hour', { value: median })}`)) }),
    remarks,
  }; // prettier-ignore
}

const heads = (say: Say, ...names: readonly string[]): readonly string[] =>
  names.map((name) => say(`results.${name}`));

function gauges({ gauges: all }: Results, say: Say): TableView {
  return {
    id: 'gauges',
    title: say('results.gauge'),
    notes: [],
    head: heads(say, 'gaugeName', 'knitter', 'size', 'stitchesBefore', 'stitchesWashed', 'stated', 'rowsBefore', 'rowsWashed', 'stated'),
    rows: all.map(({ gauge, knitter, size, stated, stitches, rows, before }) => [
      gauge, knitter, size, rounded(before.stitches), rounded(stitches), rounded(stated.stitches),
      rounded(before.rows), rounded(rows), rounded(stated.rows),
    ]),
  }; // prettier-ignore
}

function lengths(measured: JudgedMeasurement, at: number, say: Say): TableView {
  const { id, by, lengths: all, medianShare, isSuspect } = measured;
  const middle = say('results.middle', { percent: Math.round(medianShare * 1000) / 10 });
  const judged = say(by === 'scores' ? 'results.byScores' : 'results.byTolerance');
  return {
    id: `length-${at}`,
    title: say('results.measurement', { name: id }),
    notes: [`${middle} ${judged}`, ...(isSuspect ? [say('results.suspect')] : [])],
    head: heads(say, 'knitter', 'size', 'stated', 'expected', 'measured', 'off', 'remark'),
    rows: all.map((each) => {
      const said = (value: number) => say('results.length', { value, unit: each.unit });
      const remarks = [each.isOutlier ? say('results.outlier') : '', each.isCorrected ? '' : say('results.uncounted')];
      return [
        each.knitter, each.size, said(each.stated), said(each.expected),
        said(each.measured), said(each.off),
        remarks.filter((text) => text !== '').join(', '),
      ];
    }),
  }; // prettier-ignore
}

function yarn(
  { colour, samples, allowance, sizes }: JudgedYarn,
  at: number,
  say: Say,
): readonly TableView[] {
  return [
    {
      id: `used-${at}`,
      title: say('results.yarn', { colour }),
      notes: [],
      head: heads(say, 'knitter', 'size', 'used', 'atGauge', 'remark'),
      rows: samples.map(({ knitter, size, grams, gramsAtGauge, isOutlier }) => [
        knitter, size, rounded(grams), rounded(gramsAtGauge), isOutlier ? say('results.leftOut') : '',
      ]),
    },
    {
      id: `needed-${at}`,
      title: say('results.suggestion', { colour, percent: allowance * 100 }),
      notes: [],
      head: heads(say, 'size', 'statedGrams', 'needed', 'suggested', 'balls', 'remark'),
      rows: sizes.map(({ size, stated, needed, suggested, balls, verdict }) => [
        size, rounded(stated), Math.round(needed), rounded(suggested), rounded(balls), say(`results.verdict.${verdict.replaceAll(' ', '-')}`),
      ]),
    },
  ]; // prettier-ignore
}
