/**
 * Which faces are asked for a character, in order: the designer's typeface, then the one that writes
 * the language's own script, then the rest. No single font has everything (the Latin ones lack arrows
 * or Han, the Hebrew one lacks fractions), so a text without this order would print empty boxes.
 */
import type { Family, TextStyle } from './face.ts';
import type { Typeface } from './font-files.ts';

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

/**
 * Signs that Japanese and Chinese set on the full square although Latin faces have them too: dashes,
 * leaders, enclosed figures, shapes. Quotation marks are full in Chinese only.
 */
const FULL_SQUARE = /[\u2014\u2015\u2025\u2026\u203b\u2460-\u24ff\u25a0-\u25ff\u2605\u2606]/u;
const FULL_QUOTES = /[\u2018\u2019\u201c\u201d]/u;

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
  }
}

/**
 * Typefaces for one style, the first to ask first. Right-to-left text asks its own script first, so
 * that spaces and brackets come from the face of the letters beside them.
 */
export function typefaceChain(
  style: TextStyle,
  theme: Theme,
  direction: 'ltr' | 'rtl',
): readonly Typeface[] {
  const first = chosen(style.family, theme);
  const own = ownScript(style.language) ?? (direction === 'rtl' ? 'noto-sans-hebrew' : undefined);
  const head = own === undefined ? [first] : direction === 'rtl' ? [own, first] : [first, own];
  return [...new Set([...head, ...REST])];
}

/** Whether the language sets this character from its own script's face before any other. */
export function prefersOwnScript(character: string, language: string): boolean {
  const primary = primaryLanguage(language);
  if (primary !== 'ja' && primary !== 'zh') return false;
  return FULL_SQUARE.test(character) || (primary === 'zh' && FULL_QUOTES.test(character));
}
