/**
 * Outlines against closed forms: what rows worked at a known gauge make is a rectangle, a trapezoid, a
 * cone, two triangles at a spine, and their areas and sides follow from geometry. At 20 sts and 28 rows
 * over 4 in a stitch is 1/5 in wide and a row 1/7 in high.
 */
import { describe, expect, it } from 'vitest';
import { printFindings } from '../../src/findings/text.ts';
import { fabricAreas } from '../../src/pattern/outlines/areas.ts';
import { outlineFromRows, type PieceOutline } from '../../src/pattern/outlines/index.ts';
import {
  areaInside,
  edgeLine,
  type Point,
  thinned,
  widthAt,
} from '../../src/pattern/outlines/shape.ts';
import { checked, codes, dataWith, PLAIN } from './bundle.ts';

type Line = string | { readonly id: string; readonly text: string };

interface Drawn {
  readonly outline: string;
  readonly form?: 'flat' | 'round';
  readonly measurements: Readonly<Record<string, unknown>>;
}

/** One piece in one size, drawn; each measurement is given as role → its derivation and stated inches. */
function drawn({ outline, form = 'flat', measurements }: Drawn, ...lines: readonly Line[]) {
  const roles = Object.entries(measurements);
  return dataWith({
    sizes: ['one'],
    body: [],
    pieces: [{ id: 'piece', title: 'back', form, gauge: 'body', sections: [{ id: 'all', lines }] }],
    measurements: roles.map(([role, value], at) => ({
      id: `m-${role.toLowerCase()}`,
      name: role,
      letter: 'ABCDEFGH'[at],
      ...(value as object),
    })),
    schematic: [
      {
        piece: 'piece',
        title: 'back',
        outline,
        measurements: Object.fromEntries(roles.map(([role]) => [role, `m-${role.toLowerCase()}`])),
      },
    ],
  });
}

const given = (inches: number) => ({ size: { in: inches }, from: { given: true } });

function outlineOf(data: ReturnType<typeof drawn>): PieceOutline {
  const pattern = checked(data);
  expect(pattern.findings.filter(({ code }) => /^(count|notation)/.test(code))).toEqual([]);
  const [entry] = data.schematic;
  const outline = entry && outlineFromRows(pattern, entry, 0);
  if (!outline) throw new Error('the rows make no outline');
  return outline;
}

const inchesAt = ({ places }: PieceOutline, role: string) =>
  places.find((place) => place.role === role)?.inches;

describe('flat pieces', () => {
  it('a rectangle of 50 sts and 70 rows is 10 by 10 in', () => {
    const data = drawn(
      { outline: 'rectangle', measurements: { width: given(10), length: given(10) } },
      'Cast on 50 sts.',
      'Work in stockinette for 70 rows.',
      'Bind off all sts.',
    );
    const outline = outlineOf(data);
    expect([outline.widthInches, outline.heightInches]).toEqual([expect.closeTo(10, 9), expect.closeTo(10, 9)]); // prettier-ignore
    expect(areaInside(outline.edge)).toBeCloseTo(100, 6);
    expect([inchesAt(outline, 'width'), inchesAt(outline, 'length')]).toEqual([expect.closeTo(10, 9), expect.closeTo(10, 9)]); // prettier-ignore
    const [area] = fabricAreas(checked(data), 0);
    expect(area?.squareInches).toBeCloseTo(100, 6);
  });

  it('a sleeve that grows from 40 to 80 sts is a trapezoid, straight but for a stitch', () => {
    const outline = outlineOf(
      drawn(
        { outline: 'sleeve', measurements: { cuff: given(8), upperArm: given(16), length: given(20) } },
        'Cast on 40 sts.',
        'Inc 1 st each end every 6 rows 20 times. 80 sts.',
        'Work even for 20 rows.',
        'Bind off all sts.',
      ),
    ); // prettier-ignore
    expect(inchesAt(outline, 'cuff')).toBeCloseTo(8, 9);
    expect(inchesAt(outline, 'upperArm')).toBeCloseTo(16, 9);
    expect(inchesAt(outline, 'length')).toBeCloseTo(20, 9);
    // 120 rows of slope and 20 straight: (8 + 16) / 2 × 120/7 + 16 × 20/7 sq in.
    const area = (12 * 120) / 7 + (16 * 20) / 7;
    expect(Math.abs(areaInside(outline.edge) - area) / area).toBeLessThan(0.02);
    expect(outline.edge.length).toBeLessThan(14);
  });

  it('shoulders, neck and armholes are found on the shape', () => {
    const data = drawn(
      {
        outline: 'body',
        measurements: { width: given(20), length: given(20), neck: given(6), shoulder: given(5), crossBack: { size: { in: 16 }, from: { width: 'piece/armhole' } } },
      },
      'Cast on 100 sts.',
      'Work in stockinette for 98 rows.',
      'Bind off 6 sts at beg of next 2 rows. 88 sts.',
      { id: 'armhole', text: 'Dec 1 st each end every 2 rows 4 times. 80 sts.' },
      'Work even for 26 rows.',
      'Bind off 9 sts at beg of next 2 rows. 62 sts.',
      'Bind off 8 sts at beg of next 4 rows. 30 sts.',
      'Bind off all sts.',
    ); // prettier-ignore
    const outline = outlineOf(data);
    expect(inchesAt(outline, 'width')).toBeCloseTo(20, 9);
    expect(inchesAt(outline, 'crossBack')).toBeCloseTo(16, 9);
    expect(inchesAt(outline, 'neck')).toBeCloseTo(6, 9);
    expect(inchesAt(outline, 'shoulder')).toBeCloseTo(5, 9);
    expect(outline.heightInches).toBeCloseTo(20, 9); // 140 rows
    // Alike on both sides, though the left edge is shaped a row later.
    for (const y of [3, 8, 12, 17]) {
      const cut = widthAt(outline.edge, y);
      expect((cut?.left ?? 0) + (cut?.right ?? 0)).toBeCloseTo(20, 6);
    }
  });
});

describe('pieces in the round', () => {
  it('a hat is drawn half as wide as it goes round, and its crown is a cone', () => {
    const outline = outlineOf(
      drawn(
        { outline: 'hat', form: 'round', measurements: { circumference: given(20), height: given(9) } },
        'Cast on 100 sts.',
        'Place marker and join to work in the round.',
        'Knit 42 rnds.',
        'Rnd 1: *k8, k2tog; rep from * to end. 90 sts.',
        'Rnd 2: Knit.',
        'Rnd 3: *k7, k2tog; rep from * to end. 80 sts.',
        'Rnd 4: Knit.',
        'Rnd 5: *k6, k2tog; rep from * to end. 70 sts.',
        'Rnd 6: Knit.',
        'Rnd 7: *k5, k2tog; rep from * to end. 60 sts.',
        'Rnd 8: Knit.',
        'Rnd 9: *k4, k2tog; rep from * to end. 50 sts.',
        'Rnd 10: Knit.',
        'Break yarn, draw through rem sts and fasten off.',
      ),
    ); // prettier-ignore
    expect(outline.widthInches).toBeCloseTo(10, 9);
    expect(inchesAt(outline, 'circumference')).toBeCloseTo(20, 9);
    expect(outline.heightInches).toBeCloseTo(52 / 7, 9);
    // The side of a cone is straight: half way up the crown the width is half way between its ends.
    const half = widthAt(outline.edge, 5 / 7);
    expect(Math.abs((half?.right ?? 0) - (half?.left ?? 0) - 7.5)).toBeLessThan(0.6);
  });

  it('a shawl from the neck is two triangles at a spine', () => {
    const data = drawn(
      { outline: 'triangle', measurements: { width: given(20.4), length: given(10.2) } },
      'Cast on 5 sts.',
      'Knit 1 row.',
      'Set-up row (WS): p2, pm, p1, pm, p2.',
      'Row 1 (RS): k1, yo, k to m, yo, sm, k1, sm, yo, k to last st, yo, k1. 9 sts.',
      'Row 2 (WS): Purl.',
      'Rep Rows 1 and 2 29 more times. 125 sts.',
      'Bind off all sts.',
    );
    const outline = outlineOf(data);
    // Half of the last row is 62½ sts, 12½ in; 61 rows are 8.71 in: the sides are √(6.25² + 8.71²).
    const side = Math.hypot(6.25, 61 / 7);
    expect(inchesAt(outline, 'length')).toBeCloseTo(side, 6);
    expect(inchesAt(outline, 'width')).toBeCloseTo(2 * side, 6);
    expect(areaInside(outline.edge)).toBeCloseTo(12.5 * (61 / 7), 6);
  });
});

describe('a measurement that stands at the wrong place', () => {
  const lines = ['Cast on 50 sts.', 'Work in stockinette for 70 rows.', 'Bind off all sts.'];
  const rectangle = (width: unknown) =>
    drawn({ outline: 'rectangle', measurements: { width, length: given(10) } }, ...lines);

  it('is told with what the rows make', () => {
    const data = rectangle(given(12));
    expect(codes(data)).toEqual(['grade/outline']);
    expect(printFindings(checked(data).findings)).toMatch(/the rows make 10 in[^]*stated is 12/);
  });

  it('passes within a stitch, and where its own counts are wrong is told once', () => {
    expect(codes(rectangle(given(10.2)))).toEqual([]);
    const counted = { size: { in: 12 }, from: { width: 'piece' } };
    expect(codes(rectangle(counted))).toEqual(['measure/does-not-follow']);
  });
});

describe('lines of an edge', () => {
  const steps = (...outs: readonly number[]) =>
    outs.map((out, at) => ({ low: at / 7, high: (at + 1) / 7, out, stitch: 0.2, gauge: 'body' }));

  it('stitches bound off at once stay a step, single ones become a slope', () => {
    const line = edgeLine(steps(5, 5, 5, 5, 5, 5, 5, 5, 5, 4, 4, 4, 4, 4, 4, 4, 4, 4), { smooth: false, tolerance: 0.1 }); // prettier-ignore
    expect(line).toContainEqual([5, 9 / 7]);
    expect(line).toContainEqual([4, 9 / 7]);
    const slope = edgeLine(steps(...Array.from({ length: 40 }, (_, at) => 5 - 0.2 * Math.floor(at / 4))), { smooth: false, tolerance: 0.12 }); // prettier-ignore
    expect(slope.length).toBeLessThanOrEqual(4);
  });

  it('thinning never moves a line further than its tolerance', () => {
    const points = Array.from({ length: 60 }, (_, at): Point => [Math.sin(at / 9), at / 9]);
    const kept = thinned(points, 0.05);
    expect(kept.length).toBeLessThan(20);
    for (const point of points)
      expect(Math.min(...kept.slice(1).map((end, at) => away(point, kept[at] as Point, end)))).toBeLessThan(0.0501); // prettier-ignore
  });
});

function away([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

describe('swatches, yarn, tables, room', () => {
  const [gauge] = PLAIN.gauges;
  const swatch = (more: object) => [{ ...gauge, swatch: more }];

  it('a gauge is the mean of its readings, to the half stitch', () => {
    const readings = [{ stitches: 20, rows: 28 }, { stitches: 20.5, rows: 28 }, { stitches: 19.5, rows: 28 }]; // prettier-ignore
    expect(codes(dataWith({ gauges: swatch({ readings }) }))).toEqual([]);
    expect(codes(dataWith({ gauges: swatch({ readings: [{ stitches: 21, rows: 28 }] }) }))).toEqual(['grade/gauge']); // prettier-ignore
    const apart = [{ stitches: 18, rows: 28 }, { stitches: 22, rows: 28 }]; // prettier-ignore
    expect(codes(dataWith({ gauges: swatch({ readings: apart }) }))).toEqual(['grade/spread']);
  });

  it('yarn by the weight of the swatch: 97 sts by 28 rows are 77.6 sq in', () => {
    // A swatch of 4 by 4 in weighs 8 g: half a gram a square inch, 38.8 g in the smallest size.
    const gauges = swatch({ width: { in: 4 }, length: { in: 4 }, grams: 8 });
    const yarns = (grams: unknown) => [
      { ...PLAIN.yarns[0], colours: [{ ...PLAIN.yarns[0].colours[0], grams }] },
    ];
    expect(codes(dataWith({ gauges, yarns: yarns('43 (47, 52)') }))).toEqual([]);
    const short = checked(dataWith({ gauges, yarns: yarns('38 (47, 52)') }));
    expect(short.findings.map(({ code, sizes }) => [code, sizes])).toEqual([['grade/yarn', ['S']]]);
    expect(printFindings(short.findings)).toMatch(/take 43 g[^]*stated are 38 g/);
    expect(codes(dataWith({ gauges, yarns: yarns('43 (47, 90)') }))).toEqual(['grade/yarn']);
    expect(codes(dataWith({ yarns: yarns('1') }))).toEqual([]); // nothing was weighed
  });

  it('body measurements that are said to be of a table lie in it', () => {
    const body = (inches: string, table?: string) => [{ part: 'bust', size: { in: inches }, ...(table && { table }) }]; // prettier-ignore
    expect(codes(dataWith({ body: body('34 (38, 42)', 'woman') }))).toEqual([]);
    expect(codes(dataWith({ body: body('34 (39, 42)', 'woman') }))).toContain('grade/table');
    expect(codes(dataWith({ body: body('34 (39, 42)') }))).toEqual([]); // the designer's own
  });

  it('the room over the body does not turn from one size to the next', () => {
    const [bust] = PLAIN.measurements;
    const measurements = [{ ...bust, size: { in: '38 (37, 46)' } }];
    expect(codes(dataWith({ measurements }))).toContain('grade/ease');
  });
});
