/**
 * What the shaper must be told about a stretch of text besides its language: its script, by the
 * four-letter tags of the OpenType registry (ISO/IEC 14496-22, annex of script tags).
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

/** Scripts set on the square: each character stands alone and is never kerned. */
export const isSquareScript = (script: ScriptTag): boolean =>
  script === 'kana' || script === 'hani' || script === 'hang';
