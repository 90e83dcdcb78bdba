/**
 * What the shaper must be told about a stretch of text: its script and the language system, as the
 * four-letter tags of the OpenType registry (ISO/IEC 14496-22, annexes of script and language tags).
 */
import { primaryLanguage } from './chain.ts';

export type ScriptTag = 'latn' | 'grek' | 'cyrl' | 'hebr' | 'kana' | 'hani' | 'hang';

/** Kana before Han: a stretch with both is Japanese. */
const SCRIPTS: readonly (readonly [ScriptTag, RegExp])[] = [
  ['latn', /\p{Script=Latin}/u],
  ['hebr', /\p{Script=Hebrew}/u],
  ['cyrl', /\p{Script=Cyrillic}/u],
  ['grek', /\p{Script=Greek}/u],
  ['hang', /\p{Script=Hangul}/u],
  ['kana', /[\p{Script=Hiragana}\p{Script=Katakana}]/u],
  ['hani', /\p{Script=Han}/u],
];

const SCRIPT_OF_LANGUAGE: Readonly<Record<string, ScriptTag>> = {
  ja: 'kana',
  zh: 'hani',
  ko: 'hang',
  he: 'hebr',
  yi: 'hebr',
  ru: 'cyrl',
  uk: 'cyrl',
  bg: 'cyrl',
  sr: 'cyrl',
  el: 'grek',
};

/** Script of the first letters found; digits and signs alone take that of the language. */
export function scriptOf(text: string, language: string): ScriptTag {
  for (const [tag, pattern] of SCRIPTS) if (pattern.test(text)) return tag;
  return SCRIPT_OF_LANGUAGE[primaryLanguage(language)] ?? 'latn';
}

/** Languages whose letters differ from the default of their script, or may come to. */
const LANGUAGE_SYSTEMS: Readonly<Record<string, string>> = {
  az: 'AZE', bg: 'BGR', ca: 'CAT', cs: 'CSY', da: 'DAN', de: 'DEU', el: 'ELL', en: 'ENG',
  es: 'ESP', et: 'ETI', fi: 'FIN', fr: 'FRA', he: 'IWR', hr: 'HRV', hu: 'HUN', is: 'ISL',
  it: 'ITA', ja: 'JAN', ko: 'KOR', lt: 'LTH', lv: 'LVI', mk: 'MKD', nb: 'NOR', nl: 'NLD',
  nn: 'NYN', no: 'NOR', pl: 'PLK', pt: 'PTG', ro: 'ROM', ru: 'RUS', sk: 'SKY', sl: 'SLV',
  sr: 'SRB', sv: 'SVE', tr: 'TRK', uk: 'UKR', yi: 'JII', zh: 'ZHS',
}; // prettier-ignore

/** OpenType language system of a BCP 47 tag, padded to four letters; undefined for the default. */
export function languageSystem(language: string): string | undefined {
  return LANGUAGE_SYSTEMS[primaryLanguage(language)]?.padEnd(4);
}

/** Scripts set on the square: each character stands alone and is never kerned. */
export const isSquareScript = (script: ScriptTag): boolean =>
  script === 'kana' || script === 'hani' || script === 'hang';
