/**
 * Cuts text into the pieces that are shaped and kept: words, single spaces, and single characters of
 * the scripts set on the square, each with the marks that sit on it. Shaping a piece never depends on
 * its neighbours, so the width of a line is the sum of its pieces wherever it is broken.
 */
import { PRESS_LIMITS } from '../../base/limits.ts';

/**
 * Characters that steer breaking, joining or direction and have no shape: soft hyphen, zero-width
 * space, non-joiner and joiner, direction marks and isolates, word joiner, byte order mark.
 */
const SHAPELESS = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/gu;

const SQUARE =
  '[\\p{Script=Han}\\p{Script=Hiragana}\\p{Script=Katakana}\\uac00-\\ud7a3' +
  '\\u3000-\\u303f\\u30fb\\u30fc\\u3200-\\u33ff\\ufe30-\\ufe4f\\uff00-\\uffef]';
const MARKS = '[\\p{M}\\ufe00-\\ufe0f]*';
const SPACE = '[\\p{Zs}\\t\\n\\r]';
const JAMO = '[\\u1100-\\u11ff]+';

const PIECES = new RegExp(
  `${SPACE}|${SQUARE}${MARKS}|${JAMO}|(?:(?!${SPACE}|${SQUARE}|[\\u1100-\\u11ff\\u200c]).)+|\\u200c`,
  'gsu',
);

/** A character with the marks that must come from the same face. */
const CLUSTERS = new RegExp(`${JAMO}|.${MARKS}`, 'gsu');

/** A letter with marks, or the parts of a Hangul syllable: written as one character where there is one. */
const COMPOSABLE = new RegExp(`${JAMO}|.\\p{M}+`, 'gsu');

/** Parts of a word that is too long: shaping costs more than its length. */
const CUTS = new RegExp(`(?:.${MARKS}){1,${PRESS_LIMITS.wordLetters}}`, 'gsu');

/**
 * Pieces in order; joined, they are the text without its shapeless characters. Letters and marks are
 * composed (Unicode NFC), because fonts draw a composed letter better than its parts.
 */
export function wordsOf(text: string): readonly string[] {
  const composed = text.replace(COMPOSABLE, (cluster) => cluster.normalize('NFC'));
  const pieces = composed.match(PIECES) ?? [];
  return pieces
    .map(withoutShapeless)
    .flatMap((piece) =>
      piece.length > PRESS_LIMITS.wordLetters ? (piece.match(CUTS) ?? []) : piece,
    )
    .filter((piece) => piece !== '');
}

export const clustersOf = (word: string): readonly string[] => word.match(CLUSTERS) ?? [];

/** White space of any kind that is not a space of its own width is set as an ordinary space. */
function withoutShapeless(piece: string): string {
  return piece === '\t' || piece === '\n' || piece === '\r' ? ' ' : piece.replace(SHAPELESS, '');
}
