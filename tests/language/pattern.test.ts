/**
 * What one pattern asks of a language: each finding a small invented pattern raises, in words, and what
 * the overview of languages says of it.
 */
import { describe, expect, test } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import {
  checkLanguage, languageFrom, loadLanguages, overviewOf, sayPattern, plainText, type Language,
} from '../../src/language/index.ts'; // prettier-ignore
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';
import { bundleOf } from '../needle/working.ts';

const languages = await loadLanguages('locales');
const source = languages.get('en-US')!;
const german = languages.get('de')!;

type Prose = Record<string, string>;

const ENGLISH: Prose = { title: 'Spit', summary: 'A strip of 20 stitches.' };
const GERMAN: Prose = { title: 'Nehrung', summary: 'Ein Streifen über 20 Maschen.' };

interface Change {
  readonly lines?: readonly string[];
  readonly data?: Partial<Bundle['data']>;
  readonly german?: Prose;
}

function checkedWith({ lines = [], data = {}, german: own = GERMAN }: Change) {
  const bundle = bundleOf({ lines: ['Cast on 20 sts.', ...lines], data });
  const [piece] = bundle.data.pieces;
  bundle.data.pieces = [{ ...piece!, title: 'back', sections: piece!.sections }];
  return checkPattern({
    ...bundle,
    prose: new Map([
      ['en-US', ENGLISH],
      ['de', own],
    ]),
  });
}

const headlines = (change: Change, language: Language = german) =>
  checkLanguage(checkedWith(change), language, source).map((each) => wordingOf(each).headline);

describe('a pattern in a language', () => {
  test('nothing is missing', () => {
    expect(headlines({ lines: ['Row 1 (RS): k1, ssk, k to end.'] })).toEqual([]);
  });

  test('a stitch without an abbreviation', () => {
    const files = {
      'language.json': german.settings,
      'rows.json': german.sources.rows,
      'messages.json': german.sources.messages,
      'glossary.json': {
        ...german.glossary,
        stitches: Object.fromEntries(
          Object.entries(german.glossary.stitches).filter(([name]) => name !== 'ssk'),
        ),
      },
    };
    const without = languageFrom(files, 'de');
    expect(headlines({ lines: ['Row 1 (RS): k1, ssk, k to end.'] }, without)).toEqual([
      'de has no abbreviation and explanation for ssk',
    ]);
  });

  test('a name without words, and the text that gives it some', () => {
    const data = {
      schematic: [
        {
          piece: 'piece',
          title: 'sea-holly panel',
          outline: 'rectangle' as const,
          measurements: {},
        },
      ],
    };
    expect(headlines({ data })).toEqual(['de has no words for the name “sea-holly panel”']);
    const own = { ...GERMAN, 'name.sea-holly-panel': 'Stranddistelfeld' };
    expect(headlines({ data, german: own })).toEqual([]);
  });

  test('a text that is not translated', () => {
    expect(headlines({ german: { title: 'Nehrung' } })).toEqual([
      'the text “summary” is missing in de',
    ]);
  });

  test('a translation with another number', () => {
    const own = { ...GERMAN, summary: 'Ein Streifen über 22 Maschen.' };
    expect(headlines({ german: own })).toEqual([
      'the numbers of “summary” in de are not those of the source',
    ]);
  });

  test('a message that says a number twice', () => {
    const files = {
      'language.json': german.settings,
      'rows.json': { ...german.sources.rows, 'goal.last_other': 'bis {{n}} M vor Schluss ({{n}})' },
      'messages.json': german.sources.messages,
      'glossary.json': german.glossary,
    };
    const lines = ['Row 1 (RS): k to last 4 sts, p4.'];
    expect(headlines({ lines }, languageFrom(files, 'de'))).toEqual([
      'de does not say the numbers of the source',
    ]);
  });
});

test('the overview lists every language and what one pattern lacks in it', () => {
  const all = overviewOf(languages, checkedWith({}));
  expect(all.map(({ tag }) => tag)).toEqual([...languages.keys()]);
  const find = (tag: string) => all.find((each) => each.tag === tag);
  expect(find('de')).toMatchObject({ name: 'Deutsch', review: 'checked', lacking: 0 });
  expect(find('fi')).toMatchObject({ review: 'unreviewed', lacking: 2 });
  for (const { terms, confirmed, source: from } of all) {
    expect(confirmed).toBeLessThanOrEqual(terms);
    expect(from).not.toBe('');
  }
});

test('a one-size edition says the numbers of that size only', () => {
  const bundle = bundleOf({
    sizes: ['S', 'M', 'L'],
    lines: ['Cast on 20 (24, 28) sts.', 'Size L only: Knit 2 rows.'],
  });
  const checked = checkPattern({ ...bundle, prose: new Map([['en-US', ENGLISH]]) });
  const said = (size: number) =>
    sayPattern(checked, source, size)
      .pieces.flatMap((piece) => piece.sections)
      .flatMap((section) => section.lines)
      .map((line) => plainText(line.said.body).replaceAll('\u00a0', ' '));
  expect(said(1)).toEqual(['Cast on 24 sts.']);
  expect(said(2)[0]).toBe('Cast on 28 sts.');
  expect(said(2)).toHaveLength(2);
});
