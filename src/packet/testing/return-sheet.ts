/**
 * The sheet a test knitter fills in, as XLSX, CSV and JSON: one question a row, the same in all three.
 * Takes a plan, gives bytes. What the program needs to read the sheet again stands in two columns of its
 * own, under a seal, so that a sheet that was changed there is never taken for ours.
 */
import { stringify } from 'csv-stringify/sync';
import { hashValue } from '../../base/hash.ts';
import { decimal, type Language, plainText, sayInches, text } from '../../language/index.ts';
import { sizedOf } from '../../pattern/bundle/size-list.ts';
import { writeSheets } from '../sheets/excel.ts';
import type { Cell, Sheet } from '../sheets/sheet.ts';
import type { Basis } from './basis.ts';
import type { AnswerUnit, ReturnPlan, ReturnRow } from './plan.ts';

/** Heads of the two columns the program reads; the others are said in the knitter's language. */
export const KEY_HEAD = 'key';
export const ABOUT_HEAD = 'castoff';
/** The row that says which pattern, version and size a sheet is of. */
export const SHEET_KEY = 'sheet';

/** What stands in the last column of a question. */
export interface AboutRow {
  readonly unit: AnswerUnit;
  readonly stated: number | null;
  readonly needed: boolean;
  readonly basis?: Basis | undefined;
}

export interface SheetHead {
  readonly format: string;
  readonly pattern: string;
  readonly version: string;
  readonly language: string;
  readonly size: string;
  readonly sizes: readonly string[];
}

export const aboutOf = ({ unit, stated, isNeeded, basis }: ReturnRow): AboutRow => ({
  unit,
  stated,
  needed: isNeeded,
  ...(basis && { basis }),
});

const headOf = ({ format, pattern, version, language, size, sizes }: ReturnPlan): SheetHead => ({
  format, pattern, version, language, size, sizes,
}); // prettier-ignore

/** Names all that must come back as it went out. The order of the rows is free: tables are sorted. */
export function sealOf(
  { format, pattern, version, language, size, sizes }: SheetHead,
  rows: readonly { readonly key: string; readonly about: AboutRow }[],
): string {
  const sorted = [...rows].sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  const about = sorted.map(({ key, about: { unit, stated, needed, basis } }) => [
    key, unit, stated, needed, basis ?? null,
  ]); // prettier-ignore
  return hashValue([format, pattern, version, language, size, sizes, about]).slice(0, 16);
}

const sealOfPlan = (plan: ReturnPlan): string =>
  sealOf(
    headOf(plan),
    plan.rows.map((row) => ({ key: row.key, about: aboutOf(row) })),
  );

// ---------------------------------------------------------------- the three forms

export async function returnWorkbook(plan: ReturnPlan, language: Language, title: string) {
  return writeSheets([tableOf(plan, language, title)]);
}

export function returnCsv(plan: ReturnPlan, language: Language, title: string): Uint8Array {
  const { columns, rows } = tableOf(plan, language, title);
  const said = rows.map((row) => row.map((cell) => cell ?? ''));
  // A text that begins like a formula is written so that no program takes it for one.
  const options = { bom: true, escape_formulas: true };
  const csv = stringify([columns.map(({ head }) => head), ...said], options);
  return new TextEncoder().encode(csv);
}

export function returnJson(plan: ReturnPlan): Uint8Array {
  const rows = plan.rows.map((row) => ({
    key: row.key,
    part: row.part,
    asks: row.asks,
    ...aboutOf(row),
    answer: null,
  }));
  const json = { ...headOf(plan), seal: sealOfPlan(plan), rows };
  return new TextEncoder().encode(`${JSON.stringify(json, null, 1)}\n`);
}

/** The columns a person sees, between the two the program reads. */
function tableOf(plan: ReturnPlan, language: Language, title: string): Sheet {
  const word = (key: string) => text(language, key);
  const head = JSON.stringify({ ...headOf(plan), seal: sealOfPlan(plan) });
  const unitSaid = (unit: AnswerUnit): string =>
    unit === 'in' || unit === 'cm' || unit === 'g' ? word(`unit.${unit}`) : '';
  return {
    name: 'Castoff',
    frozen: 0,
    isRightToLeft: language.settings.direction === 'rtl',
    columns: [
      { head: KEY_HEAD, width: 4, hidden: true },
      { head: '', width: 30 },
      { head: word('test.what'), width: 62 },
      { head: word('test.unit'), width: 10 },
      { head: word('test.stated'), width: 13, format: '0.##' },
      { head: word('test.measured'), width: 18, toFill: true },
      { head: ABOUT_HEAD, width: 4, hidden: true },
    ],
    rows: [
      [SHEET_KEY, title, word('test.needed'), null, null, null, head],
      ...plan.rows.map((row): readonly Cell[] => [
        row.key,
        row.part,
        row.isNeeded ? `${row.asks} *` : row.asks,
        unitSaid(row.unit),
        row.stated,
        null,
        JSON.stringify(aboutOf(row)),
      ]),
    ],
  };
}

/** A stated number as the knitter reads it on paper: inches as her language writes their quarters. */
export function sayStated({ stated, unit }: ReturnRow, language: Language): string {
  if (stated === null) return '';
  if (unit !== 'in') return decimal(language, stated);
  const said = sayInches(language, sizedOf(stated)).filter(({ role }) => role === 'count');
  return plainText(said);
}
