/**
 * Stranded colourwork: the yarn that is not worked lies behind the stitches, and where it lies behind
 * more than five it catches fingers and draws the fabric in (common practice: about an inch).
 */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { chartPlace } from '../charts/read.ts';
import type { Chart, ChartCell, ChartRow } from '../pattern.ts';

const LONGEST_FLOAT = 5;

export function longFloats(chart: Chart): readonly Finding[] {
  return chart.rows.flatMap((row) => {
    const worked = row.cells.filter(({ stitch }) => stitch !== 'none');
    const colours = new Set(worked.map(({ colour }) => colour));
    if (colours.size < 2) return [];
    const run = longestRun(chart, row);
    if (!run || run.length <= LONGEST_FLOAT) return [];
    const facts = {
      chart: chart.data.name,
      row: row.number,
      length: run.length,
      colour: run.colour ?? 'the first colour',
    };
    return [finding('chart/float', chartPlace(chart, row.number, run.cell), facts)];
  });
}

interface Run {
  readonly colour: string | undefined;
  readonly length: number;
  readonly cell: ChartCell;
}

/** The longest stretch of one colour; where the row is repeated it may run on into the next repeat. */
function longestRun(chart: Chart, row: ChartRow): Run | undefined {
  const cells = row.cells.filter(({ stitch }) => stitch !== 'none');
  const runs: Run[] = [];
  for (const cell of cells) {
    const last = runs.at(-1);
    if (last && last.colour === cell.colour) {
      const whole = { ...last.cell, columns: cell.column + cell.columns - last.cell.column };
      runs[runs.length - 1] = { ...last, length: last.length + cell.columns, cell: whole };
    } else runs.push({ colour: cell.colour, length: cell.columns, cell });
  }
  const first = runs[0];
  const last = runs.at(-1);
  const goesOn = chart.data.form === 'round' || chart.data.repeat !== undefined;
  if (goesOn && first && last && first !== last && first.colour === last.colour) {
    runs.push({ ...last, length: first.length + last.length });
  }
  return runs.reduce<Run | undefined>(
    (best, run) => (best && best.length >= run.length ? best : run),
    undefined,
  );
}
