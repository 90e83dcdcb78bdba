/** What the test knitters sent back, as text for a terminal: what is in question first, then the rest. */
import { columnsOf, padEnd, padStart } from '../findings/columns.ts';
import type { Results } from '../packet/results/judge.ts';
import { type JudgedMeasurement, LEAST_FOR_SCORES } from '../packet/results/lengths.ts';
import { OUTLIER_SCORE } from '../packet/results/statistics.ts';
import type { Refusal } from '../packet/testing/read-return.ts';
import { sayNumber, sayOff } from './grade/tables.ts';

export function printResults(results: Results): string {
  const { pattern, version, sheets, sizes, untested } = results;
  return [
    `${pattern} ${version}: ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}, sizes ${sizes.join(', ')}${untested.length > 0 ? `; nobody knitted ${untested.join(', ')}` : ''}`,
    '',
    ...countLines(results),
    ...gaugeLines(results),
    ...measurementLines(results),
    ...yarnLines(results),
    ...restLines(results),
  ]
    .join('\n')
    .trimEnd();
}

export const printRefusal = ({ file, place, says, remedy }: Refusal): string =>
  `refused: ${file}: ${says}${place === '' ? '' : `\n  --> ${place}`}\n  = ${remedy}`;

function countLines({ counts: { right, wrong } }: Results): readonly string[] {
  return [
    `Counts: ${right} as stated, ${wrong.length} otherwise`,
    ...wrong.map(
      ({ place, knitter, size, stated, counted, isShared }) =>
        `  ${place}, size ${size}: ${knitter} has ${counted} sts, stated ${stated}; ${isShared ? 'others are off by as much: look at the pattern' : 'nobody else is: look at the row with her'}`,
    ),
    '',
  ];
}

function gaugeLines({ gauges }: Results): readonly string[] {
  if (gauges.length === 0) return [];
  const rows = gauges.map(({ gauge, knitter, size, stated, stitches, rows: hers, before }) => [
    gauge,
    knitter,
    size,
    sayNumber(before.stitches),
    sayNumber(stitches),
    sayNumber(stated.stitches),
    sayNumber(before.rows),
    sayNumber(hers),
    sayNumber(stated.rows),
    '',
  ]);
  const head = [
    'gauge', 'knitter', 'size', 'sts before', 'washed', 'stated', 'rows before', 'washed', 'stated', '',
  ]; // prettier-ignore
  return ['Gauge, before and after washing', ...table(head, rows, 3), ''];
}

function measurementLines({ measurements }: Results): readonly string[] {
  if (measurements.length === 0) return [];
  return [
    'Finished measurements, each against what it comes to at her gauge',
    `  With ${LEAST_FOR_SCORES} sheets or more an outlier has a modified z-score over ${OUTLIER_SCORE} (Iglewicz and Hoaglin, 1993); with`,
    '  fewer it is off by more than half a stitch of gauge and a step of the tape (common practice).',
    '',
    ...measurements.flatMap(oneMeasurement),
  ];
}

function oneMeasurement({ id, by, lengths, medianShare, isSuspect }: JudgedMeasurement) {
  const rows = lengths.map((each) => {
    const remarks = [each.isOutlier ? 'outlier' : '', each.isCorrected ? '' : 'gauge not counted'];
    return [
      each.knitter,
      each.size,
      sayNumber(each.stated),
      sayNumber(each.expected),
      sayNumber(each.measured),
      sayOff(each.off),
      each.unit,
      remarks.filter((text) => text !== '').join(', '),
    ];
  });
  const head = ['knitter', 'size', 'stated', 'at her gauge', 'measured', 'off by', '', ''];
  return [
    `  ${id}: ${sayOff(medianShare * 100)} % in the middle, outliers by ${by === 'scores' ? 'score' : 'tolerance'}`,
    ...table(head, rows, 2),
    ...(isSuspect
      ? ['  Most knitters are off to the same side: look at this measurement of the pattern.']
      : []),
    '',
  ];
}

function yarnLines({ yarn }: Results): readonly string[] {
  return yarn.flatMap(({ colour, samples, gramsPerSquareInch, allowance, sizes }) => [
    `Yarn ${colour}: ${sayNumber(gramsPerSquareInch, 4)} g a square inch (${sayNumber(gramsPerSquareInch * (100 / 2.54) ** 2, 0)} g a square metre) at the stated gauge`,
    ...table(
      ['knitter', 'size', 'used, g', 'at the stated gauge', ''],
      samples.map(({ knitter, size, grams, gramsAtGauge, isOutlier }) => [
        knitter, size, sayNumber(grams), sayNumber(gramsAtGauge, 1), isOutlier ? 'outlier, left out' : '',
      ]),
      2,
    ),
    `  suggestion, with ${allowance * 100} % more:`,
    ...table(
      ['size', 'stated, g', 'needed, g', 'suggested, g', 'balls', ''],
      sizes.map(({ size, stated, needed, suggested, balls, verdict }) => [
        size, sayNumber(stated), sayNumber(needed, 0), sayNumber(suggested), sayNumber(balls), verdict,
      ]),
      1,
    ),
    '',
  ]); // prettier-ignore
}

function restLines({ hours, remarks }: Results): readonly string[] {
  return [
    ...(hours.length > 0
      ? [`Hours: ${hours.map(({ size, median }) => `${size} ${sayNumber(median)}`).join(', ')}`, '']
      : []),
    ...(remarks.length > 0 ? ['Remarks'] : []),
    ...remarks.map(({ knitter, size, text }) => `  ${knitter}, size ${size}: ${text}`),
  ];
}

/** Columns under heads; the first `texts` are set from the left, numbers from the right. */
function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  texts: number,
): readonly string[] {
  const all = [head, ...rows];
  const widths = head.map((_, at) => Math.max(...all.map((row) => columnsOf(row[at] ?? ''))));
  const last = head.length - 1;
  return all.map((row) =>
    `  ${row
      .map((cell, at) => {
        const width = widths[at] ?? 0;
        return at < texts || at === last ? padEnd(cell, width) : padStart(cell, width);
      })
      .join('  ')}`.trimEnd(),
  );
}
