/**
 * What a shop is told of a pattern in one language: title, short and long description, facts, tags, and
 * the cautions that apply. Takes the checked pattern and the languages the release is offered in; the
 * designer's words where the bundle has them, the facts from the checked pattern always. Knows no shop.
 */
import {
  plainText,
  sayBall,
  sayFibres,
  sayGauge,
  sayGrams,
  sayNeedle,
  saySizeNames,
  text,
} from '../../language/index.ts';
import { cautionsFor } from '../../pattern/cautions.ts';
import {
  dataOf,
  type EditionOrder,
  namesOf,
  sizedFrom,
  wordsOf,
} from '../../press/edition/order.ts';
import { openProse, type Prose } from '../../press/edition/view/prose.ts';

export interface Listing {
  readonly title: string;
  /** One or two sentences, for previews. */
  readonly short: string;
  readonly paragraphs: readonly string[];
  /** Whole lines: "Sizes: S (M, L)". */
  readonly facts: readonly string[];
  readonly includes: readonly string[];
  readonly cautions: readonly string[];
  readonly tags: readonly string[];
}

/** `offered`: names of the languages, each in itself. Pictures of the order play no part. */
export function gatherListing(order: EditionOrder, offered: readonly string[]): Listing {
  const prose = openProse(order);
  const words = wordsOf(order);
  const own = (key: string, otherwise: readonly string[]) => {
    const found = prose.all(key);
    return found.length > 0 ? found : otherwise;
  };
  const summary = prose.all('summary');
  return {
    title: titleOf(order, prose),
    short: own('listing.short', summary.slice(0, 1)).join(' '),
    paragraphs: own('listing.description', summary),
    facts: factsOf(order, offered),
    includes: includesOf(order),
    cautions: cautionsFor(dataOf(order)).map((id) => words(`caution.${id}`)),
    tags: own('listing.tags', splitTags(words('listing.tags'))),
  };
}

const splitTags = (tags: string): readonly string[] => tags.split(/\s*[,、，]\s*/u);

function titleOf(order: EditionOrder, prose: Prose): string {
  const sizes = plainText(saySizeNames(order.language, dataOf(order).sizes));
  const own = prose.line('listing.title');
  return own ?? wordsOf(order)('listing.title', { title: prose.line('title') ?? '', sizes });
}

function factsOf(order: EditionOrder, offered: readonly string[]): readonly string[] {
  const data = dataOf(order);
  const { language } = order;
  const words = wordsOf(order);
  const list = (items: readonly string[]) => items.join(language.settings.separators.list);
  const needles = [...new Set(data.needles.map(({ mm }) => plainText(sayNeedle(language, mm))))];
  const amounts = amountsOf(order);
  const [gauge] = data.gauges;
  return [
    words('listing.sizes', { sizes: plainText(saySizeNames(language, data.sizes)) }),
    ...yarnsOf(order).map((yarn) => words('listing.yarn', { yarn })),
    ...(amounts.length > 0 ? [words('listing.amounts', { amounts: amounts.join('; ') })] : []),
    words('listing.needles', { needles: list(needles) }),
    ...(gauge
      ? [words('listing.gauge', { gauge: plainText(sayGauge(language, namesOf(order), gauge)) })]
      : []),
    words('listing.level', { level: words(`level.${data.level}`) }),
    words('listing.languages', { languages: list(offered) }),
    words('listing.formats'),
  ];
}

/** Each yarn on a line: name, weight, fibres and ball. */
export const yarnsOf = (order: EditionOrder): readonly string[] =>
  dataOf(order).yarns.map((yarn) =>
    text(order.language, 'yarn.line', {
      name: yarn.name,
      weight: wordsOf(order)(`yarnWeight.${yarn.weight}`),
      fibres: sayFibres(order.language, namesOf(order), yarn),
      ball: sayBall(order.language, yarn),
    }),
  );

/** Grams of each colour over the sizes; the colour is named where there are several. */
function amountsOf(order: EditionOrder): readonly string[] {
  const colours = dataOf(order).yarns.flatMap((yarn) =>
    yarn.colours.map((colour) => ({ ...colour, yarn: yarn.name })),
  );
  return colours.flatMap(({ yarn, name, grams }) => {
    if (grams === undefined) return [];
    const said = plainText(sayGrams(order.language, sizedFrom(order, grams)));
    return [colours.length > 1 ? `${yarn} ${name} ${said}` : said];
  });
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
