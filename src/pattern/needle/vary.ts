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
  /** Other places of the tree that hold the same written number: `Row 4` runs from 4 to 4. */
  readonly also: readonly Path[];
}

const WORDS = new Set(['text', 'span', 'spans']);

export function numbersOfLine(line: Line): readonly LineNumber[] {
  const found = new Map<number, LineNumber>();
  const put = (path: Path, sized: Sized): void => {
    const start = sized.spans[0]?.start ?? 0;
    const known = found.get(start);
    if (known) found.set(start, { ...known, also: [...known.also, path] });
    else found.set(start, { path, sized, also: [] });
  };
  const look = (value: unknown, path: Path): void => {
    if (typeof value !== 'object' || value === null) return;
    if (isSized(value)) {
      if (isWritten(line.text, value)) put(path, value);
      return;
    }
    for (const [key, inner] of Object.entries(value)) {
      if (!WORDS.has(key)) look(inner, [...path, Array.isArray(value) ? Number(key) : key]);
    }
  };
  look(line, []);
  return [...found.values()];
}

/** Numbers a writer may spell: "twice", "every other row". */
const SPELT: Readonly<Record<string, number>> = {
  once: 1, twice: 2, other: 2, one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8,
  nine: 9, ten: 10, eleven: 11, twelve: 12,
}; // prettier-ignore

/** The number itself stands in the text; "k" and "Next row" only imply their 1. */
function isWritten(text: string, { values, spans }: Sized): boolean {
  const [span] = spans;
  if (!span) return false;
  const said = text.slice(span.start, span.end).trim().toLowerCase();
  if (SPELT[said] !== undefined) return SPELT[said] === values[0];
  return /^(\d|[¼½¾⅓⅔⅛⅜⅝⅞–—-])/.test(said);
}

const isSized = (value: object): value is Sized =>
  'values' in value && 'spans' in value && Array.isArray(value.values);

/** The line with other values in one of its lists. The text stays as it was written. */
export function withValues(
  line: Line,
  { path, also }: Pick<LineNumber, 'path' | 'also'>,
  values: readonly (number | null)[],
): Line {
  return [path, ...also].reduce<Line>(
    (changed, each) => replaceAt(changed, each, 0, (sized) => ({ ...sized, values })) as Line,
    line,
  );
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
