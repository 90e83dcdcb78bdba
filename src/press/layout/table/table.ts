/**
 * A table made into slabs: caption, heads and rows, part after part where its columns had to be shared
 * out, with the heads set again wherever a page begins inside it. Short tables are kept on one page.
 */
import { setLines } from '../lines/paragraph.ts';
import { lineSlabs } from '../blocks/text-slabs.ts';
import type { Area, Column as Place, Setting } from '../setting.ts';
import { FORBIDDEN, type Slab, stacked, stackHeight, withEnds } from '../slab.ts';
import { fitTable, type Part } from './fit.ts';
import { type Cell, modelTable, type Table, type TableModel } from './model.ts';
import { artifacts, type PlacedPart, rowSlabs } from './rows.ts';

/** Costs of a page that begins with a row: dear in a short table and near its ends. */
const ROW_BREAK = 120;
const SHORT_TABLE_BREAK = 4_000;
const PAGE_TABLE_BREAK = 800;
const END_BREAK = 2_500;
const SHORT_TABLE = 0.6;
const PAGE_TABLE = 1;
/** Heads higher than this share of the page are not repeated. */
const HIGHEST_REPEAT = 0.3;

export function tableSlabs(block: Table, area: Area, parent: number, setting: Setting): Slab[] {
  const { table: style } = setting.style;
  const model = modelTable(block, parent, setting);
  if (model.columns.length === 0) return [];
  const place = placeFor(model, area, setting);
  const fit = fitTable(model.columns, {
    width: place.width,
    gap: style.cellGap,
    rowHeads: model.rowHeads,
    smallestScale: style.smallestScale,
  });
  const figures = new Map(
    model.columns.flatMap((column, number) => (column.figures ? [[number, column.figures]] : [])),
  );
  const parts = fit.parts.map((part) => ({
    ...placedPart(part, place, fit.scale, style.cellGap),
    figures,
  }));
  const seen = new Set<Cell>();
  const slabs = parts.flatMap((part) => {
    const set = partSlabs(model, part, seen, setting);
    return withEnds(set, { before: style.around }, { after: style.around });
  });
  const caption = captionSlabs(model, place, setting);
  const all = [...caption, ...slabs];
  return withEnds(
    all,
    { before: style.around, anchors: [{ id: block.id }] },
    { after: style.around },
  );
}

/** The text column where the table fits there as it is, else the whole width. */
function placeFor(model: TableModel, area: Area, setting: Setting): Place {
  const gaps = setting.style.table.cellGap * (model.columns.length - 1);
  const natural = model.columns.reduce((sum, { widest }) => sum + widest, gaps);
  return natural <= area.text.width ? area.text : area.wide;
}

function placedPart(
  part: Part,
  place: Place,
  scale: number,
  gap: number,
): Omit<PlacedPart, 'figures'> {
  const starts: number[] = [];
  let x = place.x;
  for (const width of part.widths) {
    starts.push(x);
    x += width + gap * scale;
  }
  const width = Math.min(place.width, Math.max(0, x - gap * scale - place.x));
  return { ...part, starts, x: place.x, width, gap, scale };
}

function captionSlabs(model: TableModel, place: Place, setting: Setting): Slab[] {
  const { caption: type, captionGap } = setting.style.table;
  const lines = setLines(model.caption, { ...place, size: type.size }, setting);
  const slabs = lineSlabs(lines, type, setting).map((each) => ({ ...each, breakAfter: FORBIDDEN }));
  return withEnds(slabs, {}, { after: captionGap });
}

/** Heads and rows of one part. Cells seen in an earlier part are repeated for the eye only. */
function partSlabs(model: TableModel, part: PlacedPart, seen: Set<Cell>, setting: Setting): Slab[] {
  const { table: style, colours } = setting.style;
  const firstTime = (cell: Cell): boolean => !seen.has(cell) && part.columns.includes(cell.column);
  const head = model.head.flatMap((row, index) => {
    const last = index === model.head.length - 1;
    const rule = last
      ? { weight: style.headRule, colour: colours.ink }
      : { weight: style.rowRule, colour: colours.hairline };
    return rowSlabs(row, part, rule, firstTime, true, setting);
  });
  const rule = { weight: style.rowRule, colour: colours.hairline };
  const rows = model.body.map((row) => {
    const set = rowSlabs(row, part, rule, firstTime, false, setting);
    // A row that names the rows below it stays with them.
    return row.cells.length === 1 ? withEnds(set, {}, { breakAfter: FORBIDDEN }) : set;
  });
  for (const row of [...model.head, ...model.body]) {
    for (const cell of row.cells) if (firstTime(cell)) seen.add(cell);
  }
  const height = stackHeight([...head, ...rows.flat()]);
  const share = height / setting.pageHeight;
  const usual = share <= SHORT_TABLE ? SHORT_TABLE_BREAK : share <= PAGE_TABLE ? PAGE_TABLE_BREAK : ROW_BREAK; // prettier-ignore
  return [
    ...head.map((each, index) => ({
      ...each,
      breakBefore: index === 0 ? 0 : FORBIDDEN,
      breakAfter: FORBIDDEN,
    })),
    ...withBreaks(rows, usual, repeatOf(head, setting)),
  ];
}

function repeatOf(head: readonly Slab[], setting: Setting): Slab['repeat'] {
  const height = stackHeight(head);
  if (height === 0 || height > setting.pageHeight * HIGHEST_REPEAT) return undefined;
  return { height, marks: artifacts(stacked(head)) };
}

function withBreaks(
  rows: readonly (readonly Slab[])[],
  usual: number,
  repeat: Slab['repeat'],
): Slab[] {
  return rows.flatMap((slabs, row) =>
    slabs.map((each, line) => {
      const nearEnd = row === 1 || row === rows.length - 1;
      const here = nearEnd ? Math.max(END_BREAK, usual) : usual;
      const cost = row === 0 && line === 0 ? 0 : line === 0 ? here : each.breakBefore + here;
      const again = repeat !== undefined && (row > 0 || line > 0) ? { repeat } : {};
      return { ...each, breakBefore: cost, ...again };
    }),
  );
}
