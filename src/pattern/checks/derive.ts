/**
 * True lengths of measurements: counts and rows through the gauge, in inches, unrounded. Gives
 * undefined where a count could not be worked, so that nothing is blamed twice.
 */
import { perInch, readBase } from '../grading/gauge.ts';
import type { DerivationData, GaugeData } from '../bundle/schema.ts';
import { type Anchor, type CheckContext, numberOf, numbersAt } from './context.ts';

/** Inches of one measurement in one size. Null: does not apply, or is given and follows from nothing. */
export function trueInches(
  context: CheckContext,
  from: DerivationData,
  size: number,
  depth = 0,
): number | null | undefined {
  if ('given' in from) return null;
  if ('width' in from) return widthInches(context, from, size);
  if ('depth' in from) return depthInches(context, from, size);
  if ('stitches' in from) {
    return through(
      numberOf(numbersAt(from.stitches, ''), size),
      context.gauge(from.gauge),
      'stitches',
    );
  }
  if ('rows' in from) {
    return through(numberOf(numbersAt(from.rows, ''), size), context.gauge(from.gauge), 'rows');
  }
  return sumInches(context, from.sum, size, depth);
}

function through(
  count: number | null,
  gauge: GaugeData | undefined,
  kind: 'stitches' | 'rows',
): number | null | undefined {
  if (!gauge) return undefined;
  return count === null ? null : count / perInch(gauge[kind], readBase(gauge.over));
}

type Width = Extract<DerivationData, { width: string }>;

function widthInches(context: CheckContext, from: Width, size: number): number | null | undefined {
  const anchor = context.anchor(from.width);
  if (!anchor) return undefined;
  const own = context.pattern.pieces[anchor.piece]?.data.gauge ?? '';
  const gauge = context.gauge(from.gauge ?? own);
  const count = widthCount(context, anchor, size);
  if (count === undefined || count === null) return count;
  const less = numberOf(numbersAt(from.less, ''), size) ?? 0;
  const inches = through(count - less, gauge, 'stitches');
  return typeof inches === 'number' ? inches * (from.times ?? 1) : inches;
}

/** Stitches after a line; of a whole piece, the most it ever has. */
export function widthCount(
  context: CheckContext,
  { piece, line }: Anchor,
  size: number,
): number | null | undefined {
  if (line !== undefined) {
    const outcome = context.outcome(piece, line, size);
    return outcome && !outcome.failed && !outcome.doubtful ? outcome.after : undefined;
  }
  const lines = context.pieces[piece]?.lines ?? [];
  const counts = lines.map((_, at) => context.outcome(piece, at, size)?.after ?? 0);
  return counts.length > 0 ? Math.max(...counts) : undefined;
}

type Depth = Extract<DerivationData, { depth: unknown }>;

function depthInches(context: CheckContext, from: Depth, size: number): number | null | undefined {
  const [first, last] = from.depth.map((name) => context.anchor(name));
  if (!first || !last || first.piece !== last.piece) return undefined;
  const lines = context.pieces[last.piece]?.lines ?? [];
  const start = first.line === undefined ? 0 : first.line + 1;
  const end = last.line ?? lines.length - 1;
  let inches = 0;
  let rows = 0;
  for (let line = start; line <= end; line += 1) {
    const outcome = context.outcome(last.piece, line, size);
    if (!outcome || outcome.failed || outcome.doubtful) return undefined;
    if (context.lengthInDoubt(last.piece, line, size)) return undefined;
    inches += outcome.lengthInches;
    rows += outcome.rows;
  }
  const gauge = from.gauge === undefined ? undefined : context.gauge(from.gauge);
  return gauge ? through(rows, gauge, 'rows') : inches;
}

/** Sums are taken of true values; a sum of sums ends where it would go round in a circle. */
function sumInches(
  context: CheckContext,
  parts: readonly string[],
  size: number,
  depth: number,
): number | null | undefined {
  if (depth > context.data.measurements.length) return undefined;
  let sum = 0;
  for (const id of parts) {
    const at = context.data.measurements.findIndex((each) => each.id === id);
    const part = context.data.measurements[at];
    if (!part) return undefined;
    const inches =
      'given' in part.from
        ? numberOf(numbersAt(part.size.in, ''), size)
        : trueInches(context, part.from, size, depth + 1);
    if (inches === undefined || inches === null) return inches;
    sum += inches;
  }
  return sum;
}

/** What a derivation goes by, for a headline: "84 sts at the body" is too long, so only the kind. */
export function sourceSay(from: DerivationData): string {
  if ('width' in from) return `the stitches at ${from.width}`;
  if ('depth' in from) return `the rows from ${from.depth[0]} to ${from.depth[1]}`;
  if ('stitches' in from) return 'the stitches';
  if ('rows' in from) return 'the rows';
  return 'sum' in from ? `${from.sum.join(' and ')} together` : 'the designer’s numbers';
}
