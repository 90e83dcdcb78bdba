/**
 * The designer's paper: plain helpers with which the hand calculations of the starters are written.
 * Takes counts and gauges, gives numbers written as a pattern writes them. Deliberately shares no
 * code with the checker, so that the two can disagree; only the schema is used, to read the file.
 */
import { readFileSync } from 'node:fs';
import { bundleSchema, type BundleData } from '../../src/pattern/bundle/schema.ts';

const STARTERS = new URL('../../templates/starters/', import.meta.url);

/** The bundle of a starter, as written: size lists are still text. */
export function readStarter(name: string): BundleData {
  const text = readFileSync(new URL(`${name}/pattern.json`, STARTERS), 'utf8');
  return bundleSchema.parse(JSON.parse(text));
}

/** The lines of one section, as written. */
export function linesOf(bundle: BundleData, piece: string, section: string): string[] {
  const found = bundle.pieces
    .find(({ id }) => id === piece)
    ?.sections.find(({ id }) => id === section);
  if (!found) throw new Error(`no section ${piece}/${section}`);
  return found.lines.map((line) => (typeof line === 'string' ? line : line.text));
}

/** Every anchor of the bundle: `piece/line`. */
export function anchorsOf(bundle: BundleData): string[] {
  return bundle.pieces.flatMap((piece) =>
    piece.sections.flatMap((section) =>
      section.lines.flatMap((line) =>
        typeof line === 'string' || line.id === undefined ? [] : [`${piece.id}/${line.id}`],
      ),
    ),
  );
}

/** A measurement as stated: the text of its inches and centimetres. */
export function sizeOf(bundle: BundleData, id: string): { in: string; cm: string } {
  const found = bundle.measurements.find((each) => each.id === id);
  if (!found) throw new Error(`no measurement ${id}`);
  return { in: String(found.size.in), cm: String(found.size.cm) };
}

/** A named number as stated: the rows between two lines, where two pieces must agree. */
export const numberOf = (bundle: BundleData, id: string): string =>
  String(bundle.numbers?.find((each) => each.id === id)?.value);

const FRACTION = ['', '¼', '½', '¾'];

/** 8.25 → `8¼`: fractions of an inch as knitters write them. */
export function fraction(value: number): string {
  const whole = Math.floor(value);
  const quarter = FRACTION[Math.round((value - whole) * 4)] ?? '';
  return whole === 0 && quarter !== '' ? quarter : `${whole}${quarter}`;
}

/**
 * `80 (88, 96)`, in groups of four and five where there are more than six sizes: `80 (88, 96, 104,
 * 112) [120, 128, 136, 144]`; one number where all sizes have the same.
 */
export function written(
  values: readonly number[],
  one: (value: number) => string = String,
): string {
  const [first, ...rest] = values.map(one);
  if (rest.every((value) => value === first)) return first ?? '';
  if (rest.length <= 6) return `${first} (${rest.join(', ')})`;
  return `${first} (${rest.slice(0, 4).join(', ')}) [${rest.slice(4).join(', ')}]`;
}

/** Inches to the nearest quarter, as written. A tie goes up, as a tape is read. */
export const inches = (values: readonly number[]): string =>
  written(
    values.map((value) => Math.round(value * 4) / 4),
    fraction,
  );

/** The same lengths in centimetres to the nearest half, from the true value: 1 in = 2.54 cm. */
export const centimetres = (values: readonly number[]): string =>
  written(values.map((value) => Math.round(value * 2.54 * 2) / 2));

/** Both, in the form of `sizeOf`. */
export const both = (values: readonly number[]): { in: string; cm: string } => ({
  in: asTyped(inches(values)),
  cm: centimetres(values),
});

/** A number for all sizes stands as a number in the bundle: 2½ is typed 2.5. */
const asTyped = (text: string): string =>
  text.includes('(')
    ? text
    : text.replace('¼', '.25').replace('½', '.5').replace('¾', '.75').replace(/^\./, '0.');

/** The sizes' numbers one by one. */
export const each = <T>(sizes: readonly T[], work: (size: T, index: number) => number): number[] =>
  sizes.map(work);

/** The number of one size; a gap in a list shows as NaN and fails whatever it meets. */
export const at = (list: readonly number[], size: number): number => list[size] ?? Number.NaN;
