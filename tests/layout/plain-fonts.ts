/**
 * A measuring interface that can be reckoned with by head: letters are half an em wide, spaces a
 * quarter, squares a whole em. One glyph for each character, one face, no kerning.
 */
import type { Fonts, Glyph, Run, TextStyle } from '../../src/press/fonts/face.ts';

const SQUARE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303f\uff00-\uffef]/u;
const SHAPELESS = /[\u00ad\u200b-\u200f\u2028\u2060-\u2069]/gu;

function advanceOf(character: string): number {
  if (/\s/u.test(character)) return 250;
  if (/\p{M}/u.test(character)) return 0;
  return SQUARE.test(character) ? 1000 : 500;
}

function shape(text: string, style: TextStyle, level: number): readonly Run[] {
  const glyphs = Array.from(text.replace(SHAPELESS, ''), (character): Glyph => ({
    id: character.codePointAt(0) ?? 0,
    advance: advanceOf(character),
    xOffset: 0,
    yOffset: 0,
    text: character,
  }));
  if (glyphs.length === 0) return [];
  return [
    {
      face: `plain/${style.weight}${style.italic ? 'i' : ''}`,
      direction: level % 2 === 1 ? 'rtl' : 'ltr',
      glyphs,
      width: glyphs.reduce((sum, glyph) => sum + glyph.advance, 0),
      text: glyphs.map((glyph) => glyph.text).join(''),
    },
  ];
}

const shaped = new Map<string, readonly Run[]>();

export const plainFonts: Fonts = {
  shape(text: string, style: TextStyle, level = 0): readonly Run[] {
    const key = `${style.weight} ${style.italic} ${level % 2} ${text}`;
    const known = shaped.get(key) ?? shape(text, style, level);
    shaped.set(key, known);
    return known;
  },
  metrics: () => ({ ascender: 900, descender: -300, capHeight: 700, xHeight: 500 }),
  missing: (text) => [...new Set(text.match(/\u{10FFFD}/gu) ?? [])],
};
