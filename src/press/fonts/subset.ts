/**
 * The part of a face that one document uses. Character codes are given per glyph *and* text, so that
 * one drawing which stands for two characters (Ohm and Omega) is extracted as each; they number the
 * glyphs of the subset font from 1 in order of first use, which makes the file a function of the text.
 */
import type * as fontkit from 'fontkit';
import type { FaceDescription, FaceSubset, Glyph } from './face.ts';

/** What the library's subset really offers; its published types leave out the list of glyphs. */
interface GlyphList {
  readonly glyphs: number[];
  encode(): Uint8Array;
}

export function subsetOf(
  face: string,
  font: fontkit.Font,
  description: FaceDescription,
): FaceSubset {
  const list = font.createSubset() as unknown as GlyphList;
  const firstCodes = new Map<number, number>();
  const furtherCodes = new Map<string, number>();
  const glyphs: number[] = [0];
  const texts: string[] = [''];
  const advances: number[] = [font.getGlyph(0).advanceWidth];

  const add = (glyph: Glyph): number => {
    glyphs.push(glyph.id);
    texts.push(glyph.text);
    return advances.push(font.getGlyph(glyph.id).advanceWidth) - 1;
  };
  const code = (glyph: Glyph): number => {
    const first = firstCodes.get(glyph.id);
    if (first === undefined) {
      const fresh = add(glyph);
      firstCodes.set(glyph.id, fresh);
      return fresh;
    }
    if (texts[first] === glyph.text) return first;
    const key = `${glyph.id} ${glyph.text}`;
    const further = furtherCodes.get(key) ?? add(glyph);
    furtherCodes.set(key, further);
    return further;
  };
  // The library adds the parts of composite glyphs behind the ones asked for.
  const fontFile = (): Uint8Array => {
    list.glyphs.splice(0, list.glyphs.length, ...glyphs);
    return list.encode();
  };
  return { face, description, glyphs, code, texts, advances, fontFile };
}
