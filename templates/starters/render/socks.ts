/**
 * Pictures of the Tideline Socks: the legs of a pair side by side, cuffs at the top, and the pattern
 * close up. Worked from the cuff down, so the fabric stands on its head.
 */
import { stitchesOf, swatchOf } from './bundle-source.ts';
import type { Fabric } from './fabric.ts';
import { growFabric } from './grown.ts';
import { closeUp, onBoards, pieceStrands, tableOf, yarnOf, type Piece, type View } from './laid.ts';
import type { Scene } from './picture.ts';

const NAME = 'tideline-socks';
const STITCH = 4 / 32;
const ROW = 4 / 44;
const YARN_RADIUS = 0.026;
/** Size M: 56 stitches round, 28 in sight; 16 rounds of cuff, charts of eight. */
const IN_SIGHT = 28;
const CUFF = 16;

/** Cuff and leg; `columns` stitches wide, a whole number of charts. */
function legFabric(columns: number, charts: number): Fabric {
  const chart = stitchesOf(NAME, 'chart-a');
  const times = columns / 4;
  const across = (row: readonly string[]) => Array.from({ length: times }, () => row).flat();
  const rib = across(['p', 'p', 'k', 'k']);
  const rows = [
    ...Array.from({ length: CUFF }, () => rib),
    ...Array.from({ length: charts }, () => chart.map(across)).flat(),
  ];
  return growFabric(rows, { start: columns, purlDepth: 0.24, settling: 0 });
}

export function socksPair(): Scene {
  const view: View = {
    widthPixels: 1500, heightPixels: 1875, origin: [750, 190], pixelsPerInch: 165, turn: -0.03, waves: 0.5,
  }; // prettier-ignore
  const put = tableOf(view);
  const yarn = yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch);
  const half = IN_SIGHT / 2;
  const leg = (x: number, y: number, turn: number, seed: number) => {
    const piece: Piece = {
      fabric: legFabric(IN_SIGHT, 14),
      stitchInches: STITCH,
      heightOf: (row) => row * ROW,
      left: () => -half,
      right: () => half,
      at: [x, y],
      turn: Math.PI + turn,
      foldLeft: 0.45,
      foldRight: 0.45,
      castOnEdge: true,
    };
    return pieceStrands(piece, put, yarn, seed);
  };
  const strands = [...leg(-2.05, 0.15, 0.05, 3), ...leg(2.0, 0, -0.04, 9)];
  return onBoards(view, strands, { boards: '#c6b7a2', exposure: 0.86, seed: 21 });
}

export function socksClose(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1500, origin: [750, 750], pixelsPerInch: 620, turn: 0.05 }; // prettier-ignore
  return closeUp(legFabric(28, 4), {
    view: { ...view, turn: Math.PI + 0.05 },
    stitchInches: STITCH,
    rowInches: ROW,
    middleRow: 32,
    yarn: yarnOf(swatchOf(NAME), YARN_RADIUS, view.pixelsPerInch),
    exposure: 0.9,
    seed: 4,
    reach: 16,
  });
}
