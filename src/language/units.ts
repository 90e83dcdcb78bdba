/**
 * Measurements in words: lengths in centimetres and inches in the country's order, yarn lengths, weights,
 * needles, dates, gauges. Takes the true values of the bundle, rounds each unit from them once (inches
 * to the quarter, centimetres to the half) and never one unit from the other's rounded value.
 */
import { assert, present } from '../base/assert.ts';
import { CENTIMETRES_PER_INCH } from '../base/brand.ts';
import type { GaugeData } from '../pattern/bundle/schema.ts';
import { sizedOf, type Sized } from '../pattern/bundle/size-list.ts';
import { sayText, type Language, type Spoken } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { needleNumber } from './needle-sizes.ts';
import { agreement, choose, decimal, halves, quarters, sayNumber, type Print } from './numbers.ts';

/** A length with at least one unit; the other is worked out. */
export interface LengthOver {
  readonly inches?: Sized;
  readonly centimetres?: Sized;
}

const scaled = (sized: Sized, factor: number): Sized => ({
  values: sized.values.map((value) => (value === null ? null : value * factor)),
  spans: [],
});

/** Both units of a length, unrounded; what the bundle states is kept as it is. */
export function bothUnits(length: LengthOver): { inches: Sized; centimetres: Sized } {
  const { inches, centimetres } = length;
  assert(inches ?? centimetres, 'a length has at least one unit');
  return {
    inches: inches ?? scaled(present(centimetres, 'centimetres'), 1 / CENTIMETRES_PER_INCH),
    centimetres: centimetres ?? scaled(present(inches, 'inches'), CENTIMETRES_PER_INCH),
  };
}

/** `35.5 (37, 38)` and its unit, which stays on the line of the last number. */
function inUnit(language: Language, sized: Sized, unit: string, print: Print, step = 1): Spoken {
  // A unit that is a word agrees with the number as it is printed, not as it was measured.
  const printed = scaled(sized, 1 / step).values.map((value) => value && Math.round(value) * step);
  return [
    ...sayNumber(language, sized, print),
    ...spoken(language.settings.units.space),
    ...sayText(
      language,
      `unit.${unit}`,
      {},
      { count: agreement(language, { values: printed, spans: [] }) },
    ),
  ];
}

export const sayInches = (language: Language, sized: Sized): Spoken =>
  inUnit(language, sized, 'in', (value) => quarters(language, value), 0.25);
export const sayCentimetres = (language: Language, sized: Sized): Spoken =>
  inUnit(language, sized, 'cm', (value) => halves(language, value), 0.5);

/** `14 (14½, 15) in / 35.5 (37, 38) cm`, in the order of the country. */
export function sayLength(language: Language, length: LengthOver, size?: number): Spoken {
  const { inches, centimetres } = bothUnits(length);
  const both = [
    sayCentimetres(language, choose(centimetres, size)),
    sayInches(language, choose(inches, size)),
  ];
  if (language.settings.units.first === 'in') both.reverse();
  return joinParts(both, language.settings.separators.units);
}

/** `US 7 (4.5 mm)`, `4.5 mm (old UK 7)`, `8号 (4.5 mm)`, `4,5 mm`. */
export function sayNeedle(language: Language, mm: number): Spoken {
  const size: Spoken = [
    ...spoken(decimal(language, mm), 'count'),
    ...spoken(language.settings.units.space),
    ...sayText(language, 'unit.mm'),
  ];
  const { needles } = language.settings.units;
  const number = needleNumber(needles, mm);
  if (number === undefined) return size;
  return sayText(language, 'needle.size', { number: local(language, number), mm: size });
}

/** US 1.5 and 10.5 carry a decimal; other numbers, like 00, are kept as they are. */
const local = (language: Language, number: string): string =>
  number.includes('.') ? decimal(language, Number(number)) : number;

/** A yarn length: `220 yd / 200 m` or `200 m / 220 yd`. */
export function sayYarnLength(language: Language, metres: number, yards: number): Spoken {
  const whole: Print = (value) => decimal(language, value, 0);
  const both = [
    inUnit(language, sizedOf(metres), 'm', whole),
    inUnit(language, sizedOf(yards), 'yd', whole),
  ];
  if (language.settings.units.yarn === 'yards') both.reverse();
  return joinParts(both, language.settings.separators.units);
}

/** One yarn length over the sizes in both units, each whole. */
export function sayYarnLengths(
  language: Language,
  metres: Sized,
  yards: Sized,
  size?: number,
): Spoken {
  const whole: Print = (value) => decimal(language, value, 0);
  const both = [
    inUnit(language, choose(metres, size), 'm', whole),
    inUnit(language, choose(yards, size), 'yd', whole),
  ];
  if (language.settings.units.yarn === 'yards') both.reverse();
  return joinParts(both, language.settings.separators.units);
}

export const sayGrams = (language: Language, grams: Sized, size?: number): Spoken =>
  inUnit(language, choose(grams, size), 'g', (value) => decimal(language, value, 0));

/** An ISO date in words; months are data of the language, so that every machine says the same. */
export function sayDate(language: Language, iso: string): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  const [, year = '', month = '', day = ''] = present(match, `an ISO date, not ${iso}`);
  return sayText(language, 'date.pattern', {
    year,
    day: String(Number(day)),
    month: sayText(language, `date.month${Number(month)}`),
  })
    .map((part) => part.text)
    .join('');
}

/** The square a gauge is counted over, as the trade pairs it: 4 in with 10 cm. */
const OVER: Readonly<Record<GaugeData['over'], readonly [inches: number, centimetres: number]>> = {
  '4 in': [4, 10],
  '10 cm': [4, 10],
  '2 in': [2, 5],
  '5 cm': [2, 5],
  '1 in': [1, 2.5],
};

/** The trade's `4 in / 10 cm` in the country's order. */
export function sayGaugeSquare(language: Language, over: GaugeData['over']): Spoken {
  const [inches, centimetres] = OVER[over];
  return sayLength(language, { inches: sizedOf(inches), centimetres: sizedOf(centimetres) });
}
