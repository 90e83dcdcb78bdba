/**
 * Outlines: what a piece looks like laid flat, in one size, as its worked rows and the gauge make it.
 * Takes a checked pattern and an entry of its schematic, gives the outline with every measured place,
 * or undefined where the rows do not tell (a piece worked across a gap, a size that could not be
 * worked): the drawing then goes by the measurements alone.
 */
import { assertNever } from '../../base/assert.ts';
import type { CheckedPattern } from '../pattern.ts';
import { body } from './kinds/body.ts';
import { bodyRound, sleeve } from './kinds/garment.ts';
import { mitten } from './kinds/mitten.ts';
import { hat, rectangle, trapezoid, yoke } from './kinds/plain.ts';
import { sock } from './kinds/sock.ts';
import { triangle } from './kinds/triangle.ts';
import { type Draft, finishDraft, type PieceOutline } from './outline.ts';
import { areaInside } from './shape.ts';
import { type OutlineSource, type SchematicEntry, sourceOf } from './source.ts';

export type { MeasuredPlace, OutlineLine, PieceOutline } from './outline.ts';
export type { SchematicEntry } from './source.ts';

/** Outlines smaller than this, in square inches, are no piece of knitting. */
const LEAST_AREA = 0.05;

type BySize = Map<number, PieceOutline | undefined>;
/** Every language and edition draws the same outlines. */
const drawn = new WeakMap<CheckedPattern, WeakMap<SchematicEntry, BySize>>();

export function outlineFromRows(
  checked: CheckedPattern,
  entry: SchematicEntry,
  size: number,
): PieceOutline | undefined {
  const pieces = drawn.get(checked) ?? new WeakMap<SchematicEntry, BySize>();
  drawn.set(checked, pieces);
  const sizes: BySize = pieces.get(entry) ?? new Map();
  pieces.set(entry, sizes);
  if (!sizes.has(size)) sizes.set(size, traceOutline(checked, entry, size));
  return sizes.get(size);
}

function traceOutline(
  checked: CheckedPattern,
  entry: SchematicEntry,
  size: number,
): PieceOutline | undefined {
  const source = sourceOf(checked, entry, size);
  const draft = source && draftOf(source);
  if (!draft || !isSound(draft)) return undefined;
  return finishDraft(draft);
}

/** As `outlineFromRows`, with the source: for comparing the measured places with what is stated. */
export function measuredOutline(checked: CheckedPattern, entry: SchematicEntry, size: number) {
  const source = sourceOf(checked, entry, size);
  const draft = source && draftOf(source);
  return source && draft && isSound(draft) ? { source, places: draft.places } : undefined;
}

const isSound = ({ edge }: Draft): boolean =>
  edge.length >= 3 &&
  edge.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)) &&
  areaInside(edge) > LEAST_AREA;

function draftOf(source: OutlineSource): Draft | undefined {
  const { outline } = source.entry;
  switch (outline) {
    case 'rectangle': return rectangle(source); // prettier-ignore
    case 'trapezoid': return trapezoid(source); // prettier-ignore
    case 'triangle': return triangle(source); // prettier-ignore
    case 'body': return body(source); // prettier-ignore
    case 'bodyRound': return bodyRound(source); // prettier-ignore
    case 'sleeve': return sleeve(source); // prettier-ignore
    case 'hat': return hat(source); // prettier-ignore
    case 'mitten': return mitten(source); // prettier-ignore
    case 'sock': return sock(source); // prettier-ignore
    case 'yoke': return yoke(source); // prettier-ignore
    default: return assertNever(outline); // prettier-ignore
  }
}
