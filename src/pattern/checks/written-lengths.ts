/** Lengths as they stand in the rows, and whether their two units are one length. */
import type { Sized } from '../bundle/size-list.ts';
import { numberIn, sizesOfLine } from '../needle/env.ts';
import type { Length, Line } from '../notation/ast.ts';
import type { Pattern } from '../pattern.ts';
import { sameLength } from './rounding.ts';

/** Every length of a line, however deep it stands in its tree. */
export function lengthsIn(line: Line): readonly Length[] {
  const found: Length[] = [];
  const look = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if (isLength(value)) found.push(value);
    else for (const inner of Object.values(value)) look(inner);
  };
  look(line.sentences);
  return found;
}

const isLength = (value: object): value is Length =>
  ('inches' in value || 'centimetres' in value) && 'span' in value;

/** Sizes in which the two units of a length are not one length. */
export function unitsDiffer(
  pattern: Pattern,
  line: Line,
  { inches, centimetres }: Length,
  sizes: readonly number[],
): readonly number[] {
  if (!inches || !centimetres) return [];
  const only = sizesOfLine(line, pattern.sizes);
  const value = valueIn(pattern, line);
  return sizes.filter((size) => {
    if (only && !only.includes(size)) return false;
    const one = value(inches, size);
    const other = value(centimetres, size);
    return one !== null && other !== null && !sameLength(one, other);
  });
}

export const valueIn = (pattern: Pattern, line: Line) => (sized: Sized, size: number) =>
  numberIn(sized, size, pattern.sizes.length, sizesOfLine(line, pattern.sizes));
