/**
 * The book of numbers as a file of either kind: a spreadsheet with live formulas, or a plain table. Takes
 * sheets or bytes, gives the other. The library for spreadsheets is loaded when one is asked for.
 */
import type { Sheet } from './book.ts';
import type { ReadTable } from './take-back.ts';

export type TableKind = 'xlsx' | 'csv';

export async function writeTable(kind: TableKind, sheets: readonly Sheet[]): Promise<Uint8Array> {
  if (kind === 'xlsx') return (await import('./workbook.ts')).writeWorkbook(sheets);
  return (await import('./plain-table.ts')).writePlainTable(sheets);
}

/** `place`: what the file is called, for faults. */
export async function readTable(
  kind: TableKind,
  bytes: Uint8Array,
  place: string,
): Promise<ReadTable> {
  if (kind === 'xlsx') return (await import('./workbook.ts')).readWorkbook(bytes, place);
  return (await import('./plain-table.ts')).readPlainTable(bytes, place);
}
