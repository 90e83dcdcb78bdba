/**
 * The fabrics of the Sea Fret Pullover in its second size, wale by wale, as its rows make them: front
 * with ribbed hem, panel and neck shaping, the inside of the back that shows in the neck, one sleeve,
 * and the neckband. The panel is read from the chart.
 */
import type { ChartRows } from './chart-source.ts';
import type { Fabric, Kind, Place, Wale } from './fabric.ts';

/** Size S. Inches from 20 stitches and 28 rows, ribbing 22 stitches and 30 rows, to 4 inches. */
export const STITCH = 4 / 20;
export const BODY_ROW = 4 / 28;
export const RIB_ROW = 4 / 30;
export const RIB_ROWS = 19;
const HEM_STITCHES = 90;
export const BODY_STITCHES = 97;
/** Rows above the ribbing, to the shoulder. */
export const BODY_ROWS = 84 + 56;
export const FRONT_ROWS = RIB_ROWS + BODY_ROWS;
export const UNDERARM_ROW = RIB_ROWS + 84;
const DIVIDE_ROW = UNDERARM_ROW + 37;
/** Stitches either side of the middle that are bound off or taken in, and when. */
const NECK_STEPS: readonly (readonly [reach: number, row: number])[] = [
  [8.5, 0], [11.5, 1], [13.5, 3], [14.5, 4], [15.5, 6], [16.5, 8], [17.5, 10], [18.5, 12],
]; // prettier-ignore

export const CUFF_STITCHES = 42;
export const SLEEVE_STITCHES = 82;
export const SLEEVE_ROWS = RIB_ROWS + 109;

export const NECKBAND_STITCHES = 88;
export const NECKBAND_ROWS = 8;

/** Height of a row above the cast-on edge in inches. */
export const heightOf = (row: number): number =>
  Math.min(row, RIB_ROWS) * RIB_ROW + Math.max(0, row - RIB_ROWS) * BODY_ROW;

const smoothStep = (t: number): number => {
  const share = Math.min(1, Math.max(0, t));
  return share * share * (3 - 2 * share);
};

/** Two knit, two purl: knit wales stand forward and draw together. */
export function ribPlace(index: number, x: number, width: number): Place {
  const inFour = ((index % 4) + 4) % 4;
  const lean = [0.13, -0.13, 0.1, -0.1][inFour] ?? 0;
  return {
    x: x + lean * width,
    z: inFour < 2 ? 0.26 : -0.3,
    width: width * (inFour < 2 ? 1.08 : 0.9),
  };
}

export const ribKind = (index: number): Kind => (((index % 4) + 4) % 4 < 2 ? 'knit' : 'purl');

const between = (a: Place, b: Place, share: number): Place => ({
  x: a.x + (b.x - a.x) * share,
  z: a.z + (b.z - a.z) * share,
  width: a.width + (b.width - a.width) * share,
});

/** A wale of plain fabric that grows out of ribbing with fewer stitches. */
function aboveRib(place: Place, ribStitches: number, stitches: number): (row: number) => Place {
  const share = (place.x / stitches) * ribStitches;
  const index = Math.round(share + ribStitches / 2 - 0.5);
  const spacing = stitches / ribStitches;
  const root = ribPlace(index, place.x, spacing);
  return (row) => between(root, place, smoothStep((row - RIB_ROWS + 0.5) / 3));
}

const ribWale = (index: number, ribStitches: number, stitches: number): Wale => {
  const spacing = stitches / ribStitches;
  const place = ribPlace(index, (index + 0.5 - ribStitches / 2) * spacing, spacing);
  return {
    firstRow: 0,
    endRow: RIB_ROWS,
    place: () => place,
    kind: () => ribKind(index),
    order: () => place.x,
  };
};

/** The last row of a front wale: the neck takes the middle ones early. */
function endOfFront(x: number): number {
  const step = NECK_STEPS.find(([reach]) => Math.abs(x) <= reach);
  return step ? DIVIDE_ROW + step[1] : FRONT_ROWS;
}

/** Which stitch of the panel a wale is, from the left, or undefined beside it. */
const panelColumn = (x: number, columns: number): number | undefined => {
  const column = Math.round(x + (columns - 1) / 2);
  return column >= 0 && column < columns ? column : undefined;
};

const PANEL_START = RIB_ROWS + 2;

interface Crossing {
  readonly left: number;
  readonly lean: 'left' | 'right';
  readonly rows: readonly number[];
}

/** Pairs of columns that cross, with the chart rows in which they do. */
function crossingsOf({ rows }: ChartRows): Crossing[] {
  const found = new Map<number, { lean: 'left' | 'right'; rows: number[] }>();
  rows.forEach((row, index) => {
    for (let column = 0; column < row.length; column += 1) {
      const stitch = row[column] ?? '';
      if (!/^1\/1 [LR]C$/.test(stitch)) continue;
      const entry = found.get(column) ?? {
        lean: stitch.endsWith('LC') ? ('left' as const) : ('right' as const),
        rows: [],
      };
      entry.rows.push(index);
      found.set(column, entry);
      column += 1;
    }
  });
  return [...found].map(([left, { lean, rows: at }]) => ({ left, lean, rows: at }));
}

/** Two wales that twist round each other, crossing in the rows the chart names. */
function twistWale(crossing: Crossing, strand: 0 | 1, columns: number, chartRows: number): Wale {
  const middle = crossing.left + 1 - columns / 2;
  const period = chartRows / crossing.rows.length;
  const direction = crossing.lean === 'left' ? -1 : 1;
  const phase = (row: number) =>
    Math.PI * ((row - PANEL_START - (crossing.rows[0] ?? 0) - 0.9) / period + 0.5 + strand);
  const side = (row: number) => {
    const wave = Math.cos(phase(row));
    return -direction * 0.8 * (Math.sin(1.25 * wave) / Math.sin(1.25));
  };
  const at = (row: number): Place => {
    const own = { x: middle + 0.5 * side(row), z: 0.22 + 0.42 * Math.sin(phase(row)), width: 1 };
    const root = { x: middle + (side(RIB_ROWS) > 0 ? 0.5 : -0.5), z: 0, width: 1.05 };
    return between(root, own, smoothStep((row - RIB_ROWS) / 3));
  };
  return {
    firstRow: RIB_ROWS,
    endRow: FRONT_ROWS,
    place: at,
    kind: () => 'knit',
    order: (row) => middle + 0.4 * Math.sign(side(row)),
  };
}

function panelWale(x: number, column: number, chart: ChartRows): Wale {
  const stitchAt = (row: number) => {
    const { rows } = chart;
    const place = (((row - PANEL_START) % rows.length) + rows.length) % rows.length;
    return row < PANEL_START ? 'k' : (rows[place]?.[column] ?? 'k');
  };
  const always = chart.rows.every((row) => row[column] === 'p');
  // The grooves beside a twist are drawn in under it.
  const twists = crossingsOf(chart).map(({ left }) => left + 0.5);
  const pull = twists.reduce(
    (sum, at) => (Math.abs(at - column) < 2 ? sum + Math.sign(at - column) * 0.2 : sum),
    0,
  );
  const place = aboveRib(
    { x: x + pull, z: always ? -0.28 : 0.02, width: always ? 1.25 : 1 },
    HEM_STITCHES,
    BODY_STITCHES,
  );
  const kind = (row: number): Kind => (stitchAt(row) === 'p' ? 'purl' : 'knit');
  return { firstRow: RIB_ROWS, endRow: endOfFront(x), place, kind, order: () => x };
}

export function frontFabric(chart: ChartRows): Fabric {
  const wales: Wale[] = [];
  for (let index = 0; index < HEM_STITCHES; index += 1)
    wales.push(ribWale(index, HEM_STITCHES, BODY_STITCHES));
  const columns = chart.rows[0]?.length ?? 0;
  const crossings = crossingsOf(chart);
  for (let index = 0; index < BODY_STITCHES; index += 1) {
    const x = index - (BODY_STITCHES - 1) / 2;
    const column = panelColumn(x, columns);
    const crossing = crossings.find(({ left }) => column === left || column === left + 1);
    if (crossing && column !== undefined) {
      const wale = twistWale(
        crossing,
        column === crossing.left ? 0 : 1,
        columns,
        chart.rows.length,
      );
      wales.push({ ...wale, endRow: endOfFront(x) });
    } else if (column !== undefined) wales.push(panelWale(x, column, chart));
    else {
      const place = aboveRib({ x, z: 0, width: 1 }, HEM_STITCHES, BODY_STITCHES);
      wales.push({
        firstRow: RIB_ROWS,
        endRow: endOfFront(x),
        place,
        kind: () => 'knit',
        order: () => x,
      });
    }
  }
  return { wales, rows: FRONT_ROWS };
}

/** The wrong side of the back, where the neck shows it: purl stitches up to the shoulder. */
export function backInside(): Fabric {
  const wales = Array.from({ length: 45 }, (_, index): Wale => {
    const place: Place = { x: index - 22, z: 0, width: 1 };
    return {
      firstRow: FRONT_ROWS - 34,
      endRow: FRONT_ROWS,
      place: () => place,
      kind: () => 'purl',
      order: () => place.x,
    };
  });
  return { wales, rows: FRONT_ROWS };
}

/**
 * The visible half of a sleeve: wale 0 lies at the fold on top, the last ones begin where the sleeve
 * is widened under the arm. Across is counted in stitches from the top fold.
 */
export function sleeveFabric(): Fabric {
  const [cuff, top] = [CUFF_STITCHES / 2, SLEEVE_STITCHES / 2];
  const wales: Wale[] = [];
  for (let index = -2; index < cuff + 2; index += 1) {
    const place = ribPlace(index, index + 0.5, 1);
    wales.push({
      firstRow: 0,
      endRow: RIB_ROWS,
      place: () => place,
      kind: () => ribKind(index),
      order: () => index,
    });
  }
  for (let index = -2; index < top + 2; index += 1) {
    const grown = Math.max(0, index - cuff - 1) / (top - cuff);
    const place = { x: index + 0.5, z: 0, width: 1 };
    const root = ribPlace(index, index + 0.5, 1);
    const firstRow = RIB_ROWS + Math.floor(grown * (SLEEVE_ROWS - RIB_ROWS - 6));
    const at = (row: number) => between(root, place, smoothStep((row - RIB_ROWS + 0.5) / 3));
    wales.push({
      firstRow,
      endRow: SLEEVE_ROWS,
      place: at,
      kind: () => 'knit',
      order: () => index,
    });
  }
  return { wales, rows: SLEEVE_ROWS };
}

/** The neckband as a ring of ribbing; across runs once round. */
export function neckbandFabric(): Fabric {
  const wales = Array.from({ length: NECKBAND_STITCHES }, (_, index): Wale => {
    const place = ribPlace(index, index + 0.5, 1);
    return {
      firstRow: 0,
      endRow: NECKBAND_ROWS,
      place: () => place,
      kind: () => ribKind(index),
      order: () => index,
    };
  });
  return { wales, rows: NECKBAND_ROWS };
}
