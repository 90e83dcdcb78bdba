/**
 * Pictures of the Undertow Shawl: pinned out with its tip below, and the lace close up. Each half is
 * grown from the chart, from one stitch to its lower edge, and turned to the spine.
 */
import { stitchesOf, swatchOf } from './bundle-source.ts';
import type { Fabric } from './fabric.ts';
import { growFabric, panelFabric } from './grown.ts';
import { closeUp, onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import type { Scene } from './picture.ts';

const NAME = 'undertow-shawl';
/** Pinned out, the halves give in height what they gain in width, until the top edge is straight. */
const PINNED = 1.13;
const STITCH = (4 / 18) * PINNED;
const ROW = 4 / 28 / PINNED;
const YARN_RADIUS = 0.03;

const repeat = (stitch: string, times: number): string[] =>
  Array.from({ length: times }, () => stitch);

/** One half: six plain rows, the chart again and again, a garter border. */
function halfFabric(charts: number): Fabric {
  const chart = stitchesOf(NAME, 'chart-a');
  const rows: string[][] = [];
  let count = 1;
  const grow = (face: string): void => {
    rows.push(['yo', ...repeat(face, count), 'yo'], repeat(face === 'p' ? 'k' : face, count + 2));
    count += 2;
  };
  for (let pair = 0; pair < 3; pair += 1) grow('k');
  for (let time = 0; time < charts; time += 1)
    chart.forEach((row, index) => {
      // Drawn: four squares of the left edge, the box of six, three of the right edge.
      const [left, box, right] = [row.slice(0, 4), row.slice(4, 10), row.slice(10)];
      const boxes = (count - 1) / 6;
      rows.push([...left, ...Array.from({ length: boxes }, () => box).flat(), ...right]);
      if (index === 5) count += 6;
    });
  for (let pair = 0; pair < 4; pair += 1) grow('p');
  return growFabric(rows, { start: 1, purlDepth: 0, settling: 1 });
}

/** Angle between the middle of a half and its edges. */
const HALF_ANGLE = Math.PI / 4;

export function shawlSpread(): Scene {
  const view: View = { widthPixels: 1800, heightPixels: 1200, origin: [900, 205], pixelsPerInch: 28.5, waves: 0.4 }; // prettier-ignore
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS * 1.1, view.pixelsPerInch);
  const fabric = halfFabric(24);
  const half = (side: 1 | -1, seed: number) => {
    const piece: Piece = {
      fabric,
      stitchInches: STITCH,
      heightOf: (row) => row * ROW,
      at: [side * 0.22, 0],
      // From standing on its point to hanging from it, with one edge along the spine.
      turn: Math.PI - side * HALF_ANGLE,
      foldLeft: 0,
      foldRight: 0,
      topEdge: true,
      open: true,
    };
    return pieceStrands(piece, put, yarn, seed);
  };
  const spine: Piece = {
    fabric: panelFabric({ rows: 222, left: () => -0.6, right: () => 0.6, kind: () => 'knit' }),
    stitchInches: STITCH,
    heightOf: (row) => row * ROW,
    at: [0, 0],
    turn: Math.PI,
    foldLeft: 0,
    foldRight: 0,
  };
  const strands = [...half(1, 3), ...half(-1, 8), ...pieceStrands(spine, put, yarn, 4)];
  return onBoards(view, strands, { boards: '#6f665c', exposure: 0.9, seed: 41 });
}

export function shawlClose(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1500, origin: [750, 750], pixelsPerInch: 330 };
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS * 1.15, view.pixelsPerInch);
  const scene = closeUp(halfFabric(9), {
    view: { ...view, turn: Math.PI },
    stitchInches: STITCH,
    rowInches: ROW,
    middleRow: 40,
    yarn,
    exposure: 0.95,
    seed: 6,
    reach: 0,
  });
  return {
    ...scene,
    strands: scene.strands.filter(({ yarn: { relief } }) => relief > 0),
    ground: (_x, _y, shade, into) => into.fill(0.045 * (1 - 0.6 * shade)),
    shadow: { fallX: 12, fallY: 14, softness: 16 },
  };
} // prettier-ignore
