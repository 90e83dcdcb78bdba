/**
 * Spoils a finished file the way a fault of the writer would: changes what a page paints or what a
 * font says its glyphs mean, and writes the file again. The object model of pdf-lib does the writing.
 */
import { deflateSync } from 'node:zlib';
import { PDFName, PDFRawStream, PDFRef, type PDFDict, type PDFObject } from 'pdf-lib';
import { Objects } from '../pdf/reading.ts';

/** A file opened to be spoilt. */
export class Spoiler {
  readonly #objects: Objects;

  private constructor(objects: Objects) {
    this.#objects = objects;
  }

  static async open(bytes: Uint8Array): Promise<Spoiler> {
    return new Spoiler(await Objects.read(bytes));
  }

  save(): Promise<Uint8Array> {
    return this.#objects.document.save();
  }

  content(page: number): string {
    return this.#objects.content(page);
  }

  /** Changes the operators of a page. Throws where nothing changes: the test would prove nothing. */
  paint(page: number, change: (operators: string) => string): void {
    this.#rewrite(this.#objects.page(page), 'Contents', change);
  }

  /** Changes what the glyphs of a font stand for. */
  map(font: string, change: (map: string) => string): void {
    this.#rewrite(this.#font(font), 'ToUnicode', change);
  }

  removePage(page: number): void {
    this.#objects.document.removePage(page);
  }

  /** Puts another JPEG where a picture stood, as it stood. */
  replacePicture(name: string, jpeg: Uint8Array): void {
    const objects = this.#objects;
    const ref = objects
      .dict(objects.at(objects.page(0), 'Resources', 'XObject'))
      .get(PDFName.of(name));
    if (!(ref instanceof PDFRef)) throw new Error(`no picture ${name}`);
    objects.document.context.assign(ref, PDFRawStream.of(objects.dict(ref), jpeg));
  }

  /** Two elements of one role change places in the tag tree; their texts stay where they are painted. */
  swapElements(role: string, one: number, other: number): void {
    const elements = this.#objects.ofType('StructElem');
    const [a, b] = elements
      .filter((each) => String(each.get(PDFName.of('S'))) === `/${role}`)
      .flatMap((each, at) => (at === one || at === other ? [each] : []));
    if (!a || !b) throw new Error(`no two elements ${role}`);
    const [kids, others] = [a.get(PDFName.of('K')), b.get(PDFName.of('K'))];
    if (!kids || !others) throw new Error(`an empty ${role}`);
    a.set(PDFName.of('K'), others);
    b.set(PDFName.of('K'), kids);
  }

  /** The four hexadecimal digits that paint a character in a font. */
  code(font: string, character: string): string {
    const map = this.#objects.stream(this.#objects.at(this.#font(font), 'ToUnicode'));
    const hex = character.charCodeAt(0).toString(16).padStart(4, '0');
    const found = new RegExp(`<([0-9a-f]{4})> <${hex}>`).exec(map.toString('latin1'));
    if (!found?.[1]) throw new Error(`${font} has no ${character}`);
    return found[1];
  }

  /** What paints a text in a font without kerning. */
  codes(font: string, text: string): string {
    return Array.from(text, (character) => this.code(font, character)).join('');
  }

  #font(name: string): PDFDict {
    const { page, at, dict } = bound(this.#objects);
    return dict(at(page(0), 'Resources', 'Font', name));
  }

  #rewrite(owner: PDFDict, key: string, change: (text: string) => string): void {
    const before = this.#objects.stream(owner.get(PDFName.of(key))).toString('latin1');
    const after = change(before);
    if (after === before) throw new Error('nothing was spoilt');
    const { context } = this.#objects.document;
    const dict = context.obj({ Filter: 'FlateDecode' });
    const stream = PDFRawStream.of(dict, deflateSync(Buffer.from(after, 'latin1')));
    owner.set(PDFName.of(key), context.register(stream));
  }
}

const bound = (objects: Objects) => ({
  page: (index: number) => objects.page(index),
  at: (object: PDFObject | undefined, ...keys: string[]) => objects.at(object, ...keys),
  dict: (object: PDFObject | undefined) => objects.dict(object),
});
