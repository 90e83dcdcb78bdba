/**
 * Instructions: every written line as it is said, with its count, notes and headings. A chart stands at
 * the end of the section that first names it; every line that names it leads there.
 */
import { meaningOfTerm, sayPattern, type SpokenPattern } from '../../../language/index.ts';
import { asHeading, type EditionOrder, wordsOf } from '../order.ts';
import { type Links, toMarkup } from '../spoken-markup.ts';
import { chartTarget, type ChartView } from './drawings.ts';
import type { Prose } from './prose.ts';

/** A JSON pointer as an element id: unique, and the same in every language. */
export const lineId = (pointer: string): string => `line${pointer.replaceAll('/', '-')}`;

export function instructionsView(
  order: EditionOrder,
  prose: Prose,
  said: SpokenPattern,
  charts: readonly ChartView[],
) {
  const words = wordsOf(order);
  const links: Links = new Map(charts.map(({ id }) => [id, chartTarget(id)]));
  const waiting = new Set(charts);
  const chartsOf = (lines: SpokenSection['lines']) => {
    const ids = new Set(lines.flatMap(({ said: { body } }) => body.map(({ chart }) => chart)));
    const named = [...waiting].filter(({ id }) => ids.has(id));
    for (const chart of named) waiting.delete(chart);
    return named.map((chart) => ({ ...chart, inPiece: true }));
  };
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
        what: toMarkup(line.body, links),
        count: toMarkup(line.count),
        note: written.note === undefined ? [] : prose.all(written.note),
      })),
      charts: chartsOf(section.lines),
    })),
  }));
  const rest = [...waiting].map((chart) => ({ ...chart, inPiece: false }));
  return { pieces, finishing: prose.all('finishing'), charts: rest };
}

type SpokenSection = SpokenPattern['pieces'][number]['sections'][number];

export const sayOrder = (order: EditionOrder): SpokenPattern =>
  sayPattern(order.checked, order.language, order.size);

/** Abbreviations used, each explained, and the special stitches the designer describes. */
export function termsView({ language }: EditionOrder, prose: Prose, said: SpokenPattern) {
  const specials = prose.under('special.').map((key) => {
    const text = prose.line(key) ?? '';
    return specialOf(text);
  });
  return {
    abbreviations: said.terms.map((term) => ({
      term: term.abbreviation,
      meaning: meaningOfTerm(language, term),
    })),
    specials,
  };
}

/** `Twisted rib: knit …` is a name and its explanation; the name is set apart, and the gap kept. */
function specialOf(text: string): { name: string; gap: string; text: string } {
  const match = /^([^:：]{1,40}[:：])(\s*)(.*)$/su.exec(text);
  const [, name = '', gap = '', rest = ''] = match ?? [];
  return match ? { name, gap, text: rest } : { name, gap, text };
}
