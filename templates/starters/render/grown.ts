/**
 * Fabric grown row by row from the names of its stitches, so that a picture of lace, cables or shaping
 * is what the rows make: every stitch stands on the stitches it was worked into. Also plain panels
 * between two edges, and one fabric parted by colour for stranded work.
 */
import type { Fabric, Kind, Place, Wale } from './fabric.ts';

interface Growing {
  readonly firstRow: number;
  /** Place on the needle after each row, from the left. */
  readonly across: number[];
  readonly kinds: Kind[];
  /** Rows in which it crosses, whether in front, and its place in its group from the middle. */
  readonly crossings: { readonly row: number; readonly front: boolean; readonly offset: number }[];
  endRow: number;
}

const DECREASES: Readonly<Record<string, { readonly takes: number; readonly kept: number }>> = {
  k2tog: { takes: 2, kept: 0 },
  ssk: { takes: 2, kept: 1 },
  s2kp: { takes: 3, kept: 1 },
};

export interface GrownOptions {
  readonly start: number;
  /** How far purl stitches lie behind knit ones, in stitches: ribs and grooves sink, seed does not. */
  readonly purlDepth: number;
  /** Rows over which a stitch finds its new place. */
  readonly settling: number;
}

/** `rows` bottom up, each from left to right as seen from the right side; a crossing is named once. */
export function growFabric(rows: readonly (readonly string[])[], options: GrownOptions): Fabric {
  let needle = Array.from({ length: options.start }, (): Growing => newWale(0));
  const all = new Set(needle);
  rows.forEach((stitches, row) => {
    const next: Growing[] = [];
    let at = 0;
    for (const stitch of stitches) {
      const worked = workStitch(stitch, needle.slice(at), row);
      at += worked.takes;
      next.push(...worked.made);
    }
    for (const wale of next) all.add(wale);
    next.forEach((wale, index) => wale.across.push(index - (next.length - 1) / 2));
    needle = next;
  });
  for (const wale of needle) wale.endRow = rows.length;
  return { wales: [...all].map((wale) => waleOf(wale, options)), rows: rows.length };
}

const newWale = (firstRow: number): Growing => ({
  firstRow,
  across: [],
  kinds: [],
  crossings: [],
  endRow: firstRow,
});

function workStitch(stitch: string, left: readonly Growing[], row: number) {
  const crossing = /^(\d)\/(\d) (L|R)C$/.exec(stitch);
  if (crossing) {
    const size = Number(crossing[1]);
    const [first, second] = [left.slice(0, size), left.slice(size, 2 * size)];
    const leftInFront = crossing[3] === 'R';
    for (const wale of [...first, ...second]) wale.kinds.push('knit');
    const offset = (index: number): number => index - (size - 1) / 2;
    first.forEach((wale, index) =>
      wale.crossings.push({ row, front: leftInFront, offset: offset(index) }),
    );
    second.forEach((wale, index) =>
      wale.crossings.push({ row, front: !leftInFront, offset: offset(index) }),
    );
    return { takes: 2 * size, made: [...second, ...first] };
  }
  if (stitch === 'none') return { takes: 0, made: [] };
  if (stitch === 'yo') {
    const made = newWale(row);
    made.kinds.push('knit');
    return { takes: 0, made: [made] };
  }
  const decrease = DECREASES[stitch];
  if (decrease) {
    const taken = left.slice(0, decrease.takes);
    const kept = taken[decrease.kept];
    for (const wale of taken) if (wale !== kept) wale.endRow = row;
    kept?.kinds.push('knit');
    return { takes: decrease.takes, made: kept ? [kept] : [] };
  }
  const [wale] = left;
  wale?.kinds.push(stitch === 'p' ? 'purl' : 'knit');
  return { takes: 1, made: wale ? [wale] : [] };
}

const mix = (values: readonly number[], at: number): number => {
  const low = Math.min(values.length - 1, Math.max(0, Math.floor(at)));
  const high = Math.min(values.length - 1, low + 1);
  const share = Math.min(1, Math.max(0, at - low));
  return (values[low] ?? 0) * (1 - share) + (values[high] ?? 0) * share;
};

/** Three-point means, again and again: corners become curves. */
function smoothed(values: readonly number[], times: number): readonly number[] {
  let line = values;
  for (let time = 0; time < times; time += 1)
    line = line.map((value, index) => ((line[index - 1] ?? value) + 2 * value + (line[index + 1] ?? value)) / 4); // prettier-ignore
  return line;
}

function waleOf(growing: Growing, { purlDepth, settling }: GrownOptions): Wale {
  const { firstRow, across, kinds, crossings, endRow } = growing;
  const passes = crossings.length > 0 ? settling * 3 : settling;
  const x = smoothed(across, passes);
  const depth = smoothed(kinds.map((kind) => (kind === 'purl' ? -purlDepth : purlDepth * 0.5)), 2); // prettier-ignore
  const near = (row: number, at: number): number => Math.exp(-(((row - at - 0.2) / 1.5) ** 2));
  const sum = (row: number, part: (crossing: (typeof crossings)[number]) => number): number =>
    crossings.reduce((all, crossing) => all + part(crossing) * near(row, crossing.row), 0);
  return {
    firstRow,
    endRow,
    // Where it crosses, a rope is as wide as its stitches together: each is drawn out, and higher or lower.
    place: (row): Place => ({
      x: mix(x, row - firstRow) + sum(row, ({ offset }) => offset * 0.55),
      z: mix(depth, row - firstRow) + sum(row, ({ front }) => (front ? 0.95 : -0.6)),
      width: 1 + sum(row, () => 0.5),
    }),
    kind: (row) => kinds[Math.min(kinds.length - 1, Math.max(0, row - firstRow))] ?? 'knit',
    order: (row) => mix(across, row - firstRow),
  };
}

/** Edges of a fabric by row, in stitches: half a stitch beyond its outermost wales. */
export function edgesOf({ wales, rows }: Fabric): {
  readonly left: (row: number) => number;
  readonly right: (row: number) => number;
} {
  const left = Array.from({ length: rows }, () => Infinity);
  const right = Array.from({ length: rows }, () => -Infinity);
  for (const wale of wales)
    for (let row = wale.firstRow; row < Math.min(rows, wale.endRow); row += 1) {
      const { x } = wale.place(row);
      left[row] = Math.min(left[row] ?? Infinity, x - 0.5);
      right[row] = Math.max(right[row] ?? -Infinity, x + 0.5);
    }
  return { left: (row) => mix(left, row), right: (row) => mix(right, row) };
}

export interface Panel {
  readonly rows: number;
  /** Edges in stitches from the middle, by row; a wale is worked where it lies between them. */
  readonly left: (row: number) => number;
  readonly right: (row: number) => number;
  readonly kind: (column: number, row: number) => Kind;
  /** Openings inside the panel: a neck. */
  readonly omit?: (x: number, row: number) => boolean;
  /** Out of the fabric, in stitches: ribs. */
  readonly depth?: (column: number, row: number) => number;
}

/** A panel of upright wales between two edges. Columns are counted from the left-most. */
export function panelFabric({ rows, left, right, kind, omit, depth }: Panel): Fabric {
  const every = Array.from({ length: rows }, (_, row) => row);
  const from = Math.floor(Math.min(...every.map(left)));
  const to = Math.ceil(Math.max(...every.map(right)));
  const wales: Wale[] = [];
  for (let x = from + 0.5; x < to; x += 1) {
    const inside = every.filter(
      (row) => x > left(row) && x < right(row) && omit?.(x, row) !== true,
    );
    const column = Math.round(x - from - 0.5);
    let first = inside[0];
    // A wale that an opening interrupts goes on as another.
    inside.forEach((row, index) => {
      if (first === undefined) first = row;
      if (inside[index + 1] === row + 1) return;
      wales.push(uprightWale(x, column, first, row + 1, kind, depth));
      first = inside[index + 1];
    });
  }
  return { wales, rows };
}

function uprightWale(
  x: number, column: number, firstRow: number, endRow: number, kind: Panel['kind'], depth: Panel['depth'],
): Wale {
  return {
    firstRow,
    endRow,
    place: (row) => ({ x, z: depth?.(column, Math.round(row)) ?? 0, width: 1 }),
    kind: (row) => kind(column, row),
    order: () => x,
  };
} // prettier-ignore

/** Two knit, two purl: the knit wales stand forward. */
export const rib = {
  kind: (column: number): Kind => (((column % 4) + 4) % 4 < 2 ? 'knit' : 'purl'),
  depth: (column: number): number => (((column % 4) + 4) % 4 < 2 ? 0.24 : -0.3),
};

/** One fabric for each colour; behind the stitches of the others its yarn runs across. */
export function byColour(
  fabric: Fabric,
  colour: (wale: number, row: number) => string,
): ReadonlyMap<string, Fabric> {
  const parts = new Map<string, Wale[]>();
  fabric.wales.forEach((wale, index) => {
    for (let row = wale.firstRow; row < wale.endRow; row += 1) {
      const own = colour(index, row);
      const firstRow = row;
      while (row + 1 < wale.endRow && colour(index, row + 1) === own) row += 1;
      const list = parts.get(own) ?? [];
      list.push({ ...wale, firstRow, endRow: row + 1 });
      parts.set(own, list);
    }
  });
  return new Map([...parts].map(([own, wales]) => [own, { wales, rows: fabric.rows }]));
}
