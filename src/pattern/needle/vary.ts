/**
 * Numbers of a written line as things that can be changed one at a time: where each stands in the tree,
 * and the line with another number in its place. Corrections are searched this way, and so is the
 * question which numbers no check would miss.
 */
import { assert } from '../../base/assert.ts';
import type { Sized } from '../bundle/size-list.ts';
import type { Line } from '../notation/ast.ts';

export type Path = readonly (string | number)[];

/** A number that is written in the line; numbers that are only meant ("k" for "k1") are not listed. */
export interface LineNumber {
  readonly path: Path;
  readonly sized: Sized;
}

const WORDS = new Set(['text', 'span', 'spans']);

export function numbersOfLine(line: Line): readonly LineNumber[] {
  const found: LineNumber[] = [];
  const look = (value: unknown, path: Path): void => {
    if (typeof value !== 'object' || value === null) return;
    if (isSized(value)) {
      if (value.spans.length > 0) found.push({ path, sized: value });
      return;
    }
    for (const [key, inner] of Object.entries(value)) {
      if (!WORDS.has(key)) look(inner, [...path, Array.isArray(value) ? Number(key) : key]);
    }
  };
  look(line, []);
  return found;
}

const isSized = (value: object): value is Sized =>
  'values' in value && 'spans' in value && Array.isArray(value.values);

/** The line with one value of one list changed. The text stays as it was written. */
export function withValue(line: Line, path: Path, index: number, to: number | null): Line {
  const change = (sized: Sized): Sized => ({
    ...sized,
    values: sized.values.map((value, at) => (at === index ? to : value)),
  });
  const changed = replaceAt(line, path, 0, change);
  return changed as Line;
}

/** Several values of one list changed at once. */
export function withValues(line: Line, path: Path, values: readonly (number | null)[]): Line {
  return replaceAt(line, path, 0, (sized) => ({ ...sized, values })) as Line;
}

function replaceAt(
  value: unknown,
  path: Path,
  depth: number,
  change: (sized: Sized) => Sized,
): unknown {
  assert(typeof value === 'object' && value !== null, 'a path leads through records and lists');
  const step = path[depth];
  if (step === undefined) return change(value as Sized);
  if (Array.isArray(value)) {
    return value.map((inner: unknown, at) =>
      at === step ? replaceAt(inner, path, depth + 1, change) : inner,
    );
  }
  const inner = (value as Readonly<Record<string, unknown>>)[String(step)];
  return { ...value, [step]: replaceAt(inner, path, depth + 1, change) };
}
