/** Numbers, codes and changes as an editor's packet says them, in English with the figures of a language. */
import type { Entry, Facts, Finding } from '../../findings/finding.ts';
import { REGISTER, wordingOf } from '../../findings/register.ts';
import { decimal, type Language } from '../../language/index.ts';
import type { PacketChange } from './changes.ts';

export type Say = (value: number | null | undefined) => string;

/** `8.25`, `8,25`; a dash where nothing applies. */
export const sayer =
  (language: Language, digits = 2): Say =>
  (value) =>
    value === null || value === undefined ? '–' : decimal(language, value, digits);

/** `+0.25`, `−0.1`, `0`. */
export const sayOff =
  (language: Language): Say =>
  (value) => {
    if (value === null || value === undefined) return '–';
    const rounded = Math.round(value * 100) / 100;
    return rounded > 0 ? `+${decimal(language, rounded)}` : decimal(language, rounded);
  };

/** What the check behind a code is about. */
export const aboutCode = (code: string): string =>
  (REGISTER as Readonly<Record<string, Entry<Facts>>>)[code]?.about ?? code;

export const placeOfFinding = ({ where }: Finding): string =>
  where.label === undefined ? where.pointer : `${where.label} (${where.pointer})`;

export const headlineOf = (finding: Finding): string => wordingOf(finding).headline;

/** "80 (88, 96)": values over the sizes. */
export function sayValues(values: readonly (number | null)[], say: Say): string {
  const [first = '–', ...rest] = values.map((value) => say(value));
  return rest.every((each) => each === first) ? first : `${first} (${rest.join(', ')})`;
}

export interface SaidChange {
  readonly kind: string;
  readonly place: string;
  readonly was: string;
  readonly is: string;
  readonly sizes: string;
}

const HOLDINGS: Readonly<Record<string, string>> = {
  held: 'held by a check',
  free: 'free by nature',
  unheld: 'held by nothing',
};

export function sayChange(change: PacketChange, say: Say): SaidChange {
  const where = [change.part, change.place].filter((each) => each !== '').join(', ');
  const base = { kind: change.kind, place: where, was: '', is: '', sizes: '' };
  switch (change.kind) {
    case 'number': {
      const place = change.what === '' ? where : `${where}: ${change.what}`;
      const [was, is] = [sayValues(change.was, say), sayValues(change.is, say)];
      return { ...base, place, was, is, sizes: change.sizes.join(', ') };
    }
    case 'reworded':
      return { ...base, was: change.was, is: change.is };
    case 'holding': {
      const place = change.what === '' ? where : `${where}: ${change.what}`;
      const said = (holding: string) => HOLDINGS[holding] ?? holding;
      return { ...base, place, was: said(change.was), is: said(change.is) };
    }
    case 'removed':
    case 'finding gone':
    case 'size removed':
      return { ...base, was: change.text };
    default:
      return { ...base, is: change.text };
  }
}
