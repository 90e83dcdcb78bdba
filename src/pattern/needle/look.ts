/** Looks through the tree of a line for what it goes by: markers and gaps, holders it fills. */
import type { Action, Line } from '../notation/ast.ts';

/** Every record of a tree, however deep. */
function recordsIn(value: unknown): readonly Readonly<Record<string, unknown>>[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(recordsIn);
  const record = value as Readonly<Record<string, unknown>>;
  return [record, ...Object.values(record).flatMap(recordsIn)];
}

/** Rows that stop at, slip or take out a marker, or that stop at a gap. */
export const goesByMarks = (line: Line | undefined): boolean =>
  line !== undefined && askOnce(line.sentences);

const looksForMarks = (tree: unknown): boolean =>
  recordsIn(tree).some(
    ({ kind, act }) => (kind === 'marker' && act !== 'place') || kind === 'gap' || kind === 'past',
  );

const BY_MARKS = new WeakMap<object, boolean>();

/** Trees do not change, and are asked again for every size and every row. */
function askOnce(tree: object): boolean {
  const known = BY_MARKS.get(tree);
  if (known !== undefined) return known;
  const found = looksForMarks(tree);
  BY_MARKS.set(tree, found);
  return found;
}

/** The same of the actions of one row. */
export const actionsGoByMarks = (actions: readonly Action[]): boolean => askOnce(actions);

/** Names of the holders that a line puts stitches on. */
export const holdersNamed = (line: Line | undefined): readonly string[] =>
  recordsIn(line?.sentences).flatMap(({ kind, holder }) =>
    kind === 'hold' && typeof holder === 'string' ? [holder] : [],
  );
