/** Tables over the sizes for the terminal: a name, one column for each size, several blocks where the sizes are many. */
import { columnsOf, padEnd, padStart } from '../../findings/columns.ts';

export { sayNumber, sayOff } from '../../base/plain-number.ts';

export interface TableRow {
  readonly name: string;
  readonly cells: readonly string[];
}

const WIDTH = 100;
const INDENT = '    ';

export function sizeTable(sizes: readonly string[], rows: readonly TableRow[]): readonly string[] {
  const names = Math.max(...rows.map(({ name }) => columnsOf(name)));
  const widths = sizes.map(
    (size, at) =>
      Math.max(columnsOf(size), ...rows.map(({ cells }) => columnsOf(cells[at] ?? ''))) + 2,
  );
  const lines: string[] = [];
  let from = 0;
  while (from < sizes.length) {
    let to = from + 1;
    let used = INDENT.length + names + (widths[from] ?? 0);
    while (to < sizes.length && used + (widths[to] ?? 0) <= WIDTH) used += widths[to++] ?? 0;
    const line = (name: string, cells: readonly string[]) =>
      (INDENT + padEnd(name, names) + cells.slice(from, to).map((cell, at) => padStart(cell, widths[from + at] ?? 0)).join('')).trimEnd(); // prettier-ignore
    lines.push(line('', sizes), ...rows.map(({ name, cells }) => line(name, cells)));
    from = to;
  }
  return lines;
}
