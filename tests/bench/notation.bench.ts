/**
 * Speed of reading and printing notation, warm: every row of the worked examples with its label, which
 * is about what four large patterns hold.
 */
import { bench, describe } from 'vitest';
import { printLine, readLine, readRunningText } from '../../src/pattern/notation/index.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { each, WORKED_CASES } from '../cases/cases.ts';

const written = WORKED_CASES.flatMap(({ sizes, rows }) =>
  rows.flatMap(({ label, text }) =>
    each(text).map((one) => ({ sizes, text: `${label}: ${one}.` })),
  ),
);
const readAll = () =>
  written.map(({ sizes, text }) => readLine(text, { sizes, catalogue: CATALOGUE }).line);
const lines = readAll().flatMap((line) => (line ? [line] : []));
const texts = WORKED_CASES.map(({ patternText = '' }) => patternText);

describe(`${written.length} lines`, () => {
  bench('read', () => void readAll());
  bench('print', () => void lines.map(printLine));
});

describe(`${texts.length} running texts`, () => {
  bench('cut into lines', () => void texts.map(readRunningText));
});
