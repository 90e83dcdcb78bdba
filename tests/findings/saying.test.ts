/**
 * What findings say in other languages, held against English, which is their source: every code, the
 * same facts, and in every document that raises a finding the same numbers.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REGISTER, finding, wordingOf } from '../../src/findings/register.ts';
import type { Entry } from '../../src/findings/finding.ts';
import { type FindingWords, openSaying, type Template } from '../../src/findings/saying.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { DOCUMENTS } from '../checks/documents.ts';
import { bundleOf } from '../needle/working.ts';

const FOLDER = 'templates/desk/findings';
const TAGS = readdirSync(FOLDER).map((file) => file.slice(0, -5));
const read = (tag: string) =>
  JSON.parse(readFileSync(`${FOLDER}/${tag}.json`, 'utf8')) as FindingWords;
const LANGUAGES = TAGS.map((tag) => ({
  tag,
  words: read(tag),
  saying: openSaying(tag, read(tag)),
}));
const RAISED = DOCUMENTS.flatMap((each) => checkPattern(bundleOf(each)).findings);

const texts = (template: Template = ''): readonly string[] =>
  typeof template === 'string' ? [template] : Object.entries(template).flatMap(([key, text]) => (key === 'by' ? [`{${text}}`] : [text])); // prettier-ignore
const slots = (template: Template | undefined): readonly string[] =>
  [...new Set(texts(template).flatMap((text) => [...text.matchAll(/\{([\w.-]+)\}/g)].map(([, slot = '']) => slot)))].sort(); // prettier-ignore

/** Digits and fractions; a decimal comma is a point. */
const numbers = (text: string): readonly string[] =>
  [...text.replaceAll(/(\d),(\d)/g, '$1.$2').matchAll(/[\d.]*[\d¼½¾]/g)].map(([found]) => found).sort(); // prettier-ignore

describe('wordings of findings', () => {
  it('stand in German, Spanish, French and Japanese', () => {
    expect(TAGS).toEqual(expect.arrayContaining(['de', 'es', 'fr', 'ja']));
  });

  it.each(LANGUAGES)('$tag words every code, and no other', ({ words }) => {
    expect(Object.keys(words.codes).sort()).toEqual(Object.keys(REGISTER).sort());
  });

  it.each(LANGUAGES)('$tag speaks of the facts that English speaks of', ({ words }) => {
    // The needle's own wordings share one function; the documents below hold their facts.
    const checked = Object.entries(REGISTER).filter(([code]) => !/^(count|join)\//.test(code));
    for (const [code, entry] of checked as unknown as [string, Entry<never>][]) {
      const { headline, action } = words.codes[code] ?? { headline: '' };
      for (const slot of [...slots(headline), ...slots(action)])
        if (slot !== 'where' && slot !== 'unit' && !/^sizes\.length$/.test(slot))
          expect([code, slot, new RegExp(`\\b${slot.split('.')[0]}\\b`).test(entry.word.toString())]).toEqual([code, slot, true]); // prettier-ignore
    }
  });

  it.each(LANGUAGES)('$tag fills every place, and says no number of its own', ({ saying }) => {
    for (const each of RAISED) {
      const english = wordingOf(each);
      const said = wordingOf(each, saying);
      const all = JSON.stringify([said.headline, said.action, said.notes]);
      expect([each.code, all]).toEqual([
        each.code,
        expect.not.stringMatching(/\{[a-z#]|undefined/),
      ]);
      expect(numbers(JSON.stringify(english))).toEqual(expect.arrayContaining([...numbers(said.headline)])); // prettier-ignore
      expect([said.table?.sizes, said.action === undefined, said.notes?.length]).toEqual([
        english.table?.sizes, english.action === undefined, english.notes?.length,
      ]); // prettier-ignore
    }
  });

  it.each(LANGUAGES)('$tag leaves out no number of English', ({ tag, saying }) => {
    // Said in other words: the row below, the sum of two numbers, the other unit of one length.
    const other = new Set(['chart/row-count', 'measure/units-differ']);
    for (const each of RAISED.filter(({ code }) => !other.has(code)))
      expect([tag, each.code, numbers(wordingOf(each, saying).headline)]).toEqual(
        [tag, each.code, expect.arrayContaining([...numbers(wordingOf(each).headline)])],
      ); // prettier-ignore
  });

  it.each(LANGUAGES)('$tag uses the facts the other languages use', ({ words }) => {
    const [first] = LANGUAGES;
    for (const [code, { headline }] of Object.entries(words.codes))
      for (const slot of slots(first?.words.codes[code]?.headline))
        if (!['cells', 'drawn', 'readings', 'texts', 'segments'].includes(slot))
          expect([code, slots(headline)]).toEqual([code, expect.arrayContaining([slot])]);
  });
});

describe('a finding in another language', () => {
  const german = LANGUAGES.find(({ tag }) => tag === 'de')!.saying;
  const where = { file: 'pattern.json', pointer: '' };

  it('chooses by plural, by what is there and by what is not', () => {
    const open = (segments: readonly string[]) =>
      wordingOf(finding('translation/open', where, { language: 'ja', segments }), german).headline;
    expect(open(['title'])).toBe('ja: Ein Segment ist noch offen: title');
    expect(open(['title', 'intro'])).toBe('ja: 2 Segmente sind noch offen: title und intro');
    const key = (nearest: readonly string[]) =>
      wordingOf(finding('bundle/unknown-key', where, { key: 'tilte', nearest, known: [] }), german).action; // prettier-ignore
    expect(key(['title'])).toBe('Gemeint: „title“?');
    expect(key([])).toBe('„tilte“ herausnehmen.');
  });

  it('says rows and places in its own words, and leaves the designer’s title alone', () => {
    expect(german.phrase('rounds 4–6')).toBe('Runden 4–6');
    expect(german.place('Hat: crown, worked flat, round 3')).toBe(
      'Hat: crown, worked flat, Runde 3',
    );
    expect(german.place('Hat')).toBe('Hat');
  });

  it('stays English where it has no words', () => {
    const bare = openSaying('de', { ...read('de'), codes: {} });
    const item = finding('bundle/encoding', where, { line: 3 });
    expect(wordingOf(item, bare)).toEqual(wordingOf(item));
  });
});
