/**
 * Names that a line gives to things: markers, holders, edges, yarns, needles. A name is the words as
 * written, up to the next mark or a word the caller names; articles and the thing's own word fall away.
 */
import type { Reader } from './reader.ts';

const ENDS: ReadonlySet<string> = new Set([
  ',',
  '.',
  ';',
  ':',
  '(',
  ')',
  '[',
  ']',
  '{',
  '}',
  '–',
  '—',
  '"',
]);
const LONGEST = 8;

/**
 * Words up to a mark or one of the terms in `before`; undefined where there is none.
 * @rule name = word, { word };
 */
export function readName(reader: Reader, ...before: readonly string[]): string | undefined {
  const words: string[] = [];
  while (!reader.done && words.length < LONGEST) {
    const { text, kind } = reader.peek();
    if (ENDS.has(text) || kind === 'star' || reader.is(...before)) break;
    words.push(text);
    reader.next();
  }
  return words.length === 0 ? undefined : words.join(' ').replaceAll(' / ', '/');
}

/** Round-beginning markers have many spellings and one meaning. */
const ROUND_BEGINNING =
  /^(?:bor|beg(?:inning)? of (?:rnd|round|row)|beg(?:inning)?-of-(?:rnd|round)|eor|end of (?:rnd|round)|rnd|round)$/i;

export function markerName(written: string): string {
  const name = written.replace(/^new (?=\S)/, '');
  return ROUND_BEGINNING.test(name) ? 'BOR' : name;
}
