/**
 * Pictures of the Mackerel Sky Yoke: the yoke seen from above as it lies around the neck, and a part
 * of it close up. The rounds come from the chart, colour by colour.
 */
import { cellsOf, swatchesOf, type Cell } from './bundle-source.ts';
import { knitStrands, liningStrands, type Drape, type Fabric, type Wale } from './fabric.ts';
import { byColour } from './grown.ts';
import { onBoards, tableOf, yarnOf, type View } from './laid.ts';
import type { Scene } from './picture.ts';
import type { Strand } from './yarn.ts';

const NAME = 'mackerel-sky-yoke';
const STITCH = 4 / 24;
const ROW = 4 / 32;
const YARN_RADIUS = 0.0365;
/** Size S: 25 repeats; plain rounds before the chart, and ribbing after it. */
const REPEATS = 25;
const PLAIN = 16;
const RIB = 9;

interface Coloured {
  readonly fabric: Fabric;
  readonly colour: (wale: number, row: number) => string;
  readonly counts: readonly number[];
}

/** Rounds of squares: plain ones, the chart, and plain ones again in the width it ends with. */
function rounds(plain: number): (readonly Cell[])[] {
  const chart = cellsOf(NAME, 'chart-a');
  const main: Cell = { stitch: 'k', colour: 'dusk' };
  const below = Array.from({ length: plain }, () => Array.from({ length: 12 }, () => main));
  const above = Array.from({ length: RIB }, () => Array.from({ length: 4 }, () => main));
  return [...below, ...chart, ...above];
}

/** Wales round the neck; place is counted in stitches of each round, from the left. */
function yokeFabric(repeats: number, plain: number): Coloured {
  interface Growing {
    readonly firstRow: number;
    readonly across: number[];
    readonly colours: string[];
    endRow: number;
  }
  const rows = rounds(plain);
  const start = (firstRow: number): Growing => ({ firstRow, across: [], colours: [], endRow: rows.length }); // prettier-ignore
  let needle = Array.from({ length: 12 * repeats }, () => start(0));
  const all = [...needle];
  const counts: number[] = [];
  rows.forEach((row, index) => {
    const next: Growing[] = [];
    let at = 0;
    for (let time = 0; time < repeats; time += 1)
      for (const cell of row) {
        if (cell.stitch === 'none') continue;
        const kept = needle[at];
        if (cell.stitch === 'k2tog') {
          const other = needle[at + 1];
          if (other) other.endRow = index;
          at += 1;
        }
        at += 1;
        if (!kept) continue;
        kept.colours.push(cell.colour ?? 'dusk');
        next.push(kept);
      }
    // Shares of the round, so that a stitch that ends stays where it was while the count falls.
    next.forEach((wale, place) => wale.across.push((place - (next.length - 1) / 2) / next.length));
    counts.push(next.length);
    needle = next;
  });
  const ribStart = rows.length - RIB;
  const wales = all.map((wale): Wale => {
    const share = (row: number, list: readonly number[]): number => {
      const at = Math.min(list.length - 1, Math.max(0, row - wale.firstRow));
      const [low, part] = [Math.floor(at), at - Math.floor(at)];
      return (list[low] ?? 0) * (1 - part) + (list[Math.min(list.length - 1, low + 1)] ?? 0) * part;
    };
    const around = (row: number): number => share(row, wale.across) * countsAt(counts, row);
    const column = Math.round((wale.across.at(-1) ?? 0) * (counts.at(-1) ?? 1) + 0.5);
    const isKnit = ((column % 4) + 4) % 4 < 2;
    return {
      firstRow: wale.firstRow,
      endRow: wale.endRow,
      place: (row) => ({ x: around(row), z: row < ribStart ? 0 : isKnit ? 0.2 : -0.28, width: 1 }), // prettier-ignore
      kind: (row) => (row >= ribStart && !isKnit ? 'purl' : 'knit'),
      order: around,
    };
  });
  const colour = (index: number, row: number): string => all[index]?.colours[row] ?? 'dusk';
  return { fabric: { wales, rows: rows.length }, colour, counts };
}

const inColours = (coloured: Coloured, drape: Drape, pixelsPerInch: number): Strand[] => {
  const swatches = swatchesOf(NAME);
  return [...byColour(coloured.fabric, coloured.colour)].flatMap(([colour, fabric], index) => {
    const yarn = yarnOf(swatches.get(colour) ?? '#808080', YARN_RADIUS, pixelsPerInch);
    return knitStrands(fabric, { drape, yarnAt: () => yarn, seed: 5 + index, unevenness: 0.9 });
  });
};

/** Stitches round at a height between two rounds. */
function countsAt(counts: readonly number[], row: number): number {
  const at = Math.min(counts.length - 1, Math.max(0, row));
  const [low, share] = [Math.floor(at), at - Math.floor(at)];
  return (counts[low] ?? 1) * (1 - share) + (counts[low + 1] ?? counts[low] ?? 1) * share;
}

/** From above: rounds are circles, the yoke a shallow cone. */
export function yokeFromAbove(): Scene {
  const view: View = { widthPixels: 1600, heightPixels: 1600, origin: [800, 800], pixelsPerInch: 73, waves: 0.5 }; // prettier-ignore
  const put = tableOf(view);
  const coloured = yokeFabric(REPEATS, PLAIN);
  const { counts, fabric } = coloured;
  const countAt = (row: number): number => countsAt(counts, row);
  const last = fabric.rows - 1;
  // Rounds lie at distances that grow from the neck outwards; the cloth falls towards the shoulders.
  const inner = 2.9;
  const outer = 10.3;
  const drape: Drape = (x, row, z) => {
    const share = Math.min(1, Math.max(0, (last - row) / last));
    const radius = inner + (outer - inner) * share ** 1.02 + z * STITCH * 0.25;
    const angle = (x / countAt(row)) * 2 * Math.PI - Math.PI / 2;
    const height = 1.5 * (1 - share) + 0.3 + z * STITCH - 0.5 * Math.max(0, share - 0.85);
    return put(Math.cos(angle) * radius, -Math.sin(angle) * radius, height);
  };
  const dark = yarnOf('#6f7f95', YARN_RADIUS, view.pixelsPerInch);
  const lining = liningStrands((row) => [-countAt(row) / 2, countAt(row) / 2], last, 1.3, { drape, yarnAt: () => dark }); // prettier-ignore
  const strands = [...lining, ...inColours(coloured, drape, view.pixelsPerInch)];
  return onBoards(view, strands, { boards: '#cbbfae', exposure: 0.85, seed: 51 });
}

export function yokeClose(): Scene {
  const view: View = { widthPixels: 1500, heightPixels: 1500, origin: [750, 750], pixelsPerInch: 330, waves: 0, turn: 0.03 }; // prettier-ignore
  const put = tableOf(view);
  const coloured = yokeFabric(4, 10);
  // Rounds are drawn to one width, as they are stretched over the shoulders.
  const wide = (x: number, row: number): number => (x / countsAt(coloured.counts, row)) * 48;
  const drape: Drape = (x, row, z) => put(wide(x, row) * STITCH, (25 - row) * ROW, z * STITCH);
  const dark = yarnOf('#6f7f95', YARN_RADIUS, view.pixelsPerInch);
  const lining = liningStrands((row) => { const half = countsAt(coloured.counts, row) / 2; return [-half, half]; }, 54, 1.2, { drape, yarnAt: () => dark }); // prettier-ignore
  return {
    widthPixels: view.widthPixels,
    heightPixels: view.heightPixels,
    strands: [...lining, ...inColours(coloured, drape, view.pixelsPerInch)],
    ground: (_x, _y, _shade, into) => into.fill(0.05),
    floor: -STITCH * view.pixelsPerInch * 3,
    shadow: { fallX: 0, fallY: 0, softness: 12 },
    exposure: 0.85,
    seed: 9,
    fibres: 7000,
  };
}
