/**
 * Sets the rows of one part of a table: cells as lines in their columns, heads level at their foot,
 * other cells at their first line, a hairline below. A row too high for half a page is given line by
 * line, so that it can run over to the next.
 */
import type { Mark } from '../frames.ts';
import { setLines } from '../lines/paragraph.ts';
import { scaled } from '../lines/pieces.ts';
import type { SetLine } from '../lines/set-line.ts';
import { baselineOf, lineBreakCost, lineGrowth, ruleMark } from '../blocks/text-slabs.ts';
import type { Setting } from '../setting.ts';
import { lowered, slab, type Slab } from '../slab.ts';
import type { TypeStyle } from '../style.ts';
import type { Cell, Figures, Row } from './model.ts';

/** One part as it stands on the page. */
export interface PlacedPart {
  readonly columns: readonly number[];
  readonly widths: readonly number[];
  /** Start of each column. */
  readonly starts: readonly number[];
  /** By number of a column of figures. */
  readonly figures: ReadonlyMap<number, Figures>;
  readonly x: number;
  readonly width: number;
  readonly gap: number;
  readonly scale: number;
}

export interface RowRule {
  readonly weight: number;
  readonly colour: string;
}

const HIGHEST_ROW = 0.5;
/** Share of the white in a row that may go so that a table stays on one page. */
const GIVES_WAY = 0.55;

interface CellPlace {
  readonly x: number;
  readonly width: number;
  /** Where it is not that of the column. */
  readonly align?: 'start';
}

interface SetCell {
  readonly lines: readonly SetLine[];
  readonly height: number;
}

/** Slabs of a row: one, or one for each line of a very high row. `isShown` tells repeated cells. */
export function rowSlabs(
  row: Row,
  part: PlacedPart,
  rule: RowRule,
  isFirstTime: (cell: Cell) => boolean,
  levelAtFoot: boolean,
  setting: Setting,
): Slab[] {
  const type = scaledType(row.type, part.scale);
  const cells = row.cells.flatMap((cell) => {
    const place = placeOf(cell, part, setting.direction);
    if (place === undefined) return [];
    return [setCell(cell, place, type, isFirstTime(cell), part.scale, setting)];
  });
  const padding = setting.style.table.rowPadding * part.scale;
  const tallest = Math.max(type.leading, ...cells.map(({ height }) => height));
  const height = tallest + 2 * padding + rule.weight;
  const line = ruleMark(part.x, height - rule.weight / 2, part.width, rule.weight, rule.colour);
  if (height > setting.pageHeight * HIGHEST_ROW)
    return strata(cells, type, padding, rule, part, setting);
  const marks = cells.flatMap((cell) => {
    const top = padding + (levelAtFoot ? tallest - cell.height : 0);
    return cellMarks(cell, top, type, setting);
  });
  const at = (given: number): Mark[] => [
    ...lowered(marks, (given - height) / 2),
    ...lowered([line], given - height),
  ];
  return [slab(height, [...marks, line], { shrink: { by: 2 * padding * GIVES_WAY, at } })];
}

function scaledType(type: TypeStyle, scale: number): TypeStyle {
  return { ...type, size: type.size * scale, leading: type.leading * scale };
}

/** Where the part of a cell that stands in these columns begins, and how wide it is. */
function placeOf(
  cell: Cell,
  part: PlacedPart,
  direction: Setting['direction'],
): CellPlace | undefined {
  const inside = part.columns
    .map((column, index) => ({ column, index }))
    .filter(({ column }) => column >= cell.column && column < cell.column + cell.span);
  const first = inside[0];
  const last = inside.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const x = part.starts[first.index] as number;
  const end = (part.starts[last.index] as number) + (part.widths[last.index] as number);
  return inFigures(cell, { x, width: end - x }, part, direction);
}

/**
 * In a column of figures, whole numbers end where the widest of them ends. Numbers run from left to
 * right in every script; where the page runs the other way, their fractions are nearest its start.
 */
function inFigures(
  { whole, widest: width, column }: Cell,
  place: CellPlace,
  { figures, scale }: PlacedPart,
  direction: Setting['direction'],
): CellPlace {
  const widest = figures.get(column);
  if (whole === undefined || widest === undefined) return place;
  const rest = place.width - (widest.whole + widest.broken) * scale;
  const inset = direction === 'ltr' ? widest.whole - whole : widest.broken - (width - whole);
  const x = place.x + rest / 2 + inset * scale;
  return { x, width: place.x + place.width - x, align: 'start' as const };
}

function setCell(
  cell: Cell,
  place: CellPlace,
  type: TypeStyle,
  firstTime: boolean,
  scale: number,
  setting: Setting,
): SetCell {
  const options = {
    align: cell.align,
    ...place,
    size: type.size,
    hyphenation: setting.style.table.hyphenation,
  } as const;
  const set = setLines(scaled(cell.prepared, scale), options, setting);
  const lines = firstTime ? set : set.map(asArtifact);
  const height = lines.reduce(
    (sum, line) => sum + type.leading + lineGrowth(line, type, setting),
    0,
  );
  return { lines, height };
}

const asArtifact = (line: SetLine): SetLine => ({ ...line, marks: artifacts(line.marks) });

/** Marks said again only for the eye. */
export function artifacts(marks: readonly Mark[]): Mark[] {
  return marks
    .filter(({ kind }) => kind !== 'link')
    .map((mark): Mark => ({ ...mark, tag: 'artifact' }));
}

function cellMarks(cell: SetCell, top: number, type: TypeStyle, setting: Setting): Mark[] {
  let y = top;
  return cell.lines.flatMap((line) => {
    const growth = lineGrowth(line, type, setting);
    const marks = lowered(line.marks, y + growth + baselineOf(type, setting));
    y += type.leading + growth;
    return marks;
  });
}

/** A very high row, line by line. */
function strata(
  cells: readonly SetCell[],
  type: TypeStyle,
  padding: number,
  rule: RowRule,
  part: PlacedPart,
  setting: Setting,
): Slab[] {
  const count = Math.max(...cells.map(({ lines }) => lines.length));
  return Array.from({ length: count }, (_, index) => {
    const lines = cells.flatMap((cell) => cell.lines[index] ?? []);
    const growth = Math.max(0, ...lines.map((line) => lineGrowth(line, type, setting)));
    const above = index === 0 ? padding : 0;
    const below = index === count - 1 ? padding + rule.weight : 0;
    const height = above + type.leading + growth + below;
    const y = above + growth + baselineOf(type, setting);
    const marks = lowered(
      lines.flatMap((line) => line.marks),
      y,
    );
    if (below > 0) {
      marks.push(ruleMark(part.x, height - rule.weight / 2, part.width, rule.weight, rule.colour));
    }
    return slab(height, marks, { breakBefore: lineBreakCost(index, count) });
  });
}
