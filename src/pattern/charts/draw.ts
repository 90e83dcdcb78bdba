/**
 * Written rows as a chart: one character a stitch, the top row first, as seen from the right side.
 * Where the count changes from row to row, cells without a stitch fill the row up on its left. Gives
 * rows and key as a bundle writes them.
 */
import type { RowDefinition } from '../needle/state.ts';
import { bareEnv, type Books, stitchesOfRow, tryRows } from '../needle/trial.ts';
import { CATALOGUE, type Stitch } from '../stitches/index.ts';
import { widthOf } from './read.ts';
import { workedOnWrongSide } from './rows.ts';

export interface DrawnChart {
  readonly rows: readonly string[];
  readonly key: Readonly<Record<string, { readonly stitch: string }>>;
}

/** Characters by preference; stitches beyond them take the letters that are left. */
const USUAL: Readonly<Record<string, string>> = {
  k: '.', p: '-', yo: 'o', k2tog: '/', ssk: '\\', s2kp: '^', sk2p: 'v', 'k tbl': '|', m1: '+',
}; // prettier-ignore
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnqrstuwxyz0123456789';
const NO_STITCH = ' ';

/**
 * Draws rows worked on `count` stitches; `firstSide` is the side of row 1 in flat work. Undefined where
 * a row cannot be worked on that count.
 */
export function drawRows(
  rows: readonly RowDefinition[],
  count: number,
  form: 'flat' | 'round',
  books: Books,
  firstSide: 'RS' | 'WS' = 'RS',
): DrawnChart | undefined {
  const env = { ...bareEnv(books, form), firstSide };
  const trials = tryRows(env, rows, count);
  if (trials.length < rows.length || trials.some(({ problem }) => problem)) return undefined;
  const characters = new Map<string, string>();
  const drawn = rows.map((row, at) => {
    const stitches = stitchesOfRow(env, row, trials[at]?.before ?? 0) ?? [];
    const rightSide = form === 'round' || (firstSide === 'RS') === (at % 2 === 0);
    const seen = rightSide ? [...stitches].reverse() : stitches.map(workedOnWrongSide);
    return seen.map((name) => cellText(name, characters)).join('');
  });
  const width = Math.max(0, ...drawn.map((row) => row.length));
  const full = drawn.map((row) => row.padStart(width, NO_STITCH)).reverse();
  const key = Object.fromEntries([...characters].map(([stitch, sign]) => [sign, { stitch }]));
  const empty = full.some((row) => row.includes(NO_STITCH));
  return { rows: full, key: { ...key, ...(empty && { [NO_STITCH]: { stitch: 'none' } }) } };
}

function cellText(name: string, characters: Map<string, string>): string {
  const known = characters.get(name) ?? freeCharacter(name, characters);
  characters.set(name, known);
  const stitch: Stitch | undefined = CATALOGUE.lookup(name);
  return known.repeat(stitch ? widthOf(stitch) : 1);
}

function freeCharacter(name: string, characters: ReadonlyMap<string, string>): string {
  const taken = new Set(characters.values());
  const usual = USUAL[name];
  if (usual !== undefined && !taken.has(usual)) return usual;
  return Array.from(LETTERS).find((letter) => !taken.has(letter)) ?? '?';
}
