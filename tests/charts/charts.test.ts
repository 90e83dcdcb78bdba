/** Charts as they are read, written out, compared with rows and drawn from rows. */
import { describe, expect, it } from 'vitest';
import { compareChart } from '../../src/pattern/charts/compare.ts';
import { drawRows } from '../../src/pattern/charts/draw.ts';
import { readChart } from '../../src/pattern/charts/read.ts';
import { writtenRowsOf } from '../../src/pattern/charts/written.ts';
import type { ChartData } from '../../src/pattern/bundle/schema.ts';
import { printLine, readLine } from '../../src/pattern/notation/index.ts';
import type { RowDefinition } from '../../src/pattern/needle/state.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';

const chartOf = (data: Partial<ChartData> & Pick<ChartData, 'rows' | 'key'>) => {
  const whole: ChartData = { id: 'a', name: 'Chart A', form: 'flat', firstSide: 'RS', ...data };
  const { chart, findings } = readChart(whole, '/charts/0', CATALOGUE);
  expect(findings).toEqual([]);
  return chart;
};

const stitch = (name: string) => CATALOGUE.lookup(name);
const books = { stitch, chart: () => undefined };

const rowsFrom = (texts: readonly string[]): readonly RowDefinition[] =>
  texts.map((text, at) => {
    const { line } = readLine(text, { sizes: undefined, catalogue: CATALOGUE });
    const actions = line?.sentences.flatMap((each) =>
      each.kind === 'actions' ? each.actions : [],
    );
    return { actions: actions ?? [], unit: 'row', line: 0, short: false, number: at + 1 };
  });

const KEY = { '.': { stitch: 'k' }, '-': { stitch: 'p' }, o: { stitch: 'yo' }, '/': { stitch: 'k2tog' }, '\\': { stitch: 'ssk' }, C: { stitch: '2/2 LC' }, x: { stitch: 'none' } }; // prettier-ignore

describe('a chart as it is drawn', () => {
  it('is read from the bottom up, a run of a cable’s width being one cell', () => {
    const chart = chartOf({ key: KEY, rows: ['-CCCCCCCC-', '-........-'] });
    expect(chart.rows.map(({ number, side }) => [number, side])).toEqual([[1, 'RS'], [2, 'WS']]); // prettier-ignore
    expect(chart.rows[1]?.cells).toHaveLength(4);
    expect(chart.rows[1]?.cells[1]).toEqual({ stitch: '2/2 LC', column: 1, columns: 4 });
    expect(chart.rows[1]).toMatchObject({ takes: 10, makes: 10 });
  });

  it('counts cells without a stitch as nothing', () => {
    const chart = chartOf({ key: KEY, rows: ['../x', '....'] });
    expect(chart.rows[1]).toMatchObject({ takes: 4, makes: 3 });
  });
});

describe('a chart written out', () => {
  const lace = chartOf({
    key: KEY,
    rows: ['-.......-', '-.o/.\\o.-', '-.......-', '-\\o...o/-'],
    repeat: { fromStitch: 2, toStitch: 8 },
  });

  it('reads right-side rows from the right and wrong-side rows from the left', () => {
    expect(writtenRowsOf(lace, stitch).map(printLine)).toEqual([
      // By hand, from the drawing: row 1 from right to left is p, k2tog, yo, k3, yo, ssk, p.
      'Row 1 (RS): p1, *k2tog, yo, k3, yo, ssk; rep from * to last st, p1.',
      // Row 2 from left to right on the wrong side: knit shows as purl, purl as knit.
      'Row 2 (WS): k1, p to last st, k1.',
      'Row 3 (RS): p1, *k1, yo, ssk, k1, k2tog, yo, k1; rep from * to last st, p1.',
      'Row 4 (WS): k1, p to last st, k1.',
    ]);
  });

  it('says the same as the rows it was written out to', () => {
    const written = rowsFrom(writtenRowsOf(lace, stitch).map(printLine));
    expect(compareChart(lace, written, books)).toEqual([]);
  });

  it('tells where a written row differs', () => {
    const texts = writtenRowsOf(lace, stitch).map(printLine);
    const wrong = texts.map((text) => text.replace('k2tog, yo, k3', 'k2tog, yo, k2, p1'));
    expect(compareChart(lace, rowsFrom(wrong), books)).toEqual([
      { row: 1, stitch: 6, drawn: 'k', written: 'p' },
    ]);
  });
});

describe('rows drawn as a chart', () => {
  it('gives the drawing the rows were written from', () => {
    const rows = ['..o/..', '......', './o...', '......'];
    const chart = chartOf({ key: KEY, rows });
    const drawn = drawRows(rowsFrom(writtenRowsOf(chart, stitch).map(printLine)), 6, 'flat', books);
    expect(drawn?.rows).toEqual(rows);
    expect(drawn?.key).toEqual({ '.': { stitch: 'k' }, o: { stitch: 'yo' }, '/': { stitch: 'k2tog' } }); // prettier-ignore
  });

  it('keeps the shape with cells without a stitch where the count changes', () => {
    const rows = rowsFrom(['Row 1: k2tog, k to end.', 'Row 2: Purl.']);
    expect(drawRows(rows, 5, 'flat', books)).toEqual({
      rows: ['....', '.../'],
      key: { '/': { stitch: 'k2tog' }, '.': { stitch: 'k' } },
    });
    const grown = drawRows(rowsFrom(['Row 1: Knit.', 'Row 2: p1, yo, p to end.']), 3, 'flat', books);
    expect(grown?.rows).toEqual(['.o..', ' ...']);
  });

  it('does not draw what cannot be worked', () => {
    expect(drawRows(rowsFrom(['Row 1: *k2, p2; rep from * to end.']), 6, 'flat', books)).toBeUndefined();
  });
}); // prettier-ignore
