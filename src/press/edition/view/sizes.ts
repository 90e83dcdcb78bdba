/**
 * Sizes: the body they fit, the finished measurements and the ease; one table per unit, the country's
 * own unit first. Both units come from the bundle, where each has been checked against the counts.
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
  sizeNameOf,
  sizedFrom,
  wordsOf,
} from '../order.ts';
import { toMarkup } from '../spoken-markup.ts';
import { nameOf } from './cover.ts';
import {
  type CellView,
  type TableView,
  groupRow,
  sizeTable,
  spokenCell,
  textCell,
} from './table.ts';

type Unit = 'in' | 'cm';

export function sizesView(order: EditionOrder) {
  const data = dataOf(order);
  const { language } = order;
  const units: readonly Unit[] =
    language.settings.units.first === 'in' ? ['in', 'cm'] : ['cm', 'in'];
  return {
    intro: introOf(order),
    tables: units.map((unit) => unitTable(order, unit)),
    ease: data.measurements
      .filter((each) => each.ease !== undefined)
      .map((each) => toMarkup(easeOf(order, each)))
      .join(' '),
  };
}

/** In which order the sizes stand; a pattern in one size has none to explain. */
function introOf({ language, size, checked }: EditionOrder): readonly string[] {
  const { sizes } = checked.pattern.bundle.data;
  if (sizes.length === 1) return [];
  const names = saySizeNames(language, sizes, size);
  return size === undefined
    ? [toMarkup(sayText(language, 'document.sizeOrder', { sizes: names }))]
    : [toMarkup(sayText(language, 'document.oneSize', { size: names }))];
}

function easeOf(order: EditionOrder, { ease }: MeasurementData): readonly SpokenPart[] {
  if (!ease) return [];
  return sayEase(order.language, ease.over, lengthFrom(order, ease.size), order.size);
}

interface Measure {
  readonly head: CellView;
  readonly value: MeasurementData['size'][Unit];
}

/** The body the garment is to fit. */
function bodyMeasures(order: EditionOrder, unit: Unit): readonly Measure[] {
  return dataOf(order).body.map((each) => ({
    head: textCell(asHeading(order, wordsOf(order)(`body.${each.part}`)), true),
    value: each.size[unit],
  }));
}

/** The garment itself, each measurement with its letter on the schematic. */
function finishedMeasures(order: EditionOrder, unit: Unit): readonly Measure[] {
  return dataOf(order).measurements.map((each) => ({
    head: spokenCell(
      [
        { text: each.letter, role: 'strong' },
        // An en space, so that names stand under each other.
        {
          text: `\u2002${asHeading(order, nameOf(order, 'measurement', each.name))}`,
          role: 'plain',
        },
      ],
      true,
    ),
    value: each.size[unit],
  }));
}

/** Body and garment in one unit, under each other, so that the ease is seen; a reader needs one table. */
function unitTable(order: EditionOrder, unit: Unit): TableView {
  const words = wordsOf(order);
  const sizes = shownSizes(order).map((size) => sizeNameOf(order, size));
  const rowsOf = (measures: readonly Measure[]) =>
    measures
      .filter(({ value }) => value !== undefined)
      .map(({ head, value }) => [
        head,
        ...shownSizes(order).map((size) => lengthCell(order, value, unit, size)),
      ]);
  const body = rowsOf(bodyMeasures(order, unit));
  const finished = rowsOf(finishedMeasures(order, unit));
  const corner = `${words('label.size')} (${words(unit === 'in' ? 'label.inches' : 'label.centimetres')})`;
  return sizeTable(`sizes-${unit}`, '', corner, sizes, [
    ...(body.length > 0 ? [groupRow(words('heading.bodyMeasurements'), sizes), ...body] : []),
    groupRow(words('heading.finishedMeasurements'), sizes),
    ...finished,
  ]);
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
  // The unit stands at the head of the table, so the cell holds the number alone.
  return spokenCell(say(order.language, sizedOf(one)).filter((part) => part.role === 'count'));
}
