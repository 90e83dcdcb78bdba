/**
 * Pictures of the Cold Front Mittens: a pair lying with the backs of the hands up, and the cable close
 * up. The left one is the right one in the mirror, but for its stitches.
 */
import { stitchesOf, swatchOf } from './bundle-source.ts';
import type { Fabric } from './fabric.ts';
import { growFabric, panelFabric } from './grown.ts';
import { closeUp, onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import type { Scene } from './picture.ts';

const NAME = 'cold-front-mittens';
const STITCH = 4 / 20;
const ROW = 4 / 28;
const RIB_ROW = 4 / 30;
const YARN_RADIUS = 0.044;
/** Size M: a back of 22 stitches over 20 of ribbing; 19 rounds of cuff, 37 to the tip, 11 of tip. */
const [RIB, BACK, CUFF_ROWS, HAND_ROWS] = [20, 22, 19, 37];
const SLOW = 4;

const repeat = (stitch: string, times: number): string[] =>
  Array.from({ length: Math.max(0, times) }, () => stitch);

/** The back of a hand from cuff to tip, with as much palm at the edges as folds into sight. */
function backFabric(): Fabric {
  const chart = stitchesOf(NAME, 'chart-a');
  const rows: string[][] = [];
  const rib = Array.from({ length: RIB / 4 }, () => ['p', 'k', 'k', 'p']).flat();
  for (let row = 0; row < CUFF_ROWS; row += 1) rows.push(rib);
  const middle = RIB / 2 - 1;
  rows.push([...repeat('k', middle), 'yo', 'k', 'k', 'yo', ...repeat('k', middle)]);
  const side = repeat('k', (BACK - 10) / 2);
  for (let row = 0; row < HAND_ROWS; row += 1)
    rows.push([...side, ...(chart[row % chart.length] ?? []), ...side]);
  const into = RIB / 2 - 2;
  rows.push([...repeat('k', into), 'k2tog', 'k', 'k', 'ssk', ...repeat('k', into)]);
  let count = RIB;
  for (let row = 0; count > 3; row += 1) {
    const shapes = row % 2 === 0 || row > 2 * SLOW;
    const edge = count > 5 ? ['k'] : [];
    const plain = repeat('k', shapes ? count - 4 - 2 * edge.length : count);
    rows.push(shapes ? [...edge, 'ssk', ...plain, 'k2tog', ...edge] : plain);
    if (shapes) count -= 2;
  }
  return growFabric(rows, { start: RIB, purlDepth: 0.26, settling: 1 });
}

/** Inches above the cast-on edge; the last stitches are drawn together, so their heads do not stand. */
const heightIn = (rows: number) => (row: number): number => {
  const at = Math.min(row, rows - 0.95);
  return Math.min(at, CUFF_ROWS) * RIB_ROW + Math.max(0, at - CUFF_ROWS) * ROW;
}; // prettier-ignore

const THUMB_ROWS = 16;

function thumb(side: 1 | -1, at: readonly [number, number], turn: number): Piece {
  const half = (row: number): number => (row < THUMB_ROWS - 3 ? 4 : 4 - (row - THUMB_ROWS + 4) * 0.9);
  return {
    fabric: panelFabric({ rows: THUMB_ROWS, left: (row) => -half(row), right: half, kind: () => 'knit' }),
    stitchInches: STITCH,
    heightOf: (row) => Math.min(row, THUMB_ROWS - 0.95) * ROW,
    left: (row) => -half(row),
    right: half,
    at,
    turn: side * turn,
    lift: -0.18,
    foldLeft: 0.45,
    foldRight: 0.45,
  };
} // prettier-ignore

export function mittensPair(): Scene {
  const view: View = { widthPixels: 1600, heightPixels: 1600, origin: [800, 1430], pixelsPerInch: 120, waves: 0.5 }; // prettier-ignore
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch);
  const fabric = backFabric();
  const mitten = (x: number, y: number, turn: number, side: 1 | -1, seed: number) => {
    const back: Piece = {
      fabric,
      stitchInches: STITCH,
      heightOf: heightIn(fabric.rows),
      at: [x, y],
      turn,
      foldLeft: 0.5,
      foldRight: 0.5,
      castOnEdge: true,
      topEdge: true,
    };
    const out: readonly [number, number] = [x + side * 1.75 + turn * 4, y - 4.6];
    return [
      ...pieceStrands(thumb(side, out, 0.52), put, yarn, seed + 40),
      ...pieceStrands(back, put, yarn, seed),
    ];
  };
  const strands = [...mitten(-3.55, 0, 0.05, 1, 3), ...mitten(3.6, 0.1, -0.06, -1, 8)];
  return onBoards(view, strands, { boards: '#d2c9bb', exposure: 0.9, seed: 31 });
}

export function mittensClose(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1500, origin: [750, 750], pixelsPerInch: 400, turn: 0.04 }; // prettier-ignore
  return closeUp(backFabric(), {
    view,
    stitchInches: STITCH,
    rowInches: ROW,
    middleRow: CUFF_ROWS + 22,
    yarn: yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch),
    exposure: 1,
    seed: 6,
    reach: 11,
  });
}
