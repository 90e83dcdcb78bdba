/**
 * A stitch with its number, as written: `k5`, `k1 tbl`, `sl1 wyif`, `drop 2`, `yo twice`, `work 18`,
 * `inc in each of next 6 sts`. Looks at the name only for its words, never for its meaning; whether it
 * is written with a number is the catalogue's to say.
 */
import type { StitchName } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import { CATALOGUE } from '../../stitches/index.ts';
import { isJust, printCount, printStitches, printTimes } from './numbers.ts';

/** Heads up to this long take their number glued on: `brk1`, but `drop 1`. */
const LONGEST_GLUED = 3;

/** The rest of a name as it is written after the number. */
const written = (rest: string): string =>
  rest.replace(/^wrapping (\d+)$/, 'wrapping yarn $1 times');

/** Without a number, before a goal: `k tbl`, `k wrapping yarn 3 times`. */
export function printStitchName(name: StitchName): string {
  const [head = name, ...rest] = name.split(' ');
  return CATALOGUE.lookup(name)?.counted ? [head, written(rest.join(' '))].join(' ').trim() : name;
}

/** With its number: `k8 (9, 10) tbl`, `k2tog 3 times`. */
export function printCountedStitch(name: StitchName, times: Sized): string {
  const stitch = CATALOGUE.lookup(name);
  if (name === 'inc' || name === 'dec') return printGeneric(name, times);
  if (!stitch?.counted) {
    return isJust(times, 1) ? name : `${name} ${printTimes(times)}`;
  }
  const [head = name, ...rest] = name.split(' ');
  const glued = head.length <= LONGEST_GLUED && times.values[0] !== null;
  return `${head}${glued ? '' : ' '}${printCount(times)} ${written(rest.join(' '))}`.trim();
}

/** The unspecific increase and decrease are said by the stitches they are worked in. */
function printGeneric(name: StitchName, times: Sized): string {
  if (name === 'dec') return isJust(times, 1) ? 'dec' : `dec ${printTimes(times)}`;
  return isJust(times, 1) ? 'inc in next st' : `inc in each of next ${printStitches(times)}`;
}
