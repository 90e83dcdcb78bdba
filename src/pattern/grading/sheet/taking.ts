/** What came back from a spreadsheet, said: every changed number with its old and new value. */
import type { BundleData } from '../../bundle/schema.ts';
import type { JsonChange } from '../../bundle/edit.ts';
import { gradeBook, KEY_COLUMNS } from './book.ts';
import { type ReadRow, takeBack, type TakenChange, type TakenProblem } from './take-back.ts';
import { sayNumber } from '../../../base/plain-number.ts';

export interface Taken {
  readonly lines: readonly string[];
  readonly problems: number;
  readonly edits: readonly JsonChange[];
}

/** `missing`: what did not come back, of a file that should hold all. */
export function takeFrom(
  data: BundleData,
  rows: readonly ReadRow[],
  missing: readonly TakenProblem[] = [],
): Taken {
  const formulas = ourFormulas(data);
  const taken = takeBack(data, rows, (key, size) => formulas.get(`${key} ${size}`));
  const { changes, edits } = taken;
  const problems = [...missing, ...taken.problems];
  const lines = [
    ...problems.map(({ place, says }) => `${place}: ${says}`),
    ...changes.map((change) => sayChange(data, change)),
  ];
  if (lines.length === 0) lines.push('Nothing differs from the bundle.');
  return { lines, problems: problems.length, edits };
}

/** The formulas this program writes, by key and size: a cell that still has one was not typed. */
function ourFormulas(data: BundleData): ReadonlyMap<string, string> {
  const formulas = new Map<string, string>();
  for (const { rows } of gradeBook(data))
    for (const { cells } of rows)
      cells.slice(KEY_COLUMNS).forEach((cell, size) => {
        if (typeof cell === 'object' && cell !== null && typeof cells[0] === 'string')
          formulas.set(`${cells[0]} ${size}`, cell.formula);
      });
  return formulas;
}

function sayChange(
  { sizes }: BundleData,
  { key, unit, size, from, to, how, rule }: TakenChange,
): string {
  const [kind = '', ...rest] = key.split('/');
  const what = kind === 'numbers' ? rest.join('/') : key.replaceAll('/', ' ');
  const where = kind === 'gauges' ? '' : `, ${sizes[size]}`;
  const why =
    how === 'follows'
      ? ' · follows by its rule'
      : how === 'over'
        ? ` · typed over its rule, which gives ${sayNumber(rule)}`
        : '';
  return `${what}${where}: ${sayNumber(from)} → ${sayNumber(to)} ${unit}${why}`;
}
