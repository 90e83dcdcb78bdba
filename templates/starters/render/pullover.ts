/**
 * Pictures of the Sea Fret Pullover: lying with its sleeves spread, nearer with the sleeves leaving the
 * picture, and the panel close up. Front, sleeves, neckband and the inside of the back are draped one
 * by one over the same table.
 */
import type { ChartRows } from './chart-source.ts';
import { edgeStrands, knitStrands, liningStrands, type Drape, type LoopOptions } from './fabric.ts';
import { foldOver } from './fold.ts';
import { paintedBoards } from './grounds.ts';
import { clouds } from './noise.ts';
import type { Scene } from './picture.ts';
import * as parts from './pullover-fabric.ts';
import { colourOf, type Strand, type Yarn } from './yarn.ts';

const { STITCH, heightOf } = parts;
const YARN_RADIUS = 0.0435;
const FOLD = 0.36;
const HALF_BODY = (parts.BODY_STITCHES * STITCH) / 2;
const LENGTH = heightOf(parts.FRONT_ROWS);
const ARMHOLE = LENGTH - heightOf(parts.UNDERARM_ROW);
const SLEEVE_LENGTH = heightOf(parts.SLEEVE_ROWS);
const HALF_NECK = 3.78;
const NECK_DEPTH = 2.95;

/** Where the garment lies: middle of the shoulder line in pixels, scale, and a slight turn. */
interface Layout {
  readonly middle: readonly [number, number];
  readonly pixelsPerInch: number;
  readonly turn: number;
  /** How far the sleeves hang from level, in radians. */
  readonly hang: number;
}

/** From inches (right, down from the shoulder line, up from the table) to pixels. */
function table({ middle, pixelsPerInch, turn }: Layout) {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return (x: number, y: number, z: number): readonly [number, number, number] => {
    const ripple = 0.34 * clouds(x / 6.5 + 3, y / 5 + 1, 91, 2) * Math.min(1, Math.max(0, z / 0.3));
    const px = (x + 0.1 * clouds(y / 5, x / 7, 92, 2)) * pixelsPerInch;
    const py = (y + 0.1 * clouds(x / 5 + 40, y / 7, 93, 2)) * pixelsPerInch;
    return [
      middle[0] + px * cos - py * sin,
      middle[1] + px * sin + py * cos,
      (z + ripple) * pixelsPerInch,
    ];
  };
}

type Table = ReturnType<typeof table>;

const smoothStep = (t: number): number => {
  const share = Math.min(1, Math.max(0, t));
  return share * share * (3 - 2 * share);
};

const frontDrape =
  (put: Table): Drape =>
  (x, row, z) => {
    const up = heightOf(row);
    // Above the underarm the cloth goes on into the sleeve instead of folding away.
    const share = 1 - smoothStep((up - (LENGTH - ARMHOLE) + 0.3) / 1.2);
    const { across, height } = foldOver(
      x * STITCH,
      HALF_BODY + FOLD * 0.5,
      FOLD,
      z * STITCH,
      share,
    );
    const seam = 0.12 * Math.exp(-(((HALF_BODY - Math.abs(x * STITCH)) / 0.16) ** 2)) * (1 - share);
    // The shoulder falls away over its seam.
    const down = LENGTH - up;
    const shoulder = Math.max(0, 0.35 - down);
    return put(across, down, height - seam - shoulder ** 2 * 1.4);
  };

const insideDrape =
  (put: Table): Drape =>
  (x, row, z) =>
    put(x * STITCH, LENGTH - heightOf(row) - 0.05, -0.25 + z * STITCH);

interface OnSleeve {
  readonly x: number;
  readonly y: number;
  /** Direction of the sleeve, from level. */
  readonly angle: number;
}

/** The upper fold of a sleeve by distance from the armhole: level at first, then hanging. */
function sleeveFold(hang: number): (out: number) => OnSleeve {
  const steps = 120;
  const bend = 2.4;
  const step = (SLEEVE_LENGTH + 1) / steps;
  const start: OnSleeve = { x: HALF_BODY - 0.02, y: 0, angle: 0 };
  const path = [start];
  for (let index = 1; index <= steps; index += 1) {
    const { x, y } = path.at(-1) ?? start;
    const angle = hang * (1 - Math.exp((-index * step) / bend)) + 0.02;
    path.push({ x: x + Math.cos(angle) * step, y: y + Math.sin(angle) * step, angle });
  }
  return (out) => {
    const at = Math.min(steps - 0.001, Math.max(0, out / step));
    const index = Math.floor(at);
    const [a, b, share] = [path[index] ?? start, path[index + 1] ?? start, at - index];
    return {
      x: a.x + (b.x - a.x) * share,
      y: a.y + (b.y - a.y) * share,
      angle: a.angle + (b.angle - a.angle) * share,
    };
  };
}

/** Half the stitches of the sleeve lie in sight; they grow from the cuff to the armhole. */
function sleeveHalfInches(row: number): number {
  const grown = Math.min(1, Math.max(0, (heightOf(row) - 2.5) / (SLEEVE_LENGTH - 3.2)));
  const stitches = parts.CUFF_STITCHES + (parts.SLEEVE_STITCHES - parts.CUFF_STITCHES) * grown;
  return (stitches * STITCH) / 4;
}

/** A sleeve laid out from the armhole. `side` −1 is the left of the picture. */
function sleeveDrape(put: Table, side: 1 | -1, hang: number): Drape {
  const fold = sleeveFold(hang);
  return (x, row, z) => {
    const out = SLEEVE_LENGTH - heightOf(row);
    const { x: foldX, y: foldY, angle } = fold(out);
    const half = sleeveHalfInches(row);
    const rib = 0.93 + 0.07 * smoothStep((row - parts.RIB_ROWS) / 8);
    const { across, height } = foldOver(x * STITCH - half, half + FOLD * 0.5, FOLD, z * STITCH);
    // Set into the armhole, the sleeve is held to its depth.
    const held = 1 - 0.055 * Math.exp(-out / 1.5);
    const down = (half + across) * rib * held;
    const seam = 0.12 * Math.exp(-((out / 0.16) ** 2));
    return put(
      side * (foldX - Math.sin(angle) * down),
      foldY + Math.cos(angle) * down,
      height - seam,
    );
  };
}

/** The neckband: in front it lies inside the neck line, behind it stands up from the back. */
const neckbandDrape =
  (put: Table): Drape =>
  (x, row, z) => {
    const angle = Math.PI - (x / parts.NECKBAND_STITCHES) * 2 * Math.PI;
    const [across, toward] = [Math.cos(angle), -Math.sin(angle)];
    const share = Math.min(1, row / parts.NECKBAND_ROWS);
    const deep = toward > 0 ? toward ** 0.72 : toward;
    const base = [
      HALF_NECK * across * (toward > 0 ? 1 : 0.99),
      toward > 0 ? NECK_DEPTH * deep : 0.16 * toward,
    ] as const;
    const edge = [
      (HALF_NECK - 0.72) * across,
      toward > 0 ? -0.35 + (NECK_DEPTH - 0.84) * deep : -0.35 + 0.72 * toward,
    ] as const;
    const stand = Math.sin(share * Math.PI * 0.5) * 0.22;
    const lift = z * STITCH * 0.9;
    const level = 0.3 + 0.16 * Math.min(1, toward * 2 + 0.6) + (toward < 0 ? toward * 0.45 : 0);
    return put(
      base[0] + (edge[0] - base[0]) * share,
      base[1] + (edge[1] - base[1]) * share,
      level + stand + lift,
    );
  };

const yarnOf = (chart: ChartRows, pixelsPerInch: number): Yarn => ({
  colour: colourOf(chart.swatch),
  radiusPixels: YARN_RADIUS * pixelsPerInch,
  plies: 3,
  relief: 0.78,
  heather: 0.12,
});

function sleeveStrands(
  put: Table,
  side: 1 | -1,
  hang: number,
  common: Omit<LoopOptions, 'drape'>,
): Strand[] {
  const drape = sleeveDrape(put, side, hang);
  const options = { ...common, drape, seed: common.seed + side * 7 };
  const fabric = parts.sleeveFabric();
  const wide = (row: number) =>
    (parts.CUFF_STITCHES +
      (parts.SLEEVE_STITCHES - parts.CUFF_STITCHES) *
        Math.min(1, Math.max(0, (row - parts.RIB_ROWS) / 105))) /
    2;
  return [
    ...liningStrands((row) => [0, wide(row)], parts.SLEEVE_ROWS, 0.9, options),
    ...edgeStrands(-2, parts.CUFF_STITCHES / 2 + 2, -0.3, 1, options),
    ...knitStrands(fabric, options),
  ];
}

/** All strands of the pullover as it lies. */
function pulloverStrands(chart: ChartRows, layout: Layout): Strand[] {
  const put = table(layout);
  const yarn = yarnOf(chart, layout.pixelsPerInch);
  const common = { yarnAt: () => yarn, seed: 5, unevenness: 1 };
  const front = { ...common, drape: frontDrape(put) };
  const inside = { ...common, drape: insideDrape(put), seed: 33 };
  const neck = { ...common, drape: neckbandDrape(put), seed: 51 };
  const half = parts.BODY_STITCHES / 2;
  return [
    ...liningStrands(
      (row) => (row > parts.FRONT_ROWS - 34 ? [-22, 22] : undefined),
      parts.FRONT_ROWS - 1,
      1,
      inside,
    ),
    ...knitStrands(parts.backInside(), inside),
    ...liningStrands(
      (row) => (row < parts.UNDERARM_ROW + 34 ? [-half, half] : undefined),
      parts.FRONT_ROWS,
      0.9,
      front,
    ),
    ...liningStrands(
      (row) => (row >= parts.UNDERARM_ROW + 34 ? [-half, -19] : undefined),
      parts.FRONT_ROWS,
      0.9,
      front,
    ),
    ...liningStrands(
      (row) => (row >= parts.UNDERARM_ROW + 34 ? [19, half] : undefined),
      parts.FRONT_ROWS,
      0.9,
      front,
    ),
    ...edgeStrands(-half, half, -0.3, 1.07, front),
    ...edgeStrands(-half, -18.5, parts.FRONT_ROWS + 0.6, 1, front),
    ...edgeStrands(18.5, half, parts.FRONT_ROWS + 0.6, 1, front),
    ...knitStrands(parts.frontFabric(chart), front),
    ...sleeveStrands(put, -1, layout.hang, common),
    ...sleeveStrands(put, 1, layout.hang, common),
    ...liningStrands(() => [0, parts.NECKBAND_STITCHES], parts.NECKBAND_ROWS - 0.5, 1, neck),
    ...knitStrands(parts.neckbandFabric(), neck),
    ...edgeStrands(0, parts.NECKBAND_STITCHES, parts.NECKBAND_ROWS + 0.2, 1, neck),
  ];
}

const BOARDS = '#b89e82';

export function pulloverFlat(chart: ChartRows): Scene {
  const size = { widthPixels: 2250, heightPixels: 1800 };
  const layout = { middle: [1125, 470] as const, pixelsPerInch: 41.5, turn: 0.012, hang: 0.5 };
  return {
    ...size,
    strands: pulloverStrands(chart, layout),
    ground: paintedBoards(size, BOARDS, 520, 33),
    floor: -30,
    shadow: { fallX: 16, fallY: 20, softness: 26 },
    exposure: 0.76,
    seed: 12,
    fibres: 9000,
  };
}

export function pulloverNear(chart: ChartRows): Scene {
  const size = { widthPixels: 1800, heightPixels: 2250 };
  const layout = { middle: [900, 395] as const, pixelsPerInch: 73, turn: -0.02, hang: 0.62 };
  return {
    ...size,
    strands: pulloverStrands(chart, layout),
    ground: paintedBoards(size, BOARDS, 430, 35),
    floor: -50,
    shadow: { fallX: 26, fallY: 32, softness: 40 },
    exposure: 0.76,
    seed: 13,
    fibres: 9000,
  };
}

export function pulloverClose(chart: ChartRows): Scene {
  const size = { widthPixels: 1800, heightPixels: 2250 };
  const pixelsPerInch = 400;
  const yarn = yarnOf(chart, pixelsPerInch);
  const turn = 0.06;
  const middle = heightOf(parts.RIB_ROWS + 62);
  const drape: Drape = (x, row, z) => {
    const [px, py] = [x * STITCH * pixelsPerInch, (middle - heightOf(row)) * pixelsPerInch];
    return [
      900 + px * Math.cos(turn) - py * Math.sin(turn),
      1125 + px * Math.sin(turn) + py * Math.cos(turn),
      z * STITCH * pixelsPerInch,
    ];
  };
  const fabric = parts.frontFabric(chart);
  const seen = fabric.wales.filter((wale) => wale.firstRow > 0 && Math.abs(wale.place(80).x) < 16);
  const options = { drape, yarnAt: () => yarn, seed: 5, unevenness: 1 };
  return {
    ...size,
    strands: [
      ...liningStrands((row) => (row > 55 && row < 112 ? [-14, 14] : undefined), 112, 1.1, options),
      ...knitStrands(
        {
          wales: seen.map((wale) => ({
            ...wale,
            firstRow: 55,
            endRow: Math.min(wale.endRow, 115),
          })),
          rows: 112,
        },
        options,
      ),
    ],
    ground: (_x, _y, _shade, into) => into.fill(0.05),
    floor: -STITCH * pixelsPerInch * 3,
    shadow: { fallX: 0, fallY: 0, softness: 12 },
    exposure: 0.76,
    seed: 15,
    fibres: 7000,
  };
}
