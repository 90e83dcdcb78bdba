/**
 * Which symbol name shows which drawing. Names come from the stitch catalogue, where each entry says
 * what it looks like; this table is the only place that joins the two. Names that carry a number are
 * read by rule, and `-purl` after a name adds the purl bar.
 */
import * as basic from './basic.ts';
import * as cluster from './cluster.ts';
import { decreaseCentred, decreaseLeft, decreaseRight } from './decrease.ts';
import * as increase from './increase.ts';
import { stroke, type Glyph } from './glyph.ts';
import { ellipsePath } from '../path.ts';

/** A brioche stitch wears the ring of its yarn over at the top. */
const RING = stroke(...ellipsePath(0.5, 0.14, 0.085));
const brioche = (glyph: Glyph): Glyph => [...basic.lowered(glyph), RING];

const GLYPHS: Readonly<Record<string, Glyph>> = {
  knit: basic.EMPTY,
  purl: basic.BAR,
  work: basic.AS_ESTABLISHED,
  edge: basic.EDGE,
  'knit-twisted': basic.TWISTED,
  'purl-twisted': basic.purled(basic.TWISTED),
  'slip-back': basic.SLIPPED,
  'slip-front': basic.SLIPPED_YARN_IN_FRONT,
  'slip-knitwise': basic.SLIPPED_KNITWISE,
  'knit-below': basic.TUCKED,
  'purl-below': basic.purled(basic.TUCKED),
  'yarn-over': basic.YARN_OVER,
  'bind-off': basic.BOUND_OFF,
  'loop-cast-on': basic.LOOP_CAST_ON,
  'pass-over': basic.PASSED_OVER,
  bobble: basic.BOBBLE,
  knot: basic.KNOT,
  nupp: basic.NUPP,
  bead: basic.BEAD,
  loop: basic.LOOP,
  elongated: basic.ELONGATED,
  drop: basic.DROPPED,
  'brioche-knit': basic.BRIOCHE,
  'brioche-purl': basic.purled(basic.BRIOCHE),
  'brioche-slip': basic.SLIPPED_WITH_YARN_OVER,
  'brioche-lean-left': brioche(decreaseLeft(3)),
  'brioche-lean-right': brioche(decreaseRight(3)),
  'brioche-centred': brioche(decreaseCentred(3)),
  'brioche-centred-5': brioche(decreaseCentred(5)),
  'lean-right': decreaseRight(2),
  'lean-left': decreaseLeft(2),
  'make-one': increase.FROM_STRAND,
  'make-one-left': increase.FROM_STRAND_LEFT,
  'make-one-right': increase.FROM_STRAND_RIGHT,
  'make-one-open': increase.FROM_STRAND_OPEN,
  'lifted-left': increase.LIFTED_LEFT,
  'lifted-right': increase.LIFTED_RIGHT,
};

const BY_NUMBER: Readonly<Record<string, (count: number) => Glyph>> = {
  'lean-left': decreaseLeft,
  'lean-right': decreaseRight,
  centred: decreaseCentred,
  increase: increase.fork,
  'brioche-increase': (count) => brioche(increase.fork(count)),
};

/** Over as many columns as stitches. */
const CLUSTERS: Readonly<Record<string, (count: number) => Glyph>> = {
  gather: cluster.gather,
  wrapped: cluster.wrapped,
};

export interface NamedGlyph {
  readonly glyph: Glyph;
  readonly columns: number;
}

/** The drawing of a symbol name; `width` is the number of stitches, for names that take any. */
export function namedGlyph(name: string, width: number): NamedGlyph | undefined {
  const known = GLYPHS[name];
  if (known) return { glyph: known, columns: 1 };
  if (name.endsWith('-purl')) {
    const plain = namedGlyph(name.slice(0, -'-purl'.length), width);
    return plain && { ...plain, glyph: basic.purled(plain.glyph) };
  }
  const [, stem = name, count] = /^(.+)-(\d+)$/.exec(name) ?? [];
  const number = count === undefined ? width : Number(count);
  const clustered = CLUSTERS[stem];
  if (clustered) return { glyph: clustered(number), columns: number };
  const numbered = count === undefined ? undefined : BY_NUMBER[stem];
  return numbered && { glyph: numbered(number), columns: 1 };
}
