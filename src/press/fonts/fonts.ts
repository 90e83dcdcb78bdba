/**
 * Opens the fonts of the press and answers the measuring interface: each character from the first
 * face of its style's chain that has it, each word shaped once and kept. Files are read at their first
 * use, since a German document needs no Japanese face. Knows no lines, pages or PDF.
 */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { assert, present } from '../../base/assert.ts';
import { BoundedCache } from './bounded-cache.ts';
import { HOUSE_THEME, drawsApostrophes, isApostrophe, type Theme, typefaceChain } from './chain.ts';
import type { FaceMetrics, Glyph, PrintFonts, Run, TextStyle } from './face.ts';
import { FONT_PACKAGES, faceName, type FaceName, fontPath, type Typeface } from './font-files.ts';
import { type OpenedFace, openFace } from './opened-face.ts';
import { scriptOf } from './script.ts';
import { clustersOf, wordsOf } from './words.ts';

export interface FontOptions {
  /** Folder that holds the font packages, as `allFontPaths()` names them; found by itself if absent. */
  readonly folder?: string;
  readonly theme?: Theme;
}

/** Shaped words kept per process; about a kilobyte each. A long pattern has 1500 different ones. */
const WORDS_KEPT = 20_000;
const STYLES_KEPT = 256;
/** Designers' choices in use at once, each with its own words. */
const THEMES_KEPT = 2;
/** A Japanese or Chinese pattern uses some 600 different characters. */
const CLUSTERS_KEPT = 2000;
/** Longer pieces are hostile or rare, and not worth keeping. */
const WORD_LENGTH_KEPT = 64;

/** Opens nothing yet: each font file is read when the first character asks for it. */
export function openFonts(options: FontOptions = {}): PrintFonts {
  return new FaceChains(options.folder ?? installedFolder(), options.theme ?? HOUSE_THEME);
}

function installedFolder(): string {
  const here = createRequire(import.meta.url);
  return dirname(dirname(here.resolve('@expo-google-fonts/noto-sans/package.json')));
}

/** Everything that follows from a style and a direction, resolved once. */
interface Chain {
  readonly key: string;
  readonly style: TextStyle;
  readonly direction: 'ltr' | 'rtl';
  readonly faces: readonly FaceName[];
  /** Which face has a cluster, once it has been looked for. */
  readonly found: BoundedCache<string, OpenedFace>;
}

class FaceChains implements PrintFonts {
  readonly #folder: string;
  readonly #theme: Theme;
  readonly #chains = new BoundedCache<string, Chain>(STYLES_KEPT);
  readonly #words = new BoundedCache<string, readonly Run[]>(WORDS_KEPT);
  readonly #themed = new BoundedCache<string, PrintFonts>(THEMES_KEPT);

  constructor(folder: string, theme: Theme) {
    this.#folder = folder;
    this.#theme = theme;
  }

  shape(text: string, style: TextStyle, level = 0): readonly Run[] {
    const chain = this.#chain(style, level % 2 === 1 ? 'rtl' : 'ltr');
    const known = this.#words.get(wordKey(chain, text));
    if (known) return known;
    const words = wordsOf(text);
    const only = words[0];
    if (only !== undefined && words.length === 1) return this.#word(only, chain);
    return joinRuns(words.flatMap((word) => this.#word(word, chain)));
  }

  metrics(style: TextStyle): FaceMetrics {
    return this.#face(firstOf(this.#chain(style, 'ltr'))).description;
  }

  missing(text: string, style: TextStyle): readonly string[] {
    const chain = this.#chain(style, 'ltr');
    const clusters = wordsOf(text).flatMap(clustersOf);
    const without = clusters.filter((cluster) => this.#faceFor(cluster, chain) === undefined);
    return [...new Set(without)];
  }

  subset(face: string): ReturnType<PrintFonts['subset']> {
    return this.#face(checkedName(face)).subset();
  }

  themed(theme: Theme): PrintFonts {
    const key = `${theme.text} ${theme.display}`;
    if (key === `${this.#theme.text} ${this.#theme.display}`) return this;
    const known = this.#themed.get(key) ?? new FaceChains(this.#folder, theme);
    this.#themed.set(key, known);
    return known;
  }

  #chain(style: TextStyle, direction: 'ltr' | 'rtl'): Chain {
    const { family, weight, italic, language } = style;
    const key = `${direction} ${family} ${weight} ${italic ? 'i' : 'r'} ${language}`;
    const known = this.#chains.get(key);
    if (known) return known;
    const chain: Chain = {
      key,
      style,
      direction,
      faces: typefaceChain(style, this.#theme, direction).map((name) => faceName(name, style)),
      found: new BoundedCache(CLUSTERS_KEPT),
    };
    this.#chains.set(key, chain);
    return chain;
  }

  #face(name: FaceName): OpenedFace {
    return openFace(name, join(this.#folder, fontPath(name)));
  }

  #word(word: string, chain: Chain): readonly Run[] {
    const key = wordKey(chain, word);
    const known = this.#words.get(key);
    if (known) return known;
    const runs = this.#stretches(word, chain).map(({ face, text }) => shapeRun(face, text, chain));
    if (word.length <= WORD_LENGTH_KEPT) this.#words.set(key, runs);
    return runs;
  }

  /** Neighbouring clusters with the same face, so that ligatures and kerning work across them. */
  #stretches(word: string, chain: Chain): readonly { face: OpenedFace; text: string }[] {
    const stretches: { face: OpenedFace; text: string }[] = [];
    for (const cluster of clustersOf(word)) {
      const last = stretches.at(-1);
      const face = this.#faceFor(cluster, chain, last?.text) ?? this.#face(firstOf(chain));
      if (last?.face === face) last.text += cluster;
      else stretches.push({ face, text: cluster });
    }
    return stretches;
  }

  /** The first face that has the character and its marks. */
  #faceFor(cluster: string, chain: Chain, before = ''): OpenedFace | undefined {
    // What depends on the character before is not kept for other places.
    if (isApostrophe(cluster, before)) {
      return this.#firstWith(cluster, chain.faces.filter(drawsApostrophes));
    }
    const known = chain.found.get(cluster);
    if (known) return known;
    const face = this.#firstWith(cluster, chain.faces);
    if (face) chain.found.set(cluster, face);
    return face;
  }

  #firstWith(cluster: string, names: readonly FaceName[]): OpenedFace | undefined {
    const codePoints = Array.from(cluster, (character) => character.codePointAt(0) ?? 0);
    for (const name of names) {
      const face = this.#face(name);
      if (codePoints.every((codePoint) => face.has(codePoint))) return face;
    }
    return undefined;
  }
}

const firstOf = (chain: Chain): FaceName => present(chain.faces[0], 'a face');

const wordKey = (chain: Chain, word: string): string => `${chain.key}\n${word}`;

function shapeRun(face: OpenedFace, text: string, chain: Chain): Run {
  const { direction, style } = chain;
  const glyphs = face.shape({
    text,
    script: scriptOf(text, style.language),
    language: style.language,
    direction,
  });
  return { face: face.name, direction, glyphs, width: widthOf(glyphs), text };
}

const widthOf = (glyphs: readonly Glyph[]): number =>
  glyphs.reduce((sum, glyph) => sum + glyph.advance, 0);

/** Puts neighbouring runs of one face together. */
function joinRuns(runs: readonly Run[]): readonly Run[] {
  const groups: Run[][] = [];
  for (const run of runs) {
    const last = groups.at(-1);
    if (last?.[0]?.face === run.face) last.push(run);
    else groups.push([run]);
  }
  return groups.map((group) => {
    const first = present(group[0], 'a run');
    if (group.length === 1) return first;
    return {
      face: first.face,
      direction: first.direction,
      glyphs: group.flatMap((run) => run.glyphs),
      width: group.reduce((sum, run) => sum + run.width, 0),
      text: group.map((run) => run.text).join(''),
    };
  });
}

function checkedName(face: string): FaceName {
  const [typeface = '', cut = ''] = face.split('/');
  assert(
    Object.hasOwn(FONT_PACKAGES, typeface) && /^[47]00i?$/.test(cut),
    `no face is named ${face}`,
  );
  return `${typeface as Typeface}/${cut}` as FaceName;
}
