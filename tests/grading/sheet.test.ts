/**
 * Spreadsheets: the formulas written into them give what the rules give, judged by a formula reader that
 * is not ours (fast-formula-parser), and what a designer types comes back with all that follows from it.
 *
 * Checked by hand with a general spreadsheet program on 2026-11-25: four starters written with --sheet,
 * every formula recalculated there (418 formulas, none differs); one body measurement changed, saved by
 * that program as .xlsx and one sheet of it as .csv, and taken back with --from: the same counts follow.
 */
import FormulaParser from 'fast-formula-parser';
import { describe, expect, it } from 'vitest';
import { readPlainTable, writePlainTable } from '../../src/pattern/grading/sheet/plain-table.ts';
import { takeFrom } from '../../src/pattern/grading/sheet/taking.ts';
import { readWorkbook, writeWorkbook } from '../../src/pattern/grading/sheet/workbook.ts';
import { changeJson } from '../../src/pattern/bundle/edit.ts';
import {
  type Cell,
  gradeBook,
  KEY_COLUMNS,
  type Sheet,
} from '../../src/pattern/grading/sheet/book.ts';
import { bookProblems } from '../../src/pattern/grading/sheet/whole-book.ts';
import { type ReadRow } from '../../src/pattern/grading/sheet/take-back.ts';
import { dataWith, PLAIN } from './bundle.ts';

const RIB = { id: 'rib', name: 'rib', multiple: 4, plus: 2, form: 'flat', lines: [] };
const FINE = { ...PLAIN.gauges[0], id: 'fine', stitches: 22.5, rows: 31, over: '10 cm' };

/** Every form of a rule at least once. */
const NUMBERS = [
  { id: 'back', unit: 'sts', rule: '(body bust + 4 in) / 2 at body + 2 sts, nearest odd', places: ['back/cast-on'] },
  { id: 'hem', unit: 'sts', rule: 'back − 5 sts, down to a multiple of rib', places: ['back/end'] },
  { id: 'neck', unit: 'sts', value: '37 (39, 41)' },
  { id: 'shoulder', unit: 'sts', rule: '(back − neck) / 2, up to a multiple of 1' },
  { id: 'bust', unit: 'sts', rule: 'bust at fine, nearest multiple of 6 + 1' },
  { id: 'depth', unit: 'rows', rule: '20 cm at fine, nearest even' },
  { id: 'length', unit: 'in', rule: 'depth at fine + 2 in, nearest ¼ in' },
  { id: 'length-cm', unit: 'cm', rule: 'length + 1 cm, nearest ½ cm' },
  { id: 'share', unit: 'sts', rule: '33% of back − 2 (3, 4)' },
  { id: 'panelled', unit: 'sts', rule: 'bust at fine, nearest multiple of 12 (10, 12) + 1 (2, 1)' },
  { id: 'ratio', unit: 'times', rule: '(back − neck) / hem × 10' },
  { id: 'every', unit: 'times', rule: 'depth at fine rows / 8 in × 4' },
].filter(({ id }) => id !== 'every'); // prettier-ignore

const data = dataWith({ numbers: NUMBERS, stitchPatterns: [RIB], gauges: [...PLAIN.gauges, FINE] });

/** Reckons a cell of the sheets by the other program, following the cells it names. */
function reckon(sheets: readonly Sheet[], sheet: string, row: number, column: number): unknown {
  const cell: Cell | undefined = sheets.find(({ name }) => name === sheet)?.rows[row - 1]?.cells[
    column - 1
  ];
  if (typeof cell !== 'object' || cell === null) return cell;
  const parser = new FormulaParser({
    onCell: (at) => reckon(sheets, at.sheet, at.row, at.col),
    // The one function of ours that the reader does not bring.
    functions: { MAX: (...values) => Math.max(...values.map(({ value }) => Number(value))) },
  });
  return parser.parse(cell.formula, { sheet, row, col: column });
}

describe('live formulas', () => {
  const sheets = gradeBook(data);

  it('has one sheet for the sizes, one for the piece, one for the rest', () => {
    expect(sheets.map(({ name }) => name)).toEqual(['Sizes', 'Back', 'Garment']);
  });

  it('give what the rules give, in every size', () => {
    let formulas = 0;
    for (const { name, rows } of sheets)
      rows.forEach(({ cells }, row) =>
        cells.forEach((cell, column) => {
          if (typeof cell !== 'object' || cell === null) return;
          formulas += 1;
          const where = `${name}, row ${row + 1}: ${cell.formula}`;
          expect(reckon(sheets, name, row + 1, column + 1), where).toBeCloseTo(cell.value, 8);
        }),
      );
    expect(formulas).toBeGreaterThan(50);
  });

  it('read like a designer would write them', () => {
    const back = sheets[1]?.rows.find(({ cells }) => cells[0] === 'numbers/back')?.cells[
      KEY_COLUMNS
    ];
    expect(back).toMatchObject({
      formula: 'MAX(0,ROUND(ROUND(((Sizes!E3+4)/2*Sizes!$E$7/4+2-1)/2,9),0))*2+1',
      value: 97,
    });
  });
});

describe('as files', () => {
  it('an .xlsx file comes back cell by cell, with its formulas', async () => {
    const bytes = await writeWorkbook(gradeBook(data));
    const { rows, origin } = await readWorkbook(bytes, 'g.xlsx');
    expect(origin).toEqual({ id: data.id, version: data.version });
    const back = rows.find(({ key }) => key === 'numbers/back');
    expect(back?.cells.get('M')).toMatchObject({ value: 107, formula: expect.stringContaining('ROUND') as string }); // prettier-ignore
    expect(takeFrom(data, rows)).toMatchObject({ problems: 0, edits: [] });
    expect(await writeWorkbook(gradeBook(data))).toEqual(bytes);
  });

  it.each([';', '\t', ','])(
    'a plain table comes back, whichever mark a program puts: %j',
    (mark) => {
      const bytes = writePlainTable(gradeBook(data));
      const text = new TextDecoder().decode(bytes);
      const { rows, origin } = readPlainTable(
        mark === ',' ? bytes : new TextEncoder().encode(remarked(text, mark)),
        'g.csv',
      );
      expect(origin).toEqual({ id: data.id, version: data.version });
      expect(takeFrom(data, rows)).toMatchObject({ problems: 0, edits: [] });
    },
  );

  it('what is no spreadsheet ends with a place and a remedy', async () => {
    const bytes = new TextEncoder().encode('PK, but not really');
    await expect(readWorkbook(bytes, 'g.xlsx')).rejects.toMatchObject({
      kind: 'input',
      place: 'g.xlsx',
    });
    expect(() => readPlainTable(bytes, 'g.csv')).toThrow(/no line of the table/);
  });
});

describe('a file that is not whole', () => {
  const [first, ...others] = rowsOf(data);
  const says = (rows: readonly ReadRow[], kind: 'xlsx' | 'csv' = 'xlsx') =>
    bookProblems(data, rows, kind).map(({ place, says: text }) => `${place}: ${text}`);

  it('that is whole is accused of nothing', () => {
    expect(says(rowsOf(data))).toEqual([]);
  });

  it('lacks a row, a sheet', () => {
    expect(says(others)).toEqual([expect.stringMatching(/^Sizes: the row of “body\/bust\/in” is missing/)]); // prettier-ignore
    const sizesOnly = rowsOf(data).filter(({ place }) => place.startsWith('Sizes'));
    expect(says(sizesOnly)).toContainEqual(expect.stringMatching(/^Back: the sheet is missing; put it back/)); // prettier-ignore
    expect(says(sizesOnly, 'csv')).toEqual([]); // a table of some rows is a table
  });

  it('has a row twice', () => {
    const again = { ...(first as ReadRow), place: 'Sizes!E40' };
    expect(says([...rowsOf(data), again])).toEqual([expect.stringMatching(/^Sizes!E40: “body\/bust\/in” stands at Sizes!E\d+ already/)]); // prettier-ignore
  });

  it('names other sizes', () => {
    const renamed = rowsOf(data).map((row) => ({
      ...row,
      cells: new Map([...row.cells].map(([name, cell]) => [name === 'S' ? 'Tiny' : name, cell])),
    }));
    expect(says(renamed)[0]).toMatch(/^Sizes: there is no column for size S; found instead: Tiny/);
  });

  it.each([
    [undefined, 'the cell is empty, the bundle has 34'],
    ['#DIV/0!', '“#DIV/0!” is not a number'],
    [-3, '-3 cannot be a count or a length'],
    [1e12, '1000000000000 cannot be'],
  ])('has a cell with %j', (value, text) => {
    const row = { ...(first as ReadRow), cells: new Map([['S', { value }]]) };
    const { lines, problems } = takeFrom(data, [row]);
    expect(problems).toBe(1);
    expect(lines[0]).toContain(text);
  });

  it('one sheet saved by itself, with its title above and notes beside it', () => {
    const text =
      'pattern/cove/1.2.0,sizes,,,,\nkey,name,unit,rule,S,M,L,notes\nbody/bust/in,bust,in,,35,38,42,wider\n,off by,,,0,0,0,\n';
    const { rows, origin } = readPlainTable(new TextEncoder().encode(text), 'g.csv');
    expect(origin).toEqual({ id: 'cove', version: '1.2.0' });
    expect(rows.map(({ key, place }) => [key, place])).toEqual([['body/bust/in', 'line 3']]);
    expect(says(rows, 'csv')).toEqual([]);
    expect(takeFrom(data, rows).lines[0]).toMatch(/bust in, S: 34 → 35/);
  });
});

/** The rows of our own book, as a file would give them back. */
function rowsOf(of: typeof data): readonly ReadRow[] {
  return gradeBook(of).flatMap(({ name, rows }) =>
    rows.flatMap(({ kind, cells }, at): ReadRow[] => {
      const [key] = cells;
      if ((kind !== 'given' && kind !== 'derived') || typeof key !== 'string') return [];
      const values = of.sizes.map((size, index) => {
        const cell = cells[KEY_COLUMNS + index];
        return [size, typeof cell === 'object' && cell ? cell : { value: cell }] as const;
      });
      return [{ key, place: `${name}!E${at + 1}`, cells: new Map(values) }];
    }),
  );
}

/** The same table with another mark between the values, and decimal commas where that is no comma. */
function remarked(text: string, mark: string): string {
  return text
    .split('\n')
    .map((line) =>
      (line.match(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g) ?? [])
        .map((cell) => cell.replace(/,$/, ''))
        .map((cell) => (/^\d+\.\d+$/.test(cell) ? cell.replace('.', ',') : cell))
        .slice(0, KEY_COLUMNS + 3)
        .join(mark),
    )
    .join('\n');
}

describe('taken back', () => {
  const stated = dataWith({
    stitchPatterns: [RIB],
    numbers: [
      { id: 'back', unit: 'sts', rule: '(body bust + 4 in) / 2 at body + 2 sts, nearest odd', value: '97 (107) [117]' },
      { id: 'hem', unit: 'sts', rule: 'back − 5 sts, down to a multiple of rib', value: [90, 102, 110] },
      { id: 'neck', unit: 'sts', value: 37 },
    ],
  }); // prettier-ignore

  const typed = (key: string, values: Readonly<Record<string, unknown>>): ReadRow => ({
    key,
    place: 'Sizes!E3',
    cells: new Map(Object.entries(values).map(([size, value]) => [size, { value }])),
  });

  it('a typed size runs through all that follows from it', () => {
    const taken = takeFrom(stated, [typed('body/bust/in', { S: 35 }), typed('body/bust/cm', { S: 89 })]); // prettier-ignore
    expect(taken.lines).toEqual([
      'body bust in, S: 34 → 35 in',
      'body bust cm, S: 86.5 → 89 cm',
      'back, S: 97 → 99 sts · follows by its rule',
      'hem, S: 90 → 94 sts · follows by its rule',
    ]);
  });

  it('a count typed over its rule is told as such, and stays', () => {
    const taken = takeFrom(stated, [typed('numbers/back', { M: 109 })]);
    // The hem builds on the stated 109: 104, down to a multiple of 4 + 2, is 102 as before.
    expect(taken.lines).toEqual(['back, M: 107 → 109 sts · typed over its rule, which gives 107']);
    expect(taken.edits[0]).toMatchObject({ pointer: '/numbers/0/value', value: '97 (109) [117]' });
  });

  it('keeps the way a number was written', () => {
    const { edits } = takeFrom(stated, [
      typed('numbers/hem', { L: 114 }),
      typed('numbers/neck', { L: 39 }),
    ]);
    expect(edits.map(({ value }) => value)).toEqual([[90, 102, 114], '37 (37, 39)']);
  });

  it('tells what it cannot read, and then changes nothing', () => {
    const taken = takeFrom(stated, [
      typed('numbers/bakc', { S: 1 }),
      typed('numbers/back', { S: 'about 90', M: -4 }),
    ]);
    expect(taken.problems).toBe(3);
    expect(taken.lines.join('\n')).toMatch(/no “numbers\/bakc”; did you mean “numbers\/back”/);
    expect(taken.lines.join('\n')).toMatch(/“about 90” is not a number[^]*-4 cannot be/);
  });

  it('a number left open is not filled by its own unchanged formula', async () => {
    const { rows } = await readWorkbook(await writeWorkbook(gradeBook(data)), 'g.xlsx');
    expect(takeFrom(data, rows).lines).toEqual(['Nothing differs from the bundle.']);
  });
});

describe('changing a JSON text', () => {
  const text = '{\n  "a": { "x": 1,  "y": "80 (88)" },\n\t"b": [ 1, 2,3 ]\n}\n';

  it('touches nothing but the value', () => {
    expect(changeJson(text, [{ pointer: '/a/y', value: '81 (88)' }, { pointer: '/b/1', value: 7 }])).toBe(
      '{\n  "a": { "x": 1,  "y": "81 (88)" },\n\t"b": [ 1, 7,3 ]\n}\n',
    ); // prettier-ignore
  });

  it('sets a new key like its neighbour, on one line or on lines of its own', () => {
    expect(changeJson(text, [{ pointer: '/a/z', value: 2, after: 'x' }])).toContain(
      '{ "x": 1, "z": 2,  "y"',
    );
    expect(changeJson(text, [{ pointer: '/c', value: null, after: 'b' }])).toContain(
      '3 ],\n\t"c": null\n}',
    );
    expect(changeJson('{"a":{}}', [{ pointer: '/a/z', value: 1 }])).toBe('{"a":{ "z": 1 }}');
  });
});
