/**
 * What the lying pictures take from their bundles: charts as stitch names, colours by character, and
 * the swatches of the yarn. So a picture follows its pattern.
 */
import { readFileSync } from 'node:fs';
import { starterFolder } from './chart-source.ts';

interface Parts {
  readonly charts?: readonly {
    readonly id: string;
    readonly key: Readonly<Record<string, { readonly stitch: string; readonly colour?: string }>>;
    readonly rows: readonly string[];
  }[];
  readonly yarns: readonly {
    readonly colours: readonly { readonly id: string; readonly swatch: string }[];
  }[];
}

const read = (name: string): Parts =>
  JSON.parse(readFileSync(`${starterFolder(name)}pattern.json`, 'utf8')) as Parts;

export const swatchOf = (name: string, colour = 0): string =>
  read(name).yarns[0]?.colours[colour]?.swatch ?? '#808080';

/** Swatch by colour id. */
export const swatchesOf = (name: string): ReadonlyMap<string, string> =>
  new Map(read(name).yarns.flatMap(({ colours }) => colours.map(({ id, swatch }) => [id, swatch])));

export interface Cell {
  readonly stitch: string;
  readonly colour: string | undefined;
}

/** A chart from the bottom up, each row from left to right, one entry a square. */
export function cellsOf(name: string, id: string): readonly (readonly Cell[])[] {
  const chart = read(name).charts?.find((each) => each.id === id);
  if (!chart) throw new Error(`${name} has no chart ${id}`);
  return chart.rows.toReversed().map((row) =>
    Array.from(row, (character) => {
      const key = chart.key[character];
      return { stitch: key?.stitch ?? 'k', colour: key?.colour };
    }),
  );
}

/** The same with each crossing named once. */
export function stitchesOf(name: string, id: string): readonly (readonly string[])[] {
  return cellsOf(name, id).map((row) => {
    const stitches: string[] = [];
    for (let at = 0; at < row.length;) {
      const stitch = row[at]?.stitch ?? 'k';
      stitches.push(stitch);
      const size = /^(\d)\/(\d) /.exec(stitch);
      at += size ? Number(size[1]) + Number(size[2]) : 1;
    }
    return stitches;
  });
}
