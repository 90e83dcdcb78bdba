/**
 * Every row of the worked examples is read, alone and with its label, and so is every line of their
 * running texts; what is printed of it reads back to the same tree.
 */
import { describe, expect, test } from 'vitest';
import { printLine, readLine, readRunningText } from '../../src/pattern/notation/index.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { BOOK_ERRORS, each, WORKED_CASES } from '../cases/cases.ts';
import { withoutPlaces } from './shown.ts';

function readsAndPrints(text: string, sizes: readonly string[] | undefined): void {
  const options = { sizes, catalogue: CATALOGUE };
  const { line, problems } = readLine(text, options);
  expect(problems, text).toEqual([]);
  if (!line) throw new Error(text);
  const printed = printLine(line);
  const again = readLine(printed, options);
  expect(again.problems, printed).toEqual([]);
  expect(withoutPlaces(again.line), printed).toEqual(withoutPlaces(line));
  expect(again.line && printLine(again.line)).toBe(printed);
}

describe('worked examples', () => {
  test.each(WORKED_CASES.map((one) => [one.id, one] as const))('%s', (_, { rows, sizes }) => {
    for (const { label, text } of rows) {
      for (const written of each(text)) {
        readsAndPrints(written, sizes);
        readsAndPrints(`${label}: ${written}.`, sizes);
      }
    }
  });

  test('rows that the books print wrongly are still rows', () => {
    for (const { label, printed } of BOOK_ERRORS) {
      if (/^\d+$/.test(printed)) continue; // a cast-on given as its number alone
      readsAndPrints(`${label}: ${printed}.`, undefined);
    }
  });
});

describe('running text of the worked examples', () => {
  const texts = WORKED_CASES.flatMap(({ id, patternText }) =>
    patternText === undefined ? [] : [[id, patternText] as const],
  );

  test.each(texts)('%s', (_, text) => {
    const { lines, problems } = readRunningText(text);
    expect(problems).toEqual([]);
    expect(lines.length).toBeGreaterThanOrEqual(text.split('\n').length);
    for (const { kind, text: written, offset } of lines) {
      expect(text.slice(offset, offset + written.length)).toBe(written);
      if (kind === 'instruction') readsAndPrints(written, undefined);
    }
  });
});
