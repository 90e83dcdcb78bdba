/**
 * Cuts a line of notation into tokens with their places. Knows letters, digits and marks, and the
 * short forms of plain words (`rnds`, `beg`, `rem`), so that the grammar reads one term for each; it
 * knows no stitch. Articles carry no meaning in rows and are left out (a capital `A` is a name).
 */
import type { Span } from '../../../base/span.ts';
import { TERMS, NUMBER_WORDS } from './terms.ts';

export interface Token {
  readonly kind: 'number' | 'ordinal' | 'word' | 'star' | 'mark';
  /** As written. */
  readonly text: string;
  /** Lower case, short forms resolved: `rnds` → `round`. */
  readonly term: string;
  /** Of numbers, ordinals and number words. */
  readonly value?: number;
  readonly span: Span;
}

const FRACTIONS: Readonly<Record<string, number>> = {
  '¼': 1 / 4, '½': 1 / 2, '¾': 3 / 4, '⅓': 1 / 3, '⅔': 2 / 3,
  '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8,
}; // prettier-ignore

const SPACE = /\s+/y;
const ORDINAL = /(\d{1,6})(?:st|nd|rd|th)\b/iy;
const NUMBER = /\d{1,9}(?:\.\d{1,4})?(?:[ \u00a0]?[¼½¾⅓⅔⅛⅜⅝⅞])?|[¼½¾⅓⅔⅛⅜⅝⅞]/y;
const WORD =
  /\p{L}[\p{L}\p{M}\d]*(?:(?:[&'’+]|[-‐‑](?!(?:rows?|rnds?|rounds?)\b)|\/(?=\p{L}))[\p{L}\p{M}\d]+)*/iuy;
const STARS = /\*+|†+|‡+|#+/y;

const ARTICLES = new Set(['a', 'an', 'the', 'your']);
/** `sts.`, `rep.`: a full stop here ends an abbreviation where a sentence cannot end. */
const ABBREVIATED = new Set([
  'st', 'sts', 'rep', 'beg', 'tog', 'inc', 'dec', 'rem', 'patt', 'foll', 'alt', 'approx', 'rnd', 'rnds',
  'cont', 'meas', 'k', 'p', 'sl', 'in', 'ins', 'cm', 'no',
]); // prettier-ignore

/** All tokens of a text. Any other character becomes a mark: nothing is refused here. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const space = match(SPACE, text, at);
    if (space !== undefined) {
      at += space.length;
      continue;
    }
    const token = tokenAt(text, at);
    at = token.span.end;
    if (token.kind === 'word' && token.text !== 'A' && ARTICLES.has(token.term)) continue;
    if (token.text === '.' && endsAbbreviation(tokens.at(-1), text, at)) continue;
    tokens.push(token);
  }
  return tokens;
}

function match(form: RegExp, text: string, at: number): string | undefined {
  form.lastIndex = at;
  return form.exec(text)?.[0];
}

function tokenAt(text: string, at: number): Token {
  const ordinal = match(ORDINAL, text, at);
  if (ordinal !== undefined) return made('ordinal', ordinal, at, Number.parseInt(ordinal, 10));
  const number = match(NUMBER, text, at);
  if (number !== undefined) return made('number', number, at, numberValue(number));
  const word = match(WORD, text, at);
  if (word !== undefined) return made('word', word, at, NUMBER_WORDS[word.toLowerCase()]);
  const stars = match(STARS, text, at);
  if (stars !== undefined) return made('star', stars, at);
  return made('mark', String.fromCodePoint(text.codePointAt(at) ?? 0), at);
}

function made(kind: Token['kind'], text: string, at: number, value?: number): Token {
  const term = kind === 'word' ? termOf(text) : text === '&' ? 'and' : text;
  const span = { start: at, end: at + text.length };
  return value === undefined ? { kind, text, term, span } : { kind, text, term, value, span };
}

function termOf(word: string): string {
  const lower = word.toLowerCase().replaceAll('’', "'");
  return (Object.hasOwn(TERMS, lower) ? TERMS[lower] : undefined) ?? lower;
}

function numberValue(written: string): number {
  const glyph = FRACTIONS[written.at(-1) ?? ''];
  return glyph === undefined ? Number(written) : Number(written.slice(0, -1)) + glyph;
}

/** A full stop after a known short form, followed by more of the same sentence. */
function endsAbbreviation(before: Token | undefined, text: string, after: number): boolean {
  if (before?.kind !== 'word' || !ABBREVIATED.has(before.text.toLowerCase())) return false;
  return before.span.end === after - 1 && /^\s*[\p{Ll},;:)\]/]/u.test(text.slice(after, after + 8));
}
