/**
 * The list of abbreviations: only what is used, each explained, in the order of the language. Stitch
 * names are held against the glossary tables (JIS L 0201 for Japanese, common usage elsewhere).
 */
import { describe, expect, test } from 'vitest';
import { loadLanguages, usedTerms, type Language } from '../../src/language/index.ts';
import { NAMES, say } from './say.ts';

const languages = await loadLanguages('locales');

function terms(language: Language, ...lines: readonly string[]) {
  const said = lines.map((line) => say(language, line));
  const parts = said.flatMap(({ label, body, count }) => [...label, ...body, ...count]);
  return usedTerms(language, NAMES, parts);
}

const ROW = 'Row 1 (RS): k8, k2tog, 3/3 RC, k to end. 84 sts.';

describe('only what a line uses', () => {
  test.each([
    ['en-US', ['3/3 RC', 'k', 'k2tog', 'RS', 'st(s)']],
    ['de', ['2 M re zus-str', '3/3 M re verz', 'Hinr', 'M', 'R', 're', 'str']],
    ['fr', ['2 m ens end', 'end', 'm', 'rg', 'T3/3D']],
    ['ja', ['左上2目一度', '左上3目と3目の交差', '表目']],
  ])('%s', (tag, expected) => {
    const list = terms(languages.get(tag)!, ROW).map((term) => term.abbreviation);
    expect(list.toSorted()).toEqual(expected.toSorted());
  });
});

test.each([...languages])(
  '%s: every term is explained and sorted by its alphabet',
  (tag, language) => {
    const list = terms(language, ROW, 'Rnd 2: *yo, ssk, p2; rep from * to end.');
    for (const term of list) {
      expect(term.name).not.toBe('');
      if (term.kind !== 'term') expect(term.how).toMatch(/[.。]$/u);
    }
    const collator = new Intl.Collator(tag, { numeric: true });
    const names = list.map((term) => term.abbreviation);
    expect(names).toEqual(names.toSorted((a, b) => collator.compare(a, b)));
  },
);

/** JIS L 0201:1995 names: 右上 (right over left) leans LEFT, the trap of every translation. */
test.each([
  ['k2tog', '左上2目一度'],
  ['ssk', '右上2目一度'],
  ['s2kp', '中上3目一度'],
  ['k3tog', '左上3目一度'],
  ['sssk', '右上3目一度'],
  ['yo', 'かけ目'],
])('Japanese %s is %s', (stitch, name) => {
  expect(
    terms(languages.get('ja')!, `Row 1: ${stitch}, k5.`).map((term) => term.abbreviation),
  ).toContain(name);
});

test('RS never stands for the right side in German, where it means the wrong side', () => {
  const language = languages.get('de')!;
  const all = [
    ...Object.values(language.sources.rows),
    ...Object.values(language.sources.messages),
    ...Object.values(language.glossary.terms).map((term) => term.abbr),
  ];
  expect(all.filter((text) => /\bRS\b/.test(text))).toEqual([]);
});
