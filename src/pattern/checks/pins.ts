/**
 * Pinned numbers: for every number of a bundle, would a check notice if it were different? Takes a
 * checked pattern, changes one number at a time, works again only what that can reach, and gives the
 * share that is noticed and the numbers that are not. A designer can trust a green result as far as
 * this says, and must look at the rest with her own eyes.
 */
import type { Place } from '../../findings/finding.ts';
import type { Pattern } from '../pattern.ts';
import type { CheckContext } from './context.ts';
import { effectReason } from './pin-effects.ts';
import { type BundleNumber, numbersOfBundle, type Variant, variantsOf } from './pin-numbers.ts';
import { freeByNature } from './pin-reasons.ts';
import { isNoticed, trialOf } from './pin-trials.ts';

export interface UnpinnedNumber {
  readonly where: Place;
  readonly value: number;
  /** The size the value is for; undefined where it is for all. */
  readonly size?: string;
  /** Changes that no check would notice. */
  readonly missed: readonly string[];
}

export interface FreeNumber extends UnpinnedNumber {
  /** Why nothing can hold this number. */
  readonly reason: string;
}

export interface PinsReport {
  /** Numbers looked at. */
  readonly total: number;
  /** Numbers of which every change is noticed. */
  readonly pinned: number;
  /** Pinned numbers among those that are not free by nature, from 0 to 1. */
  readonly share: number;
  readonly unpinned: readonly UnpinnedNumber[];
  readonly free: readonly FreeNumber[];
}

export function pinNumbers(pattern: Pattern): PinsReport {
  const trial = trialOf(pattern);
  const { context } = trial;
  const numbers = numbersOfBundle(context);
  const unpinned: UnpinnedNumber[] = [];
  const free: FreeNumber[] = [];
  for (const number of numbers) {
    const missed = variantsOf(number).filter((variant) => !isNoticed(trial, number, variant));
    if (missed.length === 0) continue;
    const found = unpinnedOf(context, number, missed);
    const reason = freeByNature(number, context.data) ?? effectReason(trial, number, missed);
    if (reason === undefined) unpinned.push(found);
    else free.push({ ...found, reason });
  }
  const total = numbers.length;
  const pinned = total - unpinned.length - free.length;
  const held = total - free.length;
  return { total, pinned, share: held === 0 ? 1 : pinned / held, unpinned, free };
}

function unpinnedOf(
  { pattern }: CheckContext,
  { where, value, index, list }: BundleNumber,
  missed: readonly Variant[],
): UnpinnedNumber {
  const size = list.length > 1 ? pattern.sizes[index] : undefined;
  return {
    where,
    value,
    missed: missed.map(({ said }) => said),
    ...(size !== undefined && { size }),
  };
}
