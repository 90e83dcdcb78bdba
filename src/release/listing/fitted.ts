/**
 * Texts made to fit a form: cut at the end of a sentence where most of the text stays, else between two
 * words with an ellipsis. Takes a text and how many letters fit; says whether anything was cut, so that
 * nobody finds a shortened text in the shop before knowing of it.
 */
export interface Fitted {
  readonly text: string;
  readonly shortened: boolean;
}

/** Sentences are kept whole where at least this share of the room is used. */
const ENOUGH = 0.6;
const ELLIPSIS = '…';

/** Letters as a form counts them: characters of Unicode, not bytes. */
export const lettersOf = (text: string): number => Array.from(text).length;

export function fitText(text: string, most: number, language: string): Fitted {
  if (lettersOf(text) <= most) return { text, shortened: false };
  const sentences = cutAfter(text, most, language, 'sentence').trimEnd();
  if (lettersOf(sentences) >= most * ENOUGH) return { text: sentences, shortened: true };
  const words = cutAfter(text, most - 1, language, 'word').replace(/[\s\p{P}]+$/u, '');
  return { text: words + ELLIPSIS, shortened: true };
}

/** As many whole parts as fit; letters where a single part is too long. */
function cutAfter(
  text: string,
  most: number,
  language: string,
  granularity: 'sentence' | 'word',
): string {
  let kept = '';
  let letters = 0;
  for (const { segment } of new Intl.Segmenter(language, { granularity }).segment(text)) {
    letters += lettersOf(segment.trimEnd());
    if (letters > most) break;
    kept += segment;
    letters += segment.length - segment.trimEnd().length;
  }
  if (kept.trim() !== '' || granularity === 'sentence') return kept;
  return Array.from(text).slice(0, most).join('');
}

export interface FittedTags {
  readonly tags: readonly string[];
  readonly left: readonly string[];
}

/** Tags that are short enough, as many as there may be; the others are told. */
export function fitTags(
  tags: readonly string[],
  limits: { readonly tags: number; readonly tag: number },
): FittedTags {
  const short = tags.filter((tag) => lettersOf(tag) <= limits.tag);
  const kept = short.slice(0, limits.tags);
  return { tags: kept, left: tags.filter((tag) => !kept.includes(tag)) };
}
