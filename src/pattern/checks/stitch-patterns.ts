/**
 * Stitch patterns: their rows work on every count of their multiple, row after row; a chart and the
 * written rows of one pattern say the same thing, stitch for stitch, and show the same multiple.
 */
import type { Finding, Place } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { compareChart } from '../charts/compare.ts';
import { rowInOrder } from '../charts/rows.ts';
import { numbersOf } from '../needle/labels.ts';
import { shelfOf, type Shelf } from '../needle/build.ts';
import type { RowDefinition } from '../needle/state.ts';
import { bareEnv, tryRows } from '../needle/trial.ts';
import { flowOfAll } from '../needle/flow.ts';
import type { Chart, StitchPattern } from '../pattern.ts';
import type { CheckContext } from './context.ts';

/** Repeats a pattern is tried on: one alone may hide what only shows between two. */
const TRIED_REPEATS = [2, 3];

export function checkStitchPatterns(context: CheckContext): readonly Finding[] {
  const { pattern } = context;
  const shelf = shelfOf(pattern);
  return (pattern.stitchPatterns ?? []).flatMap((each) => {
    const rows = shelf.stitchPattern(each.data.id)?.rows ?? [];
    const chart = each.data.chart === undefined ? undefined : shelf.chart(each.data.chart);
    return [
      ...(allRead(each) ? [...rowsFit(shelf, each, rows), ...isSmallest(shelf, each, rows)] : []),
      ...numberedInOrder(each),
      ...(chart ? chartShows(shelf, each, chart) : []),
      ...(chart && rows.length > 0 && allRead(each) ? chartSays(shelf, each, chart, rows) : []),
    ];
  });
}

const allRead = ({ lines }: StitchPattern): boolean =>
  lines.every(({ line }) => line !== undefined);

const placeOfRow = ({ lines, pointer, data }: StitchPattern, at: number): Place => {
  const line = lines[Math.min(at, lines.length - 1)];
  return {
    file: 'pattern.json',
    pointer: line?.pointer ?? pointer,
    label: `Stitch pattern ${data.id}`,
    ...(line && { text: line.text }),
  };
};

const multipleSay = ({ multiple, plus }: StitchPattern['data']): string =>
  plus > 0 ? `${multiple} + ${plus}` : String(multiple);

function rowsFit(
  shelf: Shelf,
  pattern: StitchPattern,
  rows: readonly RowDefinition[],
): readonly Finding[] {
  const { data } = pattern;
  const env = bareEnv(shelf, data.form);
  for (const repeats of TRIED_REPEATS) {
    const count = data.multiple * repeats + data.plus;
    const trials = tryRows(env, rows, count);
    const stopped = trials.findIndex(({ problem }) => problem !== undefined);
    const base = { row: `row ${stopped + 1}`, sizes: [], affected: [0] };
    if (stopped >= 0) {
      const { code } = trials[stopped]?.problem ?? { code: '' };
      const how = code === 'count/left-over' ? 'leaves stitches over' : 'does not come out';
      const words = { pattern: data.id, multiple: multipleSay(data), how };
      const numbers = { count: [count], after: [null] };
      return [finding('count/pattern', placeOfRow(pattern, stopped), { ...base, numbers, words })];
    }
    const after = trials.at(-1)?.after;
    if (after !== undefined && after !== count) {
      const facts = {
        ...base,
        numbers: { count: [count], after: [after] },
        words: { pattern: data.id },
      };
      return [finding('count/pattern-returns', placeOfRow(pattern, rows.length - 1), facts)];
    }
  }
  return [];
}

/** The stated multiple is the smallest: rows that work on 2 are not said to need 4. */
function isSmallest(
  shelf: Shelf,
  pattern: StitchPattern,
  rows: readonly RowDefinition[],
): readonly Finding[] {
  const { data } = pattern;
  const { multiple, plus } = data;
  if (rows.length === 0) return [];
  const env = bareEnv(shelf, data.form);
  const works = (count: number) =>
    tryRows(env, rows, count).every(({ problem }) => problem === undefined);
  for (let smaller = 1; smaller <= multiple / 2; smaller += 1) {
    if (multiple % smaller !== 0 || !works(multiple * 2 + plus + smaller)) continue;
    const words = { pattern: data.id, multiple: String(multiple), smaller: String(smaller) };
    const facts = { row: '', sizes: [], affected: [0], numbers: { count: [smaller] }, words };
    const where = {
      file: 'pattern.json',
      pointer: pattern.pointer,
      label: `Stitch pattern ${data.id}`,
    };
    return [finding('count/pattern-smaller', where, facts)];
  }
  return [];
}

/** Rows are numbered from 1 on without a gap, so that "work rows 1–8" means all of them. */
function numberedInOrder(pattern: StitchPattern): readonly Finding[] {
  const numbers = pattern.lines.flatMap(({ line }) => {
    const label = line?.label;
    if (label?.kind !== 'numbered' || label.andAll !== undefined) return [];
    return numbersOf(label.ranges, (sized) => sized.values[0] ?? null) ?? [];
  });
  const sorted = [...numbers].sort((a, b) => a - b);
  const wrong = sorted.findIndex((number, at) => number !== at + 1);
  const promised = pattern.lines.some(
    ({ line }) => line?.label?.kind === 'numbered' && line.label.andAll !== undefined,
  );
  if (wrong < 0 || promised) return [];
  const found = sorted[wrong] ?? 0;
  const row = `row ${found} of ${pattern.data.id}`;
  const facts = {
    row,
    sizes: [],
    affected: [0],
    numbers: { expected: [wrong + 1], found: [found] },
    words: {},
  };
  return [finding('count/row-order', placeOfRow(pattern, wrong), facts)];
}

/** The box is the multiple, what stands beside it is the plus; a chart without a box is both together. */
function chartShows(
  shelf: Shelf,
  { data, pointer }: StitchPattern,
  chart: Chart,
): readonly Finding[] {
  const row = rowInOrder(chart, 1);
  const read = (sized: { readonly values: readonly (number | null)[] }) => sized.values[0] ?? null;
  const env = bareEnv(shelf, chart.data.form);
  const boxed = row && flowOfAll(row.repeat, read, env)?.takes;
  const edges = row && flowOfAll([...row.before, ...row.after], read, env)?.takes;
  if (boxed === undefined || edges === undefined) return [];
  const { multiple, plus } = data;
  const drawn = chart.data.repeat === undefined ? periodOf(chart) : boxed;
  const fits =
    chart.data.repeat === undefined
      ? boxed === multiple + plus || (plus === 0 && multiple === drawn)
      : boxed === multiple && (edges - plus) % multiple === 0;
  if (fits) return [];
  const where = { file: 'pattern.json', pointer, label: `Stitch pattern ${data.id}` };
  const facts = { chart: chart.data.name, pattern: data.id, multiple, plus, boxed, edges };
  return [finding('chart/multiple', where, facts)];
}

/** Cells after which every row of a chart begins again: a chart may show its repeat several times. */
function periodOf(chart: Chart): number {
  const rows = chart.data.rows.map((row) => Array.from(row));
  for (let period = 1; period < chart.columns; period += 1) {
    const again = (row: readonly string[]) =>
      row.every((cell, at) => at < period || cell === row[at - period]);
    if (chart.columns % period === 0 && rows.every(again)) return period;
  }
  return chart.columns;
}

function chartSays(
  shelf: Shelf,
  pattern: StitchPattern,
  chart: Chart,
  rows: readonly RowDefinition[],
): readonly Finding[] {
  const { name } = chart.data;
  const { id } = pattern.data;
  if (rows.length !== chart.rows.length) {
    const facts = { chart: name, pattern: id, drawn: chart.rows.length, written: rows.length };
    return [finding('chart/rows-differ', placeOfRow(pattern, 0), facts)];
  }
  return compareChart(chart, rows, shelf).map((difference) => {
    const at = pattern.lines.findIndex(({ line }) => holds(line, difference.row));
    const where = placeOfRow(pattern, Math.max(0, at));
    return finding('chart/differs', where, { ...difference, chart: name, pattern: id });
  });
}

/** The line whose label names this row. */
function holds(line: StitchPattern['lines'][number]['line'], row: number): boolean {
  const label = line?.label;
  if (label?.kind !== 'numbered') return false;
  return label.ranges.some(
    ({ from, to }) => (from.values[0] ?? 0) <= row && row <= (to.values[0] ?? 0),
  );
}
