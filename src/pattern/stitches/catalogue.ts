/**
 * The catalogue: every known stitch by any of its written forms. Tables and rules are joined here and
 * a bundle's own stitches are laid over them. Gives entries; callers ask their properties and never
 * compare names.
 */
import type { BundleData } from '../bundle/schema.ts';
import type { Stitch } from './stitch.ts';
import { STITCH_LIMITS } from '../../base/limits.ts';
import { BASICS, BELOW, OTHERS, SLIPPED, TWISTED, WRAPS } from './data/plain.ts';
import { CLUSTERS, DECREASES } from './data/decreases.ts';
import { INCREASES } from './data/increases.ts';
import { BOBBLES, BRIOCHE, TWISTS } from './data/textured.ts';
import { nearestWords } from '../../base/nearest.ts';
import { stitchByRule } from './rules.ts';
import { spell } from './spelling.ts';

export type CustomStitch = BundleData['stitches'][number];

/** Every stitch of the tables. Cables and other stitches by rule are not listed one by one. */
export const TABLE: readonly Stitch[] = [
  ...BASICS, ...TWISTED, ...SLIPPED, ...BELOW, ...WRAPS,
  ...DECREASES, ...CLUSTERS, ...INCREASES,
  ...BOBBLES, ...BRIOCHE, ...TWISTS, ...OTHERS,
]; // prettier-ignore

export interface Catalogue {
  /** Entries of the tables and of the bundle, those of the bundle first. */
  readonly all: readonly Stitch[];
  /** By any written form without its number of stitches: `knit`, `K 2 tog`, `C4F`, `2/2 LC`. */
  lookup(written: string): Stitch | undefined;
  /** The known written forms nearest to a word, by edit distance; canonical names first. */
  nearest(word: string, limit?: number): readonly string[];
}

function joined(stitches: readonly Stitch[]): Catalogue {
  const bySpelling = new Map<string, Stitch>();
  const exact = new Map<string, Stitch>();
  for (const stitch of stitches) {
    if (!exact.has(stitch.name)) exact.set(stitch.name, stitch);
    for (const form of [stitch.name, ...(stitch.also ?? [])]) {
      const spelling = spell(form);
      if (!bySpelling.has(spelling)) bySpelling.set(spelling, stitch);
    }
  }
  const find = (written: string): Stitch | undefined => {
    const known = exact.get(written);
    if (known) return known;
    const spelling = spell(written);
    return bySpelling.get(spelling) ?? stitchByRule(spelling);
  };
  const found = new Map<string, Stitch | undefined>();
  return {
    all: stitches,
    lookup(written) {
      if (written.length > STITCH_LIMITS.letters) return undefined;
      if (found.has(written)) return found.get(written);
      const stitch = find(written);
      if (found.size >= STITCH_LIMITS.remembered) found.clear();
      found.set(written, stitch);
      return stitch;
    },
    nearest(word, limit = 3) {
      if (word.length > STITCH_LIMITS.letters / 2) return [];
      const names = nearestWords(word, [...exact.keys()], limit);
      const forms = nearestWords(word, [...bySpelling.keys()], limit);
      return [...new Set([...names, ...forms])].slice(0, limit);
    },
  };
}

export const CATALOGUE: Catalogue = joined(TABLE);

/**
 * The catalogue with a bundle's own stitches laid over it: a stitch of the bundle hides one of the
 * tables with the same name. `like` lends its look and its place; takes and makes are the bundle's.
 */
export function catalogueFor(custom: readonly CustomStitch[]): Catalogue {
  if (custom.length === 0) return CATALOGUE;
  const own = custom.map((stitch): Stitch => {
    const like = stitch.like === undefined ? undefined : CATALOGUE.lookup(stitch.like);
    return {
      name: stitch.id,
      family: like?.family ?? 'other',
      takes: stitch.takes,
      makes: stitch.makes,
      lean: like?.lean ?? 'none',
      face: like?.face ?? 'mixed',
      counted: false,
      symbol: like?.symbol ?? 'custom',
      ...(like?.crossing && { crossing: like.crossing }),
    };
  });
  return joined([...own, ...TABLE]);
}
