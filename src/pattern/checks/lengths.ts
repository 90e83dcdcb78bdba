/** Lengths written in the rows: "until piece measures 14 in / 35.5 cm" must be one length. */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { spanFor } from '../bundle/size-list.ts';
import { placeOf } from '../needle/gather.ts';
import type { Length, Line } from '../notation/ast.ts';
import type { CheckContext } from './context.ts';
import { named } from './measurements.ts';
import { lengthsIn, unitsDiffer, valueIn } from './written-lengths.ts';

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
