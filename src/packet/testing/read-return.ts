/**
 * Reads returned sheets, in whichever form they came, and refuses what is foreign, changed or incomplete,
 * each with its place and remedy. Takes bytes and the name of a file, gives answers by key; judges nothing.
 */
import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { Fault } from '../../base/fault.ts';
import { PACKET_LIMITS } from '../../base/limits.ts';
import { readSizeList } from '../../pattern/bundle/size-list.ts';
import { readFirstSheet } from '../sheets/excel.ts';
import type { Cell } from '../sheets/sheet.ts';
import { basisSchema } from './basis.ts';
import { ANSWER_UNITS, RETURN_FORMAT } from './plan.ts';
import { ABOUT_HEAD, type AboutRow, KEY_HEAD, sealOf, SHEET_KEY, type SheetHead } from './return-sheet.ts'; // prettier-ignore

export interface Answer {
  readonly about: AboutRow;
  /** Undefined where the row was left empty. */
  readonly value: number | string | undefined;
}

export interface ReturnedSheet {
  readonly file: string;
  readonly head: SheetHead;
  /** The knitter's code name. */
  readonly knitter: string;
  readonly answers: ReadonlyMap<string, Answer>;
}

/** Why a sheet was not read. */
export interface Refusal {
  readonly file: string;
  readonly place: string;
  readonly says: string;
  readonly remedy: string;
}

export type ReadReturn =
  { readonly sheet: ReturnedSheet } | { readonly refused: readonly Refusal[] };

const headSchema = z.object({
  format: z.string().max(40),
  pattern: z.string().max(64),
  version: z.string().max(20),
  language: z.string().max(20),
  size: z.string().max(24),
  sizes: z.array(z.string().max(24)).max(60),
  seal: z.string().max(64),
});

const aboutSchema = z.object({
  unit: z.enum(ANSWER_UNITS),
  stated: z.number().nullable(),
  needed: z.boolean(),
  basis: basisSchema.optional(),
});

/** A sheet as its form gives it: who it says it is, and its rows with their places. */
interface RawSheet {
  readonly head: unknown;
  readonly rows: readonly RawRow[];
}

interface RawRow {
  readonly key: string;
  readonly about: unknown;
  readonly answer: unknown;
  readonly place: string;
}

const FOREIGN =
  'fill in a sheet that castoff packet test wrote, and keep its first and last column';

export async function readReturn(file: string, bytes: Uint8Array): Promise<ReadReturn> {
  try {
    if (bytes.byteLength > PACKET_LIMITS.sheetBytes)
      return refuse(file, '', 'the file is too large for a return sheet', FOREIGN);
    return understand(file, await openForm(file, bytes));
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return refuse(file, error.place ?? '', error.message, error.remedy ?? FOREIGN);
  }
}

const refuse = (file: string, place: string, says: string, remedy: string): ReadReturn => ({
  refused: [{ file, place, says, remedy }],
});

// ---------------------------------------------------------------- the three forms

async function openForm(file: string, bytes: Uint8Array): Promise<RawSheet> {
  const end = /\.([a-z]+)$/i.exec(file)?.[1]?.toLowerCase();
  if (end === 'json') return openJson(bytes);
  if (end === 'csv') return openTable(readCsv(bytes), (row) => `line ${row}`);
  if (end === 'xlsx')
    return openTable(await readFirstSheet(bytes, file), (row, column) => `${column}${row}`);
  throw new Fault('input', 'a return sheet is an .xlsx, .csv or .json file', { remedy: FOREIGN });
}

function openJson(bytes: Uint8Array): RawSheet {
  let json: unknown;
  try {
    json = JSON.parse(decode(bytes));
  } catch (cause) {
    throw new Fault('input', 'the file is no JSON', { remedy: FOREIGN, cause });
  }
  const read = z.object({ rows: z.array(z.looseObject({ key: z.string(), answer: z.unknown() })).max(2000) }).safeParse(json); // prettier-ignore
  if (!read.success) throw new Fault('input', 'the file is no return sheet', { remedy: FOREIGN });
  const rows = read.data.rows.map(({ key, answer, ...about }, at) => ({
    key,
    about,
    answer,
    place: `/rows/${at}/answer`,
  }));
  return { head: json, rows };
}

const decode = (bytes: Uint8Array): string => new TextDecoder('utf-8').decode(bytes);

/** Spreadsheet programs save tables in the letters of their system as often as in UTF-8. */
function decodeTable(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function readCsv(bytes: Uint8Array): readonly (readonly Cell[])[] {
  const text = decodeTable(bytes);
  const firstLine = text.slice(0, text.search(/\r|\n|$/));
  const delimiter = [';', '\t', ','].find((each) => firstLine.includes(each)) ?? ',';
  try {
    return parse(text, { bom: true, delimiter, relax_column_count: true });
  } catch (cause) {
    throw new Fault('input', 'the table cannot be read', {
      remedy: 'save it again as comma-separated values, with quotation marks round texts',
      cause,
    });
  }
}

/** Columns are found by their heads, so that one may be put in between. */
function openTable(
  table: readonly (readonly Cell[])[],
  placeOf: (row: number, column: string) => string,
): RawSheet {
  const [heads = [], ...rows] = table;
  const key = heads.indexOf(KEY_HEAD);
  const about = heads.indexOf(ABOUT_HEAD);
  const answer = about - 1;
  if (key < 0 || about < 1)
    throw new Fault('input', `the columns “${KEY_HEAD}” and “${ABOUT_HEAD}” are missing`, {
      remedy: FOREIGN,
    });
  const textOf = (cell: Cell | undefined): string => String(cell ?? '').trim();
  const raw = rows.map((cells, at) => ({
    key: textOf(cells[key]).replace(/^'/, ''),
    about: parseCell(textOf(cells[about])),
    answer: cells[answer],
    place: placeOf(at + 2, String.fromCharCode(65 + answer)),
  }));
  const head = raw.find((row) => row.key === SHEET_KEY)?.about;
  return { head, rows: raw.filter((row) => row.key !== '' && row.key !== SHEET_KEY) };
}

function parseCell(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

// ---------------------------------------------------------------- what it says

function understand(file: string, raw: RawSheet): ReadReturn {
  const head = headSchema.safeParse(raw.head);
  if (!head.success || head.data.format !== RETURN_FORMAT)
    return refuse(file, '', 'the file is no return sheet of ours', FOREIGN);
  const rows: { key: string; about: AboutRow; answer: unknown; place: string }[] = [];
  for (const { key, about, answer, place } of raw.rows) {
    const read = aboutSchema.safeParse(about);
    if (!read.success) return refuse(file, place, `row ${key} lost what it was about`, FOREIGN);
    rows.push({ key, about: read.data, answer, place });
  }
  if (sealOf(head.data, rows) !== head.data.seal)
    return refuse(
      file, '', 'questions or stated numbers of this sheet were changed, added or removed',
      'copy the answers into a fresh sheet from castoff packet test',
    ); // prettier-ignore
  return answersOf(file, head.data, rows);
}

function answersOf(
  file: string,
  head: SheetHead,
  rows: readonly { key: string; about: AboutRow; answer: unknown; place: string }[],
): ReadReturn {
  const refused: Refusal[] = [];
  const answers = new Map<string, Answer>();
  for (const { key, about, answer, place } of rows) {
    const read = readAnswer(answer, about);
    if ('says' in read) refused.push({ file, place: `${place}, ${key}`, ...read });
    else answers.set(key, { about, value: read.value });
  }
  if (refused.length > 0) return { refused };
  const knitter = String(answers.get('knitter')?.value ?? '');
  return { sheet: { file, head, knitter, answers } };
}

type Read =
  | { readonly value: number | string | undefined }
  | { readonly says: string; readonly remedy: string };

function readAnswer(answer: unknown, { unit, needed }: AboutRow): Read {
  const text =
    typeof answer === 'number' || typeof answer === 'string' ? String(answer).trim() : '';
  if (text === '')
    return needed
      ? { says: 'a row that is needed was left empty', remedy: 'fill it in' }
      : { value: undefined };
  if (text.length > PACKET_LIMITS.answerLetters)
    return {
      says: 'the answer is too long',
      remedy: `at most ${PACKET_LIMITS.answerLetters} letters`,
    };
  if (unit === 'text') return readText(text);
  const value = typeof answer === 'number' ? answer : readNumber(text);
  if (value !== undefined && Number.isFinite(value) && value >= 0 && (value > 0 || unit === 'g'))
    return { value };
  return {
    says: `“${text.slice(0, 40)}” is no such number`,
    remedy: `write a number alone, in ${unit}`,
  };
}

/** A mail address is more than anybody asked for. */
const readText = (text: string): Read =>
  /\S@\S+\.\S/.test(text)
    ? {
        says: 'there is a mail address in the answer',
        remedy: 'a code name is enough; take it out',
      }
    : { value: text };

/** `18.5`, `18,5`, `18½`, `18 1/2` */
function readNumber(text: string): number | undefined {
  const plain = text.replace(',', '.');
  const read = readSizeList(plain);
  if (!('sized' in read) || read.end !== plain.length || read.sized.values.length !== 1)
    return undefined;
  return read.sized.values[0] ?? undefined;
}
