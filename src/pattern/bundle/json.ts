/**
 * Reads JSON (RFC 8259) from a stranger. Takes text; gives the value and the line of every pointer,
 * or the problems with their places. Own reader, because `JSON.parse` names no dependable place, keeps
 * the last of two equal keys in silence, and nests without end. It knows nothing of patterns.
 */
import { pointerTo, type Span } from '../../base/span.ts';

export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

export interface TextPosition {
  /** From 1. */
  readonly line: number;
  /** From 1, in UTF-16 units. */
  readonly column: number;
}

type Slip = { readonly pointer: string } & (
  | { readonly kind: 'syntax'; readonly found: string; readonly expected: string }
  | { readonly kind: 'too-deep'; readonly limit: number }
  | { readonly kind: 'duplicate-key'; readonly key: string; readonly firstLine: number }
  | { readonly kind: 'forbidden-key'; readonly key: string }
);
export type JsonProblem = Slip & TextPosition;

export interface JsonText {
  /** Undefined where the text is no JSON or is nested too deep. */
  readonly value: Json | undefined;
  /** Syntax stops at the first; equal and forbidden keys are all found. */
  readonly problems: readonly JsonProblem[];
  /** Line of the value a pointer names, from 1. */
  readonly lineOf: (pointer: string) => number | undefined;
  /** Where the value a pointer names stands in the text, in UTF-16 units. */
  readonly spanOf: (pointer: string) => Span | undefined;
}

interface Reader {
  readonly text: string;
  readonly depthLimit: number;
  readonly problems: JsonProblem[];
  /** Where each value begins and ends, by pointer. */
  readonly starts: Map<string, number>;
  /** Offset behind each value by pointer. */
  readonly ends: Map<string, number>;
  at: number;
}

const QUOTATION_MARK = 0x22;
const BACKSLASH = 0x5c;
const FIRST_PRINTABLE = 0x20;

/** Leaves the recursive descent; never seen outside this module. */
class Stop extends Error {}

export function readJson(text: string, depthLimit: number): JsonText {
  const reader: Reader = { text, depthLimit, problems: [], starts: new Map(), ends: new Map(), at: 0 }; // prettier-ignore
  let value: Json | undefined;
  try {
    value = readValue(reader, '', 1);
    skipSpace(reader);
    if (reader.at < text.length) fail(reader, '', 'the end of the file');
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    value = undefined;
  }
  const lineOf = (pointer: string) => {
    const start = reader.starts.get(pointer);
    return start === undefined ? undefined : positionOf(text, start).line;
  };
  const spanOf = (pointer: string): Span | undefined => {
    const [start, end] = [reader.starts.get(pointer), reader.ends.get(pointer)];
    return start === undefined || end === undefined ? undefined : { start, end };
  };
  return { value, problems: reader.problems, lineOf, spanOf };
}

/** CR LF, LF and CR each end a line, as editors count them. */
export function positionOf(text: string, offset: number): TextPosition {
  const lines = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}

function readValue(reader: Reader, pointer: string, depth: number): Json {
  skipSpace(reader);
  reader.starts.set(pointer, reader.at);
  const value = readBareValue(reader, pointer, depth);
  reader.ends.set(pointer, reader.at);
  return value;
}

function readBareValue(reader: Reader, pointer: string, depth: number): Json {
  const character = reader.text[reader.at];
  if (character === '{' || character === '[') {
    if (depth > reader.depthLimit) {
      report(reader, reader.at, { kind: 'too-deep', pointer, limit: reader.depthLimit });
      throw new Stop();
    }
    return character === '{'
      ? readRecord(reader, pointer, depth)
      : readList(reader, pointer, depth);
  }
  if (character === '"') return readText(reader, pointer);
  return readWord(reader, pointer);
}

function readRecord(reader: Reader, pointer: string, depth: number): Json {
  const record: { [key: string]: Json } = {};
  const keyStarts = new Map<string, number>();
  reader.at += 1;
  skipSpace(reader);
  if (take(reader, '}')) return record;
  for (;;) {
    skipSpace(reader);
    const start = reader.at;
    if (reader.text[start] !== '"') fail(reader, pointer, 'a key in quotation marks');
    const key = readText(reader, pointer);
    skipSpace(reader);
    if (!take(reader, ':')) fail(reader, pointer, 'a colon');
    const value = readValue(reader, pointerTo(pointer, key), depth + 1);
    const earlier = keyStarts.get(key);
    if (earlier !== undefined) {
      const firstLine = positionOf(reader.text, earlier).line;
      report(reader, start, { kind: 'duplicate-key', pointer, key, firstLine });
    } else if (key in Object.prototype) {
      report(reader, start, { kind: 'forbidden-key', pointer, key });
    } else {
      record[key] = value;
    }
    keyStarts.set(key, start);
    skipSpace(reader);
    if (take(reader, '}')) return record;
    if (!take(reader, ',')) fail(reader, pointer, 'a comma or a closing brace');
  }
}

function readList(reader: Reader, pointer: string, depth: number): Json {
  const values: Json[] = [];
  reader.at += 1;
  skipSpace(reader);
  if (take(reader, ']')) return values;
  for (;;) {
    values.push(readValue(reader, pointerTo(pointer, values.length), depth + 1));
    skipSpace(reader);
    if (take(reader, ']')) return values;
    if (!take(reader, ',')) fail(reader, pointer, 'a comma or a closing bracket');
  }
}

const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const LETTERS = /[A-Za-z]+/y;
const WORDS: ReadonlyMap<string, Json> = new Map<string, Json>([
  ['true', true],
  ['false', false],
  ['null', null],
]);

function readText(reader: Reader, pointer: string): string {
  const start = reader.at;
  for (reader.at += 1; ; reader.at += 1) {
    const unit = reader.text.charCodeAt(reader.at);
    if (unit === QUOTATION_MARK) break;
    if (unit === BACKSLASH) {
      const escape = matchAt(ESCAPE, reader);
      if (escape === undefined) fail(reader, pointer, 'a known escape, like \\n or \\"');
      reader.at += escape.length - 1;
    } else if (!(unit >= FIRST_PRINTABLE)) {
      fail(reader, pointer, 'a closing quotation mark');
    }
  }
  reader.at += 1;
  return JSON.parse(reader.text.slice(start, reader.at)) as string;
}

function readWord(reader: Reader, pointer: string): Json {
  const number = matchAt(NUMBER, reader);
  const word = number ?? matchAt(LETTERS, reader) ?? '';
  const after = reader.text[reader.at + word.length] ?? ' ';
  if (/[\w.+-]/.test(after)) fail(reader, pointer, 'a value');
  if (number !== undefined) {
    reader.at += number.length;
    return Number(number);
  }
  const value = WORDS.get(word);
  if (value === undefined) fail(reader, pointer, 'a value');
  reader.at += word.length;
  return value;
}

function matchAt(sticky: RegExp, reader: Reader): string | undefined {
  sticky.lastIndex = reader.at;
  return sticky.exec(reader.text)?.[0];
}

function skipSpace(reader: Reader): void {
  while (' \t\r\n'.includes(reader.text[reader.at] ?? 'x')) reader.at += 1;
}

function take(reader: Reader, character: string): boolean {
  if (reader.text[reader.at] !== character) return false;
  reader.at += 1;
  return true;
}

function report(reader: Reader, offset: number, slip: Slip): void {
  reader.problems.push({ ...slip, ...positionOf(reader.text, offset) });
}

function fail(reader: Reader, pointer: string, expected: string): never {
  const rest = reader.text.slice(reader.at, reader.at + 40);
  const character = String.fromCodePoint(rest.codePointAt(0) ?? 0);
  const word = /^\w{2,20}/.exec(rest)?.[0];
  const found =
    rest === ''
      ? 'the end of the file'
      : /[\r\n]/.test(character)
        ? 'the end of the line'
        : `“${word ?? character}”`;
  report(reader, reader.at, { kind: 'syntax', pointer, found, expected });
  throw new Stop();
}
