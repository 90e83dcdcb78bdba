/**
 * Pictures of the Little Squall Cardigan at twelve months: lying with its sleeves spread, and nearer.
 * All garter stitch, ridge by ridge; the band runs across the ridges, with five buttons.
 */
import { swatchOf } from './bundle-source.ts';
import type { Kind } from './fabric.ts';
import { panelFabric } from './grown.ts';
import { onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import { buttonStrands } from './neck.ts';
import type { Scene } from './picture.ts';
import type { Strand } from './yarn.ts';

const NAME = 'little-squall-cardigan';
const STITCH = 4 / 24;
const ROW = 4 / 48;
const YARN_RADIUS = 0.037;
/** 12 months: fronts of 28, sleeves of 35 to 45; rows to the underarm, of the yoke, of the neckband. */
const [FRONT, SIDE, YOKE, NECKBAND] = [28, 78, 54, 6];
const ROWS = SIDE + YOKE + NECKBAND;
const LENGTH = ROWS * ROW;
const HALF_BAND = 0.5;

const garter = (_column: number, row: number): Kind => (row % 2 === 0 ? 'knit' : 'purl');
const rowHeight = (row: number): number => row * ROW;
const linear = (from: number, to: number, share: number): number =>
  from + (to - from) * Math.min(1, Math.max(0, share));

/** A front from its side to the band, drawn as the left of the picture; the other is its mirror. */
function frontPiece(side: 1 | -1): Piece {
  const left = (row: number): number => (row < SIDE ? -FRONT : linear(-(FRONT - 3), -8, (row - SIDE) / YOKE));
  const right = (): number => 0;
  return {
    fabric: panelFabric({ rows: ROWS, left, right, kind: garter }),
    stitchInches: STITCH,
    heightOf: rowHeight,
    left,
    right,
    at: [side * HALF_BAND * 0.9, LENGTH],
    mirrored: side > 0,
    foldLeft: (row) => (row < SIDE - 4 ? 0.35 : 0.12),
    foldRight: 0.1,
    castOnEdge: true,
    topEdge: true,
  };
} // prettier-ignore

const [CUFF, ARM, TOP, ARM_ROWS] = [17.5, 22.5, 3.5, 90];
const ANGLE = (62 * Math.PI) / 180;

function sleevePiece(side: 1 | -1): Piece {
  const right = (row: number): number =>
    row < ARM_ROWS ? linear(CUFF, ARM, row / (ARM_ROWS - 8)) : linear(ARM - 3, TOP, (row - ARM_ROWS) / YOKE); // prettier-ignore
  const [x, up] = [(ARM - 3) * STITCH, ARM_ROWS * ROW];
  const meet = [-HALF_BAND * 0.9 - (FRONT - 3) * STITCH, (YOKE + NECKBAND) * ROW] as const;
  const at = [
    meet[0] - (x * Math.cos(ANGLE) + up * Math.sin(ANGLE)),
    meet[1] - (x * Math.sin(ANGLE) - up * Math.cos(ANGLE)),
  ] as const;
  return {
    fabric: panelFabric({ rows: ARM_ROWS + YOKE, left: () => 0, right, kind: garter }),
    stitchInches: STITCH,
    heightOf: rowHeight,
    left: () => 0,
    right,
    at: side < 0 ? at : [-at[0], at[1]],
    turn: side < 0 ? ANGLE : -ANGLE,
    mirrored: side > 0,
    foldLeft: 0.35,
    foldRight: (row) => (row < ARM_ROWS - 4 ? 0.35 : 0.12),
    castOnEdge: true,
  };
}

/** The band lies across the fronts: twelve rows, one stitch to a ridge. */
const band = (): Piece => ({
  fabric: panelFabric({ rows: 12, left: () => -ROWS / 4, right: () => ROWS / 4, kind: garter }),
  stitchInches: STITCH,
  heightOf: rowHeight,
  at: [-HALF_BAND, LENGTH / 2],
  turn: Math.PI / 2,
  lift: 0.16,
  foldLeft: 0.08,
  foldRight: 0.08,
  castOnEdge: true,
  topEdge: true,
});

const backNeck = (): Piece => ({
  fabric: panelFabric({ rows: 24, left: () => -17, right: () => 17, kind: (_, row) => garter(0, row + 1) }),
  stitchInches: STITCH,
  heightOf: rowHeight,
  at: [0, 2],
  lift: -0.2,
  topEdge: true,
}); // prettier-ignore

function cardiganStrands(view: View): Strand[] {
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch);
  const buttons = Array.from({ length: 5 }, (_, index) =>
    buttonStrands(put, [0, 0.75 + index * 2.42, 0.74], 0.3, '#7b5a3c', view.pixelsPerInch),
  ).flat();
  return [
    ...pieceStrands(backNeck(), put, yarn, 2),
    ...pieceStrands(frontPiece(-1), put, yarn, 5),
    ...pieceStrands(frontPiece(1), put, yarn, 9),
    ...pieceStrands(sleevePiece(-1), put, yarn, 13),
    ...pieceStrands(sleevePiece(1), put, yarn, 17),
    ...pieceStrands(band(), put, yarn, 21),
    ...buttons,
  ];
}

export function babyNear(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1875, origin: [750, 290], pixelsPerInch: 108, turn: -0.02, waves: 0.7 }; // prettier-ignore
  return onBoards(view, cardiganStrands(view), { boards: '#c9d0cf', exposure: 0.82, seed: 71 });
}

export function babyFlat(): Scene {
  const view: View = { widthPixels: 1800, heightPixels: 1200, origin: [900, 170], pixelsPerInch: 65, waves: 0.7 }; // prettier-ignore
  return onBoards(view, cardiganStrands(view), { boards: '#c9d0cf', exposure: 0.82, seed: 73 });
}
