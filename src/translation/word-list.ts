/**
 * Words of the glossary in a text, with what another language calls them: the note beside a segment.
 * Takes a text and two languages. Only whole words are found, in their plain form and with the endings
 * that the glossary gives in brackets; a word that is missed is still in the terminology file.
 */
import { explainTerm, type Language } from '../language/index.ts';
import { termsOf } from './abbreviations.ts';

interface Word {
  readonly pattern: RegExp;
  readonly id: string;
  readonly name: string;
}

const remembered = new WeakMap<Language, readonly Word[]>();

/** Enough for a sentence; a note that lists everything is not read. */
const MOST_WORDS = 8;

function wordsOf(language: Language): readonly Word[] {
  const known = remembered.get(language);
  if (known) return known;
  const words = termsOf(language, []).flatMap((id): readonly Word[] => {
    const name = explainTerm(language, id)?.name;
    const stem = name?.replaceAll(/\(.*?\)|:.*$/g, '').trim() ?? '';
    if (name === undefined || stem.length < 3 || !/^[\p{L} -]+$/u.test(stem)) return [];
    const endings = /^[A-Za-z ]+$/.test(stem) ? '(?:e?s)?' : '';
    const pattern = new RegExp(`(?<!\\p{L})${stem}${endings}(?!\\p{L})`, 'iu');
    return [{ pattern, id, name: stem }];
  });
  remembered.set(language, words);
  return words;
}

/** `stitch = Masche(n)`, in the order of the glossary. */
export function wordsIn(text: string, source: Language, target: Language): readonly string[] {
  const found = wordsOf(source).flatMap(({ pattern, id, name }) => {
    const theirs = pattern.test(text) ? explainTerm(target, id)?.name : undefined;
    return theirs === undefined ? [] : [`${name} = ${theirs}`];
  });
  return [...new Set(found)].slice(0, MOST_WORDS);
}
