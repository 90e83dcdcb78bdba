/** Materials: yarns with their amounts by size, needles, notions, and the cautions that apply. */
import {
  sayBall,
  sayFibres,
  sayNeedleLine,
  sayNotion,
  sayNumber,
  sayText,
  type Spoken,
} from '../../../language/index.ts';
import { sizedOf, valueFor } from '../../../pattern/bundle/size-list.ts';
import { cautionsFor } from '../../../pattern/cautions.ts';
import type { BundleData } from '../../../pattern/bundle/schema.ts';
import {
  type EditionOrder,
  dataOf,
  lengthFrom,
  namesOf,
  shownSizes,
  sizeNameOf,
  sizedFrom,
  wordsOf,
} from '../order.ts';
import { toMarkup } from '../spoken-markup.ts';
import { type CellView, type TableView, sizeTable, spokenCell, textCell } from './table.ts';

type Yarn = BundleData['yarns'][number];
type Colour = Yarn['colours'][number];

export function materialsView(order: EditionOrder) {
  const data = dataOf(order);
  const names = namesOf(order);
  const { language } = order;
  const words = wordsOf(order);
  return {
    materials: {
      yarns: data.yarns.map((yarn) => toMarkup(yarnLine(order, yarn))),
      tables: data.yarns.some((yarn) => yarn.colours.some((colour) => colour.grams ?? colour.balls))
        ? [amountTable(order)]
        : [],
      needles: data.needles.map((needle) =>
        toMarkup(
          sayNeedleLine(language, names, needle, needle.length && lengthFrom(order, needle.length)),
        ),
      ),
      notions: data.notions.map((notion) =>
        toMarkup(
          sayNotion(
            language,
            notion,
            notion.count === undefined ? undefined : sizedFrom(order, notion.count),
            notion.size && lengthFrom(order, notion.size),
            order.size,
          ),
        ),
      ),
    },
    cautions: cautionsFor(data).map((id) => words(`caution.${id}`)),
  };
}

function yarnLine(order: EditionOrder, yarn: Yarn): Spoken {
  return sayText(order.language, 'yarn.line', {
    name: [{ text: yarn.name, role: 'strong' }],
    weight: wordsOf(order)(`yarnWeight.${yarn.weight}`),
    fibres: sayFibres(order.language, namesOf(order), yarn),
    ball: sayBall(order.language, yarn),
  });
}

/** Balls, weight and length by size and colour: a buyer reads here what to order. */
function amountTable(order: EditionOrder): TableView {
  const words = wordsOf(order);
  const sizes = shownSizes(order);
  const rows = dataOf(order).yarns.flatMap((yarn) =>
    yarn.colours.flatMap((colour) => amountRows(order, yarn, colour, sizes)),
  );
  const names = sizes.map((size) => sizeNameOf(order, size));
  return sizeTable('yarn-amounts', '', words('label.size'), names, rows);
}

function amountRows(
  order: EditionOrder,
  yarn: Yarn,
  colour: Colour,
  sizes: readonly number[],
): CellView[][] {
  const words = wordsOf(order);
  const many = dataOf(order).yarns.length > 1 || yarn.colours.length > 1;
  const head = (what: string) => textCell(many ? `${colour.name} · ${what}` : what, true);
  const row = (what: string, value: (size: number) => number | null): CellView[] => [
    head(what),
    ...sizes.map((size) => spokenCell(sayNumber(order.language, sizedOf(value(size))))),
  ];
  const rows: CellView[][] = [];
  if (colour.balls !== undefined) {
    const balls = sizedFrom(order, colour.balls);
    rows.push(row(words('label.balls'), (size) => valueFor(balls, size)));
  }
  if (colour.grams !== undefined) {
    const grams = sizedFrom(order, colour.grams);
    const share = (size: number, whole: number) => {
      const value = valueFor(grams, size);
      // Rounded up, because a metre too little is worse than a metre too much.
      return value === null ? null : Math.ceil((value / yarn.ball.grams) * whole);
    };
    const metres = row(words('unit.m'), (size) => share(size, yarn.ball.metres));
    const yards = row(words('unit.yd'), (size) => share(size, yarn.ball.yards));
    const lengths =
      order.language.settings.units.yarn === 'yards' ? [yards, metres] : [metres, yards];
    // Of several colours, the length in the reader's own unit is enough to read.
    const shown = many ? lengths.slice(0, 1) : lengths;
    const weight = row(words('unit.g'), (size) => valueFor(grams, size));
    rows.push(weight, ...shown);
  }
  return rows;
}
