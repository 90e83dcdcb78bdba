/**
 * Turns the short rows of the catalogue's tables into entries. A row says only what is special to a
 * stitch; the family says the rest. Knows no single stitch; the tables beside it do.
 */
import type { Stitch, StitchFamily } from '../stitch.ts';

type Special = Partial<Omit<Stitch, 'name' | 'takes' | 'makes' | 'symbol' | 'family'>>;

/** Name, taken from the left needle, made on the right, chart symbol, and what is special. */
type StitchRow = readonly [
  name: string,
  takes: number,
  makes: number,
  symbol: string,
  special?: Special,
];

const PLAIN = { lean: 'none', face: 'knit', counted: false } as const;

export const entries = (
  family: StitchFamily,
  common: Special,
  rows: readonly StitchRow[],
): readonly Stitch[] =>
  rows.map(([name, takes, makes, symbol, special]) => ({
    ...PLAIN,
    ...common,
    ...special,
    name,
    family,
    takes,
    makes,
    symbol,
  }));
