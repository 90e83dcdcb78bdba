/**
 * Whatever the text, reading ends, gives a line or problems whose places lie inside the text, and never
 * throws. Random characters, random words of the trade, and what is made to hurt a parser.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { printLine, readLine, readRunningText } from '../../src/pattern/notation/index.ts';
import { KNOWN_WORDS } from '../../src/pattern/notation/text/terms.ts';
import { CATALOGUE, STITCH_NAMES } from '../../src/pattern/stitches/index.ts';
import { NOTATION_LIMITS } from '../../src/base/limits.ts';

const options = { sizes: ['S', 'M', 'L'], catalogue: CATALOGUE };

function holds(text: string): void {
  const { line, problems } = readLine(text, options);
  expect(line === undefined).toBe(problems.length > 0);
  expect(problems.length).toBeLessThanOrEqual(NOTATION_LIMITS.problems);
  for (const { span } of problems) {
    expect(span.start).toBeGreaterThanOrEqual(0);
    expect(span.end).toBeGreaterThanOrEqual(span.start);
    expect(span.end).toBeLessThanOrEqual(Math.max(text.length, 1));
  }
  if (line) expect(readLine(printLine(line), options).problems, printLine(line)).toEqual([]);
}

const word = fc.constantFrom(
  ...KNOWN_WORDS, ...STITCH_NAMES, 'k', 'p', '*', '**', '(', ')', '[', ']', '{', '}', ',', ';', ':', '.', '–', '-', '/',
  '1', '2', '3', '12', '4th', '1/2', '½', '"', 'rep from *', 'to end', 'k5', 'p3', 'k8 (9, 10)', '(9, 10)', 'sts', 'row',
  'AT THE SAME TIME', 'every', 'instead of', 'but', 'by size (', 'Row 1:', 'Sizes S and M only:', 'Chart A', '\n',
); // prettier-ignore

describe('random text', () => {
  test('characters', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), holds), {
      numRuns: 300,
      seed: 7,
    });
  });
  test('words of the trade in any order', () => {
    const soup = fc.array(word, { maxLength: 40 }).map((words) => words.join(' '));
    fc.assert(fc.property(soup, holds), { numRuns: 1500, seed: 11 });
  });
  test('words of the trade without spaces', () => {
    const soup = fc.array(word, { maxLength: 25 }).map((words) => words.join(''));
    fc.assert(fc.property(soup, holds), { numRuns: 500, seed: 13 });
  });
  test('running text', () => {
    const soup = fc.array(word, { maxLength: 80 }).map((words) => words.join(' '));
    fc.assert(
      fc.property(soup, (text) => {
        for (const line of readRunningText(text).lines) {
          expect(text.slice(line.offset, line.offset + line.text.length)).toBe(line.text);
        }
      }),
      { numRuns: 200, seed: 17 },
    );
  });
});

describe('text made to hurt', () => {
  const long = 10_000;
  test.each([
    ['open brackets', '('.repeat(long)],
    ['closing brackets', ']'.repeat(long)],
    ['brackets in pairs', '[]'.repeat(long / 2)],
    ['nested groups', '['.repeat(500) + 'k1' + '] twice'.repeat(500)],
    ['nested choices', 'k1 ('.repeat(1_500)],
    ['stars', '*'.repeat(long)],
    ['stars apart', '* '.repeat(long / 2)],
    ['repeats without end', '*k2, '.repeat(long / 5)],
    ['commas', ','.repeat(long)],
    ['full stops', '. '.repeat(long / 2)],
    ['dashes', '–'.repeat(long)],
    ['one long word', 'k'.repeat(long)],
    ['one long number', '9'.repeat(long)],
    ['a list without end', `k8 (${'9, '.repeat(long / 3)}`],
    ['a long list', `k8 (${'9, '.repeat(long / 4)}9)`],
    ['a long row', `Row 1: ${'k2, p2, '.repeat(long / 8)}k1.`],
    ['many sentences', 'Knit 3 rows. '.repeat(long / 13)],
    ['many connectives', 'and then '.repeat(long / 9)],
    ['many goals', 'k to '.repeat(long / 5)],
    ['many colons', 'Row 1: '.repeat(long / 7)],
    ['same time, again', 'AT THE SAME TIME, '.repeat(long / 18)],
    ['instead of itself', `As row 4, but ${'k1 instead of k2, '.repeat(long / 18)}`],
    ['emoji and signs', '🧶k2🧶\u0000\u202e\ud800, p2'.repeat(400)],
    ['only white space', ' \t\n\u00a0'.repeat(long / 4)],
    ['nothing', ''],
  ])('%s', (_, text) => {
    holds(text);
    expect(() => readRunningText(text)).not.toThrow();
  });

  test('a line too long to be read says so', () => {
    const { problems } = readLine('k2, '.repeat(10_000), options);
    expect(problems.map(({ code }) => code)).toEqual(['notation/too-long']);
  });

  test('a text too long, or of too many lines, says so', () => {
    const { textLength, lines } = NOTATION_LIMITS;
    const codes = (text: string) => readRunningText(text).problems.map(({ code }) => code);
    expect(codes('k'.repeat(textLength + 1))).toEqual(['notation/too-long']);
    expect(codes('Row 1: k.\n'.repeat(lines + 1))).toEqual(['notation/too-many-lines']);
  });
});
