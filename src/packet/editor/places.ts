/**
 * Names of places in a bundle, for people: which part a number belongs to, and what it is there. Takes
 * the bundle's data and a JSON pointer, gives a part ("Measurements"), a name ("A bust, in") and a key
 * that stays the same when something is put in before it.
 */
import type { BundleData } from '../../pattern/bundle/schema.ts';

export interface NamedPlace {
  readonly part: string;
  readonly name: string;
  /** The pointer with ids in place of positions: `/measurements/bust/size/in`. */
  readonly key: string;
}

const PARTS: Readonly<Record<string, string>> = {
  body: 'Body',
  gauges: 'Gauges',
  yarns: 'Yarn',
  needles: 'Needles',
  notions: 'Notions',
  stitches: 'Stitches of this pattern',
  stitchPatterns: 'Stitch patterns',
  charts: 'Charts',
  pieces: 'Pieces',
  measurements: 'Measurements',
  numbers: 'Numbers with rules',
};

/** The order in which an editor works: what everything rests on, then what follows from it. */
export const PART_ORDER: readonly string[] = [
  'Body', 'Gauges', 'Stitch patterns', 'Charts', 'Numbers with rules', 'Measurements', 'Yarn',
  'Needles', 'Notions', 'Pieces', 'Stitches of this pattern',
].map(String); // prettier-ignore

/** Steps that say nothing a reader needs. */
const SILENT = new Set(['size', 'value', 'count', 'colours', 'from', 'lines', 'text']);
const SAID: Readonly<Record<string, string>> = {
  mm: 'mm',
  fromRow: 'first row of the repeat',
  toRow: 'last row of the repeat',
  fromStitch: 'first stitch of the repeat',
  toStitch: 'last stitch of the repeat',
  make: 'made alike',
  times: 'times',
  ball: 'one ball',
  fibres: '',
  repeat: '',
};

export function namePlace(data: BundleData, pointer: string): NamedPlace {
  const [room = '', ...steps] = pointer.split('/').slice(1);
  const names: string[] = [];
  const keys: string[] = [room];
  let here: unknown = (data as Readonly<Record<string, unknown>>)[room];
  for (const step of steps) {
    const inner = stepInto(here, step);
    if (Array.isArray(here)) {
      const item = itemNames(inner, Number(step));
      keys.push(item.key);
      names.push(item.name);
    } else {
      keys.push(step);
      if (!SILENT.has(step)) names.push(SAID[step] ?? step);
    }
    here = inner;
  }
  return {
    part: PARTS[room] ?? room,
    name: sayNames(data, room, steps, names),
    key: `/${keys.join('/')}`,
  };
}

const stepInto = (here: unknown, step: string): unknown =>
  typeof here === 'object' && here !== null
    ? (here as Readonly<Record<string, unknown>>)[step]
    : undefined;

/** `upperArm` → upper arm */
const spreadWords = (pair: string): string => `${pair[0]} ${(pair[1] ?? '').toLowerCase()}`;

interface ItemNames {
  readonly key: string;
  readonly name: string;
}

/** An item is known by its id, or by what it is; a list of neither by the position. */
function itemNames(item: unknown, at: number): ItemNames {
  const text = (key: string): string | undefined => {
    const value = stepInto(item, key);
    return typeof value === 'string' ? value : undefined;
  };
  const key = text('id') ?? text('part') ?? text('kind') ?? text('fibre') ?? String(at + 1);
  const letter = text('letter');
  const said = text('name') ?? text('id') ?? key;
  // A name may be the key of a prose text, which nobody outside the bundle knows.
  const plain = said.includes('.') ? key : said;
  const name = plain.replaceAll('-', ' ').replace(/[a-z][A-Z]/g, spreadWords);
  return { key, name: letter === undefined ? name : `${letter} ${name}` };
}

/** A gauge says over what it is counted. */
function sayNames(
  data: BundleData,
  room: string,
  steps: readonly string[],
  names: readonly string[],
): string {
  const said = names.filter((name) => name !== '').join(', ');
  const over = room === 'gauges' ? data.gauges[Number(steps[0])]?.over : undefined;
  const isCount = steps[1] === 'stitches' || steps[1] === 'rows';
  return over !== undefined && isCount ? `${said} over ${over}` : said;
}
