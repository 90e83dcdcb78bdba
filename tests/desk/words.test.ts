/** The desk's own words: every language has all of them, with the same places to fill. */
import { readdir, readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { openWordings } from '../../src/desk/wording.ts';

type Words = Readonly<Record<string, string | Readonly<Record<string, string>>>>;

const FOLDER = 'templates/desk';
const files = await readdir(`${FOLDER}/words`);
const readWords = async (tag: string): Promise<Words> =>
  JSON.parse(await readFile(`${FOLDER}/words/${tag}.json`, 'utf8')) as Words;
const english = await readWords('en');
const others = files.map((file) => file.slice(0, -5)).filter((tag) => tag !== 'en');

/** Slots of a text, sorted; of a plural, those of the form for many. */
const slotsOf = (entry: Words[string] | undefined): readonly string[] => {
  const text = typeof entry === 'string' ? entry : (entry?.['other'] ?? '');
  return [...text.matchAll(/\{(\w+)\}/g)].map(([, slot = '']) => slot).sort();
};

describe('words of the desk', () => {
  it('stand in five languages at least', () => {
    expect(others).toEqual(expect.arrayContaining(['de', 'es', 'fr', 'ja']));
  });

  it.each(others)('%s has every word, with every place to fill', async (tag) => {
    const words = await readWords(tag);
    expect(Object.keys(words).sort()).toEqual(Object.keys(english).sort());
    for (const key of Object.keys(english))
      expect([key, slotsOf(words[key])]).toEqual([key, slotsOf(english[key])]);
  });

  it.each(others)('%s has a form for every plural category of whole numbers', async (tag) => {
    const plurals = new Intl.PluralRules(tag);
    const needed = new Set(Array.from({ length: 200 }, (_, count) => plurals.select(count)));
    for (const [key, entry] of Object.entries(await readWords(tag)))
      if (typeof entry !== 'string')
        expect([key, Object.keys(entry).sort()]).toEqual([key, [...needed].sort()]);
  });

  it.each(others)('%s names every step of a run', async (tag) => {
    const names = ({ 'progress.words': word = '' }: Words) =>
      typeof word === 'string' ? word.split('|').map((each) => each.split('=')[0]) : [];
    expect(names(await readWords(tag))).toEqual(names(english));
  });
});

describe('the language of the desk', () => {
  it('is the first one asked for that it speaks, by its base where the region is unknown', async () => {
    const wordings = await openWordings(FOLDER);
    expect(wordings(['de-CH', 'en']).language).toBe('de');
    expect(wordings(['xx', 'ja']).language).toBe('ja');
    expect(wordings([]).language).toBe('en');
  });

  it('writes days and numbers its own way', async () => {
    const wordings = await openWordings(FOLDER);
    const say = (tag: string) => wordings([tag]).say('motif.worst', { off: 0.25 });
    expect(say('de')).toBe('höchstens 0,25 Zoll daneben');
    // A difference comes as text, with its sign.
    expect(wordings(['de']).say('motif.worst', { off: '−0.5' })).toContain('−0,5');
    expect(wordings(['es']).list(['de', 'fr', 'ja'])).toBe('de, fr y ja');
    expect(wordings(['ja']).list(['de', 'fr', 'ja'])).toBe('de、fr、ja');
    expect(wordings(['de']).day('2026-11-24')).toBe('24. November 2026');
    expect(wordings(['ja']).day('2026-11-24')).toBe('2026年11月24日');
  });

  it('writes figures with its own decimal sign, and changes nothing else of them', async () => {
    const wordings = await openWordings(FOLDER);
    const cell = { size: 'S', value: '45.5', off: '−0.24', bar: '' };
    const row = {
      at: '',
      place: '',
      span: 0,
      unit: 'cm',
      cells: [cell, { ...cell, value: '1.0.2' }],
    };
    const html = wordings(['de']).render('number-rows', { rows: [row] });
    expect(html).toContain('45,5');
    expect(html).toContain('<td>cm</td>');
    expect(wordings(['de']).render('number-rows', { rows: [{ ...row, unit: 'in' }] })).toContain(
      '<td>Zoll</td>',
    );
    expect(html).toContain('−0,24');
    expect(html).toContain('1.0.2');
    expect(wordings(['ja']).render('number-rows', { rows: [row] })).toContain('45.5');
  });
});
