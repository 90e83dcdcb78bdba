/**
 * Stitches whose name carries a number: any `kNtog`, `pNsso`, `k1 wrapping yarn N times`, clusters of
 * N. Takes a spelling, gives an entry made by the rule; tables hold only what a rule cannot say.
 */
import type { Stitch } from './stitch.ts';
import { STITCH_LIMITS } from '../../base/limits.ts';
import { cableStitch, readCable } from './cables.ts';

type Rule = readonly [form: RegExp, make: (found: RegExpExecArray) => Stitch];

const number = (text: string | undefined): number => Number(text ?? 0);
const plain = { lean: 'none', face: 'knit', counted: false } as const;

const RULES: readonly Rule[] = [
  [/^(k|p)(\d+)tog( tbl)?$/, ([, hand, count, tbl]) => together(hand, number(count), tbl !== undefined)],
  [/^p(\d+)sso$/, ([, count]) => passOver(number(count))],
  [/^pass (\d+) (?:slipped |sl )?sts over$/, ([, count]) => passOver(number(count))],
  [/^(k|p) wrapping (?:yarn )?(\d+)(?: times)?$/, ([, hand, count]) => elongated(hand, number(count))],
  [/^(?:wrap|cluster) (\d+)(?: sts)?$/, ([, count]) => wrapped(number(count))],
]; // prettier-ignore

/** The entry for a spelling that follows a rule; undefined where none does or it grows too wide. */
export function stitchByRule(spelling: string): Stitch | undefined {
  for (const [form, make] of RULES) {
    const found = form.exec(spelling);
    if (!found) continue;
    const width = Number(found.slice(1).find((part) => /^\d+$/.test(part ?? '')));
    return width >= 1 && width <= STITCH_LIMITS.together ? make(found) : undefined;
  }
  const shape = readCable(spelling);
  return shape && cableStitch(shape);
}

function together(hand: string | undefined, count: number, twisted: boolean): Stitch {
  const purl = hand === 'p';
  const suffix = `${count}tog${twisted ? ' tbl' : ''}`;
  return {
    ...plain,
    name: `${purl ? 'p' : 'k'}${suffix}`,
    family: 'decrease',
    takes: count,
    makes: 1,
    lean: twisted ? 'left' : 'right',
    face: purl ? 'purl' : 'knit',
    otherSide: `${purl ? 'k' : 'p'}${suffix}`,
    symbol: `lean-${twisted ? 'left' : 'right'}-${count}${purl ? '-purl' : ''}`,
  };
}

/** `p2sso`: stitches on the right needle are lifted over the one worked last. */
const passOver = (count: number): Stitch => ({
  ...plain,
  name: count === 1 ? 'psso' : `p${count}sso`,
  family: 'other',
  takes: 0,
  makes: -count,
  lean: 'left',
  symbol: 'pass-over',
});

/** A stitch drawn long: the extra wraps are dropped on the next row and do not count. */
const elongated = (hand: string | undefined, wraps: number): Stitch => ({
  ...plain,
  name: `${hand === 'p' ? 'p' : 'k'} wrapping ${wraps}`,
  family: 'wrap',
  takes: 1,
  makes: 1,
  face: hand === 'p' ? 'purl' : 'knit',
  counted: true,
  otherSide: `${hand === 'p' ? 'k' : 'p'} wrapping ${wraps}`,
  symbol: 'elongated',
});

const wrapped = (count: number): Stitch => ({
  ...plain,
  name: `wrap ${count}`,
  family: 'wrap',
  takes: count,
  makes: count,
  symbol: 'wrapped',
});
