/**
 * Completeness of the languages: none lacks a message; each code of the family is raised by a language
 * with that fault; a made-up language is added by one folder and nothing else.
 */
import { describe, expect, test } from 'vitest';
import {
  canSayStitch, checkLanguageData, languageFrom, loadLanguages, sayStitches, plainText, type Language, type LanguageFiles,
} from '../../src/language/index.ts'; // prettier-ignore
import { sizedOf } from '../../src/pattern/bundle/size-list.ts';
import { STITCH_NAMES, usualCables } from '../../src/pattern/stitches/index.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { say, shown } from './say.ts';

const languages = await loadLanguages('locales');
const source = languages.get('en-US')!;

test.each([...languages])('%s lacks nothing', (_, language) => {
  const findings = checkLanguageData(language, source);
  expect(findings.map((each) => wordingOf(each).headline)).toEqual([]);
});

/** Languages whose glossary holds the whole catalogue; the others hold what patterns mostly use. */
const COMPLETE = [
  'en-US',
  'en-GB',
  'de',
  'fr',
  'ja',
  'es',
  'it',
  'nl',
  'pt-BR',
  'pt-PT',
  'pl',
  'cs',
  'he',
  'ko',
  'zh-Hans',
];

test.each(COMPLETE)('%s has words for every stitch of the catalogue', (tag) => {
  const language = languages.get(tag)!;
  expect(STITCH_NAMES.filter((stitch) => !canSayStitch(language, stitch))).toEqual([]);
});

test.each([...languages])('%s has words for the usual stitches and cables', (_, language) => {
  const usual = Object.keys(languages.get('it')!.glossary.stitches);
  const cables = usualCables().map((stitch) => stitch.name);
  const names = [...usual.map((name) => name.replace('#', '3')), ...cables];
  expect(names.filter((stitch) => !canSayStitch(language, stitch))).toEqual([]);
});

/** The source language with something changed, under an invented tag. */
function changed(change: {
  rows?: Record<string, string | undefined>;
  messages?: Record<string, string | undefined>;
  glossary?: (glossary: Language['glossary']) => unknown;
}): LanguageFiles {
  const without = (texts: object) =>
    Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== undefined));
  return {
    'language.json': { ...source.settings, tag: 'qaa', name: 'Tidish', englishName: 'Tidish' },
    'rows.json': without({ ...source.sources.rows, ...change.rows }),
    'messages.json': without({ ...source.sources.messages, ...change.messages }),
    'glossary.json': change.glossary?.(structuredClone(source.glossary)) ?? source.glossary,
  };
}

const problems = (files: LanguageFiles) =>
  checkLanguageData(languageFrom(files, 'qaa'), source).map((each) => each.code);

describe('what is found', () => {
  test('a missing row message', () => {
    expect(problems(changed({ rows: { slide: undefined } }))).toEqual(['language/missing-message']);
  });

  test('a missing plural form', () => {
    const rows = { 'goal.last_other': undefined };
    expect(problems(changed({ rows }))).toContain('language/missing-message');
  });

  test('a missing document word', () => {
    const messages = { 'heading.care': undefined };
    expect(problems(changed({ messages }))).toEqual(['language/missing-message']);
  });

  test('a misspelt key', () => {
    expect(problems(changed({ rows: { 'goal.ende': 'to end' } }))).toEqual([
      'language/unused-message',
    ]);
  });

  test('a number left out', () => {
    const rows = { 'goal.last_other': 'to last sts' };
    expect(problems(changed({ rows }))).toEqual(['language/placeholder']);
  });

  test('a placeholder that is never filled', () => {
    const rows = { slide: 'slide {{count}} sts' };
    expect(problems(changed({ rows }))).toEqual(['language/placeholder']);
  });

  test('a term without an entry', () => {
    const rows = { slide: '<zz>zz</zz>' };
    expect(problems(changed({ rows }))).toEqual(['language/missing-message']);
  });

  test('two terms with one abbreviation, unless it is listed', () => {
    const clash = (shared: Record<string, string>) =>
      changed({
        glossary: (glossary) => {
          const { terms } = glossary;
          const rep = { ...terms['rep']!, abbr: 'dec' };
          return { ...glossary, terms: { ...terms, rep }, shared };
        },
      });
    expect(problems(clash({}))).toEqual(['language/clashing-abbreviations']);
    expect(problems(clash({ dec: 'on purpose' }))).toEqual([]);
  });

  test('a stitch that reads as two', () => {
    const named = (abbr: string) =>
      changed({
        glossary: (glossary) => {
          const { stitches } = glossary;
          return { ...glossary, stitches: { ...stitches, ssk: { ...stitches['ssk']!, abbr } } };
        },
      });
    expect(problems(named('ssk, left'))).toEqual(['language/separator-in-term']);
    expect(problems(named('ssk (left, knit)'))).toEqual([]);
  });
});

describe('an unreadable folder is a fault that names the file', () => {
  test('a setting of the wrong kind', () => {
    const files = { ...changed({}), 'language.json': { tag: 'qaa' } };
    expect(() => languageFrom(files, 'qaa')).toThrow(/qaa\/language\.json/);
  });

  test('a folder that is not there', async () => {
    await expect(loadLanguages('no/such/folder')).rejects.toThrow();
  });
});

test('a made-up language is one folder: its words are said at once', async () => {
  const files = changed({
    rows: { workTo: '{{goal}} {{run}}', stitches_one: '{{n}} oko', stitches_other: '{{n}} oki' },
  });
  const all = await loadLanguages({ qaa: files });
  const language = all.get('qaa')!;
  expect(plainText(sayStitches(language, sizedOf(80, 88)))).toBe('80 (88) oki');
  expect(shown(say(language, 'Row 1 (RS): k8, k to end.'))).toBe('Row 1 (RS): k8, to end k.');
});
