/**
 * Changes a JSON text in place: single values are replaced, added or taken out, everything else (order,
 * spaces, line breaks, how other numbers are written) stays as it is. Takes the text and the changes, gives the
 * new text. What the values mean is not known here.
 */
import { assert } from '../../base/assert.ts';
import { JSON_LIMITS } from '../../base/limits.ts';
import { followPointer, pointerTo, type Span } from '../../base/span.ts';
import { type Json, readJson } from './json.ts';

export interface JsonChange {
  /** The value to be changed; a key that is not there yet is added to its record, `-` to its list (RFC 6901). */
  readonly pointer: string;
  /** Undefined takes the key out of its record. */
  readonly value: Json | undefined;
  /** How the value is written, where its lines matter; else it stands on one line. */
  readonly written?: string;
  /** For a new key: the key of the same record after which it stands; else it stands last. */
  readonly after?: string;
}

interface Replacement extends Span {
  readonly text: string;
}

/** All changes refer to the text as it is now. A pointer whose record is not there is refused. */
export function changeJson(text: string, changes: readonly JsonChange[]): string {
  const read = readJson(text, JSON_LIMITS.depth);
  assert(read.value !== undefined, 'only a text that can be read is changed');
  const root = read.value;
  const replacements = changes.map((change): Replacement => {
    const here = read.spanOf(change.pointer);
    if (change.value === undefined) return takenOut(text, here);
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
  spanOf: (pointer: string) => Span | undefined,
): Replacement {
  const { pointer, after } = change;
  const cut = pointer.lastIndexOf('/');
  const [parent, key] = [pointer.slice(0, cut), pointer.slice(cut + 1)];
  const record = followPointer(root, parent);
  if (Array.isArray(record) && key === '-') return appended(text, record, change, spanOf);
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

/** Behind the last item, on as many lines as that one. */
function appended(
  text: string,
  list: readonly Json[],
  change: JsonChange,
  spanOf: (pointer: string) => Span | undefined,
): Replacement {
  const parent = change.pointer.slice(0, -'/-'.length);
  const whole = spanOf(parent);
  assert(whole, `${parent} stands in the text`);
  const last = list.length === 0 ? undefined : spanOf(pointerTo(parent, list.length - 1));
  if (!last) return { start: whole.start + 1, end: whole.start + 1, text: written(change) };
  const space = /\s*$/.exec(text.slice(0, last.start))?.[0] ?? '';
  const isTall = text.slice(last.start, last.end).includes('\n') && change.written === undefined;
  const value = isTall
    ? JSON.stringify(change.value, null, 2).replaceAll('\n', space)
    : written(change);
  return { start: last.end, end: last.end, text: `,${space}${value}` };
}

/** With its key, and the comma that parted it from its neighbour. */
function takenOut(text: string, value: Span | undefined): Replacement {
  if (!value) return { start: 0, end: 0, text: '' };
  const start = keyStart(text, value.start);
  const head = text.slice(0, start).trimEnd();
  if (head.endsWith(',')) return { start: head.length - 1, end: value.end, text: '' };
  const comma = /^\s*,\s*/.exec(text.slice(value.end))?.[0] ?? '';
  return { start, end: value.end + comma.length, text: '' };
}

const written = (change: JsonChange): string => change.written ?? JSON.stringify(change.value);

const isRecord = (value: unknown): value is { [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The white space that stands before the key of this value: a new key is set the same way. */
const spaceBefore = (text: string, valueStart: number): string =>
  /\s*$/.exec(text.slice(0, keyStart(text, valueStart)))?.[0] ?? ' ';

/** Where the key of this value begins. */
function keyStart(text: string, valueStart: number): number {
  const colon = text.slice(0, valueStart).trimEnd();
  const key = /"(?:[^"\\]|\\.)*"\s*:$/.exec(colon);
  return key?.index ?? colon.length;
}
