/**
 * Rows by number: `1`, `1–4`, `1 and 3`, `2, 4 and 6`, `4–46 (49, 52, 55)`. Used by labels, by "rep
 * rows" and by charts.
 */
import type { RowRange, RowRole } from '../ast.ts';
import type { Reader } from './reader.ts';
import { isSized, readSized } from './size-values.ts';
import { isTimes } from './times.ts';

/** @rule ranges = range, { ( "," | "and" ), range }; */
export function readRanges(reader: Reader): readonly RowRange[] | undefined {
  const ranges: RowRange[] = [];
  do {
    const range = readRange(reader);
    if (!range) return undefined;
    ranges.push(range);
  } while (takesAnother(reader));
  return ranges;
}

/** A separator that is followed by a further number, and not by "times" or "more". */
function takesAnother(reader: Reader): boolean {
  const taken = reader.attempt(() => {
    if (!reader.take(', and', ',', 'and')) return undefined;
    reader.take('row', 'round');
    const another = isSized(reader) && reader.peek().kind === 'number';
    return another && !isTimes(reader) ? true : undefined;
  });
  return taken === true;
}

/** @rule range = sized, [ ( "–" | "to" ), sized ]; */
function readRange(reader: Reader): RowRange | undefined {
  const from = readSized(reader, 'a row');
  if (!from) return undefined;
  const to = reader.attempt(() =>
    reader.take('–', '-', '—', 'to', 'through', 'thru') && isSized(reader)
      ? readSized(reader, 'a row')
      : undefined,
  );
  return { from, to: to ?? from };
}

const ROLES: readonly (readonly [RowRole, readonly string[]])[] = [
  ['set-up', ['set-up', 'setup', 'set up', 'foundation', 'preparation']],
  ['increase', ['inc']],
  ['decrease', ['dec']],
  ['short', ['short']],
  ['joining', ['joining', 'join']],
  ['eyelet', ['eyelet', 'beading']],
  ['dividing', ['dividing', 'divide', 'division']],
  ['buttonhole', ['buttonhole']],
  ['ridge', ['ridge']],
];

/**
 * @rule role = "set-up" | "inc" | "dec" | "short" | "joining" | "eyelet" | "dividing" |
 *   "buttonhole" | "ridge";
 */
export const readRole = (reader: Reader): RowRole | undefined =>
  ROLES.find(([, phrases]) => reader.take(...phrases))?.[0];
