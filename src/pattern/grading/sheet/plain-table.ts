/**
 * Sheets as one table of comma-separated values (RFC 4180) and back, for programs without formulas.
 * Written with a byte order mark, so that spreadsheet programs see the letters; read with whichever of
 * comma, semicolon or tab the first line uses.
 */
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { Fault } from '../../../base/fault.ts';
import { HEAD, KEY_COLUMNS, type Sheet } from './book.ts';
import { readOrigin } from './origin.ts';
import type { ReadTable } from './take-back.ts';

export function writePlainTable(sheets: readonly Sheet[]): Uint8Array {
  const [first] = sheets;
  const head = first?.rows.find(({ kind }) => kind === 'head')?.cells ?? HEAD;
  const rows = sheets.flatMap(({ rows: all }) =>
    all
      .filter(({ kind }) => kind === 'given' || kind === 'derived')
      .map(({ cells }) => cells.map((cell) => (typeof cell === 'object' ? cell?.value : cell))),
  );
  const [key, title] = first?.rows.find(({ kind }) => kind === 'heading')?.cells ?? [];
  const origin = head.map((_, column) => [key, title][column]);
  // A text that begins like a formula is written so that no program takes it for one.
  const text = stringify([[...head], origin, ...rows], { bom: true, escape_formulas: true });
  return new TextEncoder().encode(text);
}

export function readPlainTable(bytes: Uint8Array, place: string): ReadTable {
  const text = new TextDecoder('utf-8').decode(bytes);
  const firstLine = text.slice(0, text.search(/\r|\n|$/));
  const delimiter = [';', '\t', ','].find((each) => firstLine.includes(each)) ?? ',';
  let table: string[][];
  try {
    table = parse(text, { bom: true, delimiter, relax_column_count: true, skip_empty_lines: true });
  } catch (cause) {
    throw new Fault('input', 'the table cannot be read', {
      place,
      remedy: 'save it again as comma-separated values, with quotation marks round texts',
      cause,
    });
  }
  // A sheet saved by itself begins with its title.
  const start = table.findIndex(([first]) => first === HEAD[0]);
  const [head = [], ...rows] = table.slice(Math.max(start, 0));
  if (head[0] !== HEAD[0])
    throw new Fault('input', `no line of the table begins with “${HEAD[0]}”`, {
      place,
      remedy: 'keep the line of column names that castoff grade --sheet wrote',
    });
  const columns = head.slice(KEY_COLUMNS).map((name) => name.trim());
  const read = rows.map((row, at) => ({
    key: (row[0] ?? '').trim().replace(/^'/, ''),
    place: `line ${Math.max(start, 0) + at + 2}`,
    cells: new Map(
      columns.flatMap((name, column) =>
        name === '' ? [] : [[name, { value: valueOf(row[KEY_COLUMNS + column]) }] as const],
      ),
    ),
  }));
  // A sheet saved by itself is marked above the line of names, a table of ours below it.
  const marks = table.flatMap(([first = '']) => readOrigin(first.trim()) ?? []);
  // What goes with a number, such as how far it is off, has no key.
  const keyed = read.filter(({ key }) => key !== '' && !readOrigin(key));
  return { rows: keyed, origin: marks[0] };
}

/** Empty is nothing; a number may have a decimal comma. */
function valueOf(text: string | undefined): string | number | undefined {
  const bare = text?.trim() ?? '';
  if (bare === '') return undefined;
  return /^\d+(?:[.,]\d+)?$/.test(bare) ? Number(bare.replace(',', '.')) : bare;
}
