/**
 * Sheets as an .xlsx file and back (ISO/IEC 29500): frozen heads, filters, widths, numbers as numbers.
 * Takes plain sheets, gives bytes; takes bytes, gives the texts and numbers of every row. The library is
 * loaded only when a file is written or read. Same sheets, same bytes.
 */
import type { CellValue, Workbook, Worksheet } from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import { Fault } from '../../base/fault.ts';
import { SHEET_LIMITS } from '../../base/limits.ts';
import type { Cell, Column, Sheet } from './sheet.ts';

/** Files carry a date; the one that carries none is the beginning of the format's own time. */
const NO_DATE = new Date(Date.UTC(1980, 0, 1));
const HEAD_FILL = 'FFE9E6DE';
const TO_FILL = 'FFFFF8DC';
const MIDDLE = { vertical: 'top', wrapText: true } as const;

export async function writeSheets(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const workbook = await newWorkbook();
  for (const sheet of sheets) fill(workbook.addWorksheet(sheet.name), sheet);
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  return zipSync(unzipSync(bytes), { mtime: NO_DATE, level: 6 });
}

async function newWorkbook(): Promise<Workbook> {
  const { default: excel } = await import('exceljs');
  const workbook = new excel.Workbook();
  workbook.created = NO_DATE;
  workbook.modified = NO_DATE;
  return workbook;
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
  refuseTooLarge(bytes, place);
  const workbook = await newWorkbook();
  try {
    await workbook.xlsx.load(bytes.slice().buffer);
  } catch (cause) {
    throw notReadable(place, cause);
  }
  const rows: Cell[][] = [];
  workbook.worksheets[0]?.eachRow({ includeEmpty: true }, (row, number) => {
    if (number > SHEET_LIMITS.rows) return;
    const width = Math.min(row.cellCount, SHEET_LIMITS.columns);
    rows.push(Array.from({ length: width }, (_, at) => plainValue(row.getCell(at + 1).value)));
  });
  return rows;
}

/** A formula's last result, a rich text's letters; numbers and texts as they are. */
function plainValue(value: CellValue): Cell {
  if (typeof value === 'string' || typeof value === 'number') return value;
  if (typeof value !== 'object' || value === null || value instanceof Date) return null;
  if ('richText' in value) return value.richText.map(({ text }) => text).join('');
  if ('text' in value) return typeof value.text === 'string' ? value.text : null;
  const result = 'result' in value ? value.result : null;
  return typeof result === 'string' || typeof result === 'number' ? result : null;
}

const notReadable = (place: string, cause: unknown): Fault =>
  new Fault('input', 'the spreadsheet cannot be read', {
    place,
    remedy: 'save it as .xlsx, or send the .csv or .json sheet',
    cause,
  });

/** Checked against the directory of the file, before anything is unpacked. */
function refuseTooLarge(bytes: Uint8Array, place: string): void {
  let total = 0;
  try {
    unzipSync(bytes, {
      filter: ({ originalSize }) => {
        total += originalSize;
        return false;
      },
    });
  } catch (cause) {
    throw notReadable(place, cause);
  }
  if (total > SHEET_LIMITS.unpackedBytes)
    throw new Fault('input', 'the spreadsheet is too large', { place });
}
