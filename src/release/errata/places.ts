/**
 * Names of what changed, as a knitter would name them: the part of the pattern, the place in it, the
 * sizes. Takes changes and the words of a language; shared by the sheet, the notice and the history.
 */
import { assertNever } from '../../base/assert.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { asHeading, type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import type { Change, FactKind } from './changes.ts';

const HEADINGS: Readonly<Record<Exclude<FactKind, 'chart'>, string>> = {
  body: 'heading.bodyMeasurements',
  measurement: 'heading.finishedMeasurements',
  gauge: 'heading.gauge',
  yarn: 'heading.yarn',
  needles: 'heading.needles',
  notions: 'heading.notions',
};

/** The part of the pattern: "Hat · Crown", "Gauge", "Finishing". */
export function partOf(order: EditionOrder, change: Change): string {
  const words = wordsOf(order);
  switch (change.kind) {
    case 'line': {
      const { piece, section } = change;
      const names = section === '' || section === piece ? [piece] : [piece, section];
      return names.map((name) => asHeading(order, name)).join(' · ');
    }
    case 'chart':
      return change.name;
    case 'text':
      return words(headingOfText(change.key));
    case 'body':
    case 'measurement':
    case 'gauge':
    case 'yarn':
    case 'needles':
    case 'notions':
      return words(HEADINGS[change.kind]);
    default:
      return assertNever(change);
  }
}

/** The heading a text of the designer stands under; other texts share one name. */
function headingOfText(key: string): string {
  if (key.startsWith('special.')) return 'heading.specialStitches';
  if (/^(story|care|finishing)$/.test(key)) return `heading.${key}`;
  return /^(title|subtitle|summary)$/.test(key) ? 'errata.otherTexts' : 'heading.notes';
}

/** The place inside the part: "Rnd 7", "Depth"; empty where the part says it all. */
export function placeOf(order: EditionOrder, change: Change): string {
  if (change.kind === 'line') return bareLabel(change.label);
  if (change.kind === 'text' || change.kind === 'chart') return '';
  return change.name === '' ? '' : asHeading(order, change.name);
}

/** "Rnd 7:" without its closing mark. */
const bareLabel = (label: string): string => label.replace(/[\s:：]+$/u, '');

/** "Sizes: M, L", or that all are concerned. */
export function sizesOf(order: EditionOrder, sizes: readonly number[]): string {
  const words = wordsOf(order);
  const names = order.checked.pattern.sizes;
  if (sizes.length >= names.length) return words('errata.allSizes');
  const said = sizes.map((size) => names[size] ?? '').join(order.language.settings.separators.list);
  return words('listing.sizes', { sizes: said });
}

/** One line for a list: "Hat · Crown, Rnd 7 (M, L)". */
export function briefOf(order: EditionOrder, change: Change): string {
  const { list } = order.language.settings.separators;
  const names = order.checked.pattern.sizes;
  const place = placeOf(order, change);
  const where = place === '' ? partOf(order, change) : `${partOf(order, change)}${list}${place}`;
  if (change.kind === 'text' || change.sizes.length >= names.length) return where;
  const [[open, close] = ['(', ')']] = order.language.settings.sizes.brackets;
  // A wide bracket brings its own white space.
  const gap = open === '(' ? ' ' : '';
  return `${where}${gap}${open}${change.sizes.map((size) => names[size] ?? '').join(list)}${close}`;
}

/** The reason the designer gives: for the whole version, and for a line of it. */
export function reasonsFor(data: BundleData): {
  readonly whole: string | undefined;
  readonly line: (anchor: string | undefined) => string | undefined;
} {
  const entry = data.history.find(({ version }) => version === data.version);
  return {
    whole: entry?.change,
    line: (anchor) => (anchor === undefined ? undefined : entry?.why?.[anchor]),
  };
}
