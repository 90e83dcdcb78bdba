/**
 * What rooms put into findings in English, held against the phrases of each language: the texts that
 * readers of rules, of JSON and of the bundle's format can say, read from their sources and from the
 * published schema; and every document that raises a finding, in which no English word may be left.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import { type FindingWords, openSaying } from '../../src/findings/saying.ts';
import { jsonSchema, nameOfType } from '../../src/pattern/bundle/json-schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { DOCUMENTS } from '../checks/documents.ts';
import { readArguments } from '../desk/thrown.ts';
import { bundleOf } from '../needle/working.ts';
import { readSources } from '../tidy/sources.ts';

const FOLDER = 'templates/desk/findings';
const LANGUAGES = readdirSync(FOLDER).map((file) => {
  const tag = file.slice(0, -5);
  const words = JSON.parse(readFileSync(`${FOLDER}/${file}`, 'utf8')) as FindingWords;
  return { tag, words, saying: openSaying(tag, words) };
});

const SOURCES = readSources('src/pattern');
const argumentsOf = (file: string, called: string, at: number): readonly string[] =>
  readArguments(
    SOURCES.find((each) => each.file === file)!,
    called,
    at,
  );

/** Descriptions of what may be missing: the key of a record that must be there. */
function descriptionsOf(node: unknown): readonly string[] {
  if (typeof node !== 'object' || node === null) return [];
  const { required, properties } = node as { required?: string[]; properties?: Record<string, { description?: string }> }; // prettier-ignore
  const own = (required ?? []).flatMap((key) => properties?.[key]?.description ?? []);
  return [...own, ...Object.values(node).flatMap(descriptionsOf)];
}

const TEXTS: readonly string[] = [
  ...argumentsOf('src/pattern/grading/rules/read-rule.ts', 'fail', 1),
  ...argumentsOf('src/pattern/grading/rules/read-rule.ts', 'readName', 1),
  ...argumentsOf('src/pattern/grading/rules/units.ts', 'refuse', 1),
  ...argumentsOf('src/pattern/grading/rules/units.ts', 'refuse', 2),
  ...argumentsOf('src/pattern/grading/rules/units.ts', 'unknown', 0),
  ...argumentsOf('src/pattern/bundle/json.ts', 'fail', 2),
  ...argumentsOf('src/pattern/bundle/schema.ts', 'regex', 1),
  ...argumentsOf('src/pattern/bundle/schema.ts', 'refine', 1),
  ...argumentsOf('src/pattern/bundle/theme.ts', 'regex', 1),
  ...descriptionsOf(jsonSchema()),
  ...['string', 'number', 'integer', 'array', 'object', 'boolean', ''].map(nameOfType),
].filter((text) => text !== 'null');

/** Phrases and numbers: one of both fits each slot of such a text. */
const VALUES = ['a length', 'stitches', 'rows', 'a plain number'];
const counted = (text: string): string => text.replaceAll(/\{(\d)\}/g, '4$1');
const filled = (text: string): string => text.replaceAll(/\{(\d)\}/g, (_, at: string) => VALUES[Number(at) - 1] ?? '4'); // prettier-ignore

/** Words that no other language of the desk has; what stands in quotation marks is the designer's. */
const ENGLISH =
  /(?<![\p{L}\p{N}_./-])(the|of|are|and|row|rows|round|rounds|stitch|stitches|sts|which|has|have|does|needs?|sizes?|before|after|than|each|every|line|last|first|only|times)(?![\p{L}\p{N}_./-])/iu;
const bare = (said: string): string =>
  said.replaceAll(/„[^“]*“|«[^»]*»|「[^」]*」|“[^”]*”|"[^"]*"/g, '');

describe('phrases of the checks', () => {
  it('are read from the sources', () => {
    expect(TEXTS.length).toBeGreaterThan(60);
    expect(TEXTS).toContain('the name of a gauge');
    expect(TEXTS).toContain('multiply by a plain number');
    expect(TEXTS).toContain('small letters, digits and single hyphens');
    expect(TEXTS).toContain('a comma or a closing brace');
  });

  it.each(LANGUAGES)('are all said in $tag', ({ saying }) => {
    const left = TEXTS.filter((text) =>
      [filled(text), counted(text)].every((each) => saying.phrase(each) === each),
    );
    expect(left).toEqual([]);
  });

  it.each(LANGUAGES)('of $tag are those of the other languages', ({ words }) => {
    expect(Object.keys(words.phrases).sort()).toEqual(Object.keys(LANGUAGES[0]!.words.phrases).sort()); // prettier-ignore
  });
});

describe('findings in another language', () => {
  const raised = DOCUMENTS.flatMap((each) => checkPattern(bundleOf(each)).findings);

  it.each(LANGUAGES)('have no English word left in $tag', ({ tag, saying }) => {
    for (const each of raised) {
      const { headline, action = '', table } = wordingOf(each, saying);
      const said = [headline, action, ...(table?.rows ?? []).map(({ name }) => name)];
      for (const text of said)
        expect([tag, each.code, bare(text)]).toEqual([tag, each.code, expect.not.stringMatching(ENGLISH)]); // prettier-ignore
    }
  });

  it('leave a designer’s own words whole', () => {
    for (const { saying } of LANGUAGES) {
      expect(saying.phrase('stitches of the back and the front')).toBe('stitches of the back and the front'); // prettier-ignore
      expect(saying.phrase('rows of the armhole')).toBe('rows of the armhole');
      expect(saying.phrase('source: 6 in and 2 rounds')).toMatch(/6 in and 2 rounds$/);
    }
  });
});
