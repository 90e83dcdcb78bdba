/**
 * Readers of finished files for the tests: pdf.js for what a person gets (text, tags, links), and the
 * object model for what a printer gets (fonts, streams, glyph positions). Neither shares a line with
 * the writer's own output code.
 */
import { inflateSync } from 'node:zlib';
import {
  PDFArray, PDFDict, PDFDocument, PDFName, PDFNumber, type PDFObject, PDFRawStream, PDFRef,
} from 'pdf-lib'; // prettier-ignore
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface Node {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly alt?: string;
  readonly lang?: string;
  readonly children?: readonly Node[];
}

/** What a reader program sees of a file. */
export async function readWithViewer(bytes: Uint8Array) {
  const task = getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false });
  const document = await task.promise;
  const pages = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const content = await page.getTextContent({
      includeMarkedContent: true,
      disableNormalization: true,
    });
    const texts = new Map<string, string>();
    let open = '';
    for (const item of content.items) {
      if ('str' in item) texts.set(open, (texts.get(open) ?? '') + asPainted(item));
      else open = item.type === 'endMarkedContent' ? '' : (item.id ?? 'artifact');
    }
    pages.push({
      texts,
      tree: (await page.getStructTree()) as unknown as Node,
      annotations: (await page.getAnnotations()) as Record<string, unknown>[],
    });
  }
  const seen = {
    pages,
    outline: await document.getOutline(),
    labels: await document.getPageLabels(),
    mark: await document.getMarkInfo(),
    metadata: await document.getMetadata(),
  };
  await task.destroy();
  return seen;
}

/** The viewer takes right-to-left pieces for painted backwards and turns them; this turns them back. */
function asPainted({ str, dir }: { readonly str: string; readonly dir: string }): string {
  return dir === 'rtl' ? Array.from(str).reverse().join('') : str;
}

/** Leaves of a page's tree with their roles: what is read aloud, in order. */
export function spoken(tree: Node, texts: ReadonlyMap<string, string>): [string, string][] {
  const found: [string, string][] = [];
  const walk = (node: Node, role: string): void => {
    if (node.type === 'content' && node.id) found.push([role, texts.get(node.id) ?? '']);
    for (const child of node.children ?? []) walk(child, node.role ?? role);
  };
  walk(tree, 'Root');
  return found;
}

/** The objects of a file, with streams unpacked. */
export class Objects {
  readonly document: PDFDocument;

  private constructor(document: PDFDocument) {
    this.document = document;
  }

  static async read(bytes: Uint8Array): Promise<Objects> {
    return new Objects(await PDFDocument.load(bytes, { updateMetadata: false }));
  }

  get(object: PDFObject | undefined): PDFObject | undefined {
    return object instanceof PDFRef ? this.document.context.lookup(object) : object;
  }

  dict(object: PDFObject | undefined): PDFDict {
    const found = this.get(object);
    if (found instanceof PDFRawStream) return found.dict;
    if (!(found instanceof PDFDict)) throw new Error(`no dictionary: ${String(found)}`);
    return found;
  }

  /** Entry of a dictionary by names. */
  at(object: PDFObject | undefined, ...keys: readonly string[]): PDFObject | undefined {
    let here = this.get(object);
    for (const key of keys) here = this.get(this.dict(here).get(PDFName.of(key)));
    return here;
  }

  list(object: PDFObject | undefined): PDFObject[] {
    const found = this.get(object);
    return found instanceof PDFArray ? found.asArray().map((item) => this.get(item) ?? item) : [];
  }

  stream(object: PDFObject | undefined): Buffer {
    const found = this.get(object);
    if (!(found instanceof PDFRawStream)) throw new Error('no stream');
    const packed = String(this.at(found, 'Filter')) === '/FlateDecode';
    return packed ? inflateSync(found.contents) : Buffer.from(found.contents);
  }

  page(index: number): PDFDict {
    return this.document.getPage(index).node;
  }

  content(index: number): string {
    return this.stream(this.at(this.page(index), 'Contents')).toString('latin1');
  }

  /** Every indirect dictionary of a type. */
  ofType(type: string): PDFDict[] {
    return this.document.context
      .enumerateIndirectObjects()
      .map(([, object]) => (object instanceof PDFRawStream ? object.dict : object))
      .filter((object): object is PDFDict => object instanceof PDFDict)
      .filter((dict) => String(dict.get(PDFName.of('Type'))) === `/${type}`);
  }
}

export interface PaintedGlyph {
  readonly font: string;
  readonly code: number;
  readonly x: number;
  readonly y: number;
}

const TOKENS = /\[[^\]]*\]|<[0-9a-f]*>|\/\w+|[-+.\d]+|[A-Za-z*]+|<<[^>]*>>/g;

/**
 * Runs the text operators of a content stream and tells where each glyph lands, in points: a second
 * opinion on kerning, marks and right-to-left order. Knows only the operators our text uses, and only
 * upright text outside of saved states.
 */
export function runText(
  content: string,
  advance: (font: string, code: number) => number,
): PaintedGlyph[] {
  const glyphs: PaintedGlyph[] = [];
  const operands: string[] = [];
  let [font, size, rise, x, y] = ['', 0, 0, 0, 0];
  let depth = 0;
  for (const token of content.match(TOKENS) ?? []) {
    if (!/^[A-Za-z*]+$/.test(token)) {
      operands.push(token);
      continue;
    }
    const numbers = operands.map(Number);
    if (token === 'q') depth += 1;
    if (token === 'Q') depth -= 1;
    if (token === 'Tf') [font, size] = [operands[0]?.slice(1) ?? '', numbers[1] ?? 0];
    if (token === 'Ts') rise = numbers[0] ?? 0;
    if (token === 'Tm') [x, y] = [numbers[4] ?? 0, numbers[5] ?? 0];
    if (token === 'TJ' && depth === 0) {
      for (const item of operands[0]?.match(/<[0-9a-f]*>|[-.\d]+/g) ?? []) {
        if (!item.startsWith('<')) {
          x -= (Number(item) * size) / 1000;
          continue;
        }
        for (const hex of item.match(/[0-9a-f]{4}/g) ?? []) {
          const code = parseInt(hex, 16);
          glyphs.push({ font, code, x, y: y + rise });
          x += (advance(font, code) * size) / 1000;
        }
      }
    }
    operands.length = 0;
  }
  return glyphs;
}

/** Advances by font name and code, read from the DW and W of the file. */
export function advancesOf(objects: Objects): (font: string, code: number) => number {
  const fonts = objects.dict(objects.at(objects.page(0), 'Resources', 'Font'));
  const tables = new Map<string, { usual: number; widths: Map<number, number> }>();
  for (const [name, ref] of fonts.entries()) {
    const [descendant] = objects.list(objects.at(ref, 'DescendantFonts'));
    const widths = new Map<number, number>();
    const list = objects.list(objects.at(descendant, 'W'));
    for (let at = 0; at + 1 < list.length; at += 2) {
      const first = (list[at] as PDFNumber).asNumber();
      objects
        .list(list[at + 1])
        .forEach((width, place) => widths.set(first + place, (width as PDFNumber).asNumber()));
    }
    const usual = (objects.at(descendant, 'DW') as PDFNumber).asNumber();
    tables.set(name.decodeText(), { usual, widths });
  }
  return (font, code) => {
    const table = tables.get(font);
    if (!table) throw new Error(`no font ${font}`);
    return table.widths.get(code) ?? table.usual;
  };
}
