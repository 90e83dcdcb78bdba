/** Plots of the grade: what stands higher on the page is larger, by as much, and nothing leaves the frame. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawPlot, plotScale } from '../../src/press/drawing/index.ts';
import type { Drawing } from '../../src/press/drawing/drawing.ts';

const SIZES = ['S', 'M', 'L', 'XL'];

const plot = (values: readonly (number | null)[], body?: readonly number[]): Drawing =>
  drawPlot({
    sizes: SIZES,
    unit: 'in',
    widthPoints: 246,
    heightPoints: 150,
    numberText: String,
    series: [
      ...(body ? [{ name: 'body', values: body, look: 'dashed' as const, isLabelled: false }] : []),
      { name: 'finished', values, look: 'solid' as const, isLabelled: true },
    ],
  });

/** Corners of the thick line, which joins the values. */
const corners = ({ shapes }: Drawing): readonly (readonly [number, number])[] =>
  shapes.flatMap((shape) =>
    shape.kind === 'path' && shape.stroke?.widthPoints === 1.3
      ? shape.steps.flatMap((step) =>
          step[0] === 'M' || step[0] === 'L' ? [[step[1], step[2]] as const] : [],
        )
      : [],
  );

const length = fc.integer({ min: 4, max: 240 }).map((quarters) => quarters / 4);

describe('a plot', () => {
  it('sets sizes at equal steps and values to one scale', () => {
    const points = corners(plot([34, 38, 42, 50]));
    const steps = points.slice(1).map(([x], at) => x - points[at]![0]);
    for (const step of steps) expect(step).toBeCloseTo(steps[0]!, 9);
    const rises = points.slice(1).map(([, y], at) => points[at]![1] - y);
    // 4, 4 and 8 inches.
    expect(rises[1]).toBeCloseTo(rises[0]!, 9);
    expect(rises[2]).toBeCloseTo(2 * rises[0]!, 9);
  });

  it('keeps every value inside its frame, whatever they are', () => {
    fc.assert(
      fc.property(fc.array(length, { minLength: 4, maxLength: 4 }), (values) => {
        for (const [x, y] of corners(plot(values))) {
          expect(x).toBeGreaterThan(0);
          expect(x).toBeLessThan(246);
          expect(y).toBeGreaterThanOrEqual(20 - 1e-9);
          expect(y).toBeLessThanOrEqual(150 - 16 + 1e-9);
        }
      }),
    );
  });

  it('draws no line over a size that has no value', () => {
    expect(corners(plot([34, null, 42, 46]))).toHaveLength(2);
  });

  it('tells its lines apart without colour: by dash, by dot and by name', () => {
    const { shapes } = plot([34, 38, 42, 46], [30, 34, 38, 42]);
    const paths = shapes.filter((shape) => shape.kind === 'path');
    expect(paths.filter(({ stroke }) => stroke?.dash !== undefined).length).toBeGreaterThan(0);
    const inks = new Set(paths.flatMap(({ fill, stroke }) => [fill, stroke?.colour]));
    for (const ink of inks) if (ink !== undefined) expect(ink).toMatch(/^#(..)\1\1$/);
    const texts = shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
    expect(texts).toEqual(expect.arrayContaining(['body', 'finished', 'in', ...SIZES]));
  });
});

describe('a scale', () => {
  it.each([
    { values: [34, 66], from: 30, to: 70, step: 10 },
    { values: [7.25, 10.25], from: 7, to: 11, step: 1 },
    { values: [18], from: 17.5, to: 18.5, step: 0.5 },
  ])('for $values has round steps', ({ values, ...scale }) => {
    expect(plotScale(values)).toEqual(scale);
  });

  it('holds all values in at most eight steps', () => {
    fc.assert(
      fc.property(fc.array(length, { minLength: 1, maxLength: 9 }), (values) => {
        const { from, to, step } = plotScale(values);
        expect(from).toBeLessThanOrEqual(Math.min(...values) + 1e-9);
        expect(to).toBeGreaterThanOrEqual(Math.max(...values) - 1e-9);
        expect((to - from) / step).toBeLessThanOrEqual(8);
      }),
    );
  });
});
