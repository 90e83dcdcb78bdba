/**
 * What a test knitter of one size is asked, in her language, with what the pattern says to each question
 * and how it follows: gauge before and after washing, stitches at places a row ends, yarn, finished
 * measurements, time. Takes a checked pattern and an order for one size; gives rows that become a page, a
 * spreadsheet and JSON alike.
 */
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { sizedOf } from '../../pattern/bundle/size-list.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import { contextOf } from '../../pattern/checks/context.ts';
import { readBase } from '../../pattern/grading/gauge.ts';
import { fabricAreas } from '../../pattern/outlines/areas.ts';
import { plainText, sayCentimetres, sayFabric, sayInches, sayName } from '../../language/index.ts';
import {
  asHeading,
  dataOf,
  type EditionOrder,
  namesOf,
  wordsOf,
} from '../../press/edition/order.ts';
import type { Basis } from './basis.ts';
import { countPlaces } from './count-places.ts';
import { lengthParts } from './length-parts.ts';

export const RETURN_FORMAT = 'castoff-return/1';

export const ANSWER_UNITS = ['sts', 'rows', 'cm', 'in', 'g', 'h', 'text'] as const;
export type AnswerUnit = (typeof ANSWER_UNITS)[number];

export interface ReturnRow {
  /** `gauge/ropes/after/stitches`, `count/hat/3`, `yarn/slate`, `measure/depth` */
  readonly key: string;
  /** Heading the row stands under, in the knitter's language. */
  readonly part: string;
  readonly asks: string;
  readonly unit: AnswerUnit;
  /** What the pattern says, in that unit. */
  readonly stated: number | null;
  readonly isNeeded: boolean;
  /** How the stated number follows, for the reckoning when the sheet is back. */
  readonly basis?: Basis;
}

export interface ReturnPlan {
  readonly format: typeof RETURN_FORMAT;
  readonly pattern: string;
  readonly version: string;
  readonly language: string;
  readonly size: string;
  readonly sizes: readonly string[];
  readonly rows: readonly ReturnRow[];
}

/** Refers to the one size of the edition. */
export function planReturn(order: EditionOrder): ReturnPlan {
  const { id, version, sizes } = dataOf(order);
  const words = wordsOf(order);
  const general = words('test.sheet');
  const text = (key: string, asks: string, isNeeded = false): ReturnRow => ({
    key, part: general, asks, unit: 'text', stated: null, isNeeded,
  }); // prettier-ignore
  return {
    format: RETURN_FORMAT,
    pattern: id,
    version,
    language: order.language.tag,
    size: sizes[sizeOf(order)] ?? '',
    sizes,
    rows: [
      text('knitter', words('test.knitter'), true),
      ...gaugeRows(order),
      ...countRows(order),
      ...yarnRows(order),
      ...measureRows(order),
      { ...text('hours', words('test.hours')), unit: 'h' },
      text('unclear', words('test.unclear')),
      text('remark', words('test.remark')),
    ],
  };
}

const sizeOf = ({ size }: EditionOrder): number => size ?? 0;

// ---------------------------------------------------------------- gauge

/** Gauges the pieces are worked to must be counted once they are washed; the rest may be. */
function gaugeRows(order: EditionOrder): readonly ReturnRow[] {
  const { gauges, pieces } = dataOf(order);
  const words = wordsOf(order);
  return gauges.flatMap((gauge) => {
    const { id, stitches, rows, over, pattern } = gauge;
    const isWorked = pieces.some((piece) => piece.gauge === id);
    const name = asHeading(order, sayFabric(order.language, namesOf(order), pattern));
    const part = `${words('heading.gauge')} · ${name}`;
    const square = sayBase(order, over);
    const basis: Basis = { kind: 'gauge', gauge: id, stitches, rows };
    return (['before', 'after'] as const).flatMap((when) => {
      const washed = words(when === 'before' ? 'test.before' : 'test.washed');
      const row = (kind: 'stitches' | 'rows', asks: string): ReturnRow => ({
        key: `gauge/${id}/${when}/${kind}`,
        part,
        asks: `${asks}${order.language.settings.separators.list}${washed}`,
        unit: kind === 'rows' ? 'rows' : 'sts',
        stated: when === 'after' ? gauge[kind] : null,
        isNeeded: when === 'after' && isWorked,
        basis,
      });
      return [
        row('stitches', words('test.gaugeStitches', { square })),
        row('rows', words('test.gaugeRows', { square })),
      ];
    });
  });
}

/** `4 in`, `10 cm`: the width that was counted over, never converted. */
function sayBase({ language }: EditionOrder, over: BundleData['gauges'][number]['over']): string {
  const { amount, unit } = readBase(over);
  const say = unit === 'in' ? sayInches : sayCentimetres;
  return plainText(say(language, sizedOf(amount)));
}

// ---------------------------------------------------------------- counts

function countRows(order: EditionOrder): readonly ReturnRow[] {
  const words = wordsOf(order);
  return countPlaces(order).map(({ key, part, place, stitches, label }) => ({
    key: `count/${key}`,
    part,
    asks: words('test.count', { place }),
    unit: 'sts',
    stated: stitches,
    isNeeded: false,
    basis: { kind: 'count', place: label },
  }));
}

// ---------------------------------------------------------------- yarn

/** Each colour with the area it is worked over in every size, so that one sheet speaks for all sizes. */
function yarnRows(order: EditionOrder): readonly ReturnRow[] {
  const { yarns, sizes } = dataOf(order);
  const words = wordsOf(order);
  const areas = sizes.map((_, size) => fabricAreas(order.checked, size));
  return yarns.flatMap(({ name, ball, colours }) =>
    colours.map((colour): ReturnRow => {
      const own = areas.map((each) => areaOf(each, colour.id));
      const whole = areas.map((each) => areaOf(each, undefined));
      const grams = sizes.map((_, size) => sizedValue(colour.grams, size) ?? null);
      const isOwn = own.every((area) => area > 0);
      const basis: Basis = {
        kind: 'yarn',
        areas: (isOwn ? own : whole).map((area) => Math.round(area * 10) / 10),
        grams,
        ballGrams: ball.grams,
      };
      const yarn = colours.length > 1 || yarns.length > 1 ? `${name} · ${colour.name}` : name;
      return {
        key: `yarn/${colour.id}`,
        part: words('heading.yarn'),
        asks: words('test.yarnUsed', { yarn }),
        unit: 'g',
        stated: grams[sizeOf(order)] ?? null,
        isNeeded: true,
        basis,
      };
    }),
  );
}

const areaOf = (areas: ReturnType<typeof fabricAreas>, colour: string | undefined): number =>
  areas
    .filter((each) => colour === undefined || each.colour === colour)
    .reduce((sum, { squareInches }) => sum + squareInches, 0);

// ---------------------------------------------------------------- measurements

function measureRows(order: EditionOrder): readonly ReturnRow[] {
  const { pattern, pieces } = order.checked;
  const context = contextOf(pattern, pieces);
  const { first } = order.language.settings.units;
  const size = sizeOf(order);
  return dataOf(order).measurements.flatMap((measurement): readonly ReturnRow[] => {
    const { id, letter, name, from, size: length } = measurement;
    const unit = length[first] === undefined ? (first === 'in' ? 'cm' : 'in') : first;
    const stated = sizedValue(length[unit], size) ?? null;
    if (stated === null) return [];
    const said = asHeading(order, sayName(order.language, namesOf(order), 'measurement', name));
    const parts = lengthParts(context, from, size);
    return [
      {
        key: `measure/${id}`,
        part: wordsOf(order)('heading.finishedMeasurements'),
        asks: `${letter}\u2002${said}`,
        unit,
        stated,
        isNeeded: false,
        ...(parts && { basis: { kind: 'length', parts } }),
      },
    ];
  });
}
