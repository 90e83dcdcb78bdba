/**
 * Sheets as an .xlsx file and back (ISO/IEC 29500). Takes neutral sheets, gives bytes; takes bytes, gives
 * the rows that carry a key, with values and formulas. Same sheets, same bytes.
 */
import type { Cell as ExcelCell, CellValue, Worksheet } from 'exceljs';
import { SHEET_LIMITS } from '../../../base/limits.ts';
import { type Cell, columnName, HEAD, KEY_COLUMNS, type Sheet, type SheetRow } from './book.ts';
import { newWorkbook, openWorkbook, plainValue, workbookBytes } from './excel-file.ts';
import { readOrigin, type SheetOrigin } from './origin.ts';
import type { ReadRow, ReadTable } from './take-back.ts';

// ---------------------------------------------------------------- writing

const FONTS: Readonly<Record<SheetRow['kind'], object>> = {
  heading: { bold: true, size: 14 },
  head: { bold: true },
  given: { color: { argb: 'FF1F4E9C' } },
  derived: {},
  aside: { italic: true, color: { argb: 'FF7A7A7A' } },
};

const WIDTHS = [14, 26, 14, 46] as const;

export async function writeWorkbook(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const workbook = await newWorkbook();
  workbook.calcProperties = { fullCalcOnLoad: true };
  for (const sheet of sheets) fill(workbook.addWorksheet(sheet.name), sheet);
  return workbookBytes(workbook);
}

function fill(page: Worksheet, { rows }: Sheet): void {
  page.views = [{ state: 'frozen', xSplit: KEY_COLUMNS, ySplit: 2 }];
  WIDTHS.forEach((width, at) => {
    page.getColumn(at + 1).width = width;
  });
  page.getColumn(1).hidden = true;
  rows.forEach((row, at) => {
    row.cells.forEach((cell, column) => {
      const target = page.getCell(at + 1, column + 1);
      if (cell === null) return;
      target.value =
        typeof cell === 'object' ? { formula: cell.formula, result: cell.value } : cell;
      dress(target, row.kind, row.cells, column);
    });
  });
}

function dress(
  target: ExcelCell,
  kind: SheetRow['kind'],
  cells: SheetRow['cells'],
  column: number,
) {
  target.font = FONTS[kind];
  if (kind === 'head') {
    target.fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFE9E6DE' } };
    if (column >= KEY_COLUMNS) target.alignment = { horizontal: 'right' };
  }
  if (kind === 'heading' || kind === 'head' || column < KEY_COLUMNS) return;
  target.numFmt = numberFormat(kind, textOf(cells[1]), textOf(cells[2]));
  target.alignment = { horizontal: 'right' };
}

const textOf = (cell: Cell | undefined): string => (typeof cell === 'string' ? cell : '');

function numberFormat(kind: SheetRow['kind'], name: string, unit: string): string {
  if (kind === 'aside') return name.includes('off by') ? '+0.00;-0.00;0' : '0.0#';
  return unit === 'in' || unit === 'cm' ? '0.##' : '0.#';
}

// ---------------------------------------------------------------- reading

export async function readWorkbook(bytes: Uint8Array, place: string): Promise<ReadTable> {
  const workbook = await openWorkbook(bytes, place);
  const tables = workbook.worksheets.map(readSheet);
  return {
    rows: tables.flatMap(({ rows }) => rows),
    origin: tables.find(({ origin }) => origin)?.origin,
  };
}

function readSheet(page: Worksheet): ReadTable {
  let names: ReadonlyMap<number, string> | undefined;
  let origin: SheetOrigin | undefined;
  const rows: ReadRow[] = [];
  page.eachRow({ includeEmpty: false }, (row, number) => {
    if (number > SHEET_LIMITS.rows) return;
    const key = plainText(row.getCell(1).value);
    if (key === HEAD[0]) {
      names = namesIn(row);
      return;
    }
    const mark = readOrigin(key);
    origin ??= mark;
    if (!names || key === '' || mark) return;
    const cells = new Map<string, { value: unknown; formula?: string }>();
    for (const [column, name] of names) {
      const cell = row.getCell(column);
      const formula: string | undefined = cell.formula;
      cells.set(name, { value: plainValue(cell.value), ...(formula ? { formula } : {}) });
    }
    rows.push({ key, place: `${page.name}!${columnName(KEY_COLUMNS)}${number}`, cells });
  });
  return { rows, origin };
}

function namesIn(row: ReturnType<Worksheet['getRow']>): ReadonlyMap<number, string> {
  const names = new Map<number, string>();
  row.eachCell((cell, column) => {
    const name = plainText(cell.value);
    if (column > KEY_COLUMNS && name !== '') names.set(column, name);
  });
  return names;
}

const plainText = (value: CellValue): string => {
  const plain = plainValue(value);
  return typeof plain === 'string' || typeof plain === 'number' ? String(plain).trim() : '';
};
