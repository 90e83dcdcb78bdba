/**
 * How fast the needle and the checks are: the largest starter, the pins analysis of it, and growth with
 * the number of sizes and of rows. Run with `npm run bench`; nothing here fails for being slow.
 */
import { readFileSync } from 'node:fs';
import { bench, describe } from 'vitest';
import { bundleSchema } from '../../src/pattern/bundle/schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { pinNumbers } from '../../src/pattern/checks/pins.ts';
import { workPattern } from '../../src/pattern/needle/index.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';
import { readPattern } from '../../src/pattern/read.ts';
import { patternOf } from '../needle/working.ts';

function readStarter(name: string): Bundle {
  const file = new URL(`../../templates/starters/${name}/pattern.json`, import.meta.url);
  const data = bundleSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  return { data, prose: new Map(), photos: new Map(), hash: '' };
}

describe('the largest starter', () => {
  const bundle = readStarter('harbor-light-cardigan');
  const { pattern } = readPattern(bundle);
  bench('read', () => void readPattern(bundle));
  bench('work', () => void workPattern(pattern));
  bench('check', () => void checkPattern(bundle));
  bench('pins', () => void pinNumbers(pattern), { iterations: 3, warmupIterations: 1 });
});

const sizesOf = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, at) => `size ${at + 1}`);

const listOf = (first: number, step: number, count: number): string => {
  const [one, ...rest] = Array.from({ length: count }, (_, at) => String(first + step * at));
  return rest.length === 0 ? (one ?? '') : `${one} (${rest.join(', ')})`;
};

/** A raglan yoke: every other round has eight increases by its markers. */
const yoke = (sizes: number, repeats: number) =>
  patternOf({
    sizes: sizesOf(sizes),
    form: 'round',
    lines: [
      `Cast on ${listOf(80, 8, sizes)} sts.`,
      'Place marker and join to work in the round.',
      `Set-up rnd: k10, pm, k${listOf(30, 4, sizes)}, pm, k10, pm, k to end.`,
      'Inc rnd: *k1, m1L, k to 1 st before m, m1R, k1, sm; rep from * to end.',
      'Next rnd: Knit.',
      `Rep last 2 rnds ${repeats} more times.`,
    ],
  });

describe.each([1, 5, 10, 20, 40])('a yoke of 100 rounds in %i sizes', (sizes) => {
  const pattern = yoke(sizes, 49);
  bench('work', () => void workPattern(pattern));
});

describe.each([100, 400, 1600, 6400])('a yoke of %i rounds in 5 sizes', (rounds) => {
  const pattern = yoke(5, rounds / 2 - 1);
  bench('work', () => void workPattern(pattern));
});

describe('plain rows are counted, not worked', () => {
  const pattern = patternOf({
    lines: [
      'Cast on 500 sts.',
      'Row 1: *k2, p2; rep from * to end.',
      'Rep Row 1 19000 more times.',
    ],
  });
  bench('19,000 rows of 500 stitches', () => void workPattern(pattern));
});
