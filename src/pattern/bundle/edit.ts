/**
 * Changes a JSON text in place: single values are replaced or added, everything else (order, spaces,
 * line breaks, how other numbers are written) stays as it is. Takes the text and the changes, gives the
 * new text. What the values mean is not known here.
 */
import { assert } from '../../base/assert.ts';
import { JSON_LIMITS } from '../../base/limits.ts';
import { followPointer, pointerTo } from '../../base/span.ts';
import { type Json, readJson } from './json.ts';

export interface JsonChange {
  /** The value to be changed; a key that is not there yet is added to its record. */
  readonly pointer: string;
  readonly value: Json;
  /** How the value is written, where its lines matter; else it stands on one line. */
  readonly written?: string;
  /** For a new key: the key of the same record after which it stands; else it stands last. */
  readonly after?: string;
}

interface Replacement {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** All changes refer to the text as it is now. A pointer whose record is not there is refused. */
export function changeJson(text: string, changes: readonly JsonChange[]): string {
  const read = readJson(text, JSON_LIMITS.depth);
  assert(read.value !== undefined, 'only a text that can be read is changed');
  const root = read.value;
  const replacements = changes.map((change): Replacement => {
    const here = read.spanOf(change.pointer);
    if (here) return { ...here, text: written(change) };
    return added(text, root, change, (pointer) => read.spanOf(pointer));
  });
  return replacements
    .toSorted((one, other) => other.start - one.start)
    .reduce(
      (now, { start, end, text: value }) => now.slice(0, start) + value + now.slice(end),
      text,
    );
}

function added(
  text: string,
  root: Json,
  change: JsonChange,
  spanOf: (pointer: string) => { readonly start: number; readonly end: number } | undefined,
): Replacement {
  const { pointer, after } = change;
  const cut = pointer.lastIndexOf('/');
  const [parent, key] = [pointer.slice(0, cut), pointer.slice(cut + 1)];
  const record = followPointer(root, parent);
  assert(isRecord(record), `${parent} is no record that a key can be added to`);
  const keys = Object.keys(record);
  const neighbour = after !== undefined && keys.includes(after) ? after : keys.at(-1);
  const member = `"${key.replaceAll('~1', '/').replaceAll('~0', '~')}": ${written(change)}`;
  const span = neighbour === undefined ? undefined : spanOf(pointerTo(parent, neighbour));
  if (neighbour === undefined || !span) {
    const whole = spanOf(parent);
    assert(whole, `${parent} stands in the text`);
    return { start: whole.start + 1, end: whole.start + 1, text: ` ${member} ` };
  }
  return { start: span.end, end: span.end, text: `,${spaceBefore(text, span.start)}${member}` };
}

const written = (change: JsonChange): string => change.written ?? JSON.stringify(change.value);

const isRecord = (value: unknown): value is { [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The white space that stands before the key of this value: a new key is set the same way. */
function spaceBefore(text: string, valueStart: number): string {
  const head = text.slice(0, valueStart);
  const colon = head.trimEnd();
  const key = /"(?:[^"\\]|\\.)*"\s*:$/.exec(colon);
  const before = colon.slice(0, key?.index ?? colon.length);
  return /\s*$/.exec(before)?.[0] ?? ' ';
}
