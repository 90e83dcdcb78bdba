/**
 * Sheets as an .xlsx file and back (ISO/IEC 29500): frozen heads, filters, widths, numbers as numbers.
 * Takes plain sheets, gives bytes; takes bytes, gives the texts and numbers of every row. Same sheets, same
 * bytes.
 */
import type { CellValue, Worksheet } from 'exceljs';
import { SHEET_LIMITS } from '../../base/limits.ts';
import {
  newWorkbook,
  openWorkbook,
  plainValue,
  workbookBytes,
} from '../../pattern/grading/sheet/excel-file.ts';
import type { Cell, Column, Sheet } from './sheet.ts';

const HEAD_FILL = 'FFE9E6DE';
const TO_FILL = 'FFFFF8DC';
const MIDDLE = { vertical: 'top', wrapText: true } as const;

export async function writeSheets(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const workbook = await newWorkbook();
  for (const sheet of sheets) fill(workbook.addWorksheet(sheet.name), sheet);
  return workbookBytes(workbook);
}

const solid = (argb: string) => ({ type: 'pattern', pattern: 'solid', fgColor: { argb } }) as const;

function fill(page: Worksheet, { columns, rows, frozen, isRightToLeft = false }: Sheet): void {
  page.views = [{ state: 'frozen', xSplit: frozen, ySplit: 1, rightToLeft: isRightToLeft }];
  page.pageSetup = { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 };
  columns.forEach((column, at) => dressColumn(page, column, at));
  page.getRow(1).font = { bold: true };
  rows.forEach((row, at) => {
    row.forEach((value, column) => {
      const own = columns[column];
      if (!own || (value === null && !own.toFill)) return;
      const cell = page.getCell(at + 2, column + 1);
      if (value !== null) cell.value = value;
      cell.alignment = MIDDLE;
      if (own.format !== undefined && typeof value === 'number') cell.numFmt = own.format;
      if (own.toFill) cell.fill = solid(TO_FILL);
    });
  });
  if (rows.length > 0)
    page.autoFilter = { from: { row: 1, column: 1 }, to: { row: rows.length + 1, column: columns.length } }; // prettier-ignore
}

function dressColumn(page: Worksheet, { head, width, hidden }: Column, at: number): void {
  const column = page.getColumn(at + 1);
  column.width = width;
  if (hidden) column.hidden = true;
  const cell = page.getCell(1, at + 1);
  cell.value = head;
  cell.fill = solid(HEAD_FILL);
  cell.alignment = MIDDLE;
}

// ---------------------------------------------------------------- reading

/** All rows of the first sheet, the head among them, cell by cell as numbers and texts. */
export async function readFirstSheet(
  bytes: Uint8Array,
  place: string,
): Promise<readonly (readonly Cell[])[]> {
  const workbook = await openWorkbook(bytes, place);
  const rows: Cell[][] = [];
  workbook.worksheets[0]?.eachRow({ includeEmpty: true }, (row, number) => {
    if (number > SHEET_LIMITS.rows) return;
    const width = Math.min(row.cellCount, SHEET_LIMITS.columns);
    rows.push(Array.from({ length: width }, (_, at) => textOrNumber(row.getCell(at + 1).value)));
  });
  return rows;
}

const textOrNumber = (value: CellValue): Cell => {
  const plain = plainValue(value);
  return typeof plain === 'string' || typeof plain === 'number' ? plain : null;
};
