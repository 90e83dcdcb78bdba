/**
 * Numbers as reports write them, the same in every place: rounded to a few digits, a dash where nothing
 * applies. Takes numbers, gives text; knows no unit and no language.
 */

/** 87, 86.5, 12¼; a dash where nothing applies. */
export function sayNumber(value: number | null | undefined, digits = 2): string {
  if (value === null || value === undefined) return '–';
  return String(Math.round(value * 10 ** digits) / 10 ** digits);
}

/** +0.2, −0.1, 0: a difference. */
export function sayOff(value: number | null | undefined): string {
  if (value === null || value === undefined) return '–';
  const rounded = Math.round(value * 100) / 100;
  if (rounded === 0) return '0';
  return rounded > 0 ? `+${rounded}` : `−${-rounded}`;
}
