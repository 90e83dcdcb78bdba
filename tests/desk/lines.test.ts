/**
 * What a spreadsheet brings, line by line, in every language of the desk: each kind of change and each
 * reason for a refusal, made by the room that reads spreadsheets.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openPhrases } from '../../src/findings/saying.ts';
import { gradeBook } from '../../src/pattern/grading/sheet/book.ts';
import type { ReadRow } from '../../src/pattern/grading/sheet/take-back.ts';
import { takeFrom } from '../../src/pattern/grading/sheet/taking.ts';
import { bookProblems } from '../../src/pattern/grading/sheet/whole-book.ts';
import { dataWith, PLAIN } from '../grading/bundle.ts';

const FOLDER = 'templates/desk/lines';
const LANGUAGES = readdirSync(FOLDER).map((file) => {
  const tag = file.slice(0, -5);
  const words = JSON.parse(readFileSync(`${FOLDER}/${file}`, 'utf8')) as Record<string, string>;
  return { tag, words, line: openPhrases(tag, words) };
});

const RULE = '(body bust + 4 in) / 2 at body + 2 sts, nearest odd';
const data = dataWith({
  numbers: [
    { id: 'back', unit: 'sts', rule: RULE, value: '97 (107) [117]' },
    { id: 'neck', unit: 'sts', value: '37 (39, 41)' },
    { id: 'every', unit: 'times', value: 4 },
    { id: 'depth', unit: 'rows', value: 60 },
  ],
});
const typed = (key: string, cells: Readonly<Record<string, unknown>>, place = 'line 3'): ReadRow => ({
  key, place, cells: new Map(Object.entries(cells).map(([size, value]) => [size, { value }])),
}); // prettier-ignore
const whole: readonly ReadRow[] = gradeBook(data).flatMap(({ name, rows }) =>
  rows.flatMap(({ kind, cells: [key] }): ReadRow[] =>
    (kind === 'given' || kind === 'derived') && typeof key === 'string'
      ? [typed(key, { S: 1, M: 1, L: 1 }, `${name}!A1`)]
      : [],
  ),
);
const gauge = PLAIN.gauges[0]!.id;

const LINES = [
  ...takeFrom(data, []).lines,
  ...takeFrom(data, [
    typed('body/bust/in', { S: 35.5 }),
    typed('numbers/neck', { S: 38 }),
    typed('numbers/every', { S: 5 }),
    typed('numbers/depth', { S: 62 }),
    typed(`gauges/${gauge}/stitches`, { S: 21 }),
    typed(`gauges/${gauge}/rows`, { S: 29 }),
  ]).lines,
  ...takeFrom(data, [typed('numbers/back', { M: 109 })]).lines,
  ...takeFrom(data, [
    typed('numbers/bakc', { S: 1 }),
    typed('nothing/like/it', { S: 1 }),
    typed('numbers/neck', { S: 'about 90', M: -4, L: '' }),
  ]).lines,
  ...takeFrom(data, [], bookProblems(data, whole.slice(1), 'xlsx')).lines,
  ...takeFrom(data, [], bookProblems(data, whole.slice(0, 1), 'xlsx')).lines,
  ...takeFrom(data, [], bookProblems(data, [...whole, whole[0]!], 'xlsx')).lines,
  ...takeFrom(data, [], bookProblems(data, [typed('numbers/neck', { S: 1 })], 'csv')).lines,
  ...takeFrom(data, [], bookProblems(data, [typed('numbers/neck', { S: 1, Tiny: 2 })], 'csv')).lines,
]; // prettier-ignore

/** Keys of the bundle stand in quotation marks and stay as they are. */
const bare = (said: string): string => said.replaceAll(/„[^“]*“|«[^»]*»|「[^」]*」/g, '');
const ENGLISH = /\b(the|is|not|there|by|its|typed|follows|stands|missing|line|sts|rows)\b/;

describe('what a spreadsheet brings', () => {
  it('is every kind of line', () => {
    for (const kind of [
      /Nothing differs/,
      /follows by/,
      /typed over/,
      /no column/,
      /found instead/,
      /already/,
      /sheet is missing/,
      /row of/,
      /has no/,
      /did you mean/,
      /not a number/,
      /is empty/,
      /cannot be/,
      /rows$/,
      /times$/,
      / in$/,
    ])
      // prettier-ignore
      expect([kind, LINES.some((each) => kind.test(each))]).toEqual([kind, true]);
  });

  it.each(LANGUAGES)('is said in $tag', ({ line }) => {
    for (const each of LINES)
      expect([each, bare(line(each))]).toEqual([each, expect.not.stringMatching(ENGLISH)]);
  });

  it('is said with the numbers of the language', () => {
    const german = LANGUAGES.find(({ tag }) => tag === 'de')!.line;
    expect(german('body bust in, S: 34 → 35.5 in')).toBe('Körpermaß bust, S: 34 → 35,5 Zoll');
    expect(german('back, S: 97 → 99 sts · follows by its rule')).toBe(
      'back, S: 97 → 99 M · folgt aus der Regel',
    );
  });

  it.each(LANGUAGES)('has the same forms in $tag', ({ words }) => {
    expect(Object.keys(words)).toEqual(Object.keys(LANGUAGES[0]!.words));
  });
});
