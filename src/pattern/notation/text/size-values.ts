/**
 * Numbers that differ by size, read from tokens: `80 (88, 96) [104, 112]`, two groups in one line
 * `28 (32, 36) 32 (36, 40)`, ordinals `4th (6th, 6th)`, and `–` for "does not apply". Checks that
 * there is one number, or one for each size; the trade's other list checks are not its business.
 */
import type { Span } from '../../../base/span.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from './reader.ts';
import { NOTATION_LIMITS } from '../../../base/limits.ts';

const DASHES: ReadonlySet<string> = new Set(['–', '—', '-']);
export const CLOSING: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };

interface List {
  readonly values: (number | null)[];
  readonly spans: Span[];
}

type Kind = 'whole' | 'fraction' | 'ordinal';

/** True where a number, a number word or a dash before a list stands here. */
export function isSized(reader: Reader, kind: Kind = 'whole'): boolean {
  const { value, kind: token, term } = reader.peek();
  if (DASHES.has(term)) return opensList(reader, 1);
  if (kind === 'ordinal') return token === 'ordinal';
  return value !== undefined && token !== 'ordinal';
}

/** @rule sized = value, { size group }; */
export function readSized(reader: Reader, what: string, kind: Kind = 'whole'): Sized | undefined {
  if (!isSized(reader, kind)) {
    const found = reader.peek();
    return reader.problem('notation/number-expected', found.span, { what, found: found.text });
  }
  const position = reader.position;
  const list: List = { values: [], spans: [] };
  readValue(reader, list, kind);
  return readSizedAfter(reader, list, position, kind);
}

/** The rest of a list whose first value has been read already, as the 8 in `k8 (9, 10)`. */
export function readSizedAfter(
  reader: Reader,
  list: List,
  position: number,
  kind: Kind = 'whole',
): Sized | undefined {
  while (opensList(reader, 0)) readGroup(reader, list, kind);
  readSecondList(reader, list, kind);
  const sized = { values: list.values, spans: list.spans };
  return checkedValues(reader, sized, position, kind);
}

/** @rule value = number | ordinal | "–"; */
function readValue(reader: Reader, list: List, kind: Kind): boolean {
  const token = reader.peek();
  if (DASHES.has(token.term)) list.values.push(null);
  else if (token.value !== undefined && (token.kind === 'ordinal' ? kind === 'ordinal' : true)) {
    list.values.push(token.value + (kind === 'fraction' ? readFraction(reader) : 0));
  } else return false;
  reader.next();
  list.spans.push({ start: token.span.start, end: reader.last.span.end });
  return true;
}

/** `14 1/2`: the part after the whole; leaves the reader on its last token. */
function readFraction(reader: Reader): number {
  const [over, slash, under] = [reader.peek(1), reader.peek(2), reader.peek(3)];
  const fits =
    over.kind === 'number' && slash.term === '/' && [2, 3, 4, 8].includes(under.value ?? 0);
  if (!fits || (over.value ?? 0) >= (under.value ?? 0)) return 0;
  reader.next();
  reader.next();
  reader.next();
  return (over.value ?? 0) / (under.value ?? 1);
}

/**
 * @rule size group = "(", value, { ",", value }, ")" | "[", value, { ",", value }, "]" | "{",
 *   value, { ",", value }, "}";
 */
function readGroup(reader: Reader, list: List, kind: Kind): void {
  const close = CLOSING[reader.next().term];
  do readValue(reader, list, kind);
  while (reader.take(','));
  reader.take(close ?? ')');
}

/** Whether a bracket of values, and of nothing else, opens here. */
function opensList(reader: Reader, ahead: number): boolean {
  const close = CLOSING[reader.peek(ahead).term];
  if (close === undefined) return false;
  for (let at = ahead + 1; ; at += 1) {
    const { kind, term, value } = reader.peek(at);
    if (!(DASHES.has(term) || (value !== undefined && kind !== 'word'))) return false;
    at = skipFraction(reader, at) + 1;
    if (reader.peek(at).term === close) return true;
    if (reader.peek(at).term !== ',') return false;
  }
}

/** The place of the last token of the value that begins at `at`. */
function skipFraction(reader: Reader, at: number): number {
  const next = reader.peek(at + 1);
  return next.kind === 'number' && reader.peek(at + 2).term === '/' ? at + 3 : at;
}

/** `28 (32, 36) 32 (36, 40)`: a second list of sizes straight after the first. */
function readSecondList(reader: Reader, list: List, kind: Kind): void {
  const sizes = reader.options.sizes?.length ?? 0;
  if (list.values.length < 2 || list.values.length >= sizes) return;
  if (reader.peek().kind !== 'number' || !opensList(reader, 1)) return;
  readValue(reader, list, kind);
  while (opensList(reader, 0)) readGroup(reader, list, kind);
}

/** One value, or one for each size. A list for the sizes a line names is spread over all of them. */
function checkedValues(
  reader: Reader,
  sized: Sized,
  position: number,
  kind: Kind,
): Sized | undefined {
  const { values, spans } = sized;
  const large = values.findIndex((value) => (value ?? 0) > NOTATION_LIMITS.number);
  const whole = reader.spanFrom(position);
  const span = { start: spans[0]?.start ?? whole.start, end: whole.end };
  if (large >= 0) {
    const facts = { number: values[large] ?? 0, most: NOTATION_LIMITS.number };
    return reader.problem('notation/number-too-large', spans[large] ?? span, facts);
  }
  const broken = values.findIndex((value) => value !== null && !Number.isInteger(value));
  if (kind !== 'fraction' && broken >= 0) {
    const facts = { what: 'a count', found: String(values[broken]) };
    return reader.problem('notation/number-expected', spans[broken] ?? span, facts);
  }
  const names = reader.options.sizes;
  if (names === undefined || values.length === 1 || values.length === names.length) return sized;
  const only = reader.onlySizes;
  if (only !== undefined && values.length === only.length) return spread(sized, names, only);
  reader.problem('notation/size-list', span, {
    values: values.length,
    sizes: only?.length ?? names.length,
    names: only ?? names,
  });
  return sized;
}

function spread(sized: Sized, names: readonly string[], only: readonly string[]): Sized {
  const places = names.map((name) => only.indexOf(name));
  return {
    values: places.map((place) => (place < 0 ? null : (sized.values[place] ?? null))),
    spans: places.map((place) => sized.spans[Math.max(place, 0)] ?? { start: 0, end: 0 }),
  };
}

/** One value with its place. */
export const sizedAt = (value: number | null, span: Span): Sized => ({
  values: [value],
  spans: [span],
});
