/**
 * Which faces are asked for a character, in order: the face that writes the language's own
 * script or the designer's choice, then the rest. No single font has everything (the Latin ones lack arrows
 * or Han, the Hebrew one lacks fractions), so a text without this order would print empty boxes.
 */
import { assertNever } from '../../base/assert.ts';
import type { Family, TextStyle } from './face.ts';
import type { FaceName, Typeface } from './font-files.ts';

/** The typefaces a designer may choose for text and headings. */
export const CHOICES = ['source-sans-3', 'noto-sans', 'noto-serif'] as const satisfies Typeface[];
export type Choice = (typeof CHOICES)[number];

export interface Theme {
  readonly text: Choice;
  readonly display: Choice;
}

/** Calm and open at small sizes, with figures of one width; headings in a sturdy serif. */
export const HOUSE_THEME: Theme = { text: 'source-sans-3', display: 'noto-serif' };

/** Typeface that writes the script of a language, where the Latin ones do not. */
const OWN_SCRIPT: Readonly<Record<string, Typeface>> = {
  ja: 'noto-sans-jp',
  ko: 'noto-sans-kr',
  zh: 'noto-sans-sc',
  he: 'noto-sans-hebrew',
  yi: 'noto-sans-hebrew',
};

/** Asked last; Japanese before the other Han faces because it has the most symbols. */
const REST: readonly Typeface[] = [
  'source-sans-3',
  'noto-sans',
  'noto-sans-jp',
  'noto-sans-sc',
  'noto-sans-kr',
  'noto-sans-hebrew',
];

export const primaryLanguage = (tag: string): string => (tag.split('-')[0] ?? '').toLowerCase();

export function ownScript(language: string): Typeface | undefined {
  return OWN_SCRIPT[primaryLanguage(language)];
}

function chosen(family: Family, theme: Theme): Typeface {
  switch (family) {
    case 'text':
      return theme.text;
    case 'display':
      return theme.display;
    case 'symbol':
      return 'source-sans-3';
    default:
      return assertNever(family);
  }
}

/**
 * Typefaces for one style, the first to ask first. A face that writes another script brings Latin
 * letters and figures of the right size and weight with it, so it is asked before the designer's
 * choice, and Noto Sans, drawn to the same proportions, adds the fractions it lacks.
 */
export function typefaceChain(
  style: TextStyle,
  theme: Theme,
  direction: 'ltr' | 'rtl',
): readonly Typeface[] {
  const first = chosen(style.family, theme);
  const own = ownScript(style.language) ?? (direction === 'rtl' ? 'noto-sans-hebrew' : undefined);
  if (own === undefined || style.family === 'symbol') return [...new Set([first, ...REST])];
  return [...new Set([own, 'noto-sans', first, ...REST] as const)];
}

/** An apostrophe inside a Latin word. */
export const isApostrophe = (character: string, before: string): boolean =>
  character === '\u2019' && /\p{Script=Latin}$/u.test(before);

/** The Japanese and Chinese faces draw it on the full square, which tears the word apart. */
export const drawsApostrophes = (face: FaceName): boolean => !/^noto-sans-(jp|sc)\//.test(face);
