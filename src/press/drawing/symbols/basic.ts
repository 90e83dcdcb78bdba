/**
 * Symbols of single stitches that keep the count: knit, purl, twisted, slipped, tucked, wrapped,
 * bound off, bobbles, brioche. Drawn by our own hand after the descriptions of JIS L 0201 (purl:
 * a bar; twisted: a loop crossed at its base; slipped: a V, with a bar where the yarn is in front;
 * tuck: an inverted U; bind-off: a filled dot). A knit stitch leaves its cell empty, as most charts do.
 */
import { ellipsePath, openPath } from '../path.ts';
import { fill, fine, shrunk, stroke, type Glyph } from './glyph.ts';

export const EMPTY: Glyph = [];

export const BAR: Glyph = [stroke(...openPath([0.24, 0.5], [0.76, 0.5]))];

/** The bar below a symbol that says: worked as a purl. */
const UNDERBAR: Glyph = [stroke(...openPath([0.24, 0.88], [0.76, 0.88]))];

/** The purl form of a knit symbol: the same, a little smaller, over a bar (JIS L 0201). */
export const purled = (glyph: Glyph): Glyph => [...shrunk(glyph, 0.84, 0.5, 0.42), ...UNDERBAR];

/** A symbol made room for at the top. */
export const lowered = (glyph: Glyph): Glyph => shrunk(glyph, 0.8, 0.5, 0.58);

export const TWISTED: Glyph = [
  stroke(['M', 0.24, 0.82], ['C', 0.62, 0.62, 0.76, 0.42, 0.68, 0.28], ['C', 0.6, 0.14, 0.4, 0.14, 0.32, 0.28], ['C', 0.24, 0.42, 0.38, 0.62, 0.76, 0.82]), // prettier-ignore
];

const VEE = openPath([0.26, 0.24], [0.5, 0.78], [0.74, 0.24]);
export const SLIPPED: Glyph = [stroke(...VEE)];
export const SLIPPED_YARN_IN_FRONT: Glyph = [
  stroke(...VEE),
  stroke(...openPath([0.18, 0.5], [0.82, 0.5])),
];

const TUCK_ARCH = stroke(
  ['M', 0.27, 0.8],
  ['L', 0.27, 0.46],
  ['C', 0.27, 0.14, 0.73, 0.14, 0.73, 0.46],
  ['L', 0.73, 0.8],
);
export const TUCKED: Glyph = [TUCK_ARCH];

/** A stitch worked together with the yarn over that lies on it. */
export const BRIOCHE: Glyph = [TUCK_ARCH, stroke(...openPath([0.5, 0.44], [0.5, 0.8]))];

/** A stitch slipped while a yarn over is laid on it. */
export const SLIPPED_WITH_YARN_OVER: Glyph = [
  stroke(...openPath([0.27, 0.38], [0.5, 0.82], [0.73, 0.38])),
  stroke(...ellipsePath(0.5, 0.26, 0.13)),
];

export const YARN_OVER: Glyph = [stroke(...ellipsePath(0.5, 0.5, 0.25))];

export const BOUND_OFF: Glyph = [
  stroke(['M', 0.2, 0.56], ['C', 0.26, 0.2, 0.74, 0.2, 0.8, 0.56]),
  fill(...ellipsePath(0.5, 0.66, 0.13)),
];

export const BOBBLE: Glyph = [fill(...ellipsePath(0.5, 0.5, 0.31))];

/** A loop cast on with the working yarn. */
export const LOOP_CAST_ON: Glyph = [
  stroke(['M', 0.22, 0.72], ['C', 0.5, 0.9, 0.8, 0.62, 0.7, 0.4], ['C', 0.6, 0.2, 0.34, 0.28, 0.38, 0.5], ['C', 0.4, 0.66, 0.62, 0.74, 0.8, 0.66]), // prettier-ignore
];

/** A stitch with the yarn wrapped round it. */
export const WRAPPED: Glyph = [
  stroke(...openPath([0.5, 0.16], [0.5, 0.84])),
  stroke(...ellipsePath(0.5, 0.54, 0.3, 0.15)),
];

/** A stitch drawn long: the yarn is wound round the needle more than once. */
export const ELONGATED: Glyph = [
  stroke(...openPath([0.5, 0.14], [0.5, 0.86])),
  fine(...openPath([0.3, 0.34], [0.7, 0.34])),
  fine(...openPath([0.3, 0.66], [0.7, 0.66])),
];

/** A stitch let fall down the rows below. */
export const DROPPED: Glyph = [
  stroke(...openPath([0.5, 0.16], [0.5, 0.5])),
  stroke(...openPath([0.3, 0.62], [0.5, 0.84], [0.7, 0.62])),
];

/** Slipped as if to knit: the loop is turned, so the V is closed. */
export const SLIPPED_KNITWISE: Glyph = [stroke(...VEE, ['Z'])];

/** A stitch passed over its neighbour. */
export const PASSED_OVER: Glyph = [
  stroke(['M', 0.2, 0.7], ['C', 0.26, 0.2, 0.74, 0.2, 0.8, 0.7]),
  stroke(...openPath([0.66, 0.6], [0.8, 0.7], [0.88, 0.54])),
];

/** Worked as the pattern before says: three dots. */
export const AS_ESTABLISHED: Glyph = [0.26, 0.5, 0.74].map((x) =>
  fill(...ellipsePath(x, 0.5, 0.07)),
);

/** A stitch of the edge, worked as the designer's edge asks: an upright wave. */
export const EDGE: Glyph = [
  stroke(['M', 0.5, 0.16], ['C', 0.78, 0.3, 0.78, 0.42, 0.5, 0.5], ['C', 0.22, 0.58, 0.22, 0.7, 0.5, 0.84]), // prettier-ignore
];

/** A knot: a small bobble with a bar. */
export const KNOT: Glyph = [
  fill(...ellipsePath(0.5, 0.42, 0.2)),
  stroke(...openPath([0.24, 0.78], [0.76, 0.78])),
];

/** Many loops from one stitch, gathered in the row above. */
export const NUPP: Glyph = [
  stroke(...ellipsePath(0.5, 0.5, 0.3)),
  fill(...ellipsePath(0.5, 0.5, 0.14)),
];

/** A bead: a lozenge filled. */
export const BEAD: Glyph = [
  fill(...openPath([0.5, 0.18], [0.76, 0.5], [0.5, 0.82], [0.24, 0.5]), ['Z']),
];

/** A long loop that hangs in front. */
export const LOOP: Glyph = [
  stroke(['M', 0.36, 0.16], ['C', 0.14, 0.7, 0.3, 0.84, 0.5, 0.84], ['C', 0.7, 0.84, 0.86, 0.7, 0.64, 0.16]), // prettier-ignore
];

/** Any stitch without a symbol of its own that keeps the count: an open lozenge. */
export const OTHER: Glyph = [
  stroke(...openPath([0.5, 0.2], [0.8, 0.5], [0.5, 0.8], [0.2, 0.5]), ['Z']),
];
