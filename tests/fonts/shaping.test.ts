/**
 * Shaping: text in, positioned glyphs out, for every script of the languages we publish in. Widths and
 * offsets are compared with fontkit's layout, an implementation of OpenType that shares no code with
 * HarfBuzz, which shapes here.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import * as fontkit from 'fontkit';
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
  ['he', '(סריגה)', 1],
  ['ro', 'încreştere știfturi', 0],
  ['en-US', 'e\u0301 a\u0308 o\u0302\u0301 n\u0303', 0],
  ['en-US', '1½ ¾ ⅓ 3⅛ ±2 × 4 → ≥ 10', 0],
];

const FOLDER = dirname(
  dirname(createRequire(import.meta.url).resolve('@expo-google-fonts/noto-sans/package.json')),
);
const reference = new Map<string, fontkit.Font>();

function referenceFont(face: string): fontkit.Font {
  const known = reference.get(face);
  if (known) return known;
  const font = fontkit.create(readFileSync(join(FOLDER, fontPath(face as FaceName))));
  if (!('layout' in font)) throw new Error(`${face} is a collection`);
  reference.set(face, font);
  return font;
}

interface Placed {
  readonly id: number;
  readonly advance: number;
  readonly xOffset: number;
  readonly yOffset: number;
}

/** What fontkit makes of one word, in order of the text. */
function referenceGlyphs(word: string, face: string, language: string, direction: 'ltr' | 'rtl') {
  const script = scriptOf(word, language);
  const features = isSquareScript(script) ? { kern: false } : {};
  const shown = direction === 'rtl' ? word.replace(/[()]/g, (each) => MIRRORED[each] ?? '') : word;
  const { glyphs, positions } = referenceFont(face).layout(
    shown,
    features,
    script,
    LANGUAGE_SYSTEMS[language],
    direction,
  );
  const placed = glyphs.map(({ id }, at): Placed => {
    const { xAdvance = 0, xOffset = 0, yOffset = 0 } = positions[at] ?? {};
    return { id, advance: xAdvance, xOffset, yOffset };
  });
  return direction === 'rtl' ? placed.reverse() : placed;
}

/** UAX #9, rule L4; fontkit leaves it to its caller. */
const MIRRORED: Readonly<Record<string, string>> = { '(': ')', ')': '(' };

/** Of the OpenType registry of language systems, for the samples whose letters depend on it. */
const LANGUAGE_SYSTEMS: Readonly<Record<string, string>> = { pl: 'PLK ', ro: 'ROM ', tr: 'TRK ' };

/**
 * Each engine sorts the marks on one letter by its own classes; drawn, the order makes no difference.
 * Marks have no width, so here each letter's are put in order of glyph number.
 */
function marksInOneOrder(glyphs: readonly Placed[]): Placed[] {
  let letter = 0;
  return glyphs
    .map((glyph) => ({ glyph, letter: (letter += glyph.advance === 0 ? 0 : 1) }))
    .sort(
      (a, b) => a.letter - b.letter || b.glyph.advance - a.glyph.advance || a.glyph.id - b.glyph.id,
    )
    .map(({ glyph }) => glyph);
}

describe('against fontkit', () => {
  const families = ['text', 'display'] as const;
  const weights = ['regular', 'bold'] as const;
  const styles = families.flatMap((family) =>
    weights.flatMap((weight) => [false, true].map((italic) => ({ family, weight, italic }))),
  );
  it.each(styles)('glyphs, widths and offsets agree: %o', (more) => {
    for (const [language, text, level] of SAMPLES) {
      for (const word of text.split(' ')) {
        for (const run of fonts.shape(word, style(language, more), level)) {
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

  it('notices kerning, ligatures of a language and turned brackets', () => {
    const [face] = fonts.shape('AV', style('en-US')).map((run) => run.face);
    const widths = (word: string) =>
      referenceGlyphs(word, face ?? '', 'en-US', 'ltr').reduce(
        (sum, { advance }) => sum + advance,
        0,
      );
    expect(widths('AV')).toBeLessThan(widths('A') + widths('V'));
    const [bracket] = fonts.shape('(', style('he'), 1)[0]?.glyphs ?? [];
    const [turned] = fonts.shape(')', style('he'), 0)[0]?.glyphs ?? [];
    expect(bracket?.id).toBe(turned?.id);
    expect(bracket?.text).toBe('(');
  });
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
