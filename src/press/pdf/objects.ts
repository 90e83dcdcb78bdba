/**
 * Objects of a PDF file, through the object model of pdf-lib: names, text, streams, references. The
 * rest of this room builds dictionaries with these few functions; nothing is written here. Streams are
 * deflated with Node's own zlib, several times quicker than the library's.
 */
import { deflateSync } from 'node:zlib';
import {
  PDFArray,
  type PDFContext,
  PDFDict,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRawStream,
  PDFRef,
} from 'pdf-lib';
import { assert } from '../../base/assert.ts';

export type { PDFContext, PDFRef };

/** What a dictionary may be written with: plain values stand for their PDF kinds. */
export type Value =
  | PDFObject
  | string // a name
  | number
  | boolean
  | readonly Value[]
  | { readonly [key: string]: Value | undefined };

/** Builds the object; keys that are undefined are left out. */
export function object(context: PDFContext, value: Value): PDFObject {
  if (typeof value === 'string') return PDFName.of(value);
  if (typeof value === 'number') return PDFNumber.of(value);
  if (typeof value === 'boolean') return context.obj(value);
  if (isList(value)) {
    const array = PDFArray.withContext(context);
    for (const item of value) array.push(object(context, item));
    return array;
  }
  if (isPdfObject(value)) return value;
  return dictionary(context, value);
}

export function dictionary(
  context: PDFContext,
  entries: { readonly [key: string]: Value | undefined },
): PDFDict {
  const dict = PDFDict.withContext(context);
  for (const [key, value] of Object.entries(entries)) {
    if (value !== undefined) dict.set(PDFName.of(key), object(context, value));
  }
  return dict;
}

const isList = (value: Value): value is readonly Value[] => Array.isArray(value);
const isPdfObject = (value: object): value is PDFObject => 'copyBytesInto' in value;

/** Registers an object under a new reference. */
export const add = (context: PDFContext, value: Value): PDFRef =>
  context.register(object(context, value));

/** Gives a reference that was made ahead its object. */
export const assign = (context: PDFContext, ref: PDFRef, value: Value): void =>
  context.assign(ref, object(context, value));

/** Without what no text may hold: control characters, half characters, and code points that are none. */
export const readable = (value: string): string =>
  value.replace(/[\p{Cc}\ufffe\uffff]/gu, ' ').replace(/\p{Cs}/gu, '\ufffd');

/** Text for people: UTF-16 with a byte order mark, as PDF wants it for any language. */
export const text = (value: string): PDFHexString => PDFHexString.fromText(readable(value));

/** Bytes as a string, such as an identifier. */
export function bytesText(value: string): PDFHexString {
  assert(/^[\x20-\x7e]*$/.test(value), `not plain characters: ${value}`);
  return PDFHexString.of(Buffer.from(value, 'latin1').toString('hex'));
}

type Entries = { readonly [key: string]: Value | undefined };

/** A stream as it is, for bytes that are packed already or must stay legible. */
export function plainStream(context: PDFContext, bytes: Uint8Array, entries: Entries = {}): PDFRef {
  const dict = dictionary(context, { ...entries, Length: bytes.length });
  return context.register(PDFRawStream.of(dict, bytes));
}

/** Shorter streams gain nothing by packing, and readers unpack the symbols of a chart at every use. */
const SHORTEST_PACKED = 250;

/** A stream, deflated where that pays. */
export function packedStream(
  context: PDFContext,
  content: Uint8Array | string,
  entries: Entries = {},
): PDFRef {
  const bytes = typeof content === 'string' ? Buffer.from(content, 'latin1') : content;
  if (bytes.length < SHORTEST_PACKED) return plainStream(context, bytes, entries);
  return plainStream(context, deflateSync(bytes), { ...entries, Filter: 'FlateDecode' });
}
