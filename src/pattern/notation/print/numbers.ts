/**
 * Numbers as canonical notation writes them: size lists, lengths with quarter glyphs, times, ordinals
 * and rows. What is printed here is read back to the same values.
 */
import type { Length, RowRange, RowRole, Side } from '../ast.ts';
import { printSizeList, type Sized } from '../../bundle/size-list.ts';

const GLYPHS: readonly (readonly [number, string])[] = [
  [1 / 4, '¼'], [1 / 2, '½'], [3 / 4, '¾'], [1 / 3, '⅓'], [2 / 3, '⅔'],
  [1 / 8, '⅛'], [3 / 8, '⅜'], [5 / 8, '⅝'], [7 / 8, '⅞'],
]; // prettier-ignore

/** True for one number that holds for all sizes and is this one. */
export const isJust = (sized: Sized, value: number): boolean =>
  sized.values.length === 1 && sized.values[0] === value;

export const printCount = (sized: Sized): string => printSizeList(sized);

function printFraction(value: number): string {
  const whole = Math.floor(value);
  const glyph = GLYPHS.find(([part]) => part === value - whole)?.[1];
  if (glyph === undefined) return String(value);
  return whole === 0 ? glyph : `${whole}${glyph}`;
}

/** `14½ in / 37 cm`. */
export function printLength(length: Length): string {
  const inches = length.inches && `${printSizeList(length.inches, printFraction)} in`;
  const centimetres = length.centimetres && `${printSizeList(length.centimetres)} cm`;
  return [inches, centimetres].filter((part) => part !== undefined).join(' / ');
}

/** `1 st`, `8 (9, 10) sts`. */
export const printStitches = (sized: Sized): string =>
  `${printCount(sized)} ${isJust(sized, 1) ? 'st' : 'sts'}`;

/** `once`, `twice`, `5 times`. */
export function printTimes(sized: Sized): string {
  if (isJust(sized, 1)) return 'once';
  if (isJust(sized, 2)) return 'twice';
  return `${printCount(sized)} times`;
}

/** `once more`, `twice more`, `5 more times`. */
export function printMore(sized: Sized): string {
  const times = printTimes(sized);
  return times.endsWith(' times') ? `${printCount(sized)} more times` : `${times} more`;
}

export const printUnit = (unit: 'row' | 'round', many: boolean): string =>
  `${unit === 'row' ? 'row' : 'rnd'}${many ? 's' : ''}`;

/** `12 rows`, `1 rnd`. */
export const printRows = (sized: Sized, unit: 'row' | 'round'): string =>
  `${printCount(sized)} ${printUnit(unit, !isJust(sized, 1))}`;

const TEENS = new Set([11, 12, 13]);

/** `4th`, `22nd`. */
export function printOrdinal(number: number): string {
  const last = TEENS.has(number % 100) ? 0 : number % 10;
  return `${number}${['th', 'st', 'nd', 'rd'][last] ?? 'th'}`;
}

const sameValues = (a: Sized, b: Sized): boolean =>
  a.values.length === b.values.length &&
  a.values.every((value, index) => value === b.values[index]);

const printRange = ({ from, to }: RowRange): string =>
  sameValues(from, to) ? printCount(from) : `${printCount(from)}–${printCount(to)}`;

/** `Row 1`, `Rnds 1–4`, `Rows 1, 3 and 5`. */
export function printRanges(ranges: readonly RowRange[], unit: 'row' | 'round'): string {
  const [first] = ranges;
  const many = ranges.length > 1 || (first !== undefined && !sameValues(first.from, first.to));
  const printed = ranges.map(printRange);
  const last = printed.pop() ?? '';
  const list = printed.length === 0 ? last : `${printed.join(', ')} and ${last}`;
  return `${unit === 'row' ? 'Row' : 'Rnd'}${many ? 's' : ''} ${list}`;
}

export const printSide = (side: Side | undefined): string =>
  side === undefined ? '' : ` (${side})`;

const ROLES: Readonly<Record<RowRole, string>> = {
  'set-up': 'Set-up', increase: 'Inc', decrease: 'Dec', short: 'Short', joining: 'Joining',
  eyelet: 'Eyelet', dividing: 'Dividing', buttonhole: 'Buttonhole', ridge: 'Ridge',
}; // prettier-ignore

export const printRole = (role: RowRole): string => ROLES[role];
