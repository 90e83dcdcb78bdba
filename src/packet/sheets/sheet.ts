/**
 * Sheets of a packet as plain data: columns with heads, widths and number formats, and rows of texts and
 * numbers. Takes nothing, gives types; `excel.ts` turns them into a workbook and back.
 */
export type Cell = string | number | null;

export interface Column {
  readonly head: string;
  /** In letters, as spreadsheets measure. */
  readonly width: number;
  /** `0.00`, `+0.00;-0.00;0`: how numbers of the column are shown (ECMA-376, numFmt). */
  readonly format?: string;
  /** Written by the program for itself; not shown. */
  readonly hidden?: true;
  /** Left for a person to fill in; shaded. */
  readonly toFill?: true;
}

export interface Sheet {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** Columns that stay in sight while the others are scrolled. */
  readonly frozen: number;
  /** Set out from right to left, where the language is read so. */
  readonly isRightToLeft?: boolean;
}
