/** Texts of the designer for one language: paragraphs by key, empty where there are none. */
import { proseFor } from '../../../language/index.ts';
import type { EditionOrder } from '../order.ts';

export interface Prose {
  /** Paragraphs of a key; an empty list where the bundle has no such text. */
  all(key: string): readonly string[];
  /** The text of a key on one line, or undefined. */
  line(key: string): string | undefined;
  /** Keys that begin with a prefix, in the order of the file. */
  under(prefix: string): readonly string[];
}

export function openProse({ checked, language }: EditionOrder): Prose {
  const texts = proseFor(checked.pattern.bundle.prose, language.tag);
  return {
    all: (key) => texts.get(key) ?? [],
    line: (key) => texts.get(key)?.join(' '),
    under: (prefix) => [...texts.keys()].filter((key) => key.startsWith(prefix)),
  };
}
