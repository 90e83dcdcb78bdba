/**
 * Objects to bytes: a PDF 1.7 file with compressed object streams and a cross-reference stream
 * (ISO 32000-1, 7.5.7 and 7.5.8). The file's identifier is a hash of everything before the trailer, so
 * equal content gives equal bytes. Written here rather than by the library because it must be
 * synchronous, free of clocks, and quick.
 */
import { createHash } from 'node:crypto';
import { deflateSync } from 'node:zlib';
import { PDFHexString, PDFRawStream, PDFStream, type PDFContext, type PDFObject } from 'pdf-lib';
import { assert, present } from '../../base/assert.ts';
import { dictionary, type PDFRef } from './objects.ts';

/** Version, and a comment of high bytes that marks the file as binary (7.5.2). */
const HEADER = Buffer.from('%PDF-1.7\n%\xe2\xe3\xcf\xd3\n', 'latin1');
/** Objects packed together; a reader unpacks one group to see one object. */
const GROUP = 200;

/** Where an object stands: free, at an offset in the file, or as the nth of an object stream. */
type Entry =
  | { readonly kind: 'offset'; readonly offset: number }
  | { readonly kind: 'packed'; readonly stream: number; readonly place: number };

class Bytes {
  readonly #parts: Uint8Array[] = [];
  #length = 0;

  get length(): number {
    return this.#length;
  }

  add(part: Uint8Array | string): void {
    const bytes = typeof part === 'string' ? Buffer.from(part, 'latin1') : part;
    this.#parts.push(bytes);
    this.#length += bytes.length;
  }

  hash(): string {
    const hash = createHash('sha256');
    for (const part of this.#parts) hash.update(part);
    return hash.digest('hex');
  }

  join(): Uint8Array {
    const bytes = new Uint8Array(this.#length);
    let at = 0;
    for (const part of this.#parts) {
      bytes.set(part, at);
      at += part.length;
    }
    return bytes;
  }
}

/** The file of all objects of a context. */
export function fileOf(context: PDFContext, root: PDFRef, info: PDFRef): Uint8Array {
  const bytes = new Bytes();
  bytes.add(HEADER);
  const objects = context
    .enumerateIndirectObjects()
    .map(([{ objectNumber }, object]) => [objectNumber, object] as const);
  const { entries, next } = addObjects(bytes, context, objects);
  addTrailer(bytes, entries, context, { root, info, number: next });
  return bytes.join();
}

/** What an update takes over from the file it is appended to. */
export interface UpdatedFile {
  readonly root: PDFRef;
  readonly info: PDFRef;
  readonly identifier: PDFObject;
  /** Offset of its cross-reference stream. */
  readonly previous: number;
}

/**
 * A file and behind it objects that are new or take the place of others (ISO 32000-1, 7.5.6): what was
 * there stays, byte by byte. New objects have numbers above all of the file.
 */
export function updateOf(
  file: Uint8Array,
  context: PDFContext,
  objects: readonly NumberedObject[],
  { root, info, identifier, previous }: UpdatedFile,
): Uint8Array {
  const bytes = new Bytes();
  bytes.add(file);
  const { entries, next } = addObjects(bytes, context, objects);
  addTrailer(bytes, entries, context, { root, info, number: next, identifier, previous });
  return bytes.join();
}

type NumberedObject = readonly [number, PDFObject];

/** Streams as they are, all else packed. `next`: the first number that is free. */
function addObjects(
  bytes: Bytes,
  context: PDFContext,
  objects: readonly NumberedObject[],
): { readonly entries: Map<number, Entry>; readonly next: number } {
  const entries = new Map<number, Entry>();
  const loose: NumberedObject[] = [];
  for (const [number, object] of objects) {
    if (object instanceof PDFRawStream) addStream(bytes, entries, number, object);
    else {
      assert(!(object instanceof PDFStream), 'streams are raw when the file is written');
      loose.push([number, object]);
    }
  }
  let next = context.largestObjectNumber + 1;
  for (let start = 0; start < loose.length; start += GROUP) {
    const group = packed(context, loose.slice(start, start + GROUP));
    loose
      .slice(start, start + GROUP)
      .forEach(([number], place) => entries.set(number, { kind: 'packed', stream: next, place }));
    addStream(bytes, entries, next, group);
    next += 1;
  }
  return { entries, next };
}

function addStream(
  bytes: Bytes,
  entries: Map<number, Entry>,
  number: number,
  stream: PDFRawStream,
): void {
  entries.set(number, { kind: 'offset', offset: bytes.length });
  bytes.add(`${number} 0 obj\n${stream.dict.toString()}\nstream\n`);
  bytes.add(stream.contents);
  bytes.add('\nendstream\nendobj\n');
}

/** An object stream: pairs of number and offset, then the objects. */
function packed(context: PDFContext, objects: readonly (readonly [number, PDFObject])[]) {
  const pairs: string[] = [];
  const bodies: string[] = [];
  let offset = 0;
  for (const [number, object] of objects) {
    const body = `${object.toString()}\n`;
    pairs.push(`${number} ${offset}`);
    bodies.push(body);
    offset += body.length;
  }
  const head = `${pairs.join(' ')}\n`;
  const content = deflateSync(Buffer.from(head + bodies.join(''), 'latin1'));
  const dict = dictionary(context, {
    Type: 'ObjStm',
    N: objects.length,
    First: head.length,
    Filter: 'FlateDecode',
    Length: content.length,
  });
  return PDFRawStream.of(dict, content);
}

interface Trailer {
  readonly root: PDFRef;
  readonly info: PDFRef;
  /** Of the cross-reference stream itself. */
  readonly number: number;
  /** Of an update: the first name of the file it is appended to, and where that file's table stands. */
  readonly identifier?: PDFObject;
  readonly previous?: number;
}

/** The cross-reference stream, which is the trailer too, and the pointer to it. */
function addTrailer(
  bytes: Bytes,
  entries: Map<number, Entry>,
  context: PDFContext,
  { root, info, number, identifier, previous }: Trailer,
): void {
  const start = bytes.length;
  const own = PDFHexString.of(bytes.hash().slice(0, 32));
  const size = number + 1;
  entries.set(number, { kind: 'offset', offset: start });
  const listed =
    previous === undefined ? range(0, size) : [...entries.keys()].sort((a, b) => a - b);
  const table = Buffer.alloc(listed.length * ENTRY_BYTES);
  listed.forEach((at, place) => {
    if (at === 0) writeFree(table);
    else writeEntry(table, place, present(entries.get(at), `object ${at}`));
  });
  const content = deflateSync(table);
  const dict = dictionary(context, {
    Type: 'XRef',
    Size: size,
    ...(previous !== undefined && { Index: subsections(listed), Prev: previous }),
    W: ENTRY_WIDTHS,
    Root: root,
    Info: info,
    ID: [identifier ?? own, own],
    Filter: 'FlateDecode',
    Length: content.length,
  });
  bytes.add(`${number} 0 obj\n${dict.toString()}\nstream\n`);
  bytes.add(content);
  bytes.add(`\nendstream\nendobj\nstartxref\n${start}\n%%EOF\n`);
}

const range = (start: number, end: number): readonly number[] =>
  Array.from({ length: end - start }, (_, at) => start + at);

/** Pairs of first number and how many follow each other. */
function subsections(sorted: readonly number[]): readonly number[] {
  const pairs: number[] = [];
  sorted.forEach((number, at) => {
    if (at > 0 && sorted[at - 1] === number - 1) pairs[pairs.length - 1] = (pairs.at(-1) ?? 0) + 1;
    else pairs.push(number, 1);
  });
  return pairs;
}

const ENTRY_WIDTHS = [1, 4, 2] as const;
const ENTRY_BYTES = 7;
const NO_GENERATION = 0xffff;

function writeFree(table: Buffer): void {
  table.writeUInt16BE(NO_GENERATION, 5);
}

function writeEntry(table: Buffer, at: number, entry: Entry): void {
  const place = at * ENTRY_BYTES;
  table[place] = entry.kind === 'offset' ? 1 : 2;
  table.writeUInt32BE(entry.kind === 'offset' ? entry.offset : entry.stream, place + 1);
  table.writeUInt16BE(entry.kind === 'offset' ? 0 : entry.place, place + 5);
}
