import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../src/base/hash.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { jsonSchema } from '../../src/pattern/bundle/json-schema.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { PROSE, SKERRY, pngOf, skerryFiles } from '../pipeline/studio.ts';

/** A finding in one line: code, place, fact, remedy. */
const said = (finding: Finding): string => {
  const { headline, action } = wordingOf(finding);
  const { file, pointer } = finding.where;
  return `${finding.code} ${file}${pointer} | ${headline} | ${action ?? ''}`;
};

const withPattern = (changes: Readonly<Record<string, unknown>>) =>
  loadBundle(skerryFiles(changes)).findings.map(said);
const withFile = (name: string, content: string | Uint8Array | undefined) =>
  loadBundle(skerryFiles({}, { [name]: content })).findings.map(said);

const [gauge] = SKERRY.gauges;
const [piece] = SKERRY.pieces;

describe('a good bundle', () => {
  it('loads without a word', () => {
    const { bundle, findings } = loadBundle(skerryFiles());
    expect(findings).toEqual([]);
    expect(bundle?.data.id).toBe('skerry-hat');
    expect([...(bundle?.prose.keys() ?? [])]).toEqual(['en-US', 'de']);
    expect([...(bundle?.photos.keys() ?? [])]).toEqual(['cover.png']);
  });

  it('has one hash, however its files are typed', () => {
    const hash = loadBundle(skerryFiles()).bundle?.hash;
    const reordered = canonicalJson(SKERRY).replaceAll(',"', ',\r\n"');
    const marked = Buffer.from(`\ufeff${reordered}`);
    expect(loadBundle(skerryFiles({}, { 'pattern.json': marked })).bundle?.hash).toBe(hash);
    const composed = JSON.stringify(PROSE.de);
    const decomposed = composed.normalize('NFD');
    expect(decomposed).not.toBe(composed);
    expect(loadBundle(skerryFiles({}, { 'prose/de.json': decomposed })).bundle?.hash).toBe(hash);
    const other = skerryFiles({}, { 'photos/cover.png': pngOf(40, 30, 90) });
    expect(loadBundle(other).bundle?.hash).not.toBe(hash);
  });

  it('keeps braces in prose as text and finds no inherited text', () => {
    const prose = { ...PROSE.de, note: '{{title}} <b>&amp;</b>' };
    const { bundle } = loadBundle(skerryFiles({}, { 'prose/de.json': JSON.stringify(prose) }));
    expect(bundle?.prose.get('de')?.['note']).toBe('{{title}} <b>&amp;</b>');
    expect(bundle?.prose.get('de')?.['constructor']).toBeUndefined();
  });

  it('tells the line of any place', () => {
    const { lineOf } = loadBundle(skerryFiles());
    const text = new TextDecoder().decode(skerryFiles().get('pattern.json'));
    const line = text.split('\n').findIndex((each) => each.includes('CO 80')) + 1;
    expect(lineOf('pattern.json', '/pieces/0/sections/0/lines/0')).toBe(line);
  });
});

describe('a bundle with a slip', () => {
  it.each<[string, readonly string[], readonly string[]]>([
    [
      'an unknown key, with the nearest known one',
      withPattern({ versoin: '1' }),
      [
        'bundle/unknown-key pattern.json/versoin | “versoin” is not a key of this record | did you mean “version”?',
      ],
    ],
    [
      'an unknown key deep inside',
      withPattern({ gauges: [{ ...gauge, stiches: 20 }] }),
      [
        'bundle/unknown-key pattern.json/gauges/0/stiches | “stiches” is not a key of this record | did you mean “stitches”?',
      ],
    ],
    [
      'an unknown key like no other',
      withPattern({ horoscope: 1 }),
      [
        'bundle/unknown-key pattern.json/horoscope | “horoscope” is not a key of this record | take “horoscope” out',
      ],
    ],
    [
      'a text where a number is needed',
      withPattern({ gauges: [{ ...gauge, stitches: '20' }] }),
      [
        'bundle/wrong-type pattern.json/gauges/0/stitches | "20" stands where a number is needed | write a number',
      ],
    ],
    [
      'a text where a list is needed',
      withPattern({ sizes: 'S (M, L)' }),
      [
        'bundle/wrong-type pattern.json/sizes | "S (M, L)" stands where a list [ … ] is needed | write a list [ … ]',
      ],
    ],
    [
      'a missing key',
      withPattern({ gauges: undefined }),
      ['bundle/missing-key pattern.json | “gauges” is missing | add “gauges”: a list [ … ]'],
    ],
    [
      'a missing key, with what it is for',
      withPattern({ gauges: [{ ...gauge, needle: undefined }] }),
      [
        'bundle/missing-key pattern.json/gauges/0 | “needle” is missing | add “needle”: text (One of needles)',
      ],
    ],
    [
      'a word that is not known',
      withPattern({ wearer: { age: 'adlut' } }),
      [
        'bundle/wrong-value pattern.json/wearer/age | "adlut" is not one of the values known here | did you mean “adult”?',
      ],
    ],
    [
      'a day that is none',
      withPattern({ issued: '2026-02-30' }),
      [
        'bundle/shape pattern.json/issued | "2026-02-30" is not a day of the calendar, written like 2026-03-14 | ',
      ],
    ],
    [
      'a version of two numbers',
      withPattern({ version: '1.0' }),
      ['bundle/shape pattern.json/version | "1.0" does not fit: three numbers, like 1.0.0 | '],
    ],
    [
      'no sizes at all',
      withPattern({ sizes: [] }),
      ['bundle/shape pattern.json/sizes | the list has 0 entries; it needs at least 1 | '],
    ],
    [
      'a line that is no line',
      withPattern({ pieces: [{ ...piece, sections: [{ id: 'brim', lines: [7] }] }] }),
      [
        'bundle/wrong-type pattern.json/pieces/0/sections/0/lines/0 | 7 stands where text or a record { … } is needed | write text or a record { … }',
      ],
    ],
    [
      'a line with a mistyped key',
      withPattern({ pieces: [{ ...piece, sections: [{ id: 'brim', lines: [{ txet: 'k1' }] }] }] }),
      [
        'bundle/missing-key pattern.json/pieces/0/sections/0/lines/0 | “text” is missing | add “text”: text',
        'bundle/unknown-key pattern.json/pieces/0/sections/0/lines/0/txet | “txet” is not a key of this record | did you mean “text”?',
      ],
    ],
    [
      'no JSON',
      withFile('pattern.json', '{\n  "format": "castoff/1",\n  "id": skerry\n}'),
      [
        'bundle/syntax pattern.json/id | not JSON: line 3, column 9 has “skerry” where a value is needed | correct line 3; an editor that knows JSON marks the place',
      ],
    ],
    [
      'a key that stands twice in the prose',
      withFile('prose/de.json', '{"title": "a",\n"title": "b", "summary": "c"}'),
      [
        'bundle/duplicate-key prose/de.json | “title” stands on line 1 and again on line 2 | keep one of the two',
      ],
    ],
    [
      'a key from birth',
      withFile('prose/de.json', '{"title": "a", "summary": "b", "__proto__": "c"}'),
      ['bundle/forbidden-key prose/de.json | “__proto__” cannot be a key | give it another name'],
    ],
    [
      'nesting without end',
      withFile('prose/de.json', '['.repeat(5000)),
      [
        'bundle/too-deep prose/de.json' +
          '/0'.repeat(32) +
          ' | line 1, column 33 opens level 33; at most 32 are read | take out the extra brackets',
      ],
    ],
    [
      'another encoding',
      withFile('prose/de.json', Buffer.from('{"title": "x",\n"summary": "Mütze"}', 'latin1')),
      [
        'bundle/encoding prose/de.json | line 2 is not UTF-8 text | save the file with the encoding UTF-8',
      ],
    ],
    [
      'prose without a title',
      withFile('prose/de.json', '{"summary": "x"}'),
      [
        'bundle/missing-key prose/de.json | “title” is missing | add “title”: the title of the pattern, as text',
      ],
    ],
    [
      'a language without prose',
      withFile('prose/de.json', undefined),
      [
        'bundle/missing-file pattern.json/languages | prose/de.json is not in the bundle; it is the prose in de | add prose/de.json, or take out what names it',
      ],
    ],
    [
      'text that turns round',
      withPattern({ studio: { ...SKERRY.studio, designer: 'Ada \u202eVoss' } }),
      [
        'bundle/character pattern.json/studio/designer | character 5 of the text is U+202E, which turns the direction of text | delete it and type the place again',
      ],
    ],
    [
      'a control code in a row',
      withPattern({ pieces: [{ ...piece, sections: [{ id: 'brim', lines: ['k1\u0007'] }] }] }),
      [
        'bundle/character pattern.json/pieces/0/sections/0/lines/0 | character 3 of the text is U+0007, a control code | delete it and type the place again',
      ],
    ],
    [
      'half a character',
      withFile('prose/de.json', '{"title": "\\ud83d", "summary": "x"}'),
      [
        'bundle/character prose/de.json/title | character 1 of the text is U+D83D, half of a broken character | delete it and type the place again',
      ],
    ],
    [
      'a missing photograph',
      withFile('photos/cover.png', undefined),
      [
        'bundle/missing-file pattern.json/photos/0/file | photos/cover.png is not in the bundle; it is a photograph | add photos/cover.png, or take out what names it',
      ],
    ],
    [
      'a photograph named with other letters',
      loadBundle(
        skerryFiles({}, { 'photos/cover.png': undefined, 'photos/Cover.PNG': pngOf(4, 4) }),
      )
        .findings.filter(({ severity }) => severity === 'error')
        .map(said),
      [
        'bundle/similar-file pattern.json/photos/0/file | photos/cover.png is not in the bundle, but photos/Cover.PNG is | write the name alike in both places, letter for letter',
      ],
    ],
    [
      'a picture that is none',
      withFile('photos/cover.png', '<svg onload="alert(1)"/>'),
      [
        'bundle/no-picture pattern.json/photos/0/file | photos/cover.png is no JPEG, PNG or WebP picture | export the photograph again as JPEG, PNG or WebP',
      ],
    ],
    [
      'a file that nothing names',
      withFile('photos/draft.png', pngOf(4, 4)),
      [
        'bundle/unused-file photos/draft.png | photos/draft.png is used by nothing and will not be published | name it in pattern.json, or take it out',
      ],
    ],
  ])('%s', (_title, found, expected) => {
    expect(found).toEqual(expected);
  });

  it('gives no bundle where anything is wrong, but does with a note', () => {
    expect(loadBundle(skerryFiles({ versoin: '1' })).bundle).toBeUndefined();
    expect(loadBundle(skerryFiles({}, { 'notes.txt': 'x' })).bundle).toBeDefined();
  });

  it('finds slips in all files at once', () => {
    const files = skerryFiles({ level: 'hard' }, { 'prose/de.json': '{' });
    expect(
      loadBundle(files)
        .findings.map(({ code }) => code)
        .sort(),
    ).toEqual(['bundle/syntax', 'bundle/wrong-value']);
  });

  it('shows a hundred slips and counts the rest', () => {
    const lines = Array.from({ length: 400 }, () => 7);
    const { findings } = loadBundle(
      skerryFiles({ pieces: [{ ...piece, sections: [{ id: 'brim', lines }] }] }),
    );
    expect(findings).toHaveLength(101);
    expect(said(findings.at(-1) as Finding)).toContain(
      '300 more places are not as the format needs',
    );
  });

  it('does not fall for a prototype', () => {
    const text = JSON.stringify(SKERRY).replace('{', '{"__proto__": {"polluted": true},');
    const { findings, bundle } = loadBundle(skerryFiles({}, { 'pattern.json': text }));
    expect(findings.map(({ code }) => code)).toEqual(['bundle/forbidden-key']);
    expect(bundle).toBeUndefined();
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
});

describe('the published JSON Schema', () => {
  it('is of the current draft and knows the keys of a bundle', () => {
    const schema = jsonSchema();
    expect(schema['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(Object.keys(schema['properties'] as object)).toEqual(
      expect.arrayContaining([...Object.keys(SKERRY), '$schema']),
    );
    expect(schema['additionalProperties']).toBe(false);
  });
});
