/**
 * Pieces laid flat on a table: where each lies, how its edges turn away, and the scene around them.
 * Shared by the pictures of all starters that are shown lying; each of those files only says what its
 * pieces are and where they go.
 */
import { edgeStrands, knitStrands, liningStrands, type Drape, type Fabric } from './fabric.ts';
import { edgesOf } from './grown.ts';
import { paintedBoards } from './grounds.ts';
import { clouds } from './noise.ts';
import type { Scene } from './picture.ts';
import { colourOf, type Strand, type Yarn } from './yarn.ts';

/** Inches on the table: right, away from the eye's foot (up the picture is negative), and up. */
export type Put = (x: number, y: number, z: number) => readonly [number, number, number];

export interface View {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Where the origin of the table lies in the picture. */
  readonly origin: readonly [number, number];
  readonly pixelsPerInch: number;
  readonly turn?: number;
  /** How much the cloth lies in waves, 1 for a garment. */
  readonly waves?: number;
}

export function tableOf({ origin, pixelsPerInch, turn = 0, waves = 1 }: View): Put {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return (x, y, z) => {
    const wave = waves * 0.3 * clouds(x / 6.5 + 3, y / 5 + 1, 91, 2) * Math.min(1, Math.max(0, z / 0.3));
    const px = (x + waves * 0.09 * clouds(y / 5, x / 7, 92, 2)) * pixelsPerInch;
    const py = (y + waves * 0.09 * clouds(x / 5 + 40, y / 7, 93, 2)) * pixelsPerInch;
    return [origin[0] + px * cos - py * sin, origin[1] + px * sin + py * cos, (z + wave) * pixelsPerInch];
  };
} // prettier-ignore

export interface Piece {
  readonly fabric: Fabric;
  readonly stitchInches: number;
  readonly heightOf: (row: number) => number;
  /** Edges in stitches by row; those of the fabric where not given. */
  readonly left?: (row: number) => number;
  readonly right?: (row: number) => number;
  /** Where the middle of the lower edge lies, in inches, and how the piece is turned (clockwise). */
  readonly at: readonly [number, number];
  readonly turn?: number;
  readonly mirrored?: boolean;
  /** Height of the whole piece above the table, and how round its sides are, in inches. */
  readonly lift?: number;
  readonly foldLeft?: number | ((row: number) => number);
  readonly foldRight?: number | ((row: number) => number);
  /** Nothing dark lies behind where the fabric has openings. */
  readonly open?: boolean;
  readonly castOnEdge?: boolean;
  readonly topEdge?: boolean;
}

const roundness = (distance: number, radius: number): number => {
  if (radius <= 0) return 1;
  const share = 1 - Math.min(1, Math.max(0, distance / radius));
  return Math.sqrt(1 - share * share);
};

const radiusAt = (fold: number | ((row: number) => number), row: number): number =>
  typeof fold === 'number' ? fold : fold(row);

export function drapeOf(piece: Piece, put: Put): Drape {
  const { at, stitchInches, heightOf } = piece;
  const { left, right } = { ...edgesOf(piece.fabric), ...piece };
  const { turn = 0, mirrored = false, lift = 0, foldLeft = 0.3, foldRight = 0.3 } = piece;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return (x, row, z) => {
    const toLeft = (x - left(row)) * stitchInches;
    const toRight = (right(row) - x) * stitchInches;
    const round = roundness(toLeft, radiusAt(foldLeft, row)) + roundness(toRight, radiusAt(foldRight, row)) - 1; // prettier-ignore
    const [across, up] = [x * stitchInches * (mirrored ? -1 : 1), heightOf(row)];
    return put(
      at[0] + across * cos + up * sin,
      at[1] + across * sin - up * cos,
      lift + 0.34 * round + z * stitchInches,
    );
  };
}

/** All strands of one piece: what is behind it, its edges, its stitches. */
export function pieceStrands(piece: Piece, put: Put, yarn: Yarn, seed: number): Strand[] {
  const options = { drape: drapeOf(piece, put), yarnAt: () => yarn, seed, unevenness: 1 };
  const { fabric } = piece;
  const { left, right } = { ...edgesOf(fabric), ...piece };
  const top = fabric.rows - 1;
  return [
    ...(piece.open === true
      ? []
      : liningStrands((row) => [left(row) + 0.4, right(row) - 0.4], top, 1, options)),
    ...(piece.castOnEdge ? edgeStrands(left(0), right(0), -0.3, 1, options) : []),
    ...knitStrands(fabric, options),
    ...(piece.topEdge ? edgeStrands(left(top), right(top), top + 0.7, 1, options) : []),
  ];
}

export const yarnOf = (swatch: string, radiusInches: number, pixelsPerInch: number): Yarn => ({
  colour: colourOf(swatch),
  radiusPixels: radiusInches * pixelsPerInch,
  plies: 3,
  relief: 0.78,
  heather: 0.12,
});

/** Strands on painted boards, light from the upper left. */
export function onBoards(
  view: View,
  strands: readonly Strand[],
  look: { readonly boards: string; readonly exposure: number; readonly seed: number },
): Scene {
  const { pixelsPerInch } = view;
  return {
    widthPixels: view.widthPixels,
    heightPixels: view.heightPixels,
    strands,
    ground: paintedBoards(view, look.boards, Math.round(view.widthPixels / 4.3), look.seed),
    floor: -0.7 * pixelsPerInch,
    shadow: { fallX: 0.36 * pixelsPerInch, fallY: 0.44 * pixelsPerInch, softness: 0.55 * pixelsPerInch },
    exposure: look.exposure,
    seed: look.seed,
    fibres: 8000,
  };
} // prettier-ignore

/** Fabric that fills the picture, seen straight on. */
export function closeUp(
  fabric: Fabric,
  look: {
    readonly view: View;
    readonly stitchInches: number;
    readonly rowInches: number;
    readonly middleRow: number;
    readonly yarn: Yarn;
    readonly exposure: number;
    readonly seed: number;
    readonly reach: number;
  },
): Scene {
  const { view, stitchInches, rowInches, middleRow, yarn } = look;
  const put = tableOf({ ...view, waves: 0 });
  const drape: Drape = (x, row, z) => put(x * stitchInches, (middleRow - row) * rowInches, z * stitchInches);
  const options = { drape, yarnAt: () => yarn, seed: look.seed, unevenness: 1 };
  return {
    widthPixels: view.widthPixels,
    heightPixels: view.heightPixels,
    strands: [
      ...liningStrands(() => [-look.reach, look.reach], fabric.rows, 1.1, options),
      ...knitStrands(fabric, options),
    ],
    ground: (_x, _y, _shade, into) => into.fill(0.05),
    floor: -stitchInches * view.pixelsPerInch * 3,
    shadow: { fallX: 0, fallY: 0, softness: 12 },
    exposure: look.exposure,
    seed: look.seed,
    fibres: 7000,
  };
} // prettier-ignore
