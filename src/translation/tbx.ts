/**
 * Writes the glossaries of two languages as TBX (ISO 30042:2019, dialect TBX-Basic, style DCA): for each
 * stitch and term its full name, abbreviation, how it is worked, status and source. Takes two languages,
 * gives text; same glossaries, same text.
 */
import { escapeMarkup } from '../base/escape.ts';
import { explainTerm, type Language, type UsedTerm } from '../language/index.ts';
import { termsOf } from './abbreviations.ts';

/** Stitches of any width stand once for each of these: enough to see how the language says it. */
const WIDTHS = [2, 3];

/** Where the kind of word is known; nothing is guessed of the rest. */
const NOUNS = new Set(['st', 'row', 'rnd', 'rs', 'ws', 'm', 'cn', 'mc', 'cc', 'needle', 'beg']);
const VERBS = new Set(['rep', 'inc', 'dec', 'bo', 'co', 'sl', 'pm', 'sm', 'rm', 'wt', 'work', 'str',
  'stitches:k', 'stitches:p', 'stitches:sl', 'stitches:work', 'stitches:drop', 'stitches:psso']); // prettier-ignore

const partOfSpeech = (id: string): string | undefined =>
  NOUNS.has(id) ? 'noun' : VERBS.has(id) ? 'verb' : undefined;

export function writeTbx(source: Language, target: Language): string {
  const ids = [...new Set([...termsOf(source, WIDTHS), ...termsOf(target, WIDTHS)])];
  const entries = ids.flatMap((id) => {
    const sections = [source, target].flatMap((language) => sectionOf(language, id));
    return sections.length === 0 ? [] : conceptOf(id, sections);
  });
  const title = `Hand-knitting terms: ${source.settings.englishName}, ${target.settings.englishName}`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<tbx xmlns="urn:iso:std:iso:30042:ed-2" type="TBX-Basic" style="dca" xml:lang="${source.tag}">`,
    '  <tbxHeader>',
    '    <fileDesc>',
    `      <titleStmt><title>${escapeMarkup(title)}</title></titleStmt>`,
    `      <sourceDesc><p>Glossaries of Castoff. ${reviewOf(source)} ${reviewOf(target)}</p></sourceDesc>`,
    '    </fileDesc>',
    '  </tbxHeader>',
    '  <text>',
    '    <body>',
    ...entries,
    '    </body>',
    '  </text>',
    '</tbx>',
    '',
  ].join('\n'); // prettier-ignore
}

const reviewOf = ({ settings }: Language): string =>
  escapeMarkup(`${settings.englishName}: ${settings.review.state}; ${settings.review.source}.`);

const conceptOf = (id: string, sections: readonly string[]): readonly string[] => [
  `      <conceptEntry id="${nameOf(id)}">`,
  '        <descrip type="subjectField">hand knitting</descrip>',
  ...sections,
  '      </conceptEntry>',
];

/** An XML name: what may not stand in one is written as its code. */
const nameOf = (id: string): string =>
  `c-${Array.from(id, (letter) => (/[A-Za-z0-9-]/.test(letter) ? letter : `_${(letter.codePointAt(0) ?? 0).toString(16)}`)).join('')}`; // prettier-ignore

function sectionOf(language: Language, id: string): readonly string[] {
  const term = explainTerm(language, id);
  if (!term) return [];
  const { name, abbreviation, how } = term;
  return [
    `        <langSec xml:lang="${language.tag}">`,
    ...(how === undefined || how === '' ? [] : definitionOf(how)),
    ...termSection(id, term, name, name === abbreviation ? undefined : 'fullForm'),
    ...(name === abbreviation ? [] : termSection(id, term, abbreviation, 'abbreviation')),
    '        </langSec>',
  ];
}

const definitionOf = (how: string): readonly string[] => [
  `          <descrip type="definition">${escapeMarkup(how)}</descrip>`,
];

function termSection(
  id: string,
  { status, source }: UsedTerm,
  term: string,
  type: 'fullForm' | 'abbreviation' | undefined,
): readonly string[] {
  const speech = partOfSpeech(id);
  const rank = status === 'confirmed' ? 'preferredTerm-admn-sts' : 'admittedTerm-admn-sts';
  const note = (kind: string, value: string) =>
    `            <termNote type="${kind}">${value}</termNote>`;
  return [
    '          <termSec>',
    `            <term>${escapeMarkup(term)}</term>`,
    ...(speech === undefined ? [] : [note('partOfSpeech', speech)]),
    ...(type === undefined ? [] : [note('termType', type)]),
    note('administrativeStatus', rank),
    ...(source === undefined
      ? []
      : [`            <admin type="source">${escapeMarkup(source)}</admin>`]),
    `            <note>${escapeMarkup(status)}</note>`,
    '          </termSec>',
  ];
}
