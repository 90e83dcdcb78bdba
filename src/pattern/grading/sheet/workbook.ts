/**
 * Sheets as an .xlsx file and back (ISO/IEC 29500). Takes neutral sheets, gives bytes; takes bytes, gives
 * the rows that carry a key, with values and formulas. The library is loaded only when a file is written
 * or read. Same sheets, same bytes.
 */
import { unzipSync, zipSync } from 'fflate';
import type { Cell as ExcelCell, CellValue, Worksheet } from 'exceljs';
import { Fault } from '../../../base/fault.ts';
import { SHEET_LIMITS } from '../../../base/limits.ts';
import { type Cell, columnName, HEAD, KEY_COLUMNS, type Sheet, type SheetRow } from './book.ts';
import type { ReadRow } from './take-back.ts';

// ---------------------------------------------------------------- writing

const FONTS: Readonly<Record<SheetRow['kind'], object>> = {
  heading: { bold: true, size: 14 },
  head: { bold: true },
  given: { color: { argb: 'FF1F4E9C' } },
  derived: {},
  aside: { italic: true, color: { argb: 'FF7A7A7A' } },
};

const WIDTHS = [14, 26, 14, 46] as const;
/** Files carry a date; the one that carries none is the beginning of the format's own time. */
const NO_DATE = new Date(Date.UTC(1980, 0, 1));

export async function writeWorkbook(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const { default: excel } = await import('exceljs');
  const workbook = new excel.Workbook();
  workbook.created = NO_DATE;
  workbook.modified = NO_DATE;
  workbook.calcProperties = { fullCalcOnLoad: true };
  for (const sheet of sheets) fill(workbook.addWorksheet(sheet.name), sheet);
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  return zipSync(unzipSync(bytes), { mtime: NO_DATE, level: 6 });
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

export async function readWorkbook(bytes: Uint8Array, place: string): Promise<readonly ReadRow[]> {
  refuseTooLarge(bytes, place);
  const { default: excel } = await import('exceljs');
  const workbook = new excel.Workbook();
  try {
    await workbook.xlsx.load(bytes.slice().buffer);
  } catch (cause) {
    throw notReadable(place, cause);
  }
  return workbook.worksheets.flatMap((page) => rowsOf(page));
}

const notReadable = (place: string, cause: unknown): Fault =>
  new Fault('input', 'the spreadsheet cannot be read', {
    place,
    remedy: 'save it as .xlsx, or as comma-separated values',
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
  if (total <= SHEET_LIMITS.unpackedBytes) return;
  throw new Fault('input', 'the spreadsheet is too large', {
    place,
    remedy: `unpacked it may have ${SHEET_LIMITS.unpackedBytes / 1024 / 1024} MB`,
  });
}

function rowsOf(page: Worksheet): readonly ReadRow[] {
  let names: ReadonlyMap<number, string> | undefined;
  const rows: ReadRow[] = [];
  page.eachRow({ includeEmpty: false }, (row, number) => {
    if (number > SHEET_LIMITS.rows) return;
    const key = plainText(row.getCell(1).value);
    if (key === HEAD[0]) {
      names = namesIn(row);
      return;
    }
    if (!names || key === '') return;
    const cells = new Map<string, { value: unknown; formula?: string }>();
    for (const [column, name] of names) {
      const cell = row.getCell(column);
      const formula: string | undefined = cell.formula;
      cells.set(name, { value: plainValue(cell.value), ...(formula ? { formula } : {}) });
    }
    rows.push({ key, place: `${page.name}!${columnName(KEY_COLUMNS)}${number}`, cells });
  });
  return rows;
}

function namesIn(row: ReturnType<Worksheet['getRow']>): ReadonlyMap<number, string> {
  const names = new Map<number, string>();
  row.eachCell((cell, column) => {
    const name = plainText(cell.value);
    if (column > KEY_COLUMNS && name !== '') names.set(column, name);
  });
  return names;
}

/** A formula's last result, a rich text's letters; numbers and texts as they are. */
function plainValue(value: CellValue): unknown {
  if (typeof value !== 'object' || value === null || value instanceof Date) return value;
  if ('result' in value) return plainValue(value.result);
  if ('richText' in value) return value.richText.map(({ text }) => text).join('');
  if ('text' in value) return value.text;
  return 'error' in value ? value.error : undefined;
}

const plainText = (value: CellValue): string => {
  const plain = plainValue(value);
  return typeof plain === 'string' || typeof plain === 'number' ? String(plain).trim() : '';
};
