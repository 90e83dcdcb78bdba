/**
 * Findings of the family `grade`: numbers that carry a rule, what the rows and the drawing make of
 * them, body tables, swatches and yarn. Numbers by size stand in the order of the sizes; `affected`
 * are indexes into it.
 */
import { entry, type Wording } from '../finding.ts';
import { lengthSay } from './measure.ts';
import { listed, plural, sizesSay } from './wording.ts';

type Values = readonly (number | null)[];
type CountUnit = 'sts' | 'rows' | 'times' | 'in' | 'cm';

type Numbered = Readonly<{
  name: string;
  unit: CountUnit;
  sizes: readonly string[];
  affected: readonly number[];
}>;

const say = (value: number | null | undefined, unit: CountUnit): string =>
  value === null || value === undefined
    ? '–'
    : unit === 'in' || unit === 'cm'
      ? lengthSay(value, unit)
      : String(Math.round(value * 1000) / 1000);

function saidAt({ affected, unit }: Numbered, values: Values): string {
  const different = [...new Set(affected.map((size) => say(values[size], unit)))];
  return listed(different.length > 4 ? [...different.slice(0, 3), '…'] : different);
}

const forSizes = ({ sizes, affected }: Numbered): string =>
  sizes.length > 1 ? ` for ${sizesSay(sizes, affected).who}` : '';

const tableOf = (
  { sizes, unit }: Numbered,
  rows: Readonly<Record<string, Values>>,
): Pick<Wording, 'table'> =>
  sizes.length < 2
    ? {}
    : {
        table: {
          sizes,
          rows: Object.entries(rows).map(([name, values]) => ({
            name,
            cells: values.map((value) => (value === null ? null : say(value, unit))),
          })),
        },
      };

const UNIT_SAY: Readonly<Record<CountUnit, string>> = {
  sts: ' sts',
  rows: ' rows',
  times: ' times',
  in: ' in',
  cm: ' cm',
};

export const gradeFamily = {
  'grade/rule': entry<{ name: string; found: string; expected: string }>({
    severity: 'error',
    about: 'A rule cannot be read.',
    word: ({ name, found, expected }) => ({
      headline: `the rule of ${name} cannot be read: found ${found}, expected ${expected}`,
      action: 'write it like: body bust + 4 in at body + 2 sts, nearest odd',
    }),
  }),
  'grade/name': entry<{ name: string; what: string; wanted: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A rule names something that the bundle does not have.',
    word: ({ name, what, wanted, nearest }) => ({
      headline: `the rule of ${name} names “${wanted}”, and there is no such ${what}`,
      ...(nearest.length > 0 && {
        action: `did you mean ${nearest.map((each) => `“${each}”`).join(' or ')}?`,
      }),
    }),
  }),
  'grade/units': entry<{ name: string; says: string; remedy: string }>({
    severity: 'error',
    about: 'A rule adds or compares things of different kinds, such as stitches and inches.',
    word: ({ name, says, remedy }) => ({
      headline: `the rule of ${name} does not work out: ${says}`,
      action: remedy,
    }),
  }),
  'grade/circle': entry<{ name: string; names: readonly string[] }>({
    severity: 'error',
    about: 'Numbers follow from each other in a circle.',
    word: ({ names }) => ({
      headline: `these numbers follow from each other in a circle: ${names.join(' → ')}`,
      action: 'state one of them, without a rule',
    }),
  }),
  'grade/value': entry<Numbered & { rule: string; stated: Values; derived: Values }>({
    severity: 'error',
    about: 'A stated number is not what its own rule gives.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: the rule gives ${saidAt(facts, facts.derived)}${UNIT_SAY[facts.unit]}; stated is ${saidAt(facts, facts.stated)}`,
      ...tableOf(facts, { rule: facts.derived, stated: facts.stated }),
      notes: [`the rule: ${facts.rule}`],
      action: 'correct the number, or the rule; castoff grade shows how each follows',
    }),
  }),
  'grade/place': entry<Numbered & { place: string; wanted: Values; worked: Values }>({
    severity: 'error',
    about: 'The rows do not have the number that belongs at their place.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: ${facts.place} has ${saidAt(facts, facts.worked)}${UNIT_SAY[facts.unit]}, not ${saidAt(facts, facts.wanted)}`,
      ...tableOf(facts, { number: facts.wanted, worked: facts.worked }),
      action: 'correct the rows, or the number',
    }),
  }),
  'grade/exactly': entry<Numbered & { values: Values; multiple: number; plus: number }>({
    severity: 'error',
    about: 'A number that must be a multiple does not come out as one.',
    word: (facts) => {
      const { multiple, plus } = facts;
      const grid = plus === 0 ? `a multiple of ${multiple}` : `a multiple of ${multiple} + ${plus}`;
      return {
        headline: `${facts.name}${forSizes(facts)} is ${saidAt(facts, facts.values)}, not ${grid}`,
        ...tableOf(facts, { number: facts.values }),
        action: 'leave the counts it builds on open; castoff grade looks for ones that fit',
      };
    },
  }),
  'grade/within': entry<Numbered & { bound: string; inches: Values }>({
    severity: 'error',
    about: 'A count lies further from what was wanted than its rule allows.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)} is ${saidAt({ ...facts, unit: 'in' }, facts.inches)} in from what was wanted; the rule allows ${facts.bound}`,
      ...tableOf({ ...facts, unit: 'in' }, { 'off by, in': facts.inches }),
      action: 'change the gauge, the stitch pattern or the bound',
    }),
  }),
  'grade/no-number': entry<{ name: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A row names a number that the bundle does not have, or that cannot be reckoned.',
    word: ({ name, nearest }) => ({
      headline: `there is no number “${name}” to put into the row`,
      action:
        nearest.length > 0
          ? `did you mean ${nearest.map((each) => `{${each}}`).join(' or ')}?`
          : 'give it under numbers, with a rule or a value',
    }),
  }),
  'grade/gauge': entry<{
    gauge: string;
    readings: number;
    counted: readonly number[];
    stated: readonly number[];
    over: string;
  }>({
    severity: 'error',
    about: 'A gauge is not the mean of the readings on its swatch.',
    word: ({ gauge, readings, counted, stated, over }) => ({
      headline: `gauge ${gauge}: ${plural(readings, 'reading')} of the swatch ${readings === 1 ? 'gives' : 'give'} ${say(counted[0], 'times')} sts and ${say(counted[1], 'times')} rows over ${over}; stated are ${say(stated[0], 'times')} and ${say(stated[1], 'times')}`,
      action: 'state the mean, to the half stitch',
    }),
  }),
  'grade/spread': entry<{ gauge: string; stitches: number; rows: number; over: string }>({
    severity: 'warning',
    about: 'The readings of one swatch lie far apart.',
    word: ({ gauge, stitches, rows, over }) => ({
      headline: `gauge ${gauge}: readings lie up to ${say(stitches, 'times')} sts and ${say(rows, 'times')} rows from their mean over ${over}`,
      action: 'count again in the middle of a larger swatch, or accept it with the reason',
    }),
  }),
  'grade/outline': entry<Numbered & { drawn: Values; stated: Values }>({
    severity: 'warning',
    about: 'A stated measurement is not what the outline of the worked rows measures.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: the rows make ${saidAt(facts, facts.drawn)}${UNIT_SAY[facts.unit]} at this place of the drawing; stated is ${saidAt(facts, facts.stated)}`,
      ...tableOf(facts, { drawn: facts.drawn, stated: facts.stated }),
      action:
        'correct the measurement, the rows it is taken from, or its place on the drawing; or accept it',
    }),
  }),
  'grade/table': entry<Numbered & { group: string; values: Values; from: Values; to: Values }>({
    severity: 'warning',
    about: 'A body measurement lies outside the published table it is said to come from.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: ${saidAt(facts, facts.values)} ${facts.unit} is not what the published table for ${facts.group} has`,
      ...tableOf(facts, { stated: facts.values, from: facts.from, to: facts.to }),
      action: 'correct it, leave out "table" where the sizes are your own, or accept it',
    }),
  }),
  'grade/ease': entry<Numbered & { part: string; ease: Values }>({
    severity: 'warning',
    about: 'The room a garment leaves over the body turns or jumps from one size to the next.',
    word: (facts) => ({
      headline: `${facts.name}: the room over the body’s ${facts.part} goes from ${say(facts.ease[(facts.affected[0] ?? 1) - 1], facts.unit)} to ${saidAt(facts, facts.ease)} ${facts.unit} at ${sizesSay(facts.sizes, facts.affected).who}`,
      ...tableOf(facts, { 'over the body': facts.ease }),
      action: 'let the garment grow with the body, or accept it with the reason',
    }),
  }),
  'grade/yarn': entry<
    Readonly<{
      colour: string;
      sizes: readonly string[];
      affected: readonly number[];
      needed: Values;
      stated: Values;
      allowance: number;
    }>
  >({
    severity: 'warning',
    about: 'The yarn stated for a size is less than its pieces take, or far more.',
    word: ({ colour, sizes, affected, needed, stated, allowance }) => {
      const facts = { name: '', unit: 'times', sizes, affected } as const;
      return {
        headline: `yarn ${colour}${forSizes(facts)}: the pieces take ${saidAt(facts, needed)} g by the weight of the swatch; stated are ${saidAt(facts, stated)} g`,
        ...tableOf(facts, { 'needed, g': needed, 'stated, g': stated }),
        notes: [`needed: area of the worked rows × weight of the swatch, and ${allowance} % more`],
        action: 'correct the grams, weigh the swatch again, or accept it with the reason',
      };
    },
  }),
} as const;
