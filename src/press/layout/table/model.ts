/**
 * A table measured: its cells placed in columns, tagged and shaped, and for each column the widths
 * between which it may be set. Tags are made here once, in reading order, whatever becomes of the
 * table on the page: parts beside or below each other still belong to one table.
 */
import type { Block, TableCell } from '../../document.ts';
import { narrowestWidth, prepareText, widestWidth } from '../lines/paragraph.ts';
import { type Prepared, widthUpTo } from '../lines/pieces.ts';
import type { Setting } from '../setting.ts';
import type { TypeStyle } from '../style.ts';

export type Table = Extract<Block, { kind: 'table' }>;

export interface Cell {
  readonly prepared: Prepared;
  /** First column and the number of columns. */
  readonly column: number;
  readonly span: number;
  readonly align: 'start' | 'centre' | 'end';
  /** Width of what stands before the fraction or the decimal sign, in columns of figures. */
  readonly whole?: number;
  readonly narrowest: number;
  readonly widest: number;
}

export interface Row {
  readonly cells: readonly Cell[];
  readonly type: TypeStyle;
}

/** Widest whole number of a column, and widest fraction or decimals behind one. */
export interface Figures {
  readonly whole: number;
  readonly broken: number;
}

export interface Column {
  readonly narrowest: number;
  readonly widest: number;
  readonly stretch: number;
  readonly figures?: Figures;
}

export interface TableModel {
  readonly caption: Prepared;
  readonly head: readonly Row[];
  readonly body: readonly Row[];
  readonly columns: readonly Column[];
  /** Columns at the start that name their rows. */
  readonly rowHeads: number;
}

export function modelTable(block: Table, parent: number, setting: Setting): TableModel {
  const { tags, style } = setting;
  const table = tags.add('Table', parent);
  const captionTag = block.caption.length > 0 ? tags.add('Caption', table) : table;
  const caption = prepareText(block.caption, style.table.caption, captionTag, setting);
  const head = modelRows(block.head, 'THead', table, block, setting);
  const body = modelRows(block.rows, 'TBody', table, block, setting);
  return {
    caption,
    head,
    body,
    columns: measureColumns([...head, ...body], block),
    rowHeads: countRowHeads(block),
  };
}

function modelRows(
  rows: readonly (readonly TableCell[])[],
  role: 'THead' | 'TBody',
  table: number,
  block: Table,
  setting: Setting,
): Row[] {
  if (rows.length === 0) return [];
  const { head, body } = setting.style.table;
  const type = role === 'THead' ? head : body;
  const group = setting.tags.add(role, table);
  return rows.map((row) => {
    const line = setting.tags.add('TR', group);
    let column = 0;
    const cells = row.map((cell) => {
      const span = Math.max(1, cell.span ?? 1);
      const made = modelCell(cell, column, span, role === 'THead', line, block, setting);
      column += span;
      return made;
    });
    return { cells, type };
  });
}

function modelCell(
  cell: TableCell,
  column: number,
  span: number,
  inHead: boolean,
  line: number,
  block: Table,
  setting: Setting,
): Cell {
  const { head, body } = setting.style.table;
  const header = cell.header ?? (inHead ? 'column' : undefined);
  const scope = header === 'row' ? 'Row' : 'Column';
  const details = span > 1 ? { columnSpan: span } : {};
  const tag =
    header === undefined
      ? setting.tags.add('TD', line, details)
      : setting.tags.add('TH', line, { scope, ...details });
  const type =
    header === 'column' ? { ...body, weight: head.weight, ...(inHead ? head : {}) } : body;
  const prepared = prepareText(cell.content, type, tag, setting);
  const align = span > 1 && inHead ? 'centre' : (block.columns[column]?.align ?? 'start');
  const whole = align === 'figures' && !inHead ? wholeWidth(prepared) : undefined;
  return {
    prepared,
    column,
    span,
    align: align === 'figures' ? 'centre' : align,
    ...(whole !== undefined && { whole }),
    narrowest: narrowestWidth(prepared, setting),
    widest: widestWidth(prepared),
  };
}

/** Width of the digits a cell begins with, where it holds one number and nothing else. */
function wholeWidth({ flat, pieces }: Prepared): number | undefined {
  const [piece] = pieces;
  const digits = /^[\p{Nd}]+/u.exec(flat.text)?.[0];
  if (piece === undefined || pieces.length > 1 || digits === undefined) return undefined;
  return widthUpTo(piece, digits.length);
}

function figuresOf(cells: readonly Cell[]): Figures | undefined {
  const numbers = cells.filter((cell) => cell.whole !== undefined);
  if (numbers.length < 2) return undefined;
  const whole = Math.max(...numbers.map((cell) => cell.whole ?? 0));
  const broken = Math.max(...numbers.map((cell) => cell.widest - (cell.whole ?? 0)));
  return { whole, broken };
}

/** Widths of each column from its own cells; what spanning cells need beyond them goes to the last. */
function measureColumns(rows: readonly Row[], block: Table): Column[] {
  const cells = rows.flatMap((row) => row.cells);
  const count = Math.max(block.columns.length, ...cells.map(({ column, span }) => column + span));
  const narrowest = Array.from({ length: count }, () => 0);
  const widest = Array.from({ length: count }, () => 0);
  for (const cell of cells) {
    if (cell.span > 1) continue;
    narrowest[cell.column] = Math.max(narrowest[cell.column] as number, cell.narrowest);
    widest[cell.column] = Math.max(widest[cell.column] as number, cell.widest);
  }
  for (const { column, span, narrowest: needed } of cells) {
    if (span === 1) continue;
    const last = column + span - 1;
    const have = narrowest.slice(column, last + 1).reduce((sum, width) => sum + width, 0);
    narrowest[last] = (narrowest[last] as number) + Math.max(0, needed - have);
    widest[last] = Math.max(widest[last] as number, narrowest[last] as number);
  }
  return narrowest.map((width, index): Column => {
    const figures = figuresOf(cells.filter(({ column }) => column === index));
    const aligned = figures === undefined ? 0 : figures.whole + figures.broken;
    return {
      narrowest: Math.max(width, aligned),
      widest: Math.max(widest[index] as number, aligned),
      stretch: block.columns[index]?.stretch ?? 0,
      ...(figures && { figures }),
    };
  });
}

function countRowHeads({ rows }: Table): number {
  let count = 0;
  const named = rows.filter((row) => row.length > 1);
  while (named.length > 0 && named.every((row) => row[count]?.header === 'row')) count++;
  return count;
}
