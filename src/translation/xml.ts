/**
 * Reads XML from a stranger into a small tree. Takes bytes; gives elements with their namespaces, or a
 * `Fault` that names line and column. A document type declaration is refused outright, so that nothing
 * can be expanded or fetched; size, depth and number of elements are bounded. Knows no XLIFF.
 */
import { SaxesParser } from 'saxes';
import { Fault } from '../base/fault.ts';
import { TRANSLATION_LIMITS } from '../base/limits.ts';

export interface XmlElement {
  readonly namespace: string;
  /** Without prefix. */
  readonly name: string;
  /** Attributes without a namespace, by name. */
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly (XmlElement | string)[];
  /** Where it begins, from 1. */
  readonly line: number;
}

interface Open extends XmlElement {
  readonly children: (XmlElement | string)[];
}

/** `place` is named in faults. */
export function readXml(bytes: Uint8Array, place: string): XmlElement {
  const { fileBytes } = TRANSLATION_LIMITS;
  if (bytes.length > fileBytes)
    throw fault(place, `the file has ${bytes.length} bytes; at most ${fileBytes} are read`);
  const parser = new SaxesParser({ xmlns: true, forceXMLVersion: true, defaultXMLVersion: '1.0' });
  const reading = new Reading(parser, place);
  parser.write(decode(bytes, place)).close();
  return reading.result();
}

class Reading {
  readonly #parser: SaxesParser<{ xmlns: true }>;
  readonly #place: string;
  readonly #open: Open[] = [];
  #root: XmlElement | undefined;
  #elements = 0;

  constructor(parser: SaxesParser<{ xmlns: true }>, place: string) {
    this.#parser = parser;
    this.#place = place;
    parser.on('error', (error) => {
      throw this.#refuse(`not XML: ${error.message.replace(/^[^ ]*:\d+:\d+: /, '')}`);
    });
    parser.on('xmldecl', ({ encoding = 'utf-8' }) => {
      if (!/^(utf-?8|utf-?16(le|be)?|us-ascii)$/i.test(encoding))
        throw fault(place, `the file says it is ${encoding}; UTF-8 and UTF-16 are read`);
    });
    parser.on('doctype', () => {
      throw this.#refuse('the file declares a document type, which is never read');
    });
    parser.on('opentag', ({ uri, local, attributes }) => {
      const own = Object.values(attributes).filter((each) => each.uri === '');
      const values = new Map(own.map((each) => [each.local, each.value]));
      this.#begin({ namespace: uri, name: local, attributes: values, children: [], line: parser.line });
    }); // prettier-ignore
    parser.on('text', (text) => this.#open.at(-1)?.children.push(text));
    parser.on('cdata', (text) => this.#open.at(-1)?.children.push(text));
    parser.on('closetag', () => void this.#open.pop());
  }

  #begin(element: Open): void {
    const { depth, elements } = TRANSLATION_LIMITS;
    this.#elements += 1;
    if (this.#elements > elements) throw this.#refuse(`more than ${elements} elements`);
    if (this.#open.length >= depth) throw this.#refuse(`elements nested deeper than ${depth}`);
    const parent = this.#open.at(-1);
    if (parent) parent.children.push(element);
    else this.#root = element;
    this.#open.push(element);
  }

  #refuse(problem: string): Fault {
    const { line, column } = this.#parser;
    return fault(this.#place, `line ${line}, column ${column}: ${problem}`);
  }

  result(): XmlElement {
    if (!this.#root) throw fault(this.#place, 'the file is empty');
    return this.#root;
  }
}

/** UTF-16 where the file begins with its mark, else UTF-8 with or without one. */
function decode(bytes: Uint8Array, place: string): string {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe
      ? 'utf-16le'
      : first === 0xfe && second === 0xff
        ? 'utf-16be'
        : 'utf-8';
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw fault(place, `the file is not ${encoding.toUpperCase()} text`);
  }
}

const fault = (place: string, message: string): Fault =>
  new Fault('input', message, {
    place,
    remedy: 'export it again as XLIFF 2.0 or 2.1, in UTF-8, from the translator’s tool',
  });

export const isElement = (child: XmlElement | string): child is XmlElement =>
  typeof child !== 'string';

/** Children of a name in the parent's own namespace. */
export const childrenNamed = (
  parent: XmlElement,
  ...names: readonly string[]
): readonly XmlElement[] =>
  parent.children
    .filter(isElement)
    .filter(({ namespace, name }) => namespace === parent.namespace && names.includes(name));
