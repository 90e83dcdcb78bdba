/**
 * Numbers that come back from a spreadsheet. Takes the bundle's data and the rows as they were read,
 * gives what differs: typed sizes, gauges and counts, and the counts that follow by their rules from
 * what was typed. Nothing is written here, and a cell that cannot be read is told, never skipped.
 */
import { NOTATION_LIMITS } from '../../../base/limits.ts';
import { nearestWords } from '../../../base/nearest.ts';
import type { JsonChange } from '../../bundle/edit.ts';
import type { BundleData } from '../../bundle/schema.ts';
import { readSizeList, valueFor } from '../../bundle/size-list.ts';
import { readSized } from '../../bundle/sized-data.ts';
import { resolveNumbers, valueOf } from '../rules/resolve.ts';
import { settleNumbers } from '../rules/settle.ts';
import type { SheetOrigin } from './origin.ts';
import { editOf, type Slot, slotsOf, type Values, withValues } from './slots.ts';

/** A row of the sheet that carries a key. */
export interface ReadRow {
  readonly key: string;
  /** Where it stands: `Sizes!E5`, `line 5`. */
  readonly place: string;
  /** By name of the size; a formula's value counts as typed only where the formula is not ours. */
  readonly cells: ReadonlyMap<string, { readonly value: unknown; readonly formula?: string }>;
}

/** A file of numbers as it was read. */
export interface ReadTable {
  readonly rows: readonly ReadRow[];
  /** The pattern it was made from; undefined where the file does not say so. */
  readonly origin: SheetOrigin | undefined;
}

export interface TakenChange {
  readonly key: string;
  readonly unit: string;
  readonly size: number;
  readonly from: number | null;
  readonly to: number | null;
  /** `typed`; `follows` by its rule; `over` its rule, which gives `rule`. */
  readonly how: 'typed' | 'follows' | 'over';
  readonly rule?: number | null;
}

export interface TakenProblem {
  readonly place: string;
  readonly says: string;
}

export interface TakenBack {
  readonly changes: readonly TakenChange[];
  readonly problems: readonly TakenProblem[];
  /** What is to be changed in the file. */
  readonly edits: readonly JsonChange[];
  /** The data as it will be. */
  readonly data: BundleData;
}

/** `ours`: the formula this program wrote at a key and size. */
export function takeBack(
  data: BundleData,
  rows: readonly ReadRow[],
  ours: (key: string, size: number) => string | undefined,
): TakenBack {
  const slots = slotsOf(data);
  const problems: TakenProblem[] = [];
  const typed = new Map<string, Map<number, number | null>>();
  for (const row of rows) {
    const slot = slots.get(row.key);
    if (!slot) problems.push(unknownKey(row, [...slots.keys()]));
    else readRow(data, slot, row, ours, typed, problems);
  }
  const direct = changed(data, slots, typed);
  const after = withValues(data, slots, direct);
  const follow = following(data, after, slots, direct);
  const all = withValues(after, slots, follow.values);
  const touched = new Map([...direct, ...follow.values]);
  return {
    changes: [...changesOf(data, all, slots, direct, 'typed'), ...follow.changes],
    problems,
    edits: [...touched].map(([key, values]) => editOf(data, slots.get(key) as Slot, values)),
    data: all,
  };
}

function unknownKey({ key, place }: ReadRow, known: readonly string[]): TakenProblem {
  const near = nearestWords(key, known, 1);
  const hint = near[0] === undefined ? '' : `; did you mean “${near[0]}”?`;
  return { place, says: `the bundle has no “${key}”${hint}` };
}

// ---------------------------------------------------------------- reading

function readRow(
  data: BundleData,
  slot: Slot,
  { cells, place }: ReadRow,
  ours: (key: string, size: number) => string | undefined,
  typed: Map<string, Map<number, number | null>>,
  problems: TakenProblem[],
): void {
  const values = typed.get(slot.key) ?? new Map<number, number | null>();
  const now = currentValues(data, slot);
  data.sizes.forEach((name, size) => {
    const cell = cells.get(name);
    if (!cell || (slot.single && size > 0)) return;
    if (cell.formula !== undefined && sameFormula(cell.formula, ours(slot.key, size))) return;
    const value = readCell(cell.value);
    if (value === undefined) {
      const says = sayUnread(cell.value, now[size] ?? null);
      if (says !== undefined) problems.push({ place: `${place}, ${name}`, says });
      return;
    }
    if (value !== null && !(value >= 0 && value <= NOTATION_LIMITS.number))
      problems.push({ place: `${place}, ${name}`, says: `${value} cannot be a count or a length` });
    else values.set(size, value);
  });
  typed.set(slot.key, values);
}

/** Nothing to say where an empty cell stands for a size that has no number. */
function sayUnread(value: unknown, now: number | null): string | undefined {
  const isEmpty = value === null || value === undefined || value === '';
  if (!isEmpty) return `“${sayCell(value)}” is not a number; write one, or – for a size without it`;
  return now === null ? undefined : `the cell is empty, the bundle has ${now}; write – for a size without it`; // prettier-ignore
}

const sayCell = (value: unknown): string =>
  typeof value === 'object' ? JSON.stringify(value) : String(value as string | number | boolean);

/** Spreadsheet programs change spaces, capitals and quotation marks of a formula when they save it. */
const sameFormula = (one: string, other: string | undefined): boolean =>
  other !== undefined && bare(one) === bare(other);

const bare = (formula: string): string =>
  formula
    .replaceAll(/[\s$'=]/g, '')
    .replaceAll(/^_xlfn\./g, '')
    .toUpperCase();

/** A number; null for a dash; undefined where it is neither. */
function readCell(value: unknown): number | null | undefined {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return undefined;
  const text = value.trim().replace(/^(\d+),(\d+)$/, '$1.$2');
  const read = readSizeList(text);
  if (!('sized' in read) || read.end !== text.length || read.sized.values.length !== 1)
    return undefined;
  return read.sized.values[0] ?? null;
}

// ---------------------------------------------------------------- what differs

/** Sheets keep fifteen figures; what differs less is the same number. */
const differs = (one: number | null, other: number | null): boolean =>
  one === null || other === null ? one !== other : Math.abs(one - other) > 1e-6;

function currentValues(data: BundleData, slot: Slot): readonly (number | null)[] {
  if (slot.key.startsWith('numbers/')) {
    const id = slot.key.slice('numbers/'.length);
    return settleNumbers(data, resolveNumbers(data)).map(({ values }) => values.get(id) ?? null);
  }
  const sized = slot.data === undefined ? undefined : readSized(slot.data);
  return data.sizes.map((_, size) => (sized ? valueFor(sized, size) : null));
}

/** Every slot with a typed value that is not the one it has, with all its values as they will be. */
function changed(
  data: BundleData,
  slots: ReadonlyMap<string, Slot>,
  typed: ReadonlyMap<string, ReadonlyMap<number, number | null>>,
): Values {
  const found = new Map<string, readonly (number | null)[]>();
  for (const [key, values] of typed) {
    const slot = slots.get(key);
    if (!slot || values.size === 0) continue;
    const now = currentValues(data, slot);
    if (![...values].some(([size, value]) => differs(value, now[size] ?? null))) continue;
    found.set(key, now.map((value, size) => values.get(size) ?? (values.has(size) ? null : value))); // prettier-ignore
  }
  return found;
}

/**
 * Stated numbers that were what their rule gave, and whose rule now gives another: they go along, each
 * after those it builds on, so that a change runs through the whole garment.
 */
function following(
  before: BundleData,
  after: BundleData,
  slots: ReadonlyMap<string, Slot>,
  direct: Values,
) {
  const old = resolveNumbers(before);
  const values = new Map<string, readonly (number | null)[]>();
  const changes: TakenChange[] = [];
  let data = after;
  for (const id of old.order) {
    const was = old.byId.get(id);
    const key = `numbers/${id}`;
    const slot = slots.get(key);
    if (!was?.stated || !was.rule || !slot) continue;
    const is = resolveNumbers(data).byId.get(id);
    const next = before.sizes.map((_, size): number | null => {
      const own = is ? valueOf(is, size) : null;
      const stated = valueOf(was, size);
      const isTyped = direct.has(key) && differs(own, stated);
      const followed = !differs(stated, was.derived[size]?.count ?? null);
      return followed && !isTyped ? (is?.derived[size]?.count ?? own) : own;
    });
    if (!is || !next.some((value, size) => differs(value, valueOf(is, size)))) continue;
    values.set(key, next);
    next.forEach((to, size) => {
      const from = valueOf(is, size);
      if (differs(to, from))
        changes.push({ key, unit: is.data.unit, size, from, to, how: 'follows' });
    });
    data = withValues(data, slots, new Map([[key, next]]));
  }
  return { values, changes };
}

function changesOf(
  before: BundleData,
  after: BundleData,
  slots: ReadonlyMap<string, Slot>,
  values: Values,
  how: 'typed',
): readonly TakenChange[] {
  const resolved = resolveNumbers(after);
  return [...values].flatMap(([key, next]) => {
    const slot = slots.get(key);
    if (!slot) return [];
    const now = currentValues(before, slot);
    const rule = resolved.byId.get(key.replace(/^numbers\//, ''))?.derived;
    return next.flatMap((to, size): TakenChange[] => {
      const from = now[size] ?? null;
      if (!differs(to, from) || (slot.single && size > 0)) return [];
      const given = key.startsWith('numbers/') ? rule?.[size]?.count : undefined;
      const over = given !== undefined && differs(given, to);
      return [{ key, unit: slot.unit, size, from, to, how: over ? 'over' : how, ...(over && { rule: given }) }]; // prettier-ignore
    });
  });
}
