/**
 * What faults say, in the language of a reader. Rooms throw their faults in English, which is what a
 * terminal and a record of a run keep; here each English text is looked up among the phrases of a
 * language (`templates/desk/faults/`). A text without words stays English, as a sentence.
 */
import { wordingOf } from '../findings/register.ts';
import { FindingFault } from '../findings/fault.ts';
import { openPhrases, type Saying } from '../findings/saying.ts';

/** A fault, or what a record of a run keeps of one. */
export interface ToldFault {
  readonly message?: string | undefined;
  readonly remedy?: string | undefined;
  readonly place?: string | undefined;
}

/** Sentences for a page; empty where there is nothing to say. */
export interface SaidFault {
  readonly message: string;
  readonly remedy: string;
  readonly place: string;
}

export type SayFault = (fault: ToldFault) => SaidFault;

/** `words` by the English text; none for English itself, or for a language that has none yet. */
export function openFaultWords(
  language: string,
  words: Readonly<Record<string, string>> = {},
  saying?: Saying,
): SayFault {
  const phrase = openPhrases(language, words);
  const say = (english = '') => {
    const said = phrase(english);
    return said === english ? sentence(saying?.phrase(english) ?? english) : said;
  };
  return (fault) => {
    const { message, remedy, place = '' } = fault;
    if (!(fault instanceof FindingFault))
      return { message: say(message), remedy: say(remedy), place: phrase(place) };
    const { headline, action = '' } = wordingOf(fault.finding, saying);
    return { message: sentence(headline), remedy: sentence(action), place };
  };
}

/** Names of files, of languages, and of patterns with their version keep their first letter. */
export const beginning = (text: string): string =>
  text.replace(
    /^(?:\p{Ll}(?=\p{Ll}{2,},? (?!\d+\.\d+\.\d))|(?:a|an|it|no)\b)/u,
    (letters) => letters.slice(0, 1).toUpperCase() + letters.slice(1),
  );

const sentence = (text: string): string => {
  const begun = beginning(text);
  return begun === '' || /[.!?。:：…]$/.test(begun) ? begun : `${begun}.`;
};
