/**
 * Sizes and finished measurements: to fit, the ease, and one table per unit, the country's own unit
 * first. Both units come from the bundle, where each has been checked against the counts.
 */
import {
  type SpokenPart,
  sayCentimetres,
  sayEase,
  sayInches,
  saySizeNames,
  sayText,
} from '../../../language/index.ts';
import { sizedOf, valueFor } from '../../../pattern/bundle/size-list.ts';
import type { MeasurementData } from '../../../pattern/bundle/schema.ts';
import {
  asHeading,
  type EditionOrder,
  dataOf,
  lengthFrom,
  shownSizes,
  sizedFrom,
  wordsOf,
} from '../order.ts';
import { toMarkup } from '../spoken-markup.ts';
import { nameOf } from './cover.ts';
import { type CellView, type TableView, sizeTable, spokenCell, textCell } from './table.ts';

type Unit = 'in' | 'cm';

export function sizesView(order: EditionOrder) {
  const data = dataOf(order);
  const { language } = order;
  const units: readonly Unit[] =
    language.settings.units.first === 'in' ? ['in', 'cm'] : ['cm', 'in'];
  const names = saySizeNames(language, data.sizes, order.size);
  return {
    intro:
      order.size === undefined
        ? [toMarkup(sayText(language, 'document.sizeOrder', { sizes: names }))]
        : [toMarkup(sayText(language, 'document.oneSize', { size: names }))],
    tables: [
      ...units.map((unit) => bodyTable(order, unit)).filter((table) => table.rows.length > 0),
      ...units.map((unit) => finishedTable(order, unit)),
    ],
    ease: data.measurements
      .filter((each) => each.ease !== undefined)
      .map((each) => toMarkup(easeOf(order, each)))
      .join(' '),
  };
}

function easeOf(order: EditionOrder, { ease }: MeasurementData): readonly SpokenPart[] {
  if (!ease) return [];
  return sayEase(order.language, ease.over, lengthFrom(order, ease.size), order.size);
}

/** The body the garment is to fit. */
function bodyTable(order: EditionOrder, unit: Unit): TableView {
  const words = wordsOf(order);
  const rows = dataOf(order).body.map((each) => ({
    head: textCell(asHeading(order, words(`body.${each.part}`)), true),
    value: each.size[unit],
  }));
  return unitTable(order, 'body', words('heading.bodyMeasurements'), unit, rows);
}

/** The garment itself, each measurement with its letter on the schematic. */
function finishedTable(order: EditionOrder, unit: Unit): TableView {
  const rows = dataOf(order).measurements.map((each) => ({
    head: spokenCell(
      [
        { text: each.letter, role: 'strong' },
        { text: ` ${asHeading(order, nameOf(order, 'measurement', each.name))}`, role: 'plain' },
      ],
      true,
    ),
    value: each.size[unit],
  }));
  const caption = wordsOf(order)('heading.finishedMeasurements');
  return unitTable(order, 'finished', caption, unit, rows);
}

function unitTable(
  order: EditionOrder,
  id: string,
  caption: string,
  unit: Unit,
  rows: readonly { head: CellView; value: MeasurementData['size'][Unit] }[],
): TableView {
  const words = wordsOf(order);
  const sizes = shownSizes(order);
  return sizeTable(
    `${id}-${unit}`,
    `${caption} (${words(`unit.${unit}`)})`,
    words('label.size'),
    sizes.map((size) => dataOf(order).sizes[size] ?? ''),
    rows
      .filter(({ value }) => value !== undefined)
      .map(({ head, value }) => [
        head,
        ...sizes.map((size) => lengthCell(order, value, unit, size)),
      ]),
  );
}

function lengthCell(
  order: EditionOrder,
  value: MeasurementData['size'][Unit],
  unit: Unit,
  size: number,
) {
  const one = value === undefined ? null : valueFor(sizedFrom(order, value), size);
  if (one === null) return spokenCell([{ text: '–', role: 'plain' }]);
  const say = unit === 'in' ? sayInches : sayCentimetres;
  // The unit stands in the caption, so the cell holds the number alone.
  return spokenCell(say(order.language, sizedOf(one)).filter((part) => part.role === 'count'));
}
