/** Tables in a width: sums that can be checked by head. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FitOptions, fitTable } from '../../src/press/layout/table/fit.ts';
import type { Column } from '../../src/press/layout/table/model.ts';

const column = (narrowest: number, widest = narrowest, stretch = 0): Column => ({
  narrowest,
  widest,
  stretch,
});
const options = (more: Partial<FitOptions> = {}): FitOptions => ({
  width: 400,
  gap: 10,
  rowHeads: 1,
  smallestScale: 0.8,
  ...more,
});

describe('a table fitted into 400 points', () => {
  it('keeps the width of its text where nothing stretches', () => {
    const fit = fitTable([column(80), column(30), column(30)], options());
    expect(fit).toEqual({ scale: 1, parts: [{ columns: [0, 1, 2], widths: [80, 30, 30] }] });
  });

  it('gives row heads three tenths, and the rest evenly to columns that stretch alike', () => {
    const fit = fitTable([column(80, 80, 1), column(30, 30, 1), column(50, 50, 1)], options());
    // 400 less two gaps of 10 is 380; 120 for the heads leaves 130 each.
    expect(fit.parts[0]?.widths).toEqual([120, 130, 130]);
  });

  it('wraps long text before it makes type smaller', () => {
    const fit = fitTable([column(60), column(80, 600)], options());
    expect(fit.scale).toBe(1);
    expect(fit.parts[0]?.widths).toEqual([60, 330]);
  });

  it('makes type smaller before it makes two tables', () => {
    // 100 + 10 columns of 24 + 10 gaps of 10 is 440: it fits at nine tenths.
    const columns = [column(100), ...Array.from({ length: 10 }, () => column(24))];
    const fit = fitTable(columns, options());
    expect(fit.parts).toHaveLength(1);
    expect(fit.scale).toBeCloseTo(0.9, 6);
  });

  it('shares columns out evenly, row heads in each part', () => {
    const columns = [column(100), ...Array.from({ length: 12 }, () => column(40))];
    const fit = fitTable(columns, options());
    expect(fit.parts.map(({ columns: numbers }) => numbers)).toEqual([
      [0, 1, 2, 3, 4, 5, 6],
      [0, 7, 8, 9, 10, 11, 12],
    ]);
  });

  it('never is wider than its room, and has every column', () => {
    const some = fc.record({
      narrowest: fc.integer({ min: 1, max: 900 }),
      more: fc.integer({ min: 0, max: 300 }),
      stretch: fc.integer({ min: 0, max: 2 }),
    });
    const property = fc.property(
      fc.array(some, { minLength: 1, maxLength: 45 }),
      fc.integer({ min: 0, max: 2 }),
      (made, rowHeads) => {
        const columns = made.map(({ narrowest, more, stretch }) =>
          column(narrowest, narrowest + more, stretch),
        );
        const { scale, parts } = fitTable(columns, options({ rowHeads }));
        for (const { widths } of parts) {
          const gaps = 10 * scale * (widths.length - 1);
          expect(widths.reduce((sum, width) => sum + width, gaps)).toBeLessThanOrEqual(400.01);
          expect(Math.min(...widths)).toBeGreaterThan(0);
        }
        const all = new Set(parts.flatMap(({ columns: numbers }) => numbers));
        expect(all.size).toBe(columns.length);
      },
    );
    fc.assert(property, { numRuns: 300, seed: 5 });
  });
});
