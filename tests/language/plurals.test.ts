/**
 * Plural categories as the Unicode CLDR gives them (version 48 rules, through Intl), and their use: a
 * word after a size list agrees with the last number that is plural.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { loadLanguages } from '../../src/language/index.ts';
import { agreement } from '../../src/language/numbers.ts';
import { sizedOf } from '../../src/pattern/bundle/size-list.ts';

const languages = await loadLanguages('locales');

/** Language, number, category: Unicode CLDR 48, "Language Plural Rules", cardinal. */
const CLDR: readonly (readonly [string, number, string])[] = [
  ['en-US', 1, 'one'], ['en-US', 0, 'other'], ['de', 1, 'one'], ['de', 2, 'other'],
  ['fr', 0, 'one'], ['fr', 1.5, 'one'], ['fr', 2, 'other'], ['fr', 1_000_000, 'many'],
  ['es', 0, 'other'], ['it', 1, 'one'], ['pt-BR', 0, 'one'], ['pt-PT', 0, 'other'],
  ['nl', 1, 'one'], ['da', 0.5, 'one'], ['nb', 1, 'one'], ['sv', 2, 'other'], ['fi', 1, 'one'],
  ['is', 21, 'one'], ['is', 11, 'other'], ['is', 101, 'one'], ['is', 111, 'other'],
  ['pl', 1, 'one'], ['pl', 3, 'few'], ['pl', 5, 'many'], ['pl', 22, 'few'], ['pl', 25, 'many'],
  ['pl', 21, 'many'], ['pl', 0, 'many'], ['pl', 1.5, 'other'],
  ['cs', 1, 'one'], ['cs', 4, 'few'], ['cs', 5, 'other'], ['cs', 22, 'other'], ['cs', 1.5, 'many'],
  ['ja', 1, 'other'], ['ko', 1, 'other'], ['zh-Hans', 2, 'other'],
  ['he', 1, 'one'], ['he', 2, 'two'], ['he', 3, 'other'],
]; // prettier-ignore

describe('plural categories', () => {
  test.each(CLDR)('%s: %d is %s', (tag, number, category) => {
    const language = languages.get(tag);
    const said = language?.messages.category(number) ?? new Intl.PluralRules(tag).select(number);
    expect(said).toBe(category);
  });

  test.each([...languages])('%s: whole numbers agree with Intl', (tag, language) => {
    const rules = new Intl.PluralRules(tag);
    for (let number = 0; number <= 130; number += 1) {
      expect(language.messages.category(number)).toBe(rules.select(number));
    }
  });
});

describe('agreement after a size list', () => {
  const english = languages.get('en-US')!;
  test.each([
    ['one number', [5], 5],
    ['the last number', [4, 5, 6], 6],
    ['not with a last 1: "3 (2, 1) rows"', [3, 2, 1], 2],
    ['1 where all are 1', [1, 1, 1], 1],
    ['not with a size that does not apply', [2, null], 2],
  ])('%s', (_, values, expected) => {
    expect(agreement(english, sizedOf(...values))).toBe(expected);
  });
});

test('the table of this project names the categories CLDR has', () => {
  const table = readFileSync(new URL('./cldr-plurals.csv', import.meta.url), 'utf8');
  for (const row of table.trim().split('\n').slice(1)) {
    const [tag = '', categories = ''] = row.split(',');
    const tags = tag === 'pt' ? ['pt-BR'] : [tag];
    for (const each of tags) {
      const known = new Intl.PluralRules(each).resolvedOptions().pluralCategories;
      expect(known.toSorted()).toEqual(categories.split(' ').toSorted());
    }
  }
});
