/**
 * Chart symbols. Every stitch of the catalogue has a picture, no two symbol names share one, and the
 * pictures are those that JIS L 0201:1995 describes (descriptions beside each case).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CATALOGUE, SYMBOL_NAMES, usualCables } from '../../src/pattern/stitches/index.ts';
import type { Crossing } from '../../src/pattern/stitches/index.ts';
import type { PathStep } from '../../src/press/drawing/drawing.ts';
import { cableGlyph } from '../../src/press/drawing/symbols/cable.ts';
import { mirrored, type Glyph } from '../../src/press/drawing/symbols/glyph.ts';
import { DRAWN_BY_RULE, symbolOf } from '../../src/press/drawing/symbols/index.ts';

const pointsOf = (steps: readonly PathStep[]): [number, number][] =>
  steps.flatMap((step): [number, number][] => {
    if (step[0] === 'Z') return [];
    return step[0] === 'C' ? [[step[5], step[6]]] : [[step[1], step[2]]];
  });

const symbolNamed = (name: string) => {
  const stitch = CATALOGUE.all.find(({ symbol }) => symbol === name);
  if (!stitch) throw new Error(`no stitch shows ${name}`);
  return symbolOf(stitch);
};

const glyphNamed = (name: string): Glyph => {
  const stitch = CATALOGUE.lookup(name);
  if (!stitch) throw new Error(`no stitch ${name}`);
  return symbolOf(stitch).glyph;
};

/** The straight strokes of a symbol, each as its two ends, the upper one first. */
const strokesOf = (glyph: Glyph) =>
  glyph
    .map(({ steps }) => pointsOf(steps))
    .filter((points) => points.length === 2)
    .map((points) => points.toSorted((a, b) => a[1] - b[1]));

describe('the catalogue is drawn', () => {
  test('every symbol name has a drawing of its own, or is listed as drawn by rule', () => {
    const without = SYMBOL_NAMES.filter((name) => !symbolNamed(name).own);
    expect(without.toSorted()).toEqual(
      DRAWN_BY_RULE.filter((name) => name !== 'custom').toSorted(),
    );
  });

  test('two symbol names never share a drawing', () => {
    const looks = new Map<string, string[]>();
    for (const name of SYMBOL_NAMES.filter((entry) => !DRAWN_BY_RULE.includes(entry))) {
      const look = JSON.stringify(symbolNamed(name).glyph);
      looks.set(look, [...(looks.get(look) ?? []), name]);
    }
    expect([...looks.values()].filter((names) => names.length > 1)).toEqual([]);
  });

  test('only the knit stitch leaves its cell empty', () => {
    expect(SYMBOL_NAMES.filter((name) => symbolNamed(name).glyph.length === 0)).toEqual(['knit']);
  });

  test('every drawing stays inside its cells', () => {
    for (const stitch of [...CATALOGUE.all, ...usualCables()]) {
      const { glyph, columns } = symbolOf(stitch);
      for (const [x, y] of glyph.flatMap(({ steps }) => pointsOf(steps))) {
        expect(x, stitch.name).toBeGreaterThanOrEqual(0);
        expect(x, stitch.name).toBeLessThanOrEqual(columns);
        expect(y, stitch.name).toBeGreaterThanOrEqual(0);
        expect(y, stitch.name).toBeLessThanOrEqual(1);
      }
    }
  });

  test('a stitch that nobody has drawn is drawn from its counts and lean', () => {
    const own = { symbol: 'custom', lean: 'left', face: 'knit' } as const;
    expect(symbolOf({ ...own, takes: 3, makes: 1 }).glyph).toEqual(glyphNamed('sssk'));
    expect(symbolOf({ ...own, takes: 1, makes: 3 }).glyph).toEqual(glyphNamed('kfbf'));
    expect(symbolOf({ ...own, takes: 1, makes: 1 })).toMatchObject({ own: false, columns: 1 });
  });
});

describe('drawings follow the descriptions of JIS L 0201:1995', () => {
  test('裏目, purl: a horizontal bar', () => {
    const [bar, ...rest] = strokesOf(glyphNamed('p'));
    expect(rest).toEqual([]);
    expect(bar?.[0]?.[1]).toBe(bar?.[1]?.[1]);
  });

  test('左上2目一度, k2tog: a long stroke from top right, a short leg at the lower right', () => {
    const [long, leg] = strokesOf(glyphNamed('k2tog'));
    const [longTop, longFoot] = long ?? [];
    const [legTop, legFoot] = leg ?? [];
    expect(longTop?.[0]).toBeGreaterThan(longFoot?.[0] ?? NaN);
    expect(legFoot?.[0]).toBeGreaterThan(legTop?.[0] ?? NaN);
    expect((longFoot?.[1] ?? 0) - (longTop?.[1] ?? 0)).toBeGreaterThan(
      1.5 * ((legFoot?.[1] ?? 0) - (legTop?.[1] ?? 0)),
    );
  });

  test.each([
    ['右上2目一度, ssk', 'ssk', 'k2tog'],
    ['右上3目一度, sssk', 'sssk', 'k3tog'],
    ['right and left increase of the row below', 'LLI', 'RLI'],
    ['right and left twist', 'LT', 'RT'],
  ])('%s mirrors its opposite', (_, left, right) => {
    const width = CATALOGUE.lookup(left)?.crossing ? 2 : 1;
    const image = new Set(mirrored(glyphNamed(right), width).map(({ steps }) => JSON.stringify(steps.flat().map((value) => (typeof value === 'number' ? Math.round(value * 1e6) : value))))); // prettier-ignore
    const drawn = glyphNamed(left).map(({ steps }) => JSON.stringify(steps.flat().map((value) => (typeof value === 'number' ? Math.round(value * 1e6) : value)))); // prettier-ignore
    expect(drawn.filter((look) => !image.has(look))).toEqual([]);
  });

  test('左上3目一度 and 右上3目一度 have three legs, 中上3目一度 a vertical stroke with two shoulders', () => {
    for (const name of ['k3tog', 'sssk'])
      expect(glyphNamed(name).flatMap(({ steps }) => pointsOf(steps)).filter(([, y]) => y > 0.8)).toHaveLength(3); // prettier-ignore
    const [upright] = strokesOf(glyphNamed('s2kp'));
    expect(upright?.[0]?.[0]).toBe(upright?.[1]?.[0]);
  });

  test.each(['p2tog', 'ssp', 'p3tog', 's2pp', 'm1p', 'p tbl', 'LLPI'])(
    'the purl form %s is its knit form over a bar',
    (name) => {
      const bar = strokesOf(glyphNamed(name)).filter(([a, b]) => a?.[1] === b?.[1] && (a?.[1] ?? 0) > 0.85); // prettier-ignore
      expect(bar).toHaveLength(1);
    },
  );
});

describe('cables follow from width and lean', () => {
  const crossings: fc.Arbitrary<Crossing> = fc.record({
    left: fc.integer({ min: 1, max: 20 }),
    right: fc.integer({ min: 1, max: 20 }),
    lean: fc.constantFrom('left', 'right'),
    purlBehind: fc.boolean(),
    twisted: fc.constant(false),
  });

  /** The two long edges of the strand in front are drawn last. */
  const frontOf = (glyph: Glyph) => strokesOf(glyph.slice(-2));

  test('any width: the strand in front is unbroken and moves to the side it leans to', () => {
    fc.assert(
      fc.property(crossings, (crossing) => {
        const [leftEdge, rightEdge] = frontOf(cableGlyph(crossing));
        const moves = (edge: typeof leftEdge) => (edge?.[0]?.[0] ?? 0) - (edge?.[1]?.[0] ?? 0);
        const travel = crossing.lean === 'left' ? -crossing.right : crossing.left;
        for (const edge of [leftEdge, rightEdge]) {
          expect(moves(edge)).toBeCloseTo(travel * 0.9, 6);
          expect((edge?.[1]?.[1] ?? 0) - (edge?.[0]?.[1] ?? 0)).toBeCloseTo(0.9, 6);
        }
      }),
    );
  });

  test('any width: nothing of the strand behind lies within the strand in front', () => {
    fc.assert(
      fc.property(crossings, (crossing) => {
        const glyph = cableGlyph(crossing);
        const [leftEdge, rightEdge] = frontOf(glyph);
        const at = (edge: typeof leftEdge, y: number) => {
          const [[x1, y1], [x2, y2]] = edge as [[number, number], [number, number]];
          return x1 + ((x2 - x1) * (y - y1)) / (y2 - y1);
        };
        for (const [x, y] of glyph.slice(0, -2).flatMap(({ steps }) => pointsOf(steps)))
          expect(x <= at(leftEdge, y) || x >= at(rightEdge, y)).toBe(true);
      }),
    );
  });

  test('any width: both ends look alike, turned by half a circle', () => {
    fc.assert(
      fc.property(crossings, (crossing) => {
        const width = crossing.left + crossing.right;
        const places = cableGlyph(crossing)
          .flatMap(({ steps }) => pointsOf(steps))
          .map(([x, y]) => `${x.toFixed(4)} ${y.toFixed(4)}`);
        const turned = cableGlyph({ ...crossing })
          .flatMap(({ steps }) => pointsOf(steps))
          .map(([x, y]) => `${(width - x).toFixed(4)} ${(1 - y).toFixed(4)}`);
        if (crossing.left === crossing.right) expect(turned.toSorted()).toEqual(places.toSorted());
      }),
    );
  });

  test('purled stitches behind carry bars, one at each end', () => {
    fc.assert(
      fc.property(crossings, (crossing) => {
        const bars = strokesOf(cableGlyph(crossing)).filter(([a, b]) => a?.[1] === b?.[1]);
        expect(bars).toHaveLength(crossing.purlBehind ? 2 : 0);
      }),
    );
  });

  test('LC and RC are mirror images', () => {
    const left: Crossing = { left: 3, right: 3, lean: 'left', purlBehind: false, twisted: false };
    const places = (glyph: Glyph) =>
      glyph.flatMap(({ steps }) => pointsOf(steps)).map(([x, y]) => `${x.toFixed(6)} ${y.toFixed(6)}`).toSorted(); // prettier-ignore
    expect(places(mirrored(cableGlyph({ ...left, lean: 'right' }), 6))).toEqual(
      places(cableGlyph(left)),
    );
  });
});
