/** Plain tables of a packet: texts under heads, and rows left blank to be written in by hand. */
import { type CellView, type TableView, textCell } from '../../press/edition/view/table.ts';

/** The longest column shares what room is left with the others of more than a few words. */
export function textTable(
  id: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): TableView {
  const longest = head.map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length), 0),
  );
  return {
    id,
    caption: '',
    columns: head.map((name, column) => ({
      align: 'start',
      stretch: name === 'Remark' ? 2 : (longest[column] ?? 0) > 12 ? 1 : 0,
    })),
    head: [head.map((text) => textCell(text, true))],
    rows: rows.map((row) => row.map((text) => textCell(text))),
  };
}

/** Three lines high, so that a pen has room. */
const BLANK: CellView = { html: '\u00a0<br>\u00a0<br>\u00a0', header: false, span: undefined };

export function blankRows(id: string, names: readonly string[]): TableView {
  return {
    id,
    caption: '',
    columns: [
      { align: 'start', stretch: 0 },
      { align: 'start', stretch: 1 },
    ],
    head: [[textCell('', true), textCell('', true)]],
    rows: names.map((name) => [textCell(name, true), BLANK]),
  };
}
