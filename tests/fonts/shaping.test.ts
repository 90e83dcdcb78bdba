/**
 * Shaping: text in, positioned glyphs out, for every script of the languages we publish in. Widths and
 * offsets are compared with HarfBuzz, the reference implementation of OpenType shaping.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import * as harfbuzz from 'harfbuzzjs';
import { describe, expect, it } from 'vitest';
import type { TextStyle } from '../../src/press/fonts/face.ts';
import { fontPath, type FaceName } from '../../src/press/fonts/font-files.ts';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import { isSquareScript, scriptOf } from '../../src/press/fonts/script.ts';

const fonts = openFonts();
const style = (language: string, more: Partial<TextStyle> = {}): TextStyle => ({
  family: 'text',
  weight: 'regular',
  italic: false,
  language,
  ...more,
});

/** One word or phrase of each script, with what is hard about it. */
const SAMPLES: readonly (readonly [language: string, text: string, level: number])[] = [
  ['en-US', 'AVATAR Today WAVE office waffle', 0],
  ['de', 'Maschenprobe Größe Äußeres', 0],
  ['fr', 'l’ourlet à côtes œuvre', 0],
  ['pl', 'Zażółć gęślą jaźń Łódź', 0],
  ['is', 'Þórður prjónar', 0],
  ['tr', 'kazı ile ilmek', 0],
  ['cs', 'příze žebrový lem', 0],
  ['ru', 'лицевая гладь', 0],
  ['uk', 'їжак ґанок', 0],
  ['el', 'Πλέξιμο στρογγυλό', 0],
  ['ja', '表編みで目を作る。', 0],
  ['ja', 'ガーター編み「裏」', 0],
  ['ko', '겉뜨기와 안뜨기', 0],
  ['zh-Hans', '下针与上针。', 0],
  ['he', 'סריגה עיניים', 1],
  ['he', 'שָׁלוֹם לְכֻלָּם', 1],
  ['en-US', 'e\u0301 a\u0308 o\u0302\u0301 n\u0303', 0],
  ['en-US', '1½ ¾ ⅓ 3⅛ ±2 × 4 → ≥ 10', 0],
];

const FOLDER = dirname(
  dirname(createRequire(import.meta.url).resolve('@expo-google-fonts/noto-sans/package.json')),
);
const reference = new Map<string, harfbuzz.Font>();

function referenceFont(face: string): harfbuzz.Font {
  let font = reference.get(face);
  if (!font) {
    const bytes = readFileSync(join(FOLDER, fontPath(face as FaceName)));
    font = new harfbuzz.Font(new harfbuzz.Face(new harfbuzz.Blob(new Uint8Array(bytes).buffer)));
    reference.set(face, font);
  }
  return font;
}

/** What HarfBuzz makes of one word, in order of the text. */
function referenceGlyphs(word: string, face: string, language: string, direction: 'ltr' | 'rtl') {
  const buffer = new harfbuzz.Buffer();
  buffer.addText(word);
  buffer.setDirection(direction === 'rtl' ? harfbuzz.Direction.RTL : harfbuzz.Direction.LTR);
  buffer.setScript(harfbuzzScript(word, language));
  buffer.setLanguage(language);
  const square = isSquareScript(scriptOf(word, language));
  harfbuzz.shape(referenceFont(face), buffer, square ? [new harfbuzz.Feature('kern', 0)] : []);
  const infos = buffer.getGlyphInfos();
  const glyphs = buffer.getGlyphPositions().map(({ xAdvance, xOffset, yOffset }, place) => ({
    id: infos[place]?.codepoint ?? -1,
    advance: xAdvance,
    xOffset,
    yOffset,
  }));
  return direction === 'rtl' ? glyphs.reverse() : glyphs;
}

/**
 * HarfBuzz sorts the marks on one letter by its own classes; drawn, the order makes no difference.
 * Marks have no width, so here each letter's are put in order of glyph number.
 */
function marksInOneOrder<G extends { id: number; advance: number }>(glyphs: readonly G[]): G[] {
  let letter = 0;
  return glyphs
    .map((glyph) => ({ glyph, letter: (letter += glyph.advance === 0 ? 0 : 1) }))
    .sort(
      (a, b) => a.letter - b.letter || b.glyph.advance - a.glyph.advance || a.glyph.id - b.glyph.id,
    )
    .map(({ glyph }) => glyph);
}

const SCRIPT_NAMES = { latn: 'Latn', grek: 'Grek', cyrl: 'Cyrl', hebr: 'Hebr', kana: 'Kana', hani: 'Hani', hang: 'Hang' }; // prettier-ignore
const harfbuzzScript = (word: string, language: string): string =>
  SCRIPT_NAMES[scriptOf(word, language)];

describe('against HarfBuzz', () => {
  for (const family of ['text', 'display'] as const) {
    for (const weight of ['regular', 'bold'] as const) {
      for (const italic of [false, true]) {
        it(`glyphs, widths and offsets agree: ${family} ${weight}${italic ? ' italic' : ''}`, () => {
          for (const [language, text, level] of SAMPLES) {
            for (const word of text.split(' ')) {
              const runs = fonts.shape(word, style(language, { family, weight, italic }), level);
              for (const run of runs) {
                const ours = run.glyphs.map(({ id, advance, xOffset, yOffset }) => ({
                  id,
                  advance,
                  xOffset,
                  yOffset,
                }));
                const theirs = referenceGlyphs(run.text, run.face, language, run.direction);
                expect(marksInOneOrder(ours), `${run.text} in ${run.face}`).toEqual(
                  marksInOneOrder(theirs),
                );
              }
            }
          }
        });
      }
    }
  }
});

describe('text of glyphs', () => {
  it.each(SAMPLES)('%s: “%s” is spelt by its glyphs', (language, text, level) => {
    const runs = fonts.shape(text, style(language), level);
    expect(runs.map((run) => run.text).join('')).toBe(text.normalize('NFC'));
    for (const run of runs) {
      expect(run.glyphs.map((glyph) => glyph.text).join('')).toBe(run.text);
      expect(run.width).toBeCloseTo(run.glyphs.reduce((sum, glyph) => sum + glyph.advance, 0));
    }
  });

  it('the parts of any text are spelt, whatever the text', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 40 });
    fc.assert(
      fc.property(
        text,
        fc.constantFrom('en', 'ja', 'he', 'zh-Hans'),
        fc.nat(2),
        (t, lang, level) => {
          const runs = fonts.shape(t, style(lang), level);
          for (const run of runs) {
            expect(run.glyphs.map((glyph) => glyph.text).join('')).toBe(run.text);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('a soft hyphen neither shows nor blanks the hyphens after it', () => {
    const before = fonts.shape('well-known K2-p1', style('en'));
    fonts.shape('ex\u00adam\u00adple', style('en'));
    fonts.shape('ex\u00adample', style('ja'));
    fonts.shape('non\u2011breaking', style('en'));
    const after = openFonts().shape('well-known K2-p1', style('en'));
    expect(after).toEqual(before);
    expect(fonts.shape('exam\u00adple', style('en'))[0]?.text).toBe('example');
    expect(fonts.shape('exam\u00adple', style('en'))[0]?.width).toBe(
      fonts.shape('example', style('en'))[0]?.width,
    );
  });

  it('characters that share a drawing keep their own text', () => {
    const [run] = fonts.shape('-\u2011Ω\u2126', style('en'));
    expect(run?.glyphs.map((glyph) => glyph.text)).toEqual(['-', '\u2011', 'Ω', '\u2126']);
  });
});
