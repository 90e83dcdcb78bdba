/**
 * The stitch catalogue as other rooms see it: entries as data, the catalogue that finds them, and the
 * rule for cables. To add a stitch, add a row to a table in `data/`; languages and chart symbols that
 * lack it are then listed by their completeness tests.
 */
import { TABLE } from './catalogue.ts';

export { CATALOGUE, catalogueFor, type Catalogue, type CustomStitch } from './catalogue.ts';
export { cableStitch, nameCable, readCable, usualCables, type CableShape } from './cables.ts';
export type { Crossing, Stitch, StitchFamily, SymbolName } from './stitch.ts';

/** Canonical names of all stitches of the tables, in their order. */
export const STITCH_NAMES: readonly string[] = TABLE.map((stitch) => stitch.name);

/**
 * Chart symbols the tables use, named by what they show. Besides these there are `crossing` (drawn by
 * rule from a cable's groups), `lean-left-N`, `lean-right-N` with `-purl` for any N, `elongated`,
 * `wrapped`, and `custom` for a bundle's own stitch that is like no other.
 */
export const SYMBOL_NAMES: readonly string[] = [...new Set(TABLE.map((stitch) => stitch.symbol))];
