/**
 * The same line has the same numbers in every language, in the order of the sizes. A word may stand for
 * 1 and 2 ("once", "twice", "the next stitch", "every other row"), so these two are not compared; where
 * units differ in order, numbers are compared as a multiset.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  agreeInNumbers,
  loadLanguages,
  numbersOfLine,
  sayLine,
  type Language,
} from '../../src/language/index.ts';
import type { Line } from '../../src/pattern/notation/ast.ts';
import { line } from './arbitrary.ts';
import { LINES } from './lines.ts';
import { NAMES, read } from './say.ts';

const languages = await loadLanguages('locales');
const source = languages.get('en-US')!;
const others = [...languages.values()].filter((language) => language !== source);

const say = (language: Language, tree: Line) =>
  sayLine(tree, { language, form: 'flat', names: NAMES });

describe.each(others.map((language) => [language.tag, language] as const))('%s', (_, language) => {
  test.each(LINES)('%s', (text) => {
    const tree = read(text);
    expect(numbersOfLine(say(language, tree))).toEqual(numbersOfLine(say(source, tree)));
  });

  test('any line', () => {
    fc.assert(
      fc.property(line, (tree) => {
        expect(numbersOfLine(say(language, tree))).toEqual(numbersOfLine(say(source, tree)));
      }),
      { numRuns: 60, seed: 20260302 },
    );
  });
});

describe('numbers of prose', () => {
  test.each([
    ['Leave a tail of 6 in / 15 cm.', '15 cm / 6 Zoll Faden hängen lassen.', true],
    ['Leave a tail of 6 in.', '15 cm Faden hängen lassen.', true],
    ['Leave a tail of 6 in.', '16.5 cm Faden hängen lassen.', false],
    ['Repeat rows 1–8.', 'Die 1.–8. Reihe wiederholen.', true],
    ['Repeat rows 1–8.', 'Die 1.–6. Reihe wiederholen.', false],
    ['Wash at 30 degrees.', '30度以下で洗う。', true],
    ['about 2½ in', 'etwa 6,5 cm', true],
    ['Work 2 rows.', 'Zwei Reihen stricken.', true],
    ['Four rows make a square.', '4段で四角になる。', true],
    ['Work 12 rows.', 'Reihen stricken.', false],
  ])('%s | %s', (original, text, agrees) => {
    expect(agreeInNumbers(text, original)).toBe(agrees);
  });
});
