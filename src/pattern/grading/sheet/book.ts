/**
 * The grading of a pattern as sheets: sizes and gauges on the first, then one sheet for each piece with
 * its numbers, their rules as live formulas, what was wanted and how far the count lies from it. Takes
 * the bundle's data, gives cells with their addresses; no file format is known here. Column A carries
 * the key by which a changed number is taken back, and in a heading the pattern it was made from.
 */
import type { BundleData, NumberData } from '../../bundle/schema.ts';
import { readSized } from '../../bundle/sized-data.ts';
import { valueFor } from '../../bundle/size-list.ts';
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import { readBase } from '../gauge.ts';
import { nameOf, resolveNumbers, type ResolvedNumber } from '../rules/resolve.ts';
import { deviationInches, type SettledSize, settleNumbers } from '../rules/settle.ts';
import { type Cells, exactFormulaOf, formulaOf } from './formula.ts';
import { originMark } from './origin.ts';

export type Cell = string | number | null | { readonly formula: string; readonly value: number };

export interface SheetRow {
  /** `heading`, `head`: column names; `given`: typed; `derived`: by a rule; `aside`: what goes with it. */
  readonly kind: 'heading' | 'head' | 'given' | 'derived' | 'aside';
  readonly cells: readonly Cell[];
}

export interface Sheet {
  readonly name: string;
  readonly rows: readonly SheetRow[];
}

/** Columns before the sizes: key, name, unit, rule. */
export const KEY_COLUMNS = 4;
export const HEAD = ['key', 'name', 'unit', 'rule'] as const;

const NOTE =
  'Blue numbers are typed, black ones follow by their rule. Take changes back with: castoff grade BUNDLE --from THIS-FILE';

const SIZES_SHEET = 'Sizes';
const OTHER_SHEET = 'Garment';

export function gradeBook(data: BundleData): readonly Sheet[] {
  const resolved = resolveNumbers(data);
  const settled = settleNumbers(data, resolved);
  const first = sizesSheet(data);
  const groups = numbersByPiece(data, resolved.numbers);
  const places = new Map<string, Place>();
  keyPlaces(first).forEach((place, key) => places.set(key, place));
  for (const { name, numbers } of groups) {
    let row = 3; // a heading and the head stand above
    for (const number of numbers) {
      places.set(`numbers/${number.data.id}`, { sheet: name, row });
      row += 1 + asideNames(number).length;
    }
  }
  const sheets = groups.map(({ name, title, numbers }) => ({
    name,
    rows: [
      headingRow(data, title),
      headRow(data),
      ...numbers.flatMap((number) => numberRows(data, number, settled, places)),
    ],
  }));
  return [first, ...sheets];
}

interface Place {
  readonly sheet: string;
  /** As spreadsheets count: from 1. */
  readonly row: number;
}

const headingRow = (data: BundleData, title: string, note = ''): SheetRow => ({
  kind: 'heading',
  cells: [originMark(data), title, null, note],
});

const headRow = ({ sizes }: BundleData): SheetRow => ({ kind: 'head', cells: [...HEAD, ...sizes] });

// ---------------------------------------------------------------- the first sheet

function sizesSheet(data: BundleData): Sheet {
  const rows: SheetRow[] = [headingRow(data, `${data.id} ${data.version}`, NOTE), headRow(data)];
  for (const { part, size, source } of data.body)
    rows.push(...lengthRows(data, `body/${part}`, `body ${part}`, size, source ?? ''));
  for (const { id, letter, name, size } of data.measurements)
    rows.push(...lengthRows(data, `measurements/${id}`, `${letter} ${name}`, size, ''));
  for (const gauge of data.gauges) {
    const each = (kind: 'stitches' | 'rows'): SheetRow => ({
      kind: 'given',
      cells: [`gauges/${gauge.id}/${kind}`, `gauge ${gauge.id}`, `${kind === 'rows' ? 'rows' : 'sts'} over ${gauge.over}`, gauge.pattern, gauge[kind]],
    }); // prettier-ignore
    rows.push(each('stitches'), each('rows'));
  }
  return { name: SIZES_SHEET, rows };
}

type LengthData = BundleData['body'][number]['size'];

function lengthRows(
  { sizes }: BundleData,
  key: string,
  name: string,
  length: LengthData,
  note: string,
): SheetRow[] {
  return (['in', 'cm'] as const).flatMap((unit) => {
    const sized = length[unit] === undefined ? undefined : readSized(length[unit]);
    if (!sized) return [];
    const values = sizes.map((_, size) => valueFor(sized, size) ?? '–');
    return [{ kind: 'given', cells: [`${key}/${unit}`, name, unit, note, ...values] }];
  });
}

function keyPlaces({ name, rows }: Sheet): ReadonlyMap<string, Place> {
  return new Map(
    rows.flatMap(({ kind, cells: [key] }, at): [string, Place][] =>
      kind !== 'head' && typeof key === 'string' ? [[key, { sheet: name, row: at + 1 }]] : [],
    ),
  );
}

// ---------------------------------------------------------------- one sheet for each piece

interface Group {
  readonly name: string;
  readonly title: string;
  readonly numbers: readonly ResolvedNumber[];
}

function numbersByPiece(data: BundleData, numbers: readonly ResolvedNumber[]): readonly Group[] {
  const groups = data.pieces.map(({ id }, at) => ({
    name: sheetName(
      id,
      data.pieces.slice(0, at).map((piece) => piece.id),
    ),
    title: id,
    numbers: numbers.filter((each) => pieceOf(data, each.data) === id),
  }));
  const others = numbers.filter((each) => pieceOf(data, each.data) === undefined);
  const all = [...groups, { name: OTHER_SHEET, title: 'garment', numbers: others }];
  return all.filter((group) => group.numbers.length > 0);
}

/** The piece of its first place, else the first piece whose rows name it. */
export function pieceOf(data: BundleData, number: NumberData): string | undefined {
  const [place] = number.places ?? [];
  const anchor = typeof place === 'string' ? place : place?.[0];
  if (anchor !== undefined) return anchor.split('/')[0];
  const named = `{${number.id}}`;
  return data.pieces.find(({ sections }) =>
    sections.some(({ lines }) =>
      lines.some((line) => (typeof line === 'string' ? line : line.text).includes(named)),
    ),
  )?.id;
}

/** Sheet names have at most 31 characters and none of : \\ / ? * [ ] (ISO/IEC 29500). */
function sheetName(id: string, before: readonly string[]): string {
  const short = (each: string) => (each[0] ?? '').toUpperCase() + each.slice(1, 24);
  const name = short(id);
  const twins = before.filter((each) => short(each) === name).length;
  const taken = [SIZES_SHEET, OTHER_SHEET].includes(name) || twins > 0;
  return taken ? `${name} ${twins + 2}` : name;
}

/** Rows under a number: the length that was wanted, the exact amount, and how far the count is off. */
function asideNames({ rule, derived }: ResolvedNumber): readonly string[] {
  const amount = derived.find((each) => each !== null)?.amount;
  if (!rule || !amount || amount.unit === 'length') return [];
  return amount.gauge ? ['exact', 'off by, in', 'off by, cm'] : ['exact'];
}

function numberRows(
  data: BundleData,
  number: ResolvedNumber,
  settled: readonly SettledSize[],
  places: ReadonlyMap<string, Place>,
): SheetRow[] {
  const { data: own, rule } = number;
  const cellsOf = (size: number) => cellsFor(data, places, size, own.id);
  const value = (size: number) => settled[size]?.values.get(own.id) ?? null;
  const derived = (size: number) => settled[size]?.derived.get(own.id) ?? null;
  const counts = data.sizes.map((_, size): Cell => {
    const here = value(size);
    const formula = rule && !number.problem ? formulaOf(rule, own, cellsOf(size)) : undefined;
    // A number that is stated otherwise, or was moved to fit its neighbours, is typed.
    const follows = here !== null && derived(size)?.count === here;
    if (here === null) return '–';
    return formula !== undefined && follows ? { formula, value: here } : here;
  });
  const main: SheetRow = {
    kind: rule ? 'derived' : 'given',
    cells: [`numbers/${own.id}`, nameOf(own), own.unit, own.rule ?? '', ...counts],
  };
  const asides = asideNames(number).map((name): SheetRow => {
    const cells = data.sizes.map((_, size): Cell => {
      const here = derived(size);
      const count = value(size);
      const place = places.get(`numbers/${own.id}`);
      const exact = rule && exactFormulaOf(rule, own, cellsOf(size));
      if (!here || count === null || !place || exact === undefined) return null;
      if (name === 'exact') return { formula: exact, value: here.exact };
      const off = deviationInches(here, count);
      const column = columnName(KEY_COLUMNS + size);
      const stitches = `(${column}${place.row}-${column}${place.row + 1})`;
      const unit = name === 'off by, cm' ? 'cm' : 'in';
      const formula = lengthOf(stitches, here.amount, unit, cellsOf(size));
      return formula ? { formula, value: unit === 'cm' ? off * CENTIMETRES_PER_INCH : off } : null;
    });
    return { kind: 'aside', cells: [null, `   ${name}`, null, null, ...cells] };
  });
  return [main, ...asides];
}

type Amount = NonNullable<ResolvedNumber['derived'][number]>['amount'];

/** A count as a length, through the gauge it came from. */
function lengthOf(
  count: string,
  amount: Amount,
  unit: 'in' | 'cm',
  cells: Cells,
): string | undefined {
  if (amount.unit === 'length' || !amount.gauge) return undefined;
  const cell = cells.gauge(amount.gauge.id, amount.unit === 'rows' ? 'rows' : 'stitches');
  const over = readBase(amount.gauge.over);
  if (cell === undefined) return undefined;
  const length = `${count}*${over.amount}/${cell}`;
  if (over.unit === unit) return length;
  return `${length}${unit === 'cm' ? '*' : '/'}${CENTIMETRES_PER_INCH}`;
}

// ---------------------------------------------------------------- addresses

function cellsFor(
  data: BundleData,
  places: ReadonlyMap<string, Place>,
  size: number,
  own: string,
): Cells {
  const here = places.get(`numbers/${own}`)?.sheet;
  const at = (key: string): string | undefined => {
    const place = places.get(key);
    return place && inSheet(place, here, `${columnName(KEY_COLUMNS + size)}${place.row}`);
  };
  // A gauge stands once for all sizes, so its address stays when a formula is copied to the right.
  const fixed = (key: string): string | undefined => {
    const place = places.get(key);
    return place && inSheet(place, here, `$${columnName(KEY_COLUMNS)}$${place.row}`);
  };
  const units = new Map((data.numbers ?? []).map(({ id, unit }) => [id, unit]));
  return {
    size,
    // Within its own rule a number's id means the measurement of that name.
    number: (id) => (id === own ? undefined : at(`numbers/${id}`)),
    unitOf: (id) => (id === own ? undefined : units.get(id)),
    measurement: (id, unit) => at(`measurements/${id}/${unit}`),
    body: (part, unit) => at(`body/${part}/${unit}`),
    gauge: (id, kind) => fixed(`gauges/${id}/${kind}`),
    gaugeData: (id) => data.gauges.find((gauge) => gauge.id === id),
    pattern: (id) => data.stitchPatterns.find((pattern) => pattern.id === id),
  };
}

/** Another sheet is named, in quotation marks where it has more than letters. */
function inSheet({ sheet }: Place, here: string | undefined, address: string): string {
  if (sheet === here) return address;
  return /^[A-Za-z]+$/.test(sheet) ? `${sheet}!${address}` : `'${sheet}'!${address}`;
}

/** 0 → A, 25 → Z, 26 → AA. */
export function columnName(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : columnName(Math.floor(index / 26) - 1) + letter;
}
