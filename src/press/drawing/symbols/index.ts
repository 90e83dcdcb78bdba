/**
 * The symbol of any stitch: a crossing by rule from its widths and lean, a named symbol from the
 * table, otherwise by rule from what the stitch takes and makes. So every stitch, one that a bundle
 * invents included, has a picture, and `own` tells whether it is a drawing made for it.
 */
import type { Stitch } from '../../../pattern/stitches/stitch.ts';
import { OTHER, purled } from './basic.ts';
import { cableGlyph } from './cable.ts';
import * as cluster from './cluster.ts';
import { decreaseCentred, decreaseLeft, decreaseRight } from './decrease.ts';
import { fork } from './increase.ts';
import type { Glyph } from './glyph.ts';
import { namedGlyph } from './table.ts';

/** What a symbol needs to know of a stitch. */
export type Drawn = Pick<Stitch, 'symbol' | 'crossing' | 'takes' | 'makes' | 'lean' | 'face'>;

export interface ChartSymbol {
  readonly glyph: Glyph;
  /** Columns covered: the width of a crossing or cluster, 1 for every other stitch. */
  readonly columns: number;
  /** False where the drawing follows from counts and lean only. */
  readonly own: boolean;
}

/**
 * Symbols without a drawing of their own, on purpose: moving the yarn makes no stitch and stands in
 * no chart; a bundle's own stitch that is like no other is drawn from what it takes and makes.
 */
export const DRAWN_BY_RULE: readonly string[] = ['yarn-front', 'yarn-back', 'custom'];

/** Drawn from the difference: legs for what is taken, arms for what is made, else a lozenge. */
function byRule({ takes, makes, lean, face }: Drawn): Glyph {
  const plain = (): Glyph => {
    if (makes > takes) return fork(makes - takes + 1);
    if (makes === takes) return OTHER;
    const legs = takes - makes + 1;
    if (lean === 'centre') return decreaseCentred(legs);
    return lean === 'left' ? decreaseLeft(legs) : decreaseRight(legs);
  };
  return face === 'purl' ? purled(plain()) : plain();
}

/** Two stitches twisted without a needle are strokes, so that they differ from a 1/1 cable. */
const TWISTS: Readonly<Record<string, readonly [plain: Glyph, purl: Glyph]>> = {
  'twist-left': [cluster.TWIST_LEFT, cluster.TWIST_PURL_LEFT],
  'twist-right': [cluster.TWIST_RIGHT, cluster.TWIST_PURL_RIGHT],
};

/** The symbol of a stitch as it is seen from the right side. */
export function symbolOf(stitch: Drawn): ChartSymbol {
  const { crossing, symbol } = stitch;
  if (crossing) {
    const columns = crossing.left + (crossing.middle ?? 0) + crossing.right;
    const twist = TWISTS[symbol];
    const glyph = twist ? twist[crossing.purlBehind ? 1 : 0] : cableGlyph(crossing);
    return { glyph, columns, own: true };
  }
  const named = namedGlyph(symbol, Math.max(1, stitch.takes));
  return named ? { ...named, own: true } : { glyph: byRule(stitch), columns: 1, own: false };
}
