/**
 * Checks that look at one written row by itself: numbers that work nothing, shaping that is not
 * mirrored, two numbers that are alike in all sizes but one. They say what a count cannot: the row
 * comes out, and yet one of its numbers is a slip.
 */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { Span } from '../../base/span.ts';
import type { Sized } from '../bundle/size-list.ts';
import type { StitchFlow } from '../needle/env.ts';
import { numberIn, type NumberReader, sizesOfLine } from '../needle/env.ts';
import { placeOf } from '../needle/gather.ts';
import { lineSay } from '../needle/say.ts';
import { catalogueFor } from '../stitches/index.ts';
import type { Line } from '../notation/ast.ts';
import type { CheckContext } from './context.ts';
import { oddSizes } from './odd-sizes.ts';
import { mirrorFaults } from './mirror.ts';
import { zeroNumbers } from './zeros.ts';

/** What is odd in one line, before it has a place. */
export type LineRemark =
  | { readonly kind: 'zero'; readonly span: Span }
  | {
      readonly kind: 'mirror';
      readonly span: Span;
      readonly first: string;
      readonly last: string;
      readonly before: readonly (number | null)[];
      readonly after: readonly (number | null)[];
      readonly affected: readonly number[];
    }
  | {
      readonly kind: 'odd';
      readonly span: Span;
      readonly one: string;
      readonly other: string;
      readonly ones: readonly (number | null)[];
      readonly others: readonly (number | null)[];
      readonly affected: readonly number[];
    };

/** The code under which each kind of remark is told. */
export const REMARK_CODES = {
  zero: 'count/zero',
  mirror: 'count/asymmetric',
  odd: 'count/odd-size',
} as const;

/** What the line checks need to know of one line. */
export interface LineLook {
  readonly line: Line;
  readonly sizes: number;
  /** Sizes the line is for. */
  readonly only: readonly number[] | undefined;
  read(sized: Sized, size: number): number | null;
  reader(size: number): NumberReader;
  stitch(name: string): (StitchFlow & { readonly lean: string }) | undefined;
  /** Stitches on the needle before the line. */
  before(size: number): number | undefined;
}

export function lookAt(context: CheckContext, line: Line, before: LineLook['before']): LineLook {
  const { sizes } = context.pattern;
  const only = sizesOfLine(line, sizes);
  const catalogue = catalogueFor(context.data.stitches);
  const read = (sized: Sized, size: number) => numberIn(sized, size, sizes.length, only);
  return {
    line,
    sizes: sizes.length,
    only,
    read,
    reader: (size) => (sized) => read(sized, size),
    stitch: (name) => catalogue.lookup(name),
    before,
  };
}

export const remarksOn = (look: LineLook): readonly LineRemark[] => [
  ...zeroNumbers(look),
  ...mirrorFaults(look),
  ...oddSizes(look),
];

export function checkLines(context: CheckContext): readonly Finding[] {
  return context.pattern.pieces.flatMap((piece, at) =>
    piece.sections
      .flatMap((section) => section.lines)
      .flatMap(({ line }, index) => {
        if (!line) return [];
        const look = lookAt(context, line, (size) => context.outcome(at, index, size)?.before);
        return remarksOn(look)
          .filter((remark) => !isInDoubt(context, at, index, remark))
          .map((remark) => remarkFinding(context, at, index, line, remark));
      }),
  );
}

/** Where a count of the line is in doubt anyway, what looks odd in it is the same slip. */
const isInDoubt = (
  context: CheckContext,
  piece: number,
  index: number,
  remark: LineRemark,
): boolean =>
  (remark.kind === 'zero' ? context.sizes : remark.affected).some((size) => {
    const outcome = context.outcome(piece, index, size);
    return outcome?.doubtful === true || outcome?.failed === true;
  });

/** The words around a number, up to the marks that divide a row: `p0`, `k2tog 0 times`. */
function phraseAt(text: string, { start, end }: Span): string {
  const divides = /[,;:*([\].]/;
  let from = start;
  while (from > 0 && !divides.test(text.charAt(from - 1))) from -= 1;
  let to = end;
  while (to < text.length && !divides.test(text.charAt(to))) to += 1;
  return text.slice(from, to).trim();
}

function remarkFinding(
  context: CheckContext,
  piece: number,
  index: number,
  line: Line,
  remark: LineRemark,
): Finding {
  const { pattern } = context;
  const where = placeOf(pattern, pattern.pieces[piece] as never, index, remark.span);
  const base = { row: lineSay(line), sizes: pattern.sizes };
  const what = phraseAt(line.text, remark.span);
  const all = pattern.sizes.map((_, size) => size);
  if (remark.kind === 'zero') {
    return finding(REMARK_CODES.zero, where, {
      ...base,
      affected: all,
      numbers: {},
      words: { what },
    });
  }
  const { affected } = remark;
  const sizes = { sizes: affected.map((size) => pattern.sizes[size] ?? '') };
  if (remark.kind === 'mirror') {
    const numbers = { before: remark.before, after: remark.after };
    const words = { first: remark.first, last: remark.last };
    return finding(REMARK_CODES.mirror, where, { ...base, affected, numbers, words }, sizes);
  }
  const numbers = { one: remark.ones, other: remark.others };
  const words = { one: remark.one, other: remark.other };
  return finding(REMARK_CODES.odd, where, { ...base, affected, numbers, words }, sizes);
}
