/**
 * The .xlsx file itself (ISO/IEC 29500), for all sheets the program writes or takes back: opened under
 * limits, closed to the same bytes for the same content. The library is loaded only when a file is written
 * or read. Knows no sheet.
 */
import type { CellValue, Workbook } from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import { Fault } from '../../../base/fault.ts';
import { SHEET_LIMITS } from '../../../base/limits.ts';

/** Files carry a date; the one that carries none is the beginning of the format's own time. */
const NO_DATE = new Date(Date.UTC(1980, 0, 1));

export async function newWorkbook(): Promise<Workbook> {
  const { default: excel } = await import('exceljs');
  const workbook = new excel.Workbook();
  workbook.created = NO_DATE;
  workbook.modified = NO_DATE;
  return workbook;
}

export async function workbookBytes(workbook: Workbook): Promise<Uint8Array> {
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  return zipSync(unzipSync(bytes), { mtime: NO_DATE, level: 6 });
}

/** `place`: the file, for the person who named it. Throws `Fault` of kind `input`. */
export async function openWorkbook(bytes: Uint8Array, place: string): Promise<Workbook> {
  refuseTooLarge(bytes, place);
  const workbook = await newWorkbook();
  try {
    await workbook.xlsx.load(bytes.slice().buffer);
  } catch (cause) {
    throw notReadable(place, cause);
  }
  return workbook;
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

/** A formula's last result, a rich text's letters; numbers and texts as they are. */
export function plainValue(value: CellValue): unknown {
  if (typeof value !== 'object' || value === null || value instanceof Date) return value;
  if ('result' in value) return plainValue(value.result);
  if ('richText' in value) return value.richText.map(({ text }) => text).join('');
  if ('text' in value) return value.text;
  return 'error' in value ? value.error : undefined;
}
