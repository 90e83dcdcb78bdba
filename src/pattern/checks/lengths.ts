/** Lengths written in the rows: "until piece measures 14 in / 35.5 cm" must be one length. */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { type Sized, spanFor } from '../bundle/size-list.ts';
import { numberIn, sizesOfLine } from '../needle/env.ts';
import { placeOf } from '../needle/gather.ts';
import type { Length, Line } from '../notation/ast.ts';
import type { Pattern } from '../pattern.ts';
import type { CheckContext } from './context.ts';
import { named } from './measurements.ts';
import { sameLength } from './rounding.ts';

export function checkLengths(context: CheckContext): readonly Finding[] {
  return context.pattern.pieces.flatMap((piece) =>
    piece.sections
      .flatMap((section) => section.lines)
      .flatMap(({ line }, at) => {
        if (!line) return [];
        return lengthsIn(line).flatMap((length) => lengthFinding(context, piece, at, line, length));
      }),
  );
}

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

function lengthFinding(
  context: CheckContext,
  piece: CheckContext['pattern']['pieces'][number],
  at: number,
  line: Line,
  length: Length,
): readonly Finding[] {
  const { inches, centimetres } = length;
  const affected = unitsDiffer(context.pattern, line, length, context.sizes);
  const [first] = affected;
  if (first === undefined || !inches || !centimetres) return [];
  const { sizes } = context.pattern;
  const value = valueIn(context.pattern, line);
  const span = spanFor(centimetres, centimetres.values.length === sizes.length ? first : 0);
  const facts = {
    name: 'the length',
    unit: 'cm' as const,
    sizes,
    affected,
    inches: sizes.map((_, size) => value(inches, size)),
    centimetres: sizes.map((_, size) => value(centimetres, size)),
  };
  const where = placeOf(context.pattern, piece, at, span);
  return [finding('measure/units-differ', where, facts, { sizes: named(context, affected) })];
}

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

const valueIn = (pattern: Pattern, line: Line) => (sized: Sized, size: number) =>
  numberIn(sized, size, pattern.sizes.length, sizesOfLine(line, pattern.sizes));
