/**
 * Reads what a rendered picture must show from the bundle it belongs to: the chart's rows and the
 * colour of the yarn. So the picture follows the pattern, and cannot drift from it unnoticed.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

interface BundleChart {
  readonly id: string;
  readonly key: Readonly<Record<string, { readonly stitch: string }>>;
  readonly rows: readonly string[];
}

interface BundleParts {
  readonly charts: readonly BundleChart[];
  readonly yarns: readonly { readonly colours: readonly { readonly swatch: string }[] }[];
}

export interface ChartRows {
  /** From the bottom up, each row from left to right: stitch names. */
  readonly rows: readonly (readonly string[])[];
  readonly swatch: string;
}

export const starterFolder = (name: string): string =>
  fileURLToPath(new URL(`../${name}/`, import.meta.url));

/** The first chart of a starter and the colour of its main yarn. */
export function readStarter(name: string): ChartRows {
  const text = readFileSync(`${starterFolder(name)}pattern.json`, 'utf8');
  const { charts, yarns } = JSON.parse(text) as BundleParts;
  const chart = charts[0];
  if (!chart) throw new Error(`${name} has no chart to render from`);
  const rows = chart.rows.toReversed().map((row) => Array.from(row, (cell) => chart.key[cell]?.stitch ?? 'k')); // prettier-ignore
  return { rows, swatch: yarns[0]?.colours[0]?.swatch ?? '#808080' };
}
