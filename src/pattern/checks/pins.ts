/**
 * Pinned numbers: for every number of a bundle, would a check notice if it were different? Takes a
 * checked pattern, changes one number at a time, works again only what that can reach, and gives the
 * share that is noticed, which check notices each number, and the numbers that none does. A designer can trust a green result as far as
 * this says, and must look at the rest with her own eyes.
 */
import type { Place } from '../../findings/finding.ts';
import type { Pattern } from '../pattern.ts';
import type { CheckContext } from './context.ts';
import { effectReason } from './pin-effects.ts';
import { type BundleNumber, numbersOfBundle, type Variant, variantsOf } from './pin-numbers.ts';
import { freeByNature } from './pin-reasons.ts';
import { noticeOf, trialOf } from './pin-trials.ts';

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

/** One number with what holds it; those of one list of sizes share `list`. */
export interface NumberPins {
  readonly number: BundleNumber;
  /** Codes of the checks that notice a change, the one that notices most of them first. */
  readonly heldBy: readonly string[];
  /** Changes that no check would notice; empty for a pinned number. */
  readonly missed: readonly string[];
  /** Why nothing can hold it, where it is free by nature. */
  readonly reason?: string;
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
  /** Every number, in the order of the bundle. */
  readonly numbers: readonly NumberPins[];
}

export function pinNumbers(pattern: Pattern): PinsReport {
  const trial = trialOf(pattern);
  const { context } = trial;
  const unpinned: UnpinnedNumber[] = [];
  const free: FreeNumber[] = [];
  const numbers = numbersOfBundle(context).map((number): NumberPins => {
    const tried = variantsOf(number).map((variant) => {
      return { variant, notice: noticeOf(trial, number, variant) };
    });
    const heldBy = byFrequency(tried.flatMap(({ notice }) => notice ?? []));
    const missed = tried.flatMap(({ variant, notice }) => (notice === undefined ? [variant] : []));
    if (missed.length === 0) return { number, heldBy, missed: [] };
    const found = unpinnedOf(context, number, missed);
    const reason = freeByNature(number, context.data) ?? effectReason(trial, number, missed);
    if (reason === undefined) unpinned.push(found);
    else free.push({ ...found, reason });
    return { number, heldBy, missed: found.missed, ...(reason !== undefined && { reason }) };
  });
  const total = numbers.length;
  const pinned = total - unpinned.length - free.length;
  const held = total - free.length;
  const share = held === 0 ? 1 : pinned / held;
  return { total, pinned, share, unpinned, free, numbers };
}

/** Codes without repeats, the most frequent first; a change that says the same is no check's. */
function byFrequency(codes: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const code of codes) if (code.includes('/')) counts.set(code, (counts.get(code) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a).map(([code]) => code);
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
