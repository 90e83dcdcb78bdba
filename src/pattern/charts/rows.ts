/**
 * A row of a chart in the order in which it is worked. Right-side rows and rounds are read from right to
 * left, wrong-side rows from left to right with each stitch as it is worked on that side. Takes a chart,
 * gives the actions before, inside and after its boxed repeat.
 */
import { sizedOf } from '../bundle/size-list.ts';
import type { Action } from '../notation/ast.ts';
import { NOWHERE } from '../../base/span.ts';
import type { Chart, ChartCell, ChartRow } from '../pattern.ts';
import { CATALOGUE } from '../stitches/index.ts';

export interface RowInOrder {
  readonly side: 'RS' | 'WS';
  readonly before: readonly Action[];
  /** The box; the whole row where the chart has none. */
  readonly repeat: readonly Action[];
  readonly after: readonly Action[];
}

const ORDERED = new WeakMap<ChartRow, RowInOrder>();

/** Row `number` of a chart, from 1 at the bottom; undefined where the chart has no such row. */
export function rowInOrder(chart: Chart, number: number): RowInOrder | undefined {
  const row = chart.rows[number - 1];
  if (!row) return undefined;
  const known = ORDERED.get(row);
  if (known) return known;
  const ordered = order(chart, row);
  ORDERED.set(row, ordered);
  return ordered;
}

function order(chart: Chart, row: ChartRow): RowInOrder {
  const cells = row.side === 'RS' ? [...row.cells].reverse() : row.cells;
  const part = (wanted: 'right' | 'box' | 'left') =>
    asActions(
      cells.filter((cell) => partOf(chart, cell) === wanted),
      row.side,
    );
  const [first, last] = row.side === 'RS' ? ['right', 'left'] : ['left', 'right'];
  return {
    side: row.side,
    before: part(first as 'right'),
    repeat: part('box'),
    after: part(last as 'left'),
  };
}

/** Which part of a chart a cell belongs to, seen as drawn. */
export function partOf(chart: Chart, cell: ChartCell): 'right' | 'box' | 'left' {
  const box = chart.data.repeat;
  if (!box) return 'box';
  const fromRight = chart.columns - (cell.column + cell.columns) + 1;
  if (fromRight < box.fromStitch) return 'right';
  return fromRight > box.toStitch ? 'left' : 'box';
}

/** Cells as written: equal neighbours are counted together where the stitch is written that way. */
function asActions(cells: readonly ChartCell[], side: 'RS' | 'WS'): readonly Action[] {
  const runs: { stitch: string; colour: string | undefined; times: number }[] = [];
  for (const { stitch, colour } of cells) {
    if (stitch === 'none') continue;
    const worked = side === 'RS' ? stitch : workedOnWrongSide(stitch);
    const last = runs.at(-1);
    if (last && last.stitch === worked && last.colour === colour) last.times += 1;
    else runs.push({ stitch: worked, colour, times: 1 });
  }
  let colour: string | undefined;
  return runs.flatMap((run): readonly Action[] => {
    const work: Action = {
      kind: 'work',
      stitch: run.stitch,
      times: sizedOf(run.times),
      span: NOWHERE,
    };
    if (run.colour === undefined || run.colour === colour) return [work];
    colour = run.colour;
    return [{ kind: 'yarn', yarn: run.colour, span: NOWHERE }, work];
  });
}

/** A chart shows the right side; on the wrong side the stitch that looks so from there is worked. */
export const workedOnWrongSide = (stitch: string): string =>
  CATALOGUE.lookup(stitch)?.otherSide ?? stitch;
