/** Tables as the template `table.hbs` wants them: cells are markup, the first of a row is its head. */
import type { SpokenPart } from '../../../language/index.ts';
import { escapeMarkup } from '../../../base/escape.ts';
import { toMarkup } from '../spoken-markup.ts';

export interface CellView {
  readonly html: string;
  readonly header: boolean;
  readonly span: number | undefined;
}

export interface TableView {
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly { readonly align: string; readonly stretch: number }[];
  readonly head: readonly (readonly CellView[])[];
  readonly rows: readonly (readonly CellView[])[];
}

export const textCell = (text: string, header = false): CellView => ({
  html: escapeMarkup(text),
  header,
  span: undefined,
});

export const spokenCell = (parts: readonly SpokenPart[], header = false): CellView => ({
  html: toMarkup(parts),
  header,
  span: undefined,
});

/** A row that names the rows below it, across all columns. */
export const groupRow = (text: string, sizes: readonly string[]): readonly CellView[] => [
  { html: escapeMarkup(text), header: true, span: sizes.length + 1 },
];

/** A table with one narrow column for heads and one column of figures for each size. */
export function sizeTable(
  id: string,
  caption: string,
  corner: string,
  sizes: readonly string[],
  rows: readonly (readonly CellView[])[],
): TableView {
  return {
    id,
    caption,
    columns: [
      { align: 'start', stretch: 0 },
      ...sizes.map(() => ({ align: 'figures', stretch: 1 })),
    ],
    head: [[textCell(corner, true), ...sizes.map((size) => textCell(size, true))]],
    rows,
  };
}
