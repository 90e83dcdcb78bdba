/**
 * Reads a chart as it is drawn: the top row first, one character a cell, as seen from the right side.
 * Gives rows of cells from the bottom up, with what each row takes and makes, and a finding for every
 * cell that cannot be read. A run of a cable's character as wide as the cable is one cell.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding, Place } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { ChartData } from '../bundle/schema.ts';
import type { Chart, ChartCell, ChartRow } from '../pattern.ts';
import type { Catalogue, Stitch } from '../stitches/index.ts';

export interface ReadChart {
  readonly chart: Chart;
  readonly findings: readonly Finding[];
}

interface Reading {
  readonly data: ChartData;
  readonly pointer: string;
  readonly findings: Finding[];
  readonly stitches: ReadonlyMap<string, Stitch | 'none'>;
}

export function readChart(data: ChartData, pointer: string, catalogue: Catalogue): ReadChart {
  const findings: Finding[] = [];
  const stitches = readKey(data, pointer, catalogue, findings);
  const reading: Reading = { data, pointer, findings, stitches };
  const drawn = [...data.rows].reverse();
  const columns = widest(drawn);
  const rows = drawn.map((text, at) => readRow(reading, text, at, columns));
  return { chart: { data, pointer, columns, rows }, findings };
}

/** The width most rows have: the odd one out is to blame. */
function widest(rows: readonly string[]): number {
  const widths = new Map<number, number>();
  for (const row of rows) {
    const width = Array.from(row).length;
    widths.set(width, (widths.get(width) ?? 0) + 1);
  }
  const [best] = [...widths].sort(([a, many], [b, few]) => few - many || b - a);
  return best?.[0] ?? 0;
}

function readKey(
  data: ChartData,
  pointer: string,
  catalogue: Catalogue,
  findings: Finding[],
): ReadonlyMap<string, Stitch | 'none'> {
  const stitches = new Map<string, Stitch | 'none'>();
  for (const [character, { stitch }] of Object.entries(data.key)) {
    const known = stitch === 'none' ? 'none' : catalogue.lookup(stitch);
    if (known) stitches.set(character, known);
    else {
      const where = place(data, pointerTo(pointer, 'key', character));
      const nearest = catalogue.nearest(stitch, 2);
      findings.push(
        finding('chart/unknown-stitch', where, { chart: data.name, character, stitch, nearest }),
      );
    }
  }
  return stitches;
}

const place = (data: ChartData, pointer: string, row?: number): Place => ({
  file: 'pattern.json',
  pointer,
  label: row === undefined ? data.name : `${data.name}, row ${row}`,
});

/** The place of a row as drawn, with a span over some of its cells. */
export function chartPlace(
  chart: Pick<Chart, 'data' | 'pointer'>,
  row: number,
  cell?: ChartCell,
): Place {
  const { data, pointer } = chart;
  const index = data.rows.length - row;
  const text = data.rows[index];
  const where = place(data, pointerTo(pointer, 'rows', index), row);
  if (text === undefined) return where;
  if (!cell) return { ...where, text };
  return { ...where, text, span: { start: cell.column, end: cell.column + cell.columns } };
}

function readRow(reading: Reading, text: string, at: number, columns: number): ChartRow {
  const { data } = reading;
  const number = at + 1;
  const characters = Array.from(text);
  if (characters.length !== columns) {
    const where = chartPlace(reading, number);
    const facts = { chart: data.name, row: number, columns: characters.length, expected: columns };
    reading.findings.push(finding('chart/ragged', where, facts));
  }
  const cells = readCells(reading, characters, number);
  return { number, side: sideOf(data, number), cells, ...flowOfCells(reading, cells) };
}

const sideOf = ({ form, firstSide }: ChartData, number: number): 'RS' | 'WS' =>
  form === 'round' || (firstSide === 'RS') === (number % 2 === 1) ? 'RS' : 'WS';

/** What a row takes and makes: cells without a stitch count nothing. */
function flowOfCells(
  { stitches }: Reading,
  cells: readonly ChartCell[],
): { takes: number; makes: number } {
  let takes = 0;
  let makes = 0;
  for (const cell of cells) {
    const stitch = [...stitches.values()].find(
      (each) => each !== 'none' && each.name === cell.stitch,
    );
    if (!stitch || stitch === 'none') continue;
    takes += stitch.takes;
    makes += stitch.makes;
  }
  return { takes, makes };
}

function readCells(
  reading: Reading,
  characters: readonly string[],
  row: number,
): readonly ChartCell[] {
  const cells: ChartCell[] = [];
  for (let at = 0; at < characters.length;) {
    const character = characters[at] ?? '';
    let end = at + 1;
    while (characters[end] === character) end += 1;
    cells.push(...cellsOfRun(reading, character, at, end, row));
    at = end;
  }
  return cells;
}

function cellsOfRun(
  reading: Reading,
  character: string,
  from: number,
  to: number,
  row: number,
): readonly ChartCell[] {
  const { data, stitches, findings } = reading;
  const stitch = stitches.get(character);
  const colour = data.key[character]?.colour;
  const cell = (column: number, columns: number): ChartCell => ({
    stitch: stitch === undefined || stitch === 'none' ? 'none' : stitch.name,
    column,
    columns,
    ...(colour !== undefined && { colour }),
  });
  if (stitch === undefined && data.key[character] === undefined) {
    const where = chartPlace(reading, row, cell(from, to - from));
    const column = Array.from(data.rows[data.rows.length - row] ?? '').length - to + 1;
    findings.push(finding('chart/no-key', where, { chart: data.name, row, character, column }));
  }
  const width = stitch !== undefined && stitch !== 'none' ? widthOf(stitch) : 1;
  if ((to - from) % width !== 0 && stitch !== undefined && stitch !== 'none') {
    const where = chartPlace(reading, row, cell(from, to - from));
    const facts = { chart: data.name, row, stitch: stitch.name, width, cells: to - from };
    findings.push(finding('chart/cable-width', where, facts));
    return [cell(from, to - from)];
  }
  return Array.from({ length: (to - from) / width }, (_, at) => cell(from + at * width, width));
}

/** Cells a stitch covers: a crossing covers what it crosses, every other stitch one. */
export function widthOf(stitch: Stitch): number {
  const { crossing } = stitch;
  return crossing ? crossing.left + (crossing.middle ?? 0) + crossing.right : 1;
}
