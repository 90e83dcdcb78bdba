/**
 * Undertow Shawl, calculated by hand: a triangle from a garter tab, with a lace chart whose rows grow.
 * The lace is worked here as lists of stitches. No code of the checker is used; what is worked out
 * here must stand in the bundle word for word.
 */
import { describe, expect, it } from 'vitest';
import { both, linesOf, readStarter, sizeOf } from './paper.ts';

const bundle = readStarter('undertow-shawl');

// 18 sts and 28 rows over 4 in of blocked lace.
const [sts, rows] = [18 / 4, 28 / 4];

// Three border stitches, a half, the spine, a half, three border stitches.
const all = (half: number): number => 3 + half + 1 + half + 3;

const plain = 'k3, sm, yo, k to m, yo, sm, k1, sm, yo, k to m, yo, sm, k3.';
const lace = 'k3, sm, work Chart A to m, sm, k1, sm, work Chart A to m, sm, k3.';

describe('Undertow Shawl, by hand', () => {
  it('begins with a garter tab: three, three along six rows, three along the cast-on', () => {
    // Six garter rows are three ridges: one stitch in each.
    expect(3 + 6 / 2 + 3).toBe(all(1));
    expect(linesOf(bundle, 'shawl', 'tab')).toEqual([
      'Cast on 3 sts.',
      'Knit 6 rows.',
      `Next row (RS): k3, pick up and k 3 sts along side edge, pick up and k 3 sts along cast-on edge. ${all(1)} sts.`,
      'Set-up row (WS): k3, pm, p1, pm, p1, pm, p1, pm, k3.',
    ]);
  });

  it('grows by two in each half on every right-side row', () => {
    expect(linesOf(bundle, 'shawl', 'plain')).toEqual([
      `Row 1 (RS): ${plain} ${all(1 + 2)} sts.`,
      'Row 2 (WS): k3, p to last 3 sts, k3.',
      `Rep Rows 1 and 2 2 more times. ${all(1 + 3 * 2)} sts.`,
    ]);
  });

  // What the characters of the chart take and make: knit, yarn over, two decreases, a double one.
  const flow: Record<string, readonly [number, number]> = {
    '.': [1, 1],
    o: [0, 1],
    '/': [2, 1],
    '`': [2, 1],
    '^': [3, 1],
    x: [0, 0],
  };

  /** Works one drawn row over a half; the box of six is repeated as often as it fits. */
  function workRow(drawn: string, half: number): number {
    const takes = (cells: string): number => count(cells, 0);
    const makes = (cells: string): number => count(cells, 1);
    const count = (cells: string, which: 0 | 1): number =>
      cells.split('').reduce((sum, cell) => sum + (flow[cell]?.[which] ?? Number.NaN), 0);
    // Drawn from left to right: four cells of the left edge, the box of six, three of the right edge.
    const [left, box, right] = [drawn.slice(0, 4), drawn.slice(4, 10), drawn.slice(10)];
    const times = (half - takes(left) - takes(right)) / takes(box);
    expect(Number.isInteger(times)).toBe(true);
    return makes(left) + times * makes(box) + makes(right);
  }

  it('grows by six in each half with every chart, always one more repeat', () => {
    const drawn = bundle.charts[0]?.rows.toReversed() ?? [];
    expect(drawn.length).toBe(6);
    let half = 7; // one repeat of six and one to balance
    const after: number[] = [];
    for (let chart = 1; chart <= 24; chart += 1) {
      for (const row of drawn) {
        half = workRow(row, half);
        if (chart === 1) after.push(all(half));
      }
      expect(half).toBe(7 + 6 * chart);
    }
    // Right-side rows add four; wrong-side rows keep the count.
    expect(after).toEqual([25, 25, 29, 29, 33, 33]);
    expect(linesOf(bundle, 'shawl', 'lace')).toEqual([
      `Row 1 (RS): ${lace} 25 sts.`,
      'Row 2 and all WS rows: k3, sm, work Chart A to m, sm, p1, sm, work Chart A to m, sm, k3.',
      `Row 3 (RS): ${lace} 29 sts.`,
      `Row 5 (RS): ${lace} 33 sts.`,
      `Rep Rows 1–6 23 more times. ${all(half)} sts.`,
    ]);
    expect(linesOf(bundle, 'shawl', 'border').slice(0, 3)).toEqual([
      `Row 1 (RS): ${plain} ${all(half + 2)} sts.`,
      'Row 2 (WS): Knit.',
      `Rep Rows 1 and 2 3 more times. ${all(half + 8)} sts.`,
    ]);
    expect(all(half + 8)).toBe(325);
  });

  // Each half is a triangle: the lower edge as wide as its stitches, as high as the rows since the tab.
  const edge = (7 + 24 * 6 + 8) / sts;
  const height = (6 + 24 * 6 + 8) / rows;

  it('measures what the counts give', () => {
    expect(sizeOf(bundle, 'edge')).toEqual(both([edge]));
    expect(sizeOf(bundle, 'height')).toEqual(both([height]));
    // Its two equal sides, by Pythagoras: one lies along the spine, the other along the top.
    const side = Math.hypot(height, edge / 2);
    expect(sizeOf(bundle, 'spine')).toEqual(both([side]));
    expect(sizeOf(bundle, 'wingspan')).toEqual(both([2 * side]));
  });

  it('has yarn enough', () => {
    // A blocked swatch of lace, 6 × 6 in and well stretched, weighs 3.8 g; 10 % to spare.
    const grams = ((edge * height) / 36) * 3.8 * 1.1;
    const colour = bundle.yarns[0]?.colours[0];
    expect(colour?.grams).toBe(Math.ceil(grams / 5) * 5);
    expect(grams).toBeLessThan(100 * Number(colour?.balls));
    expect(bundle.yarns[0]?.ball.yards).toBe(Math.round(400 / 0.9144));
  });
});
