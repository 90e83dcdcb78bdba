/**
 * Which face a character comes from: the language's own script, the designer's choice, and the rest in
 * order; what no face has is told before anything is set.
 */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { BoundedCache } from '../../src/press/fonts/bounded-cache.ts';
import type { TextStyle } from '../../src/press/fonts/face.ts';
import { allFontPaths } from '../../src/press/fonts/font-files.ts';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import { clustersOf, wordsOf } from '../../src/press/fonts/words.ts';

const fonts = openFonts();
const style = (language: string, more: Partial<TextStyle> = {}): TextStyle => ({
  family: 'text',
  weight: 'regular',
  italic: false,
  language,
  ...more,
});
const facesOf = (text: string, language: string, more?: Partial<TextStyle>, level = 0) =>
  fonts.shape(text, style(language, more), level).map((run) => `${run.face}: ${run.text}`);

describe('the face of a character', () => {
  it.each([
    ['en-US', 'Cast on 96 → ½', ['source-sans-3/400: Cast on 96 → ½']],
    ['de', 'Größe “S” ≥ 10', ['source-sans-3/400: Größe “S” ≥ 10']],
    ['ja', '96目 K2', ['noto-sans-jp/400: 96目 K2']],
    ['ja', '1⅛目', ['noto-sans-jp/400: 1', 'noto-sans/400: ⅛', 'noto-sans-jp/400: 目']],
    ['ja', 'It’s', ['noto-sans-jp/400: It', 'noto-sans/400: ’', 'noto-sans-jp/400: s']],
    [
      'ja',
      '‘It’s’',
      ['noto-sans-jp/400: ‘It', 'noto-sans/400: ’', 'noto-sans-jp/400: s', 'noto-sans/400: ’'],
    ],
    ['ja', '「’」', ['noto-sans-jp/400: 「’」']],
    ['en-US', 'It’s', ['source-sans-3/400: It’s']],
    ['zh-Hans', '“下针”', ['noto-sans-sc/400: “下针”']],
    ['ko', '코 2', ['noto-sans-kr/400: 코 2']],
    ['he', 'k2tog', ['noto-sans-hebrew/400: k2tog']],
    ['en-US', '防', ['noto-sans-jp/400: 防']],
    ['zh-Hans', '防', ['noto-sans-sc/400: 防']],
    ['ko', '防', ['noto-sans-kr/400: 防']],
  ])('%s: %s', (language, text, faces) => {
    expect(facesOf(text, language)).toEqual(faces);
  });

  it('is upright where a script has no italics, and bold where it is bold', () => {
    expect(facesOf('a', 'en', { italic: true, weight: 'bold' })).toEqual(['source-sans-3/700i: a']);
    expect(facesOf('目', 'ja', { italic: true, weight: 'bold' })).toEqual(['noto-sans-jp/700: 目']);
    expect(facesOf('א', 'he', { italic: true }, 1)).toEqual(['noto-sans-hebrew/400: א']);
  });

  it('follows the designer’s choice', () => {
    const serif = openFonts({ theme: { text: 'noto-serif', display: 'noto-sans' } });
    expect(serif.shape('a', style('en'))[0]?.face).toBe('noto-serif/400');
    expect(serif.shape('a', style('en', { family: 'display' }))[0]?.face).toBe('noto-sans/400');
    expect(serif.metrics(style('en')).xHeight).toBe(536);
  });

  it('measures in the face that writes the language', () => {
    expect(fonts.metrics(style('ja'))).toMatchObject({ ascender: 880, descender: -120 });
    expect(fonts.metrics(style('de'))).toMatchObject({ capHeight: 660, xHeight: 486 });
  });
});

describe('characters no face has', () => {
  it('are told once each, with their marks', () => {
    expect(fonts.missing('a 🌊 b 🌊 ∰ 𝄞', style('en'))).toEqual(['🌊', '∰', '𝄞']);
    expect(fonts.missing('Zażółć 防波堤 겉뜨기 שָׁלוֹם ½ → ± “…” \u00a0\u202f\u2009', style('pl'))).toEqual([]);
  }); // prettier-ignore

  it('are drawn by no glyph', () => {
    const [run] = fonts.shape('🌊', style('en'));
    expect(run?.glyphs.map(({ id }) => id)).toEqual([0]);
    expect(run?.text).toBe('🌊');
  });
});

describe('pieces of text', () => {
  it.each([
    ['Cast on 96', ['Cast', ' ', 'on', ' ', '96']],
    ['作り目 ２目', ['作', 'り', '目', ' ', '２', '目']],
    ['か\u3099き', ['が', 'き']],
    ['Auf\u200clage', ['Auf', 'lage']],
    ['ex\u00adam\u2060ple', ['example']],
    ['a\tb\nc', ['a', ' ', 'b', ' ', 'c']],
    ['\u1100\u1161', ['가']],
    ['', []],
  ])('%j is %j', (text, words) => expect(wordsOf(text)).toEqual(words));

  it('are cut where no word would be as long, and never inside a letter with its marks', () => {
    const hostile = 'x\u0323\u0302'.repeat(500) + 'm'.repeat(100_000);
    const words = wordsOf(hostile);
    expect(words.join('')).toBe(hostile.normalize('NFC'));
    expect(words.filter((word) => /^\p{M}/u.test(word))).toEqual([]);
    expect(Math.max(...words.map((word) => clustersOf(word).length))).toBeLessThanOrEqual(128);
    const [run, ...more] = fonts.shape(hostile, style('en'));
    expect([run?.text.length, more.length]).toEqual([hostile.normalize('NFC').length, 0]);
  });

  it('keep marks on their letters', () => {
    expect(clustersOf('x\u0323\u0302y')).toEqual(['x\u0323\u0302', 'y']);
    expect(facesOf('לְ', 'en', {}, 1)).toEqual(['noto-sans-hebrew/400: לְ']);
  });

  it('are as wide together as alone', () => {
    const width = (text: string) =>
      fonts.shape(text, style('de')).reduce((sum, run) => sum + run.width, 0);
    const text = 'Verteilt 12 Maschen zunehmen; AV To.';
    const parts = wordsOf(text).reduce((sum, word) => sum + width(word), 0);
    expect(width(text)).toBe(parts);
  });
});

describe('font files', () => {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-fonts-'));
  const here = createRequire(import.meta.url);
  const installed = dirname(dirname(here.resolve('@expo-google-fonts/noto-sans/package.json')));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('are found in a folder beside a bundled function', () => {
    const path = 'source-sans-3/400Regular/SourceSans3_400Regular.ttf';
    expect(allFontPaths()).toContain(path);
    cpSync(join(installed, path), join(folder, path), { recursive: true });
    const bundled = openFonts({ folder });
    expect(bundled.shape('Maß', style('de'))).toEqual(fonts.shape('Maß', style('de')));
    expect(() => bundled.shape('目', style('ja'))).toThrow(/font file cannot be read/);
  });

  it('are all there and have a thousand units per em', () => {
    expect(allFontPaths()).toHaveLength(20);
    for (const path of allFontPaths()) {
      const [typeface = '', cut = ''] = path.split('/');
      const face = `${typeface}/${cut.startsWith('7') ? 700 : 400}${cut.endsWith('Italic') ? 'i' : ''}`;
      expect(fonts.subset(face).description.postScriptName).toMatch(/^[A-Za-z0-9]+-[A-Za-z]+$/);
    }
  });

  it('have no other names', () => {
    expect(() => fonts.subset('noto-sans/500')).toThrow(/no face is named/);
    expect(() => fonts.subset('../secret/400')).toThrow(/no face is named/);
  });
});

describe('subsets', () => {
  it('number glyphs by first use and tell apart what looks alike', () => {
    const subset = fonts.subset('source-sans-3/400');
    const glyphs = fonts.shape('aba-\u2011', style('en')).flatMap((run) => run.glyphs);
    expect(glyphs.map((glyph) => subset.code(glyph))).toEqual([1, 2, 1, 3, 4]);
    expect(subset.texts).toEqual(['', 'a', 'b', '-', '\u2011']);
    expect(subset.glyphs[3]).toBe(subset.glyphs[4]);
    expect(Buffer.compare(Buffer.from(subset.fontFile()), Buffer.from(subset.fontFile()))).toBe(0);
  });
});

describe('the cache of words', () => {
  it('never holds more than two generations, and keeps what is used', () => {
    const cache = new BoundedCache<number, number>(10);
    for (let key = 0; key < 1000; key++) {
      cache.set(key, key);
      expect(cache.get(0)).toBe(0);
      if (key > 30) expect(cache.get(key - 25)).toBeUndefined();
    }
  });
});
