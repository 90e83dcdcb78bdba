/**
 * Charts as drawn: every cell once, numbers at the side where the row starts, the repeat boxed, large
 * charts split so that no cell is lost. Reading rules after the trade council's chart guidelines.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartKey, drawChart, toSvg } from '../../src/press/drawing/index.ts';
import { isDark } from '../../src/press/drawing/chart/colour.ts';
import { repeatRange } from '../../src/press/drawing/chart/grid.ts';
import { splitChart } from '../../src/press/drawing/chart/parts.ts';
import type { Drawing, Shape } from '../../src/press/drawing/drawing.ts';
import { buildChart, STITCHES, type Key } from './chart-builder.ts';

const KEY: Key = {
  '.': { stitch: 'k' },
  '-': { stitch: 'p' },
  R: { stitch: '3/3 RC' },
  L: { stitch: '2/1 LPC' },
  o: { stitch: 'yo' },
  '/': { stitch: 'k2tog' },
  x: { stitch: 'none' },
};

const ROPE = ['--......', '--......', '--......', '--RRRRRR', '--......', '--......'];

const whole = (drawings: readonly Drawing[]): Drawing => {
  const [only, ...more] = drawings;
  if (!only || more.length > 0) throw new Error(`${drawings.length} drawings, not one`);
  return only;
};

const usesOf = (drawing: Drawing) => drawing.shapes.filter((shape) => shape.kind === 'use');
const textsOf = (drawing: Drawing) => drawing.shapes.filter((shape) => shape.kind === 'text');
type Text = Extract<Shape, { kind: 'text' }>;
const numbersAt = (drawing: Drawing, anchor: Text['anchor']) =>
  textsOf(drawing).filter((text) => text.anchor === anchor).map(({ text }) => text); // prettier-ignore

describe('a small chart', () => {
  const rope = buildChart('round', KEY, ROPE, { repeat: { fromStitch: 1, toStitch: 8 } });

  test('as SVG', async () => {
    const svg = toSvg(whole(drawChart(rope, STITCHES)), { title: 'Chart A', description: 'Six-stitch rope' }); // prettier-ignore
    await expect(svg).toMatchFileSnapshot('../golden/drawing/rope-chart.svg');
  });

  test('draws each symbol once and uses it in every cell that shows it', () => {
    const drawing = whole(drawChart(rope, STITCHES));
    expect(Object.keys(drawing.symbols)).toEqual(['3/3 RC', 'p']);
    expect(usesOf(drawing).filter(({ symbol }) => symbol === 'p')).toHaveLength(12);
    expect(usesOf(drawing).filter(({ symbol }) => symbol === '3/3 RC')).toHaveLength(1);
  });

  test('rounds are numbered at the right only, from the bottom up', () => {
    const drawing = whole(drawChart(rope, STITCHES));
    expect(numbersAt(drawing, 'start')).toEqual(['1', '2', '3', '4', '5', '6']);
    expect(numbersAt(drawing, 'end')).toEqual([]);
  });

  test.each([
    ['RS', ['1', '3', '5'], ['2', '4', '6']],
    ['WS', ['2', '4', '6'], ['1', '3', '5']],
  ] as const)(
    'flat, row 1 on the %s: the number stands where the row starts',
    (firstSide, right, left) => {
      const drawing = whole(drawChart(buildChart('flat', KEY, ROPE, { firstSide }), STITCHES));
      expect(numbersAt(drawing, 'start')).toEqual(right);
      expect(numbersAt(drawing, 'end')).toEqual(left);
    },
  );

  test('stitches are numbered from the right, every fifth', () => {
    const wide = buildChart('round', KEY, ['.'.repeat(13)]);
    expect(numbersAt(whole(drawChart(wide, STITCHES)), 'middle')).toEqual(['13', '10', '5', '1']);
  });

  test('numbers are written in the digits that are passed in', () => {
    const numberText = (value: number) => value.toLocaleString('ar-EG');
    const drawing = whole(drawChart(rope, { ...STITCHES, numberText }));
    expect(numbersAt(drawing, 'start')).toContain('٤');
  });

  test('no line runs through a cable', () => {
    const { shapes } = whole(drawChart(buildChart('round', KEY, ROPE), STITCHES));
    // Two points of margin, cells of twelve: columns 3 to 8, the fourth row from the top.
    const cable = { from: 2 + 24 + 1, to: 2 + 96 - 1, top: 2 + 36 + 1, foot: 2 + 48 - 1 };
    for (const shape of shapes) {
      if (shape.kind !== 'path') continue;
      for (let index = 0; index + 1 < shape.steps.length; index += 1) {
        const [start, end] = [shape.steps[index], shape.steps[index + 1]];
        if (start?.[0] !== 'M' || end?.[0] !== 'L' || start[1] !== end[1]) continue;
        const crosses =
          start[1] > cable.from && start[1] < cable.to &&
          Math.min(start[2], end[2]) < cable.foot && Math.max(start[2], end[2]) > cable.top; // prettier-ignore
        expect(crosses, `line at ${start[1]}`).toBe(false);
      }
    }
  });
});

describe('the repeat box', () => {
  test('is counted from the right and from the bottom, and never leaves the chart', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 80 }),
        fc.integer({ min: 1, max: 80 }),
        (columns, rows, fromStitch, toStitch) => {
          const repeat = { fromStitch, toStitch, fromRow: 1, toRow: rows + 5 };
          const chart = buildChart('round', KEY, Array.from({ length: rows }, () => '.'.repeat(columns)), { repeat }); // prettier-ignore
          const range = repeatRange(chart);
          if (!range) throw new Error('no repeat');
          for (const edge of [range.columns.from, range.columns.to]) {
            expect(edge).toBeGreaterThanOrEqual(0);
            expect(edge).toBeLessThanOrEqual(columns);
          }
          expect(range.rows).toEqual({ from: 0, to: rows });
          if (fromStitch <= toStitch && toStitch <= columns)
            expect(range.columns.to - range.columns.from).toBe(toStitch - fromStitch + 1);
        },
      ),
    );
  });

  test('stitches 2 to 5 of eight are columns 3 to 6 from the left', () => {
    const chart = buildChart('round', KEY, ROPE, { repeat: { fromStitch: 2, toStitch: 5 } });
    expect(repeatRange(chart)?.columns).toEqual({ from: 3, to: 7 });
  });
});

describe('colour', () => {
  const colours = new Map([
    ['main', { swatch: '#f2ead8' }],
    ['dark', { swatch: '#1d2b38' }],
    ['rust', { swatch: '#b5543c' }],
  ]);
  const key: Key = {
    '.': { stitch: 'k', colour: 'main' },
    d: { stitch: 'k', colour: 'dark' },
    r: { stitch: 'k', colour: 'rust' },
    p: { stitch: 'p', colour: 'dark' },
  };
  const chart = buildChart('round', key, ['.d.r', 'p.d.']);

  test('is never the only carrier: every colour but the first has a mark', () => {
    const drawing = whole(drawChart(chart, { ...STITCHES, colours }));
    expect(usesOf(drawing)).toHaveLength(4);
    const looks = Object.values(drawing.symbols).map((shapes) =>
      JSON.stringify(shapes.map((shape) => (shape.kind === 'path' ? shape.steps : shape))),
    );
    expect(new Set(looks).size).toBe(looks.length);
  });

  test.each([
    ['#ffffff', false],
    ['#000000', true],
    ['#767676', false], // WCAG 2.2: 4.54 against white, 4.63 against black
    ['#757575', true], // 4.61 against white, 4.56 against black
  ])('ink on %s is white: %s', (swatch, dark) => {
    expect(isDark(swatch)).toBe(dark);
  });

  test('the key shows each stitch in each colour once, in the order of working', () => {
    expect(chartKey(chart, { ...STITCHES, colours }).map(({ stitch, colour }) => [stitch, colour])).toEqual([
      ['k', 'main'], ['k', 'dark'], ['p', 'dark'], ['k', 'rust'],
    ]); // prettier-ignore
  });
});

describe('the key', () => {
  test('has every stitch of the chart, cells without a stitch last', () => {
    const chart = buildChart('flat', KEY, ['xx./o', '-..LLL'.slice(0, 5)].map((row) => row)); // prettier-ignore
    expect(chartKey(chart, STITCHES).map(({ stitch }) => stitch)).toEqual([
      '2/1 LPC', 'k', 'p', 'yo', 'k2tog', 'none',
    ]); // prettier-ignore
  });

  test('tells two stitches with one picture apart', () => {
    const chart = buildChart('flat', { k: { stitch: 'k' }, w: { stitch: 'k with wrap' } }, ['kw']);
    const [plain, wrapped] = chartKey(chart, STITCHES).toReversed();
    expect(usesOf(plain?.drawing ?? whole([]))).toHaveLength(0);
    expect(usesOf(wrapped?.drawing ?? whole([]))).toHaveLength(1);
    expect(Object.keys(whole(drawChart(chart, STITCHES)).symbols)).toEqual(['k with wrap']);
  });
});

describe('a chart larger than its room', () => {
  /** Charts of knit stitches with cables strewn in. */
  const charts = fc
    .array(fc.array(fc.constantFrom('.', '-', 'RRRRRR', 'LLL'), { minLength: 1, maxLength: 40 }), {
      minLength: 1,
      maxLength: 30,
    }) // prettier-ignore
    .map((rows) => {
      const texts = rows.map((cells) => cells.join(''));
      const columns = Math.max(...texts.map(({ length }) => length));
      return buildChart(
        'flat',
        KEY,
        texts.map((text) => text.padEnd(columns, '.')),
      );
    });

  test('is covered once by its parts, and every cell is whole in at least one', () => {
    fc.assert(
      fc.property(charts, fc.integer({ min: 12, max: 60 }), fc.integer({ min: 5, max: 40 }), (chart, fitColumns, fitRows) => {
        const parts = splitChart(chart, fitColumns, fitRows);
        const owned = parts.reduce((sum, { own }) => sum + (own.columns.to - own.columns.from) * (own.rows.to - own.rows.from), 0);
        expect(owned).toBe(chart.columns * chart.rows.length);
        for (const { shown } of parts) {
          expect(shown.columns.to - shown.columns.from).toBeLessThanOrEqual(fitColumns);
          expect(shown.rows.to - shown.rows.from).toBeLessThanOrEqual(fitRows);
        }
        chart.rows.forEach((row, index) => {
          for (const cell of row.cells)
            expect(parts.some(({ shown }) => index >= shown.rows.from && index < shown.rows.to && cell.column >= shown.columns.from && cell.column + cell.columns <= shown.columns.to)).toBe(true);
        });
      }),
      { numRuns: 60 },
    ); // prettier-ignore
  });

  test('keeps every drawing within its room, heading included', () => {
    const chart = buildChart(
      'flat',
      KEY,
      Array.from({ length: 60 }, () => '--......'.repeat(15)),
    );
    const room = { maxWidthPoints: 400, maxHeightPoints: 500 };
    const drawings = drawChart(chart, { ...STITCHES, ...room, partText: (part, parts) => `Part ${part} of ${parts}` }); // prettier-ignore
    expect(drawings.length).toBeGreaterThan(3);
    for (const drawing of drawings) {
      expect(drawing.widthPoints).toBeLessThanOrEqual(room.maxWidthPoints);
      expect(drawing.heightPoints).toBeLessThanOrEqual(room.maxHeightPoints);
    }
    expect(textsOf(drawings[0] ?? whole([]))[0]?.text).toBe(`Part 1 of ${drawings.length}`);
  });

  test('cuts beside a cable where it can', () => {
    const chart = buildChart('round', KEY, ['-'.repeat(8) + 'RRRRRR' + '-'.repeat(12)]);
    const [right, left] = splitChart(chart, 18, 10);
    expect(left?.own.columns.to).toBe(right?.own.columns.from);
    expect([8, 14]).toContain(right?.own.columns.from);
  });

  test('200 by 200 cells are drawn with one use a cell', () => {
    const chart = buildChart(
      'round',
      KEY,
      Array.from({ length: 200 }, () => '-'.repeat(200)),
    );
    expect(usesOf(whole(drawChart(chart, STITCHES)))).toHaveLength(40_000);
  });
});
