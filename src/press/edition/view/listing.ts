/**
 * The text for the shop in one language: what the pattern is, its sizes, materials and languages, the
 * cautions that apply. Plain text, ready to paste; the designer's words where the bundle has them, the
 * facts from the checked pattern always.
 */
import {
  plainText,
  sayBall,
  sayFibres,
  sayGauge,
  sayNeedle,
  saySizeNames,
  text,
} from '../../../language/index.ts';
import { cautionsFor } from '../../../pattern/cautions.ts';
import { type EditionOrder, dataOf, namesOf, wordsOf } from '../order.ts';
import type { Templates } from '../templates.ts';
import { openProse, type Prose } from './prose.ts';

export function writeListing(
  order: EditionOrder,
  templates: Templates,
  /** Names of the languages the release is offered in, each in itself. */
  offered: readonly string[],
): string {
  const prose = openProse(order);
  const words = wordsOf(order);
  const view = {
    title: titleOf(order, prose),
    paragraphs: prose.all('listing.description').length
      ? prose.all('listing.description')
      : prose.all('summary'),
    facts: factsOf(order, offered),
    includes: includesOf(order),
    cautions: cautionsFor(dataOf(order)).map((id) => words(`caution.${id}`)),
    tags: (prose.all('listing.tags').length
      ? prose.all('listing.tags')
      : [words('listing.tags')]
    ).join(', '),
  };
  const written = templates.write('listing', view, (key) => words(key));
  // Empty lists leave runs of empty lines behind.
  return written.replace(/\n{3,}/g, '\n\n').trim() + '\n';
}

function titleOf(order: EditionOrder, prose: Prose): string {
  const sizes = plainText(saySizeNames(order.language, dataOf(order).sizes));
  const own = prose.line('listing.title');
  return own ?? wordsOf(order)('listing.title', { title: prose.line('title') ?? '', sizes });
}

function factsOf(order: EditionOrder, offered: readonly string[]): readonly string[] {
  const data = dataOf(order);
  const { language } = order;
  const words = wordsOf(order);
  const names = namesOf(order);
  const list = (items: readonly string[]) => items.join(language.settings.separators.list);
  const yarns = data.yarns.map((yarn) =>
    text(language, 'yarn.line', {
      name: yarn.name,
      weight: words(`yarnWeight.${yarn.weight}`),
      fibres: sayFibres(language, names, yarn),
      ball: sayBall(language, yarn),
    }),
  );
  const needles = [...new Set(data.needles.map(({ mm }) => plainText(sayNeedle(language, mm))))];
  const [gauge] = data.gauges;
  return [
    words('listing.sizes', { sizes: plainText(saySizeNames(language, data.sizes)) }),
    ...yarns.map((yarn) => words('listing.yarn', { yarn })),
    words('listing.needles', { needles: list(needles) }),
    ...(gauge
      ? [words('listing.gauge', { gauge: plainText(sayGauge(language, names, gauge)) })]
      : []),
    words('listing.level', { level: words(`level.${data.level}`) }),
    words('listing.languages', { languages: list(offered) }),
  ];
}

function includesOf(order: EditionOrder): readonly string[] {
  const data = dataOf(order);
  const words = wordsOf(order);
  const charts = data.charts.length;
  return [
    words('listing.written'),
    ...(charts > 0 ? [words('listing.chart', { n: charts }, charts)] : []),
    ...(data.schematic.length > 0 ? [words('listing.schematic')] : []),
  ];
}
