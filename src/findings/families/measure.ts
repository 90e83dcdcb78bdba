/**
 * Findings of the family `measure`: sizes, ease, grade, and what counts give through the gauge. Numbers
 * by size stand in the order of the sizes; `affected` are indexes into it.
 */
import { entry, type Wording } from '../finding.ts';
import { listed, sizesSay } from './wording.ts';

type Values = readonly (number | null)[];

type Measured = Readonly<{
  name: string;
  unit: 'in' | 'cm';
  sizes: readonly string[];
  affected: readonly number[];
}>;

const FRACTIONS: Readonly<Record<string, string>> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** 8.25 as 8¼, 20.32 as 20.32: inches in fractions where they are quarters. */
export function lengthSay(value: number, unit: 'in' | 'cm'): string {
  const rounded = Math.round(value * 100) / 100;
  const whole = Math.floor(rounded);
  const glyph = FRACTIONS[String(rounded - whole)];
  if (unit === 'cm' || glyph === undefined || rounded < 0) return String(rounded);
  return whole === 0 ? glyph : `${whole}${glyph}`;
}

const cells = (values: Values, unit: 'in' | 'cm'): readonly (string | null)[] =>
  values.map((value) => (value === null ? null : lengthSay(value, unit)));

function saidAt({ affected, unit }: Measured, values: Values): string {
  const said = affected.map((size) => {
    const value = values[size];
    return value === null || value === undefined ? '–' : lengthSay(value, unit);
  });
  const different = [...new Set(said)];
  if (different.length === 1) return different[0] ?? '';
  return listed(said.length > 4 ? [...said.slice(0, 3), '…'] : said);
}

/** More numbers than this are not written out as a list to be copied. */
const LONGEST_LIST = 12;

/** The stated list with the wrong numbers corrected, ready to be copied; only those where it is long. */
function correctedList(
  facts: Measured,
  unit: 'in' | 'cm',
  stated: Values,
  rounded: Values,
): string {
  const values = stated.map((value, size) =>
    facts.affected.includes(size) ? (rounded[size] ?? value) : value,
  );
  if (values.length > LONGEST_LIST) return `${saidAt({ ...facts, unit }, rounded)} ${unit}`;
  const [first = '', ...rest] = cells(values, unit).map((cell) => cell ?? '–');
  const different = new Set([first, ...rest]);
  if (different.size === 1) return `${first} ${unit}`;
  return `${first} (${rest.join(', ')}) ${unit}`;
}

const tableOf = (
  facts: Measured,
  rows: Readonly<Record<string, Values>>,
): Pick<Wording, 'table'> => ({
  ...(facts.sizes.length > 1 && {
    table: {
      sizes: facts.sizes,
      rows: Object.entries(rows).map(([name, values]) => ({
        name,
        cells: cells(values, facts.unit),
      })),
    },
  }),
});

/** "for size L", "for sizes L and XL"; nothing where there is one size. */
function forSizes({ sizes, affected }: Measured): string {
  if (sizes.length <= 1) return '';
  return ` for ${sizesSay(sizes, affected).who}`;
}

export const measureFamily = {
  'measure/does-not-follow': entry<
    Measured & {
      stated: Values;
      derived: Values;
      rounded: Values;
      from: string;
      /** The same in the other unit, where it is wrong as well. */
      also?: { stated: Values; derived: Values; rounded: Values };
      /** Measurements that are wrong by the same length. */
      others?: readonly string[];
    }
  >({
    severity: 'error',
    about: 'A stated measurement is not what counts and gauge give.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: ${facts.from} give ${saidAt(facts, facts.derived)} ${facts.unit}; the pattern states ${saidAt(facts, facts.stated)}`,
      ...tableOf(facts, { counted: facts.derived, stated: facts.stated }),
      ...(facts.others && { notes: [`${listed(facts.others)} differ by the same length`] }),
      action: `state ${[
        correctedList(facts, facts.unit, facts.stated, facts.rounded),
        ...(facts.also ? [correctedList(facts, 'cm', facts.also.stated, facts.also.rounded)] : []),
      ].join(' and ')}, or change the counts`,
    }),
  }),
  'measure/units-differ': entry<Measured & { inches: Values; centimetres: Values }>({
    severity: 'error',
    about: 'Inches and centimetres of one length are not the same length.',
    word: (facts) => ({
      headline: `${facts.name}${forSizes(facts)}: ${saidAt({ ...facts, unit: 'in' }, facts.inches)} in is ${saidAt(
        { ...facts, unit: 'cm' },
        facts.inches.map((value) => (value === null ? null : value * 2.54)),
      )} cm, not ${saidAt(facts, facts.centimetres)}`,
      ...(facts.sizes.length > 1 && {
        table: {
          sizes: facts.sizes,
          rows: [
            { name: 'in', cells: cells(facts.inches, 'in') },
            { name: 'cm', cells: cells(facts.centimetres, 'cm') },
          ],
        },
      }),
      action: 'correct the one that is wrong; round both from the true length',
    }),
  }),
  'measure/ease': entry<
    Measured & { body: Values; finished: Values; ease: Values; stated: Values }
  >({
    severity: 'error',
    about: 'The stated ease is not the finished measurement less the body measurement.',
    word: (facts) => ({
      headline: `ease of ${facts.name}${forSizes(facts)}: the garment is ${saidAt(facts, facts.ease)} ${facts.unit} larger than the body; the pattern states ${saidAt(facts, facts.stated)}`,
      ...tableOf(facts, {
        finished: facts.finished,
        body: facts.body,
        ease: facts.ease,
        stated: facts.stated,
      }),
    }),
  }),
  'measure/falls': entry<Measured & { values: Values }>({
    severity: 'warning',
    about: 'A measurement becomes smaller as the size becomes larger.',
    word: (facts) => ({
      headline: `${facts.name} falls to ${saidAt(facts, facts.values)} ${facts.unit} at ${sizesSay(facts.sizes, facts.affected).who}`,
      ...tableOf(facts, { stated: facts.values }),
      action: 'correct it, or accept it with the reason',
    }),
  }),
  'measure/jumps': entry<Measured & { values: Values; step: number; usual: number }>({
    severity: 'warning',
    about: 'A measurement grows more than twice as much between two sizes as beside them.',
    word: (facts) => ({
      headline: `${facts.name} grows by ${lengthSay(facts.step, facts.unit)} ${facts.unit} to ${sizesSay(facts.sizes, facts.affected).who}, and by ${lengthSay(facts.usual, facts.unit)} beside it`,
      ...tableOf(facts, { stated: facts.values }),
      action: 'correct it, or accept it with the reason',
    }),
  }),
  'measure/fibres': entry<{ yarn: string; sum: number }>({
    severity: 'error',
    about: 'The fibres of a yarn do not add up to a hundred per cent.',
    word: ({ yarn, sum }) => ({
      headline: `the fibres of ${yarn} add up to ${sum} %`,
      action: 'correct the shares as they stand on the ball band',
    }),
  }),
  'measure/yardage': entry<{ yarn: string; metres: number; yards: number; wanted: number }>({
    severity: 'error',
    about: 'Metres and yards of a ball are not the same length.',
    word: ({ yarn, metres, yards, wanted }) => ({
      headline: `a ball of ${yarn} has ${metres} m, which is ${wanted} yd; the bundle states ${yards}`,
      action: `state ${wanted} yd, or correct the metres`,
    }),
  }),
  'measure/balls': entry<
    Readonly<{
      colour: string;
      sizes: readonly string[];
      affected: readonly number[];
      grams: Values;
      balls: Values;
      needed: Values;
    }>
  >({
    severity: 'error',
    about: 'The balls stated are not those that the grams need.',
    word: ({ colour, sizes, affected, grams, balls, needed }) => ({
      headline: `${colour}${sizes.length > 1 ? ` for ${sizesSay(sizes, affected).who}` : ''}: the grams need another number of balls`,
      ...(sizes.length > 1 && {
        table: {
          sizes,
          rows: [
            { name: 'grams', cells: grams },
            { name: 'balls needed', cells: needed },
            { name: 'balls stated', cells: balls },
          ],
        },
      }),
      action: 'round the grams up to whole balls',
    }),
  }),
  'measure/size-list': entry<{ given: number; sizes: readonly string[] }>({
    severity: 'error',
    about: 'A list of numbers has another length than the list of sizes.',
    word: ({ given, sizes }) => ({
      headline: `the list has ${given} numbers for ${sizes.length} sizes`,
      notes: [`the sizes are ${sizes.join(', ')}`],
      action: `give one number for all sizes, or ${sizes.length}, with – where none applies`,
    }),
  }),
  'measure/unreadable': entry<{ found: string }>({
    severity: 'error',
    about: 'A text stands where a number or a list of numbers is needed.',
    word: ({ found }) => ({
      headline: `“${found}” is not a number or a list of numbers`,
      action: 'write it like 80, or like 80 (88, 96, 104)',
    }),
  }),
} as const;
