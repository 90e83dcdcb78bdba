/**
 * What faults say on the desk. Every text that a `Fault` can carry is read from the sources and must be
 * worded in every language of the desk; a new fault without words, and words without a fault, are noticed.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { openFaultWords } from '../../src/desk/fault-words.ts';
import { FindingFault } from '../../src/findings/fault.ts';
import { finding } from '../../src/findings/register.ts';
import { openPhrases, openSaying, type FindingWords } from '../../src/findings/saying.ts';
import { tagOf } from '../../src/shelf/shelf.ts';
import { readSources } from '../tidy/sources.ts';
import { openTestDesk } from './opened.ts';
import { readArguments, readFields, readThrown } from './thrown.ts';

const FOLDER = 'templates/desk';
const read = (folder: string, tag: string) =>
  JSON.parse(readFileSync(`${FOLDER}/${folder}/${tag}.json`, 'utf8')) as Readonly<Record<string, string>>; // prettier-ignore
const TAGS = readdirSync(`${FOLDER}/words`)
  .map((file) => file.slice(0, -5))
  .filter((tag) => tag !== 'en');
const LANGUAGES = TAGS.map((tag) => ({ tag, words: read('faults', tag) }));

/** What no page shows: read by whoever installs the program or works at its command line. */
const ELSEWHERE = [
  'src/cli/',
  'src/language/load.ts',
  'src/pipeline/machine/definition.ts',
  'src/press/fonts/',
  'src/release/shop/profile.ts',
  'src/release/tidy.ts',
  'src/store/open.ts',
  'functions/starter/',
];
const NEVER_SHOWN = new Set([
  // The port is told in the terminal; the closed door has words of its own.
  'port {1} cannot be used',
  'leave --port out to take a free one',
  'key',
  // Orders of a program that are not as the API reads them; those of the pages are.
  'The request is too long',
  'at most {1} bytes',
  'The order cannot be read',
  '{1}: {2}',
  'The order is no JSON',
  'The page cannot be read',
  '“after” and “limit”',
  'Which file?',
  'name its “path”',
  'The list cannot be read',
  '“bundle” and “limit”',
  'into: a run is ordered later',
  'An upload is named by a UUID',
  // The pages say themselves what stands behind these.
  'The token names no studio',
  'it needs the claim “{1}”',
  'The storage does not answer just now',
  'Something is broken here; it has been written down',
]);

/** Texts made somewhere else, and by whom they are said. */
const OPEN: Readonly<Record<string, string>> = {
  'src/desk/work/messages.ts message': 'carried as it was thrown',
  'src/desk/work/messages.ts remedy': 'carried as it was thrown',
  'functions/pages/client.ts title': 'said on as the API said it',
  'functions/pages/client.ts detail': 'said on as the API said it',
  'src/desk/api/refusal.ts message': 'carried as it was thrown',
  'src/desk/api/refusal.ts remedy': 'carried as it was thrown',
  'src/pipeline/steps/check.ts advice.problem': 'src/release/errata/version.ts problem',
  'src/release/companions.ts printFindings(findings)': 'a page of ours that the press refuses: a mistake of the program', // prettier-ignore
  'src/release/shop/parcel.ts printFindings(printed.findings)': 'a page of ours that the press refuses: a mistake of the program', // prettier-ignore
  'src/packet/editor/papers.ts printFindings(printed.findings)': 'a page of ours that the press refuses: a mistake of the program', // prettier-ignore
  'src/packet/testing/papers.ts printFindings(printed.findings)': 'a page of ours that the press refuses: a mistake of the program', // prettier-ignore
  "src/pipeline/rooms.ts problem ? wordingOf(problem).headline : 'a picture cannot be prepared'": 'the check refuses the photograph before, as a finding', // prettier-ignore
};

const SOURCES = readSources('src', 'functions').filter(
  ({ file }) => !ELSEWHERE.some((each) => file.startsWith(each)),
);
const THROWN = readThrown(SOURCES);
const textsIn = (file: string, field: string): readonly string[] =>
  readFields(
    readSources('src').find((each) => each.file === file)!,
    field,
  );
/** Sheets that came back are refused one by one, each with a remedy. */
const refusals = (file: string): readonly string[] => [
  ...textsIn(file, 'says'),
  ...textsIn(file, 'remedy'),
  ...readArguments(
    readSources('src').find((each) => each.file === file)!,
    'refuse',
    2,
  ),
  ...readArguments(
    readSources('src').find((each) => each.file === file)!,
    'refuse',
    3,
  ),
];
/** Texts, and what is put into texts. */
const SAID = new Set(
  [
    ...THROWN.filter(({ open }) => !open).map(({ text }) => text),
    ...textsIn('src/release/errata/version.ts', 'problem').flatMap((each) =>
      textsIn('src/release/errata/version.ts', 'major')
        .concat(textsIn('src/release/errata/version.ts', 'minor'))
        .concat(textsIn('src/release/errata/version.ts', 'patch'))
        .map((why) => each.replace('{2}', why).replace('{3}', '{2}')),
    ),
    ...refusals('src/packet/testing/read-return.ts'),
    ...refusals('src/packet/results/judge.ts'),
    ...refusals('src/desk/work/people.ts'),
    ...textsIn('src/pattern/bundle/paths.ts', 'problem'),
    ...textsIn('src/pattern/bundle/characters.ts', 'name'),
    'the program made a mistake of its own; nothing was released',
    'what it was stands where the desk was started',
    'a picture cannot be prepared',
    'the bundle could not be read any more',
    'it had gone',
    'it could not be reached',
    'the bundle was changed',
    'it was released in {1}',
    '{1} would differ',
    '{1} and {2} more would differ',
    'the work was stopped',
    'the zip',
    'the folder',
  ].filter((text) => text !== '{1}' && !NEVER_SHOWN.has(text)),
);
const slotsOf = (text: string): readonly string[] =>
  [...text.matchAll(/\{(\d)(?::\w+)?\}/g)].map(([, slot = '']) => slot).sort();
/** Values of a kind that every slot takes. */
const filled = (text: string): string => text.replaceAll(/\{(\d)\}/g, '7$1');

describe('faults of the desk', () => {
  it('are read from the sources, with what comes through parameters', () => {
    const texts = THROWN.map(({ text }) => text);
    expect(texts).toContain('there is no such page');
    expect(texts).toContain('{1} was changed since this page was made; nothing was written');
    // Through two functions of two files, and out of a table.
    expect(texts).toContain('{1} is packed in a way that is not read');
    expect(texts).toContain('free some space on the disk and publish again');
  });

  it('that are made somewhere else are known', () => {
    const open = THROWN.filter((each) => each.open).map(({ file, text }) => `${file} ${text}`);
    expect(open.filter((each) => !Object.hasOwn(OPEN, each))).toEqual([]);
    expect(Object.keys(OPEN).filter((each) => !open.includes(each))).toEqual([]);
  });

  it.each(LANGUAGES)('are all said in $tag', ({ tag, words }) => {
    const phrase = openPhrases(tag, words);
    const english = [...SAID].filter((text) => phrase(filled(text)) === filled(text));
    // Words that are the same in both languages are listed as such in the data.
    expect(english.filter((text) => words[text] !== text)).toEqual([]);
  });

  it.each(LANGUAGES)('have no words in $tag that nothing says', ({ tag, words }) => {
    const said = [...SAID].map(filled);
    const unused = Object.keys(words).filter((key) => {
      const phrase = openPhrases(tag, { [key]: '' });
      return !said.some((text) => phrase(text) === '');
    });
    expect(unused).toEqual([]);
  });

  it.each(LANGUAGES)('keep their values in $tag', ({ words }) => {
    for (const [english, said] of Object.entries(words))
      expect([english, slotsOf(said)]).toEqual([english, slotsOf(english)]);
  });

  it.each(LANGUAGES)('$tag words what the other languages word', ({ words }) => {
    expect(Object.keys(words)).toEqual(Object.keys(LANGUAGES[0]!.words));
  });
});

describe('a fault in the language of a reader', () => {
  const of = (tag: string) => {
    const saying = openSaying(tag, JSON.parse(readFileSync(`${FOLDER}/findings/${tag}.json`, 'utf8')) as FindingWords); // prettier-ignore
    return openFaultWords(tag, read('faults', tag), saying);
  };

  it('says its message, its remedy and its place', () => {
    const fault = new Fault('input', 'the zip has 62914560 bytes; at most 314572800 are read', {
      place: 'the zip',
      remedy: 'export the photographs smaller',
    });
    const said = of('fr')(fault);
    expect({ ...said, message: said.message.replaceAll(/\s/g, ' ') }).toEqual({
      message: 'Le zip pèse 60 Mo ; on en lit au plus 300 Mo.',
      remedy: 'Exportez les photographies en plus petit.',
      place: 'le zip',
    });
  });

  it('lists and counts as the language does', () => {
    const sizes = { message: 'the pattern has no size L', remedy: 'its sizes are XS, S, M' };
    expect(of('de')(sizes).remedy).toBe('Ihre Größen sind XS, S und M.');
    expect(of('es')(sizes).remedy).toBe('Sus tallas son XS, S y M.');
    expect(of('ja')(sizes).remedy).toBe('サイズはXS、S、Mです。');
  });

  it('says what it holds inside', () => {
    const inside = { message: 'photos/../x.jpg has a name that climbs out of the bundle' };
    expect(of('de')(inside).message).toBe(
      'photos/../x.jpg hat einen Namen, der aus dem Bündel hinausführt.',
    );
  });

  it('says a finding as the findings do', () => {
    const where = { file: 'pattern.json', pointer: '/sizes' };
    const fault = new FindingFault(
      finding('bundle/missing-key', where, { key: 'sizes', expected: 'a list' }),
      '/sizes',
    );
    expect(fault.message).toContain('sizes');
    expect(of('de')(fault).message).toContain('sizes');
    expect(of('de')(fault).message).not.toBe(`${fault.message}.`);
  });

  it('is a sentence in English, and stays English where there are no words', () => {
    const english = openFaultWords('en');
    expect(english({ message: 'there is no such page' }).message).toBe('There is no such page.');
    expect(english({ message: 'pattern.json was changed' }).message).toBe('pattern.json was changed.'); // prettier-ignore
    expect(english({ message: 'fogline 1.0.0 is not released' }).message).toBe('fogline 1.0.0 is not released.'); // prettier-ignore
    expect(of('de')({ message: 'something new' }).message).toBe('Something new.');
    expect(english({})).toEqual({ message: '', remedy: '', place: '' });
  });
});

describe('a page of the desk', () => {
  it('says what was refused in the language of its reader', async () => {
    const desk = await openTestDesk();
    try {
      await desk.post('/begin', { starter: 'breakwater-hat' });
      desk.cookie += '; desk-language=de';
      const pattern = '/patterns/breakwater-hat';
      const missing = await desk.get('/patterns/no-such-thing');
      expect(missing.status).toBe(404);
      expect(await missing.text()).toContain('Auf dem Pult liegt keine Anleitung dieses Namens.');
      const nothing = await desk.post('/hand-in', new FormData());
      expect(await nothing.text()).toContain('Mit dem Formular kam keine Datei.');
      const change = { file: 'pattern.json', pointer: '/version', tag: 'old', value: '9.9.9' };
      const late = await desk.post(`${pattern}/correct`, change);
      expect(late.status).toBe(409);
      expect(await late.text()).toContain('wurde geändert, seit diese Seite entstand');
      const tag = tagOf(await readFile(path.join(desk.folder, 'breakwater-hat', 'pattern.json')));
      const wrong = await desk.post(`${pattern}/correct`, { ...change, tag, value: 'soon' });
      const html = await wrong.text();
      // The finding itself, worded: the format of a version.
      expect(html).toContain('passt nicht: drei Zahlen, wie 1.0.0');
      expect(html).not.toContain('does not fit');
    } finally {
      await desk.close();
    }
  });
});
