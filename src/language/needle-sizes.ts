/**
 * Needle sizes by system. Millimetres are authoritative and always printed; a number of another system
 * is added only where the published tables have one for exactly this diameter (US, old UK), or as the
 * nearest Japanese number, whose steps are 0.3 mm. Sources stand beside the tables.
 */

/** Published conversion tables. 12, 15, 19 and 20 mm: the sources conflict. */
const US: Readonly<Record<string, string>> = {
  '1.25': '0000', '1.5': '000', '1.75': '00', '2': '0', '2.25': '1', '2.5': '1.5', '2.75': '2',
  '3': '2.5', '3.25': '3', '3.5': '4', '3.75': '5', '4': '6', '4.5': '7', '5': '8', '5.5': '9',
  '6': '10', '6.5': '10.5', '8': '11', '9': '13', '10': '15', '12': '17', '12.75': '17',
  '15': '19', '19': '35', '20': '36', '25': '50',
}; // prettier-ignore

/** Old UK and Canadian numbers, which run the other way; published conversion tables. */
const OLD_UK: Readonly<Record<string, string>> = {
  '1.75': '15', '2': '14', '2.25': '13', '2.75': '12', '3': '11', '3.25': '10', '3.75': '9',
  '4': '8', '4.5': '7', '5': '6', '5.5': '5', '6': '4', '6.5': '3', '7': '2', '7.5': '1',
  '8': '0', '9': '00', '10': '000',
}; // prettier-ignore

export type NeedleSystem = 'metric' | 'US' | 'UK' | 'JP';

/** Japanese number n has 2.1 + 0.3 n millimetres, n from 0 to 15. */
const japaneseMillimetres = (number: number): number => (21 + 3 * number) / 10;
const LARGEST_JAPANESE = 15;
/** The next number is 0.3 mm away; further off than this, no number is near. */
const FARTHEST_MILLIMETRES = 0.2;

function japanese(mm: number): string | undefined {
  const number = Math.min(LARGEST_JAPANESE, Math.max(0, Math.round((mm - 2.1) / 0.3)));
  return Math.abs(japaneseMillimetres(number) - mm) <= FARTHEST_MILLIMETRES + 1e-9
    ? String(number)
    : undefined;
}

/** The number of a needle in a system, or undefined where it has none. */
export function needleNumber(system: NeedleSystem, mm: number): string | undefined {
  if (system === 'US') return US[String(mm)];
  if (system === 'UK') return OLD_UK[String(mm)];
  return system === 'JP' ? japanese(mm) : undefined;
}
