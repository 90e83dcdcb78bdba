/**
 * Characters that may stand in a bundle. Texts are brought to Unicode normal form C, so that two ways
 * of typing "é" are one; characters that cannot be seen but change what is read (control codes, text
 * direction, halves of a pair) are refused with their place. Takes and gives plain values.
 */
import { pointerTo } from '../../base/span.ts';
import type { Json } from './json.ts';

export interface CharacterProblem {
  readonly pointer: string;
  /** `U+202E` */
  readonly character: string;
  readonly name: string;
  /** From 1, in characters. */
  readonly position: number;
}

/**
 * Unicode 16.0: controls (Cc), and the format characters of UAX #9 that turn text round; the attack
 * they allow on source text is described in Unicode Technical Report #55.
 */
const REFUSED: readonly { readonly pattern: RegExp; readonly name: string }[] = [
  { pattern: /[\u202a-\u202e\u2066-\u2069]/, name: 'which turns the direction of text' },
  { pattern: /\p{Cs}/u, name: 'half of a broken character' },
  { pattern: /[\ufeff\u200b\u2060\ufffe\uffff\u{e0000}-\u{e007f}]/u, name: 'which cannot be seen' },
  { pattern: /\p{Cc}/u, name: 'a control code' },
];
/** Quick: nearly every text passes here. */
const SUSPECT = /[\p{Cc}\p{Cf}\p{Cs}\p{Cn}]/u;
const MARKS = { pattern: /[\u061c\u200e\u200f]/, name: 'a direction mark' };

export interface CharacterRules {
  /** Prose may have several lines, and direction marks in languages written from the right. */
  readonly prose: boolean;
}

/** The same value with every text and key in normal form C and with LF line ends. */
export function normaliseTexts(
  value: Json,
  rules: CharacterRules,
): { readonly value: Json; readonly problems: readonly CharacterProblem[] } {
  const problems: CharacterProblem[] = [];
  const walk = (here: Json, pointer: string): Json => {
    if (typeof here === 'string') return tidyText(here, pointer, rules, problems);
    if (Array.isArray(here))
      return here.map((each, index) => walk(each, pointerTo(pointer, index)));
    if (typeof here !== 'object' || here === null) return here;
    return Object.fromEntries(
      Object.entries(here).map(([key, each]) => {
        const tidied = tidyText(key, pointerTo(pointer, key), { prose: false }, problems);
        return [tidied, walk(each, pointerTo(pointer, tidied))];
      }),
    );
  };
  return { value: walk(value, ''), problems };
}

function tidyText(
  text: string,
  pointer: string,
  rules: CharacterRules,
  problems: CharacterProblem[],
): string {
  const tidied = text.replaceAll(/\r\n?/g, '\n').normalize('NFC');
  const problem = findRefused(tidied, rules);
  if (problem) problems.push({ pointer, ...problem });
  return tidied;
}

/** The first character that may not stand in a text. */
export function findRefused(
  text: string,
  rules: CharacterRules,
): Omit<CharacterProblem, 'pointer'> | undefined {
  if (!SUSPECT.test(text)) return undefined;
  const refused = rules.prose ? REFUSED : [...REFUSED, MARKS];
  let position = 0;
  for (const character of text) {
    position += 1;
    if (rules.prose && (character === '\n' || character === '\t')) continue;
    const kind = refused.find(({ pattern }) => pattern.test(character));
    if (kind) return { character: codePointName(character), name: kind.name, position };
  }
  return undefined;
}

export const codePointName = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
