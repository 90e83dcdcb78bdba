/**
 * Shows what differs between two wordings of one line: the words and numbers that went are strong in the
 * old one, those that came are strong in the new one. Takes two plain texts, gives two pieces of markup;
 * bold type and not colour says it, so that paper and screen readers have it too.
 */
import { escapeMarkup } from '../../base/escape.ts';
import { commonOrder } from './align.ts';

/** Numbers with their fractions and decimals, words, single signs, and the spaces between them. */
const TOKEN = /\d+(?:[.,]\d+)*[¼½¾]?|[¼½¾]|[\p{L}\p{M}]+|\s+|./gsu;
/** Longer texts are shown without marks: the comparison is quadratic. */
const MOST_TOKENS = 1500;
/** Where less than this share of the words stayed, marks would cover everything and say nothing. */
const LEAST_KEPT = 0.4;

export function markDifferences(was: string, is: string): readonly [was: string, is: string] {
  const [before, after] = [tokensOf(was), tokensOf(is)];
  if (was === '' || is === '' || before.length * after.length > MOST_TOKENS ** 2)
    return [escapeMarkup(was), escapeMarkup(is)];
  const pairs = commonOrder(before, after);
  const least = LEAST_KEPT * Math.min(before.length, after.length);
  if (pairs.length < least) return [escapeMarkup(was), escapeMarkup(is)];
  const kept = [new Set(pairs.map(([a]) => a)), new Set(pairs.map(([, b]) => b))] as const;
  return [mark(before, kept[0]), mark(after, kept[1])];
}

const tokensOf = (text: string): readonly string[] => text.match(TOKEN) ?? [];

function mark(tokens: readonly string[], kept: ReadonlySet<number>): string {
  let markup = '';
  let fresh = '';
  const flush = (): void => {
    if (fresh !== '')
      markup += fresh.trim() === '' ? fresh : `<strong>${escapeMarkup(fresh)}</strong>`;
    fresh = '';
  };
  tokens.forEach((token, index) => {
    if (!kept.has(index)) fresh += token;
    else {
      flush();
      markup += escapeMarkup(token);
    }
  });
  flush();
  return markup;
}
