/**
 * Builds charts for the tests from rows as drawn, one character a cell, the top row first. A crossing
 * covers as many characters as it is wide. Only what the drawing room needs is filled in.
 */
import type { ChartData } from '../../src/pattern/bundle/schema.ts';
import type { Chart, ChartCell } from '../../src/pattern/pattern.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import type { ChartOptions } from '../../src/press/drawing/index.ts';

export type Key = Readonly<Record<string, { readonly stitch: string; readonly colour?: string }>>;

export const STITCHES: Pick<ChartOptions, 'stitchOf' | 'cellPoints'> = {
  cellPoints: 12,
  stitchOf: (name) => CATALOGUE.lookup(name),
};

function cellsOf(row: string, key: Key): ChartCell[] {
  const cells: ChartCell[] = [];
  for (let column = 0; column < row.length;) {
    const entry = key[row[column] ?? ''];
    if (!entry) throw new Error(`no key for "${row[column] ?? ''}"`);
    const stitch = CATALOGUE.lookup(entry.stitch);
    const columns = stitch?.crossing ? stitch.takes : 1;
    cells.push({ stitch: stitch?.name ?? entry.stitch, column, columns, ...(entry.colour && { colour: entry.colour }) }); // prettier-ignore
    column += columns;
  }
  return cells;
}

export function buildChart(
  form: 'flat' | 'round',
  key: Key,
  rows: readonly string[],
  more: Partial<Pick<ChartData, 'repeat' | 'firstSide'>> = {},
): Chart {
  const { firstSide = 'RS', repeat } = more;
  const other = firstSide === 'RS' ? 'WS' : 'RS';
  const columns = rows[0]?.length ?? 0;
  return {
    data: { id: 'chart', name: 'Chart', form, firstSide, key: { ...key }, rows: [...rows], ...(repeat && { repeat }) }, // prettier-ignore
    pointer: '/charts/0',
    columns,
    rows: rows.toReversed().map((row, index) => ({
      number: index + 1,
      side: form === 'round' || index % 2 === 0 ? firstSide : other,
      cells: cellsOf(row, key),
      takes: columns,
      makes: columns,
    })),
  };
}
