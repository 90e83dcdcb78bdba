/**
 * Pictures of the Spindrift Raglan in its second size: front and sleeves meet along the raglan lines,
 * near with the sleeves leaving the picture, and lying with the sleeves spread.
 */
import { swatchOf } from './bundle-source.ts';
import { panelFabric, rib } from './grown.ts';
import { onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import { neckbandStrands } from './neck.ts';
import type { Scene } from './picture.ts';
import type { Strand } from './yarn.ts';

const NAME = 'spindrift-raglan';
const STITCH = 4 / 24;
const ROW = 4 / 32;
const YARN_RADIUS = 0.036;

/** Size S: half of 222 stitches; 17 rows of rib, 88 to the underarm, 68 of yoke. */
const [RIB, SIDE, YOKE] = [17, 88, 68];
const [BODY, NECK, UNDERARM] = [111, 39, 8];
const LENGTH = (RIB + SIDE + YOKE) * ROW;
const [HALF_NECK, DIP] = [3.3, 1.35];

const rowHeight = (row: number): number => row * ROW;
const linear = (from: number, to: number, share: number): number =>
  from + (to - from) * Math.min(1, Math.max(0, share));

function bodyPiece(): Piece {
  const yokeStart = RIB + SIDE;
  const half = (row: number): number =>
    row < yokeStart
      ? BODY / 2 - (row < RIB ? 0.6 : 0)
      : linear((BODY - UNDERARM) / 2, NECK / 2, (row - yokeStart) / YOKE);
  const fabric = panelFabric({
    rows: RIB + SIDE + YOKE,
    left: (row) => -half(row),
    right: half,
    kind: (column, row) => (row < RIB ? rib.kind(column) : 'knit'),
    depth: (column, row) => (row < RIB ? rib.depth(column) : 0),
    omit: (x, row) => Math.hypot((x * STITCH) / HALF_NECK, (LENGTH - rowHeight(row)) / DIP) < 1,
  });
  const fold = (row: number): number => (row < yokeStart - 4 ? 0.4 : 0.12);
  return {
    fabric,
    stitchInches: STITCH,
    heightOf: rowHeight,
    left: (row) => -half(row),
    right: half,
    at: [0, LENGTH],
    foldLeft: fold,
    foldRight: fold,
    castOnEdge: true,
  };
}

/** Half a sleeve in sight, from its fold to the seamless inner side. */
const [CUFF_ROWS, ARM_ROWS] = [20, 116];
const [CUFF, ARM, TOP] = [22, 37.5, 6.5];
const ANGLE = (60 * Math.PI) / 180;

function sleevePiece(side: 1 | -1): Piece {
  const armEnd = CUFF_ROWS + ARM_ROWS;
  const right = (row: number): number => {
    if (row < CUFF_ROWS) return CUFF - 1;
    if (row < armEnd) return linear(CUFF, ARM, (row - CUFF_ROWS) / (ARM_ROWS - 10));
    return linear(ARM - UNDERARM / 2, TOP, (row - armEnd) / YOKE);
  };
  const fabric = panelFabric({
    rows: armEnd + YOKE,
    left: () => 0,
    right,
    kind: (column, row) => (row < CUFF_ROWS ? rib.kind(column) : 'knit'),
    depth: (column, row) => (row < CUFF_ROWS ? rib.depth(column) : 0),
  });
  // The lower end of the raglan line of the sleeve lies on that of the body.
  const [x, up] = [(ARM - UNDERARM / 2) * STITCH, armEnd * ROW];
  const meet = [-((BODY - UNDERARM) / 2) * STITCH, YOKE * ROW] as const;
  const at = [
    meet[0] - (x * Math.cos(ANGLE) + up * Math.sin(ANGLE)),
    meet[1] - (x * Math.sin(ANGLE) - up * Math.cos(ANGLE)),
  ] as const;
  return {
    fabric,
    stitchInches: STITCH,
    heightOf: rowHeight,
    left: () => 0,
    right,
    at: side < 0 ? at : [-at[0], at[1]],
    turn: side < 0 ? ANGLE : -ANGLE,
    mirrored: side > 0,
    foldLeft: 0.4,
    foldRight: (row) => (row < armEnd - 4 ? 0.4 : 0.12),
    castOnEdge: true,
  };
}

function raglanStrands(view: View): Strand[] {
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch);
  const inside: Piece = {
    fabric: panelFabric({
      rows: 20,
      left: () => -19,
      right: () => 19,
      kind: () => 'purl',
      omit: (x, row) => row > 13 && Math.hypot((x * STITCH) / 3.3, (row - 13) * ROW / 0.72) > 1,
    }), // prettier-ignore
    stitchInches: STITCH,
    heightOf: rowHeight,
    at: [0, 1.75],
    lift: -0.34,
    open: true,
  };
  // Behind the ends of the sleeves, where the back goes up to the neck.
  const behind: Piece = {
    fabric: panelFabric({ rows: 10, left: () => -23, right: () => 23, kind: () => 'knit', omit: (x) => Math.abs(x) < 15 }),
    stitchInches: STITCH,
    heightOf: rowHeight,
    at: [0, 0.75],
    lift: -0.2,
    open: true,
  }; // prettier-ignore
  const neck = { halfWidth: HALF_NECK + 0.12, front: DIP + 0.14, back: 0.5, band: 1, stitches: 104, rows: 9, lift: 0.36 }; // prettier-ignore
  return [
    ...pieceStrands(inside, put, yarn, 2),
    ...pieceStrands(behind, put, yarn, 31),
    ...pieceStrands({ ...bodyPiece(), open: false }, put, yarn, 5).filter(outsideNeck(put)),
    ...pieceStrands(sleevePiece(-1), put, yarn, 11),
    ...pieceStrands(sleevePiece(1), put, yarn, 17),
    ...neckbandStrands(neck, put, yarn, 23),
  ];
}

/** The lining of the front must not close its neck. */
const outsideNeck = (put: ReturnType<typeof tableOf>) => {
  const [, low] = put(0, DIP * 0.9, 0);
  return ({ points, yarn }: Strand): boolean => yarn.relief > 0 || (points[1] ?? 0) > low;
};

export function raglanFlat(): Scene {
  const view: View = { widthPixels: 1800, heightPixels: 1200, origin: [900, 215], pixelsPerInch: 33 }; // prettier-ignore
  return onBoards(view, raglanStrands(view), { boards: '#b6a28a', exposure: 0.8, seed: 61 });
}

export function raglanNear(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1875, origin: [750, 260], pixelsPerInch: 67, turn: 0.015 }; // prettier-ignore
  return onBoards(view, raglanStrands(view), { boards: '#b6a28a', exposure: 0.8, seed: 63 });
}
