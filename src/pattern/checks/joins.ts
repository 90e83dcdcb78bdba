/**
 * Pieces that meet agree: shoulders stitch for stitch, yokes and underarms by their sum, sewn edges row
 * for row, picked-up stitches through the gauge.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { perInch, readBase } from '../grading/gauge.ts';
import type { Sentence } from '../notation/ast.ts';
import { type Anchor, type CheckContext, valuesOf } from './context.ts';
import { widthCount } from './derive.ts';
import { named } from './measurements.ts';

type Join = CheckContext['data']['joins'][number];
type Count = (size: number) => number | null | undefined;

/** Right and left edges end a row apart, because one is bound off on the other side. */
const EVEN_ROWS = 1;
/** Part of an edge that can be eased into a shorter one. */
const EASED_PART = 0.1;
/** Stitches picked up may differ from the true rate by this much before the edge flutes or draws in. */
const PICKUP_PART = 0.08;

export function checkJoins(context: CheckContext): readonly Finding[] {
  return context.data.joins.flatMap((join, at) => {
    const parts = join.parts.map((name) => context.anchor(name));
    const to = join.to.map((name) => context.anchor(name));
    if ([...parts, ...to].includes(undefined)) return [];
    const known = { parts: parts as readonly Anchor[], to: to as readonly Anchor[] };
    return checkJoin(context, join, pointerTo('', 'joins', at), known);
  });
}

interface Ends {
  readonly parts: readonly Anchor[];
  readonly to: readonly Anchor[];
}

function checkJoin(
  context: CheckContext,
  join: Join,
  pointer: string,
  ends: Ends,
): readonly Finding[] {
  switch (join.kind) {
    case 'equal':
      return equal(context, join, pointer, ends);
    case 'sum': {
      const first = sumOf(ends.parts, (anchor, size) => joinedCount(context, anchor, size));
      const second = sumOf(ends.to, (anchor, size) => joinedCount(context, anchor, size));
      return differ(context, 'join/sum', join, pointer, first, second, (a, b) => a === b);
    }
    case 'seam':
      return seam(context, join, pointer, ends);
    case 'pickUp':
      return pickUp(context, join, pointer, ends);
  }
}

/** All parts and all they meet have one count; the first is what the others are held to. */
function equal(context: CheckContext, join: Join, pointer: string, ends: Ends): readonly Finding[] {
  const all = [...ends.parts, ...ends.to];
  const [first, ...others] = all;
  if (!first) return [];
  return others.flatMap((other) =>
    differ(
      context,
      'join/unequal',
      { ...join, parts: [first.name], to: [other.name] },
      pointer,
      (size) => joinedCount(context, first, size),
      (size) => joinedCount(context, other, size),
      (a, b) => a === b,
    ),
  );
}

/** Edges sewn row to row: equal within one row; up to a tenth is eased in, and has to be accepted. */
function seam(context: CheckContext, join: Join, pointer: string, ends: Ends): readonly Finding[] {
  const first = sumOf(ends.parts, (anchor, size) => rowsUpTo(context, anchor, size));
  const second = sumOf(ends.to, (anchor, size) => rowsUpTo(context, anchor, size));
  const tooFar = differ(context, 'join/seam', join, pointer, first, second, (a, b) => {
    return Math.abs(a - b) <= Math.max(EVEN_ROWS, EASED_PART * Math.max(a, b));
  });
  if (tooFar.length > 0) return tooFar;
  return differ(context, 'join/eased', join, pointer, first, second, (a, b) => {
    return Math.abs(a - b) <= EVEN_ROWS;
  });
}

/** Picked-up stitches against the rows of the edge: rows × stitch gauge ÷ row gauge (geometry). */
function pickUp(
  context: CheckContext,
  join: Join,
  pointer: string,
  ends: Ends,
): readonly Finding[] {
  const picked: Count = sumOf(ends.parts, (anchor, size) => pickedUp(context, anchor, size));
  const wanted: Count = sumOf(ends.to, (anchor, size) => {
    const rows = rowsUpTo(context, anchor, size);
    const gauge = context.gauge(context.pattern.pieces[anchor.piece]?.data.gauge ?? '');
    if (typeof rows !== 'number' || !gauge) return undefined;
    const base = readBase(gauge.over);
    return (rows * perInch(gauge.stitches, base)) / perInch(gauge.rows, base);
  });
  return differ(context, 'join/pick-up', join, pointer, picked, wanted, (a, b) => {
    return Math.abs(a - b) <= Math.max(2, PICKUP_PART * b);
  });
}

const sumOf =
  (anchors: readonly Anchor[], count: (anchor: Anchor, size: number) => ReturnType<Count>): Count =>
  (size) => {
    let sum = 0;
    for (const anchor of anchors) {
      const value = count(anchor, size);
      if (typeof value !== 'number') return value;
      sum += value;
    }
    return sum;
  };

// ---------------------------------------------------------------- what is joined

/**
 * Stitches a line leaves for the join: those on the needle after it; those it took off, where it binds
 * off or puts on hold; half of them where it does so at both edges.
 */
export function joinedCount(
  context: CheckContext,
  anchor: Anchor,
  size: number,
): number | null | undefined {
  if (anchor.line === undefined) return widthCount(context, anchor, size);
  const outcome = context.outcome(anchor.piece, anchor.line, size);
  if (!outcome || outcome.failed || outcome.doubtful) return undefined;
  if (outcome.skipped) return null;
  const sentences = sentencesOf(context, anchor);
  const gone = outcome.before - outcome.after;
  if (gone > 0 && sentences.every(takesOff)) {
    const edges = sentences.some(({ kind }) => kind === 'edgeRows') && outcome.rows % 2 === 0;
    return edges ? gone / 2 : gone;
  }
  return outcome.after === 0 ? outcome.before : outcome.after;
}

const takesOff = (sentence: Sentence): boolean =>
  ['hold', 'bindOffAll', 'drawThrough', 'edgeRows', 'yarn', 'joinStitches'].includes(sentence.kind);

function sentencesOf(context: CheckContext, { piece, line }: Anchor): readonly Sentence[] {
  const lines = context.pattern.pieces[piece]?.sections.flatMap((section) => section.lines);
  return lines?.[line ?? -1]?.line?.sentences ?? [];
}

/** Rows of an edge: of the whole piece, or up to and including a line. */
function rowsUpTo(context: CheckContext, anchor: Anchor, size: number): number | null | undefined {
  const lines = context.pieces[anchor.piece]?.lines ?? [];
  const last = anchor.line ?? lines.length - 1;
  let rows = 0;
  for (let line = 0; line <= last; line += 1) {
    const outcome = context.outcome(anchor.piece, line, size);
    if (!outcome || outcome.failed || context.lengthInDoubt(anchor.piece, line, size))
      return undefined;
    rows += outcome.rows;
  }
  return rows;
}

/** Stitches a line picks up: what it adds. */
function pickedUp(context: CheckContext, anchor: Anchor, size: number): number | null | undefined {
  if (anchor.line === undefined) return undefined;
  const outcome = context.outcome(anchor.piece, anchor.line, size);
  return outcome && !outcome.failed ? outcome.after - outcome.before : undefined;
}

function differ(
  context: CheckContext,
  code: 'join/unequal' | 'join/sum' | 'join/seam' | 'join/eased' | 'join/pick-up',
  join: Join,
  pointer: string,
  first: Count,
  second: Count,
  agree: (one: number, other: number) => boolean,
): readonly Finding[] {
  const affected = context.sizes.filter((size) => {
    const one = first(size);
    const other = second(size);
    return typeof one === 'number' && typeof other === 'number' && !agree(one, other);
  });
  if (affected.length === 0) return [];
  const facts = {
    parts: join.parts,
    to: join.to,
    sizes: context.pattern.sizes,
    affected,
    first: valuesOf(context, first),
    second: valuesOf(context, (size) => {
      const value = second(size);
      return typeof value === 'number' ? Math.round(value * 10) / 10 : value;
    }),
    rate: [],
  };
  const label = join.note;
  const where = { file: 'pattern.json', pointer, ...(label !== undefined && { label }) };
  return [finding(code, where, facts, { sizes: named(context, affected) })];
}
