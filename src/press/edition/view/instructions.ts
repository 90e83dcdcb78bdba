/** Instructions: every written line as it is said, with its count, notes and headings. */
import { sayPattern, type SpokenPattern } from '../../../language/index.ts';
import { asHeading, type EditionOrder, wordsOf } from '../order.ts';
import { toMarkup } from '../spoken-markup.ts';
import type { Prose } from './prose.ts';

/** A JSON pointer as an element id: unique, and the same in every language. */
export const lineId = (pointer: string): string => `line${pointer.replaceAll('/', '-')}`;

export function instructionsView(order: EditionOrder, prose: Prose, said: SpokenPattern) {
  const words = wordsOf(order);
  const pieces = said.pieces.map((piece) => ({
    id: piece.id,
    title: asHeading(order, piece.title),
    make: piece.make > 1 ? words('document.make', { n: piece.make }, piece.make) : '',
    sections: piece.sections.map((section) => ({
      id: `${piece.id}-${section.id}`,
      // A piece of one section is headed once.
      title: section.title === piece.title ? '' : asHeading(order, section.title ?? ''),
      intro: section.intro === undefined ? [] : prose.all(section.intro),
      lines: section.lines.map(({ written, said: line }) => ({
        id: lineId(written.pointer),
        label: toMarkup(line.label),
        what: toMarkup(line.body),
        count: toMarkup(line.count),
        note: written.note === undefined ? [] : prose.all(written.note),
      })),
    })),
  }));
  return { pieces, finishing: prose.all('finishing') };
}

export const sayOrder = (order: EditionOrder): SpokenPattern =>
  sayPattern(order.checked, order.language, order.size);

/** Abbreviations used, each explained, and the special stitches the designer describes. */
export function termsView(prose: Prose, said: SpokenPattern) {
  const specials = prose.under('special.').map((key) => {
    const text = prose.line(key) ?? '';
    return specialOf(text);
  });
  return {
    abbreviations: said.terms.map((term) => ({
      term: term.abbreviation,
      meaning: meaningOf(term),
    })),
    specials,
  };
}

/** The full name and how it is worked; a name that is the abbreviation itself is not said twice. */
function meaningOf({ abbreviation, name, how = '' }: SpokenPattern['terms'][number]): string {
  if (how === '') return name;
  return name === abbreviation ? how : `${name}: ${how}`;
}

/** `Twisted rib: knit …` is a name and its explanation; the name is set apart. */
function specialOf(text: string): { name: string; text: string } {
  const match = /^([^:：]{1,40}[:：])\s*(.*)$/su.exec(text);
  return match ? { name: match[1] ?? '', text: match[2] ?? '' } : { name: '', text };
}
