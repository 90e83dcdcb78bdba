/**
 * What a finished length is made of: stitches or rows of a gauge, which grow when a knitter's gauge is
 * looser, and stretches that are knitted to a length, which do not. Takes the check's view, the derivation
 * of a measurement and a size; gives parts in inches at the stated gauge, undefined where none follows.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import type { DerivationData } from '../../pattern/bundle/schema.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { trueInches } from '../../pattern/checks/derive.ts';
import { lengthsIn, valueIn } from '../../pattern/checks/written-lengths.ts';
import type { Line } from '../../pattern/notation/ast.ts';
import { workedInOf } from '../../pattern/outlines/worked-in.ts';
import type { LengthPart } from './basis.ts';

export function lengthParts(
  context: CheckContext,
  from: DerivationData,
  size: number,
): readonly LengthPart[] | undefined {
  const parts = partsOf(context, from, size, 0);
  return parts && parts.length > 0 ? merged(parts) : undefined;
}

function partsOf(
  context: CheckContext,
  from: DerivationData,
  size: number,
  depth: number,
): readonly LengthPart[] | undefined {
  if ('given' in from) return undefined;
  if ('sum' in from) return sumParts(context, from.sum, size, depth);
  if ('depth' in from && from.gauge === undefined) return rowParts(context, from.depth, size);
  const inches = trueInches(context, from, size);
  if (typeof inches !== 'number') return undefined;
  if ('depth' in from) return [{ by: 'rows', gauge: from.gauge ?? '', inches }];
  if ('rows' in from) return [{ by: 'rows', gauge: from.gauge, inches }];
  if ('stitches' in from) return [{ by: 'stitches', gauge: from.gauge, inches }];
  const piece = context.anchor(from.width)?.piece ?? -1;
  const own = context.pattern.pieces[piece]?.data.gauge ?? '';
  return [{ by: 'stitches', gauge: from.gauge ?? own, inches }];
}

/** Line by line between two places: a line that states a length is worked until it is reached. */
function rowParts(
  context: CheckContext,
  places: readonly [string, string],
  size: number,
): readonly LengthPart[] | undefined {
  const [first, last] = places.map((name) => context.anchor(name));
  const trace = first && context.pieces[first.piece];
  if (!first || !last || !trace) return undefined;
  const workedIn = workedInOf(context.data, trace.piece);
  const start = first.line === undefined ? 0 : first.line + 1;
  return trace.lines.reduce<readonly LengthPart[]>((parts, { line, outcomes }, at) => {
    const outcome = outcomes[size];
    if (at < start || at > (last.line ?? Infinity) || !outcome || outcome.lengthInches <= 0)
      return parts;
    const inches = outcome.lengthInches;
    const measured = line.line && statedInches(context, line.line, size);
    if (measured === undefined) {
      const gauge = workedIn[at]?.gauge?.id ?? trace.piece.data.gauge;
      return [...parts, { by: 'rows', gauge, inches }];
    }
    return [...asMeasured(parts, measured - inches), { by: 'length', gauge: '', inches }];
  }, []);
}

/** The longest length a line states, in one size. */
function statedInches(context: CheckContext, line: Line, size: number): number | undefined {
  const value = valueIn(context.pattern, line);
  const inches = lengthsIn(line).flatMap(({ inches: own, centimetres }): readonly number[] => {
    const [first, second] = [own && value(own, size), centimetres && value(centimetres, size)];
    if (typeof first === 'number') return [first];
    return typeof second === 'number' ? [second / CENTIMETRES_PER_INCH] : [];
  });
  return inches.length === 0 ? undefined : Math.max(...inches);
}

/**
 * "Until piece measures 2 in from cast-on edge": the rows before the line count towards the length, so that
 * as much of them as it reaches back over is no longer a matter of gauge.
 */
function asMeasured(parts: readonly LengthPart[], reachInches: number): readonly LengthPart[] {
  let left = reachInches;
  return [...parts]
    .reverse()
    .flatMap((part): readonly LengthPart[] => {
      const taken = Math.max(0, Math.min(left, part.inches));
      left -= part.inches;
      if (taken <= 0) return [part];
      const rest = part.inches - taken;
      const measured: LengthPart = { by: 'length', gauge: '', inches: taken };
      return rest > 1e-9 ? [measured, { ...part, inches: rest }] : [measured];
    })
    .reverse();
}

function sumParts(
  context: CheckContext,
  ids: readonly string[],
  size: number,
  depth: number,
): readonly LengthPart[] | undefined {
  if (depth > context.data.measurements.length) return undefined;
  const all: LengthPart[] = [];
  for (const id of ids) {
    const part = context.data.measurements.find((each) => each.id === id);
    if (!part) return undefined;
    const given = 'given' in part.from ? sizedValue(part.size.in, size) : undefined;
    const parts =
      typeof given === 'number'
        ? [{ by: 'length', gauge: '', inches: given } as const]
        : partsOf(context, part.from, size, depth + 1);
    if (!parts) return undefined;
    all.push(...parts);
  }
  return all;
}

/** One part for each way and gauge, to the thousandth of an inch. */
function merged(parts: readonly LengthPart[]): readonly LengthPart[] {
  const sums = new Map<string, LengthPart>();
  for (const part of parts) {
    const key = `${part.by} ${part.gauge}`;
    const before = sums.get(key)?.inches ?? 0;
    sums.set(key, { ...part, inches: before + part.inches });
  }
  return [...sums.values()].map((part) => ({
    ...part,
    inches: Math.round(part.inches * 1000) / 1000,
  }));
}
