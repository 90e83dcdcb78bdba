/**
 * What pages name: fonts, pictures and the symbols of drawings, each put into the file once however
 * often it is used. All pages share one resource dictionary. Names are given in order of first use, so
 * they depend on the document alone.
 */
import { assert, present } from '../../base/assert.ts';
import { hashValue } from '../../base/hash.ts';
import type { Shape } from '../drawing/drawing.ts';
import type { FaceSubset, PrintFonts } from '../fonts/face.ts';
import { embedFont } from './embedded-font.ts';
import { addJpeg } from './jpeg.ts';
import { assign, type PDFContext, type PDFRef } from './objects.ts';

/** Something a content stream calls by a name. */
export interface Named {
  readonly name: string;
  readonly ref: PDFRef;
}

/** Entries of a resource dictionary; nothing where nothing is named. */
export function byName(named: ReadonlyMap<string, Named>): Record<string, PDFRef> | undefined {
  if (named.size === 0) return undefined;
  return Object.fromEntries(Array.from(named.values(), ({ name, ref }) => [name, ref]));
}

export interface FontInUse extends Named {
  readonly subset: FaceSubset;
}

/** A photograph, sized for print, sRGB or grey, without metadata. */
export interface Picture {
  readonly jpeg: Uint8Array;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** What a document refers to besides its frames. */
export interface PressResources {
  readonly fonts: PrintFonts;
  readonly pictures: ReadonlyMap<string, Picture>;
}

export class Resources {
  readonly context: PDFContext;
  readonly fonts: PrintFonts;
  /** The one resource dictionary, known before it is written. */
  readonly ref: PDFRef;
  readonly #pictures: ReadonlyMap<string, Picture>;
  readonly #faces = new Map<string, FontInUse>();
  readonly #images = new Map<string, Named>();
  readonly #symbols = new Map<string, Named>();
  readonly #symbolKeys = new WeakMap<readonly Shape[], string>();

  constructor(context: PDFContext, { fonts, pictures }: PressResources) {
    this.context = context;
    this.fonts = fonts;
    this.#pictures = pictures;
    this.ref = context.nextRef();
  }

  /** A function, so that painters can be handed it alone. */
  readonly font = (face: string): FontInUse => {
    let font = this.#faces.get(face);
    if (!font) {
      const name = `F${this.#faces.size + 1}`;
      font = { name, ref: this.context.nextRef(), subset: this.fonts.subset(face) };
      this.#faces.set(face, font);
    }
    return font;
  };

  /** Name of a picture by its hash. */
  picture(hash: string): string {
    const known = this.#images.get(hash);
    if (known) return known.name;
    const picture = present(this.#pictures.get(hash), `picture ${hash}`);
    const name = `P${this.#images.size + 1}`;
    this.#images.set(hash, { name, ref: addJpeg(this.context, picture) });
    return name;
  }

  /** A symbol by what it looks like: equal symbols of two drawings are one. */
  symbol(shapes: readonly Shape[], language: string, draw: () => PDFRef): Named {
    const key = `${language} ${this.#keyOf(shapes)}`;
    const known = this.#symbols.get(key);
    if (known) return known;
    const ref = draw();
    const symbol = { name: `S${this.#symbols.size + 1}`, ref };
    this.#symbols.set(key, symbol);
    return symbol;
  }

  #keyOf(shapes: readonly Shape[]): string {
    const key = this.#symbolKeys.get(shapes) ?? hashValue(shapes);
    this.#symbolKeys.set(shapes, key);
    return key;
  }

  /** Writes the fonts and the dictionary, when everything is painted. */
  finish(): void {
    for (const { ref, subset } of this.#faces.values()) embedFont(this.context, ref, subset);
    assert(this.context.lookup(this.ref) === undefined, 'resources are written once');
    assign(this.context, this.ref, {
      Font: byName(this.#faces),
      XObject: byName(new Map([...this.#images, ...this.#symbols])),
    });
  }
}
