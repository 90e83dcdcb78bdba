/**
 * Fits a table into a width: as its columns are, with text wrapped, with type made smaller down to a
 * limit, and at last with its columns shared out to several parts that each repeat the row heads.
 * Arithmetic only: takes the columns' widths, gives for each part its columns and their places.
 */
import { present } from '../../../base/assert.ts';
import type { Column } from './model.ts';

export interface Part {
  /** Numbers of the table's columns, row heads first. */
  readonly columns: readonly number[];
  readonly widths: readonly number[];
}

export interface Fit {
  readonly scale: number;
  readonly parts: readonly Part[];
}

export interface FitOptions {
  readonly width: number;
  readonly gap: number;
  readonly rowHeads: number;
  readonly smallestScale: number;
}

const SCALE_STEP = 0.02;
const HAIR = 0.01;
/** Row heads may take this much of a part's width before they are made to wrap. */
const WIDEST_ROW_HEADS = 0.5;
/** Share of the width that row heads have where there is room. */
const USUAL_ROW_HEADS = 0.3;
/** Row heads up to this share of the width are kept on one line where that costs no further part. */
const WIDEST_WHOLE_HEADS = 0.34;

const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);

/** Chooses the fewest parts, then row heads on one line where they are not long, then large type. */
export function fitTable(columns: readonly Column[], options: FitOptions): Fit {
  const { tried, scale, groups } = planOf(columns, options);
  return {
    scale,
    parts: groups.map((numbers) => ({
      columns: numbers,
      widths: widthsOf(
        numbers.map((number) => tried[number] as Column),
        scale,
        options,
      ),
    })),
  };
}

interface Plan {
  readonly tried: readonly Column[];
  readonly scale: number;
  readonly groups: readonly (readonly number[])[];
}

/** The first of the plans with the fewest parts; one part is found without trying further. */
function planOf(columns: readonly Column[], options: FitOptions): Plan {
  let best: Plan | undefined;
  for (const tried of [withWholeHeads(columns, options), columns]) {
    for (const scale of scales(options.smallestScale)) {
      const groups = shareOut(tried, scale, options);
      if (groups.length <= 1) return { tried, scale, groups };
      if (best === undefined || groups.length < best.groups.length) best = { tried, scale, groups };
    }
  }
  return present(best, 'a plan for a table');
}

/** The columns with row heads that are not wrapped, unless they are wider than their share. */
function withWholeHeads(columns: readonly Column[], options: FitOptions): Column[] {
  const widest = (options.width * WIDEST_WHOLE_HEADS) / Math.max(1, options.rowHeads);
  return columns.map((column, number) => {
    if (number >= options.rowHeads) return column;
    return { ...column, narrowest: Math.max(column.narrowest, Math.min(column.widest, widest)) };
  });
}

/** From 1 down to the smallest, both included. */
function scales(smallest: number): number[] {
  const steps = Math.max(0, Math.ceil((1 - smallest - 1e-9) / SCALE_STEP));
  return Array.from({ length: steps + 1 }, (_, step) => Math.max(smallest, 1 - step * SCALE_STEP));
}

/** Columns of each part at a scale: all in one where they fit, else evenly by width. */
function shareOut(columns: readonly Column[], scale: number, options: FitOptions): number[][] {
  const numbers = columns.map((_, index) => index);
  const { width, gap } = options;
  const needed = (of: readonly number[]): number =>
    sum(of.map((number) => (columns[number] as Column).narrowest * scale)) +
    gap * scale * (of.length - 1);
  if (columns.length === 0 || needed(numbers) <= width + HAIR) return [numbers];
  const heads = numbers.slice(0, Math.min(options.rowHeads, columns.length - 1));
  const headWidth = Math.min(needed(heads), width * WIDEST_ROW_HEADS);
  const room = width - (heads.length > 0 ? headWidth + gap * scale : 0);
  const rest = numbers.slice(heads.length);
  const fewest = filled(rest, room, needed).length;
  let low = 0;
  let high = room;
  for (let step = 0; step < 24; step++) {
    const middle = (low + high) / 2;
    if (filled(rest, middle, needed).length <= fewest) high = middle;
    else low = middle;
  }
  return filled(rest, high, needed).map((group) => [...heads, ...group]);
}

/** Columns in order, as many to a group as its room holds, at least one. */
function filled(
  numbers: readonly number[],
  room: number,
  needed: (of: readonly number[]) => number,
): number[][] {
  const groups: number[][] = [];
  for (const number of numbers) {
    const last = groups.at(-1);
    if (last !== undefined && needed([...last, number]) <= room + HAIR) last.push(number);
    else groups.push([number]);
  }
  return groups;
}

/** Widths of columns between their narrowest and widest; the rest of the room to those that stretch. */
function widthsOf(columns: readonly Column[], scale: number, options: FitOptions): number[] {
  const room = options.width - options.gap * scale * (columns.length - 1);
  const narrowest = columns.map((column) => column.narrowest * scale);
  const widest = columns.map((column) => column.widest * scale);
  if (room >= sum(widest)) return spreadWidths(columns, widest, room, options);
  const least = sum(narrowest);
  if (least > room) return narrowest.map((width) => (width * room) / least);
  const share = (room - least) / (sum(widest) - least);
  return narrowest.map((width, at) => width + ((widest[at] as number) - width) * share);
}

/**
 * Widths when there is room to spare: row heads take the same share in tables above each other where
 * they can, columns that stretch alike become alike, and the rest is shared out.
 */
function spreadWidths(
  columns: readonly Column[],
  widest: readonly number[],
  room: number,
  options: FitOptions,
): number[] {
  const stretch = sum(columns.map((column) => column.stretch));
  if (stretch === 0) return [...widest];
  const others = columns.slice(1).some((column) => column.stretch > 0);
  const head = options.rowHeads === 1 && others ? options.width * USUAL_ROW_HEADS : 0;
  const even = columns.map((column, at) => {
    if (at === 0 && head > 0) return Math.max(widest[at] as number, head);
    const alike = columns.flatMap((other, index) =>
      other.stretch === column.stretch && column.stretch > 0 && (index > 0 || head === 0)
        ? [widest[index] as number]
        : [],
    );
    return Math.max(widest[at] as number, ...alike);
  });
  const start = sum(even) <= room ? even : widest;
  const slack = room - sum(start);
  const shares = columns.map((column, at) => (at === 0 && head > 0 ? 0 : column.stretch));
  const total = sum(shares);
  return start.map((width, at) => width + (slack * (shares[at] as number)) / total);
}
