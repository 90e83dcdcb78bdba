/**
 * Pictures of the Harbor Light Cardigan in its second size: fronts with their ropes on either side of
 * the band, sleeves set in, and one rope close up beside the band.
 */
import { stitchesOf, swatchOf } from './bundle-source.ts';
import type { Kind } from './fabric.ts';
import { growFabric, panelFabric } from './grown.ts';
import { closeUp, onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import { buttonStrands } from './neck.ts';
import type { Scene } from './picture.ts';
import type { Strand } from './yarn.ts';

const NAME = 'harbor-light-cardigan';
const STITCH = 4 / 20;
const ROW = 4 / 28;
const YARN_RADIUS = 0.0435;
/** Size S: fronts of 49; 7 rows' height of garter, 91 to the underarm, 52 of armhole. */
const [HEM, SIDE, DEPTH] = [7, 98, 52];
const ROWS = SIDE + DEPTH;
const LENGTH = ROWS * ROW;
/** Stitches from the side: plain, the panel (narrower than its ten), plain to the band. */
const [TO_ROPE, ROPE, FROM_ROPE] = [20, 8, 19];
const FRONT = TO_ROPE + ROPE + FROM_ROPE;
const HALF_BAND = 0.5;
const [STEP, SLOPE, NECK] = [5, 5, 15];

const rowHeight = (row: number): number => row * ROW;
const linear = (from: number, to: number, share: number): number =>
  from + (to - from) * Math.min(1, Math.max(0, share));
const plain = (_column: number, row: number): Kind =>
  row < HEM * 1.4 && row < HEM && row % 2 === 1 ? 'purl' : 'knit';

const armholeEdge = (row: number): number =>
  row < SIDE ? 0 : STEP + linear(0, SLOPE, (row - SIDE) / 12);
const neckEdge = (row: number): number =>
  FRONT - (row < SIDE ? 0 : linear(0, NECK, (row - SIDE) / 46));

/** A front, counted from its side seam; drawn as the left of the picture, the other is its mirror. */
function frontPieces(side: 1 | -1): Piece[] {
  const common = {
    stitchInches: STITCH,
    heightOf: rowHeight,
    mirrored: side > 0,
    foldRight: 0.1,
  } as const;
  const from = HALF_BAND * 0.9 + FRONT * STITCH;
  const inRope = (x: number): boolean => x > TO_ROPE && x < TO_ROPE + ROPE;
  const front: Piece = {
    ...common,
    fabric: panelFabric({
      rows: ROWS,
      left: armholeEdge,
      right: neckEdge,
      kind: plain,
      omit: (x, row) => row >= HEM && inRope(x),
    }),
    left: armholeEdge,
    right: neckEdge,
    at: [side * from, LENGTH],
    foldLeft: (row) => (row < SIDE - 3 ? 0.4 : 0.12),
    castOnEdge: true,
    topEdge: true,
  };
  // The panel crosses outward in the mirror: each front has its own chart.
  const chart = stitchesOf(NAME, 'chart-b');
  const rope: Piece = {
    ...common,
    fabric: growFabric(
      Array.from({ length: ROWS - HEM }, (_, row) => chart[(row + 6) % 8] ?? []),
      {
        start: 10,
        purlDepth: 0.28,
        settling: 1,
      },
    ),
    stitchInches: (STITCH * ROPE) / 10,
    heightOf: (row) => rowHeight(row + HEM),
    at: [side * (from - (TO_ROPE + ROPE / 2) * STITCH), LENGTH],
    foldLeft: 0,
    foldRight: 0,
  };
  return [front, rope];
}

/** The cap is drawn as high as it stands when it is eased in. */
const [CUFF, ARM, ARM_ROWS, CAP_ROWS] = [22, 32, 119, 41];
const ANGLE = (44 * Math.PI) / 180;

function sleevePiece(side: 1 | -1): Piece {
  const right = (row: number): number =>
    row < ARM_ROWS ? linear(CUFF, ARM, row / (ARM_ROWS - 12)) : linear(ARM - STEP, 9, ((row - ARM_ROWS) / CAP_ROWS) ** 1.15); // prettier-ignore
  const at = [-23.9, 16.35] as const;
  return {
    fabric: panelFabric({ rows: ARM_ROWS + CAP_ROWS, left: () => 0, right, kind: plain }),
    stitchInches: STITCH,
    heightOf: rowHeight,
    left: () => 0,
    right,
    at: side < 0 ? at : [-at[0], at[1]],
    turn: side < 0 ? ANGLE : -ANGLE,
    mirrored: side > 0,
    lift: -0.22,
    foldLeft: 0.4,
    foldRight: 0.4,
    castOnEdge: true,
  };
}

const garter = (_column: number, row: number): Kind => (row % 2 === 0 ? 'knit' : 'purl');

/** Garter along an edge: ten rows are an inch, turned to run with it. */
function bandPiece(length: number, at: readonly [number, number], turn: number, lift: number): Piece {
  const half = length / STITCH / 2;
  return {
    fabric: panelFabric({ rows: 10, left: () => -half, right: () => half, kind: garter }),
    stitchInches: STITCH,
    heightOf: (row) => row / 10,
    at,
    turn,
    lift,
    foldLeft: 0.06,
    foldRight: 0.06,
    castOnEdge: true,
    topEdge: true,
  };
} // prettier-ignore

function cardiganStrands(view: View): Strand[] {
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch);
  const vee = DEPTH * ROW;
  const slant = Math.atan2(NECK * STITCH, vee);
  const slantLength = Math.hypot(NECK * STITCH, vee) + 0.05;
  const inside: Piece = {
    fabric: panelFabric({ rows: DEPTH + 4, left: () => -20, right: () => 20, kind: () => 'purl' }),
    stitchInches: STITCH,
    heightOf: rowHeight,
    at: [0, vee + 0.45],
    lift: -0.36,
  };
  // Along each side of the V, its lower end at the top of the front band.
  const veeBand = (side: 1 | -1): Piece => {
    const [dx, dy] = [side * Math.sin(slant), -Math.cos(slant)];
    const middle = [dx * (slantLength / 2), vee + dy * (slantLength / 2)] as const;
    const out = 0.5;
    return bandPiece(slantLength, [middle[0] - Math.cos(slant) * out, middle[1] - side * Math.sin(slant) * out], Math.PI / 2 + side * slant, side > 0 ? 0.1 : 0.16); // prettier-ignore
  };
  const straight = LENGTH - vee;
  const buttons = Array.from({ length: 5 }, (_, index) =>
    buttonStrands(put, [0, vee + 0.55 + index * 3.2, 0.74], 0.36, '#3f3029', view.pixelsPerInch),
  ).flat();
  const pieces = [
    inside,
    sleevePiece(-1),
    sleevePiece(1),
    ...frontPieces(-1),
    ...frontPieces(1),
    veeBand(1),
    veeBand(-1),
    bandPiece(straight + 0.2, [-HALF_BAND, vee + straight / 2], Math.PI / 2, 0.2),
  ];
  return [...pieces.flatMap((piece, index) => pieceStrands(piece, put, yarn, 3 + 4 * index)), ...buttons]; // prettier-ignore
}

export function cardiganNear(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1875, origin: [750, 200], pixelsPerInch: 70, turn: 0.015 }; // prettier-ignore
  return onBoards(view, cardiganStrands(view), { boards: '#b9afa2', exposure: 0.82, seed: 81 });
}

export function cardiganClose(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1500, origin: [750, 750], pixelsPerInch: 400, turn: 0.03 }; // prettier-ignore
  const chart = stitchesOf(NAME, 'chart-a');
  const side = Array.from({ length: 6 }, () => 'k');
  const rows = Array.from({ length: 48 }, (_, row) => [
    ...side,
    ...(chart[row % 8] ?? []),
    ...side,
  ]);
  return closeUp(growFabric(rows, { start: 22, purlDepth: 0.28, settling: 1 }), {
    view,
    stitchInches: STITCH * 0.92,
    rowInches: ROW,
    middleRow: 22,
    yarn: yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch),
    exposure: 1,
    seed: 8,
    reach: 13,
  });
}
