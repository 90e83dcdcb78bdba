/**
 * Did all come back that was given away? Takes the bundle's data and the rows read from a spreadsheet,
 * gives what is missing or stands twice: sheets, rows, columns of sizes. A number that is not there
 * would otherwise be taken for one that has not changed.
 */
import type { BundleData } from '../../bundle/schema.ts';
import { gradeBook } from './book.ts';
import type { ReadRow, TakenProblem } from './take-back.ts';

/** A plain table may hold some of the rows only; a workbook comes back whole. */
export function bookProblems(
  data: BundleData,
  rows: readonly ReadRow[],
  kind: 'xlsx' | 'csv',
): readonly TakenProblem[] {
  const missing = kind === 'xlsx' ? missingRows(data, rows) : [];
  return [...missing, ...rowsTwice(rows), ...missingSizes(data, rows)];
}

const REMEDY = 'put it back, or write a new file with --sheet and change that one';

function missingRows(data: BundleData, rows: readonly ReadRow[]): readonly TakenProblem[] {
  const found = new Set(rows.map(({ key }) => key));
  return gradeBook(data).flatMap(({ name, rows: own }): TakenProblem[] => {
    const keys = own.flatMap(({ kind, cells: [key] }) =>
      (kind === 'given' || kind === 'derived') && typeof key === 'string' ? [key] : [],
    );
    const missing = keys.filter((key) => !found.has(key));
    if (missing.length > 0 && missing.length === keys.length)
      return [{ place: name, says: `the sheet is missing; ${REMEDY}` }];
    return missing.map((key) => ({
      place: name,
      says: `the row of “${key}” is missing; ${REMEDY}`,
    }));
  });
}

const rowsTwice = (rows: readonly ReadRow[]): readonly TakenProblem[] =>
  rows.flatMap(({ key, place }, at) => {
    const first = rows.findIndex((each) => each.key === key);
    if (first === at) return [];
    return [{ place, says: `“${key}” stands at ${rows[first]?.place} already; take one of them out` }]; // prettier-ignore
  });

/** Once for each sheet: its columns are named in one row. Columns of the designer's own are left alone. */
function missingSizes({ sizes }: BundleData, rows: readonly ReadRow[]): readonly TakenProblem[] {
  const told = new Set<string>();
  return rows.flatMap(({ place, cells }): TakenProblem[] => {
    const sheet = place.includes('!') ? place.slice(0, place.lastIndexOf('!')) : 'line of names';
    const missing = sizes.filter((size) => !cells.has(size));
    if (missing.length === 0 || told.has(sheet)) return [];
    told.add(sheet);
    const others = [...cells.keys()].filter((name) => !sizes.includes(name));
    const instead = others.length > 0 ? `; found instead: ${others.join(', ')}` : '';
    return [{ place: sheet, says: `there is no column for size ${missing.join(', ')}${instead}; name the columns as the bundle names its sizes` }]; // prettier-ignore
  });
}
