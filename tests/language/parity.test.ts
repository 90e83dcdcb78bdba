/**
 * The same line has the same numbers in every language, in the order of the sizes. A word may stand for
 * 1 and 2 ("once", "twice", "the next stitch", "every other row"), so these two are not compared; where
 * units differ in order, numbers are compared as a multiset.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  loadLanguages,
  sayLine,
  type Language,
  type SpokenLine,
} from '../../src/language/index.ts';
import type { Line } from '../../src/pattern/notation/ast.ts';
import { line } from './arbitrary.ts';
import { LINES } from './lines.ts';
import { NAMES, read } from './say.ts';

const languages = await loadLanguages('locales');
const source = languages.get('en-US')!;
const others = [...languages.values()].filter((language) => language !== source);

const FRACTIONS: Readonly<Record<string, string>> = { '¼': '.25', '½': '.5', '¾': '.75' };
const NUMBER = /(\d+(?:[.,]\d+)?)?([¼½¾])?/g;

/** Numbers of the parts that are counts, sorted; size lists keep their length. */
function numbersOf({ label, body, count }: SpokenLine): readonly number[] {
  const texts = [...label, ...body, ...count]
    .filter((part) => part.role === 'count')
    .map((part) => part.text);
  return texts
    .flatMap((text) => [...text.matchAll(NUMBER)])
    .filter(([whole]) => whole !== '')
    .map(([, digits = '0', part]) =>
      Number(digits.replace(',', '.') + (FRACTIONS[part ?? ''] ?? '')),
    )
    .filter((number) => number !== 1 && number !== 2)
    .toSorted((a, b) => a - b);
}

const say = (language: Language, tree: Line) =>
  sayLine(tree, { language, form: 'flat', names: NAMES });

describe.each(others.map((language) => [language.tag, language] as const))('%s', (_, language) => {
  test.each(LINES)('%s', (text) => {
    const tree = read(text);
    expect(numbersOf(say(language, tree))).toEqual(numbersOf(say(source, tree)));
  });

  test('any line', () => {
    fc.assert(
      fc.property(line, (tree) => {
        expect(numbersOf(say(language, tree))).toEqual(numbersOf(say(source, tree)));
      }),
      { numRuns: 60, seed: 20260302 },
    );
  });
});
