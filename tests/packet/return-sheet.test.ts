/**
 * The return sheet goes out in three forms and comes back from each with the same answers; the workbook
 * is read by another reader (read-excel-file); what is foreign, changed or incomplete is refused.
 */
import ExcelJS from 'exceljs';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import readExcelFile from 'read-excel-file/node';
import { beforeAll, describe, expect, it } from 'vitest';
import { readReturn } from '../../src/packet/testing/read-return.ts';
import type { ReturnPlan } from '../../src/packet/testing/plan.ts';
import { returnCsv, returnWorkbook } from '../../src/packet/testing/return-sheet.ts';
import { equipment } from '../shop/starters.ts';
import { type Answers, asStated, filledJson, planOf } from './knitters.ts';

let plan: ReturnPlan;
let answers: Answers;

beforeAll(async () => {
  plan = await planOf('breakwater-hat', 2, 'de');
  answers = { ...asStated(plan, 'Papageitaucher'), hours: 12.5, unclear: 'Rd 7' };
});

const german = async () => (await equipment()).languages.get('de')!;
/** Only letters that every system has. */
const utf8 = (bytes: Uint8Array) =>
  new TextDecoder().decode(bytes).replaceAll(/[\u0100-\uffff]/g, '?');
const encode = (text: string) => new TextEncoder().encode(text);

/** The table as a spreadsheet program would save it, with each answer written by `say`. */
async function filledCsv(
  delimiter: string,
  say: (value: number | string) => string,
): Promise<Uint8Array> {
  const text = new TextDecoder().decode(returnCsv(plan, await german(), 'Probestricken'));
  const table: string[][] = parse(text, { bom: true });
  for (const row of table) {
    const value = answers[row[0] ?? ''];
    if (value !== undefined && value !== null) row[5] = say(value);
  }
  return encode(stringify(table, { delimiter }));
}

async function filledWorkbook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const bytes = await returnWorkbook(plan, await german(), 'Probestricken');
  await workbook.xlsx.load(bytes.slice().buffer);
  workbook.worksheets[0]!.eachRow((row) => {
    const value = answers[row.getCell(1).text];
    if (value !== undefined && value !== null) row.getCell(6).value = value;
  });
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

/** Inches as a person writes them: 20½. */
const handwritten = (value: number | string) =>
  String(value).replace('.5', '½').replace('.25', '¼');

describe('a sheet filled in', () => {
  it.each([
    { file: 'a.json', bytes: () => Promise.resolve(filledJson(plan, answers)) },
    { file: 'a.csv', bytes: () => filledCsv(',', String) },
    { file: 'a.csv', bytes: () => filledCsv(';', (value) => String(value).replace('.', ',')) },
    { file: 'a.csv', bytes: () => filledCsv('\t', handwritten) },
    { file: 'a.csv', bytes: async () => Buffer.from(utf8(await filledCsv(';', String)), 'latin1') },
    {
      file: 'a.csv',
      bytes: async () => Buffer.from(`\ufeff${utf8(await filledCsv('\t', String))}`, 'utf16le'),
    },
    { file: 'a.xlsx', bytes: filledWorkbook },
  ])('comes back from $file with the same answers', async ({ file, bytes }) => {
    const read = await readReturn(file, await bytes());
    expect('sheet' in read ? [] : read.refused).toEqual([]);
    if (!('sheet' in read)) return;
    expect(read.sheet.knitter).toBe('Papageitaucher');
    expect(read.sheet.head).toMatchObject({ pattern: 'breakwater-hat', size: 'M', language: 'de' });
    const values = Object.fromEntries(
      [...read.sheet.answers].map(([key, { value }]) => [key, value ?? null]),
    );
    expect(values).toEqual(
      Object.fromEntries(plan.rows.map(({ key }) => [key, answers[key] ?? null])),
    );
  });

  it('is a workbook that another reader opens, with numbers as numbers', async () => {
    const bytes = await returnWorkbook(plan, await german(), 'Probestricken');
    const [sheet] = await readExcelFile(Buffer.from(bytes));
    const rows = sheet!.data;
    expect(rows[0]).toEqual(['key', null, 'Was', 'Einheit', 'Anleitung', 'Ihr Wert', 'castoff']);
    const circumference = rows.find(([key]) => key === 'measure/circumference');
    expect(circumference?.slice(3, 6)).toEqual(['cm', 51, null]);
    const stitches = rows.find(([key]) => key === 'gauge/ropes/after/stitches');
    expect(stitches?.[4]).toBe(32);
  });

  it('is the same bytes every time', async () => {
    const [one, other] = [
      await returnWorkbook(plan, await german(), 'Probestricken'),
      await returnWorkbook(plan, await german(), 'Probestricken'),
    ];
    expect(Buffer.from(one).equals(Buffer.from(other))).toBe(true);
  });
});

describe('questions', () => {
  it('ask for what an editor wants to know, and for no person', () => {
    const keys = plan.rows.map(({ key }) => key.split('/')[0]);
    expect(new Set(keys)).toEqual(
      new Set(['knitter', 'gauge', 'count', 'yarn', 'measure', 'hours', 'unclear', 'remark']),
    );
    const said = plan.rows.map(({ asks }) => asks).join(' ');
    expect(said).not.toMatch(/Adresse|E-Mail|Telefon/);
  });

  it('count at rows that can be counted: the cast-on first, each place another number', () => {
    const counts = plan.rows.filter(({ key }) => key.startsWith('count/'));
    expect(counts[0]).toMatchObject({ stated: 120 });
    counts.forEach(({ stated }, at) => expect(stated).not.toBe(counts[at - 1]?.stated));
    expect(counts.length).toBeLessThanOrEqual(6);
  });
});

describe('refused', () => {
  const asJson = (
    change: (json: {
      rows: { key: string; stated: unknown; answer: unknown }[];
      version: string;
    }) => void,
  ) => {
    const json = JSON.parse(new TextDecoder().decode(filledJson(plan, answers)));
    change(json);
    return encode(JSON.stringify(json));
  };
  const rowOf = (
    json: { rows: { key: string; stated: unknown; answer: unknown }[] },
    key: string,
  ) => json.rows.find((row) => row.key === key)!;

  it.each([
    { what: 'no JSON', file: 'a.json', bytes: () => encode('{'), says: /no JSON/, remedy: /castoff packet test/ },
    { what: 'another program’s JSON', file: 'a.json', bytes: () => encode('{"rows":[]}'), says: /no return sheet/, remedy: /castoff packet test/ },
    { what: 'another table', file: 'a.csv', bytes: () => encode('a,b\n1,2\n'), says: /missing/, remedy: /first and last column/ },
    { what: 'no workbook', file: 'a.xlsx', bytes: () => encode('PK'), says: /cannot be read/, remedy: /xlsx/ },
    { what: 'a picture', file: 'a.jpg', bytes: () => encode('x'), says: /xlsx, \.csv or \.json/, remedy: /castoff packet test/ },
    { what: 'a changed statement', file: 'a.json', bytes: () => asJson((json) => { rowOf(json, 'count/hat/0').stated = 99; }), says: /were changed/, remedy: /fresh sheet/ },
    { what: 'another version in the head', file: 'a.json', bytes: () => asJson((json) => { json.version = '9.0.0'; }), says: /were changed/, remedy: /fresh sheet/ },
    { what: 'a row taken out', file: 'a.json', bytes: () => asJson((json) => { json.rows = json.rows.filter(({ key }) => key !== 'count/hat/0'); }), says: /removed/, remedy: /fresh sheet/ },
    { what: 'no code name', file: 'a.json', bytes: () => asJson((json) => { rowOf(json, 'knitter').answer = ' '; }), says: /left empty/, remedy: /fill it in/ },
    { what: 'no washed gauge', file: 'a.json', bytes: () => asJson((json) => { rowOf(json, 'gauge/ropes/after/rows').answer = null; }), says: /left empty/, remedy: /fill it in/ },
    { what: 'a number with its unit', file: 'a.json', bytes: () => asJson((json) => { rowOf(json, 'measure/depth').answer = '23 cm'; }), says: /“23 cm” is no such number/, remedy: /alone, in cm/ },
    { what: 'a mail address', file: 'a.json', bytes: () => asJson((json) => { rowOf(json, 'knitter').answer = 'jo@northfold.example'; }), says: /mail address/, remedy: /code name/ },
  ])('$what', async ({ file, bytes, says, remedy }) => {
    const read = await readReturn(file, bytes());
    if (!('refused' in read)) throw new Error('it was read');
    expect(read.refused[0]).toMatchObject({ file, says: expect.stringMatching(says), remedy: expect.stringMatching(remedy) });
  }); // prettier-ignore

  it('names the cell of every row that is wrong', async () => {
    const bytes = await filledCsv(',', (value) => (typeof value === 'number' ? 'many' : value));
    const read = await readReturn('a.csv', bytes);
    const places = 'refused' in read ? read.refused.map(({ place }) => place) : [];
    expect(places.length).toBeGreaterThan(8);
    expect(places[0]).toMatch(/^line \d+, gauge\/ropes/);
  });
});
