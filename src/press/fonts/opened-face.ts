/**
 * One font file, opened: which characters it has, words to glyphs, its metrics, its subsets. The only
 * module that calls the font library, so that another shaper can take its place by giving the same
 * `OpenedFace`. Faces are opened once per process and kept.
 */
import { readFileSync } from 'node:fs';
import * as fontkit from 'fontkit';
import { assert } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import type { FaceDescription, FaceSubset, Glyph } from './face.ts';
import { FONT_PACKAGES, type FaceName, type Typeface } from './font-files.ts';
import { isSquareScript, type ScriptTag } from './script.ts';
import { subsetOf } from './subset.ts';

/** A stretch of one script and direction, ready for one face. */
export interface Stretch {
  /** What the text says. */
  readonly meant: string;
  /** What is drawn: the same, save that brackets are mirrored in right-to-left text. */
  readonly shown: string;
  readonly script: ScriptTag;
  /** OpenType language system. */
  readonly language: string | undefined;
  readonly direction: 'ltr' | 'rtl';
}

export interface OpenedFace {
  readonly name: FaceName;
  readonly description: FaceDescription;
  has(codePoint: number): boolean;
  /** Glyphs in logical order of the text. */
  shape(stretch: Stretch): readonly Glyph[];
  subset(): FaceSubset;
}

/** Thousandths of an em per design unit are exact: every face of the list has 1000 units per em. */
const UNITS_PER_EM = 1000;

const opened = new Map<string, OpenedFace>();

/** The face in the file at `path`, opened at its first use in this process. */
export function openFace(name: FaceName, path: string): OpenedFace {
  const known = opened.get(path);
  if (known) return known;
  const face = createFace(name, readFont(path));
  opened.set(path, face);
  return face;
}

function readFont(path: string): fontkit.Font {
  try {
    const font = fontkit.create(readFileSync(path));
    assert('layout' in font, 'a font collection is not a face');
    return keepCodePointsApart(font);
  } catch (cause) {
    throw new Fault('missing', 'a font file cannot be read', {
      place: path,
      remedy: 'install the font packages, or name the folder that holds them',
      cause,
    });
  }
}

/**
 * The library caches one glyph object per glyph, with the characters of its first use. Where a font
 * draws the hyphen, the soft hyphen and the non-breaking hyphen alike, shaping one soft hyphen would
 * blank every later hyphen, and a document's text would depend on the documents before it. This
 * keeps one glyph object per glyph and characters.
 */
function keepCodePointsApart(font: fontkit.Font): fontkit.Font {
  const inner = font as fontkit.Font & { _glyphs: Record<number, unknown> };
  const original = font.getGlyph.bind(font);
  const cache = new Map<number | string, fontkit.Glyph>();
  inner.getGlyph = (id, codePoints = []) => {
    const key =
      codePoints.length === 0
        ? id
        : codePoints.length === 1
          ? id * 0x200000 + (codePoints[0] ?? 0) + 0x10000
          : `${id}:${codePoints.join()}`;
    let glyph = cache.get(key);
    if (!glyph) {
      delete inner._glyphs[id];
      glyph = original(id, codePoints);
      cache.set(key, glyph);
    }
    return glyph;
  };
  return font;
}

function createFace(name: FaceName, font: fontkit.Font): OpenedFace {
  assert(font.unitsPerEm === UNITS_PER_EM, `${name} has ${font.unitsPerEm} units per em`);
  const known = new Map<number, boolean>();
  return {
    name,
    description: describe(name, font),
    has(codePoint) {
      let has = known.get(codePoint);
      if (has === undefined) {
        has = font.hasGlyphForCodePoint(codePoint);
        known.set(codePoint, has);
      }
      return has;
    },
    shape: (stretch) => shapeStretch(font, stretch),
    subset: () => subsetOf(name, font, describe(name, font)),
  };
}

function shapeStretch(font: fontkit.Font, stretch: Stretch): Glyph[] {
  const { script, language, direction } = stretch;
  const features = isSquareScript(script) ? { kern: false } : {};
  const run = font.layout(stretch.shown, features, script, language, direction);
  const order = run.glyphs.map((_, place) => place);
  // The library gives right-to-left glyphs from left to right; ours stand in order of the text.
  if (direction === 'rtl') order.reverse();
  const texts = textOfGlyphs(
    order.map((place) => run.glyphs[place]?.codePoints ?? []),
    stretch,
  );
  return order.map((place, index) => {
    const glyph = run.glyphs[place];
    const position = run.positions[place];
    assert(glyph && position, 'the shaper gave a glyph without a position');
    return {
      id: glyph.id,
      advance: position.xAdvance,
      xOffset: position.xOffset,
      yOffset: position.yOffset,
      text: texts[index] ?? '',
    };
  });
}

/**
 * What each glyph stands for in the text as meant. The glyphs' own code points, put together, spell
 * the text as shown; where a shaper has moved them, the whole stretch is given to its first glyph.
 */
function textOfGlyphs(codePoints: readonly (readonly number[])[], stretch: Stretch): string[] {
  const meant = Array.from(stretch.meant);
  const spelt = String.fromCodePoint(...codePoints.flat());
  if (spelt !== stretch.shown) return codePoints.map((_, index) => (index ? '' : stretch.meant));
  let taken = 0;
  return codePoints.map(({ length }) => meant.slice(taken, (taken += length)).join(''));
}

function describe(name: FaceName, font: fontkit.Font): FaceDescription {
  const [typeface, cut] = name.split('/') as [Typeface, string];
  const { typoAscender, typoDescender } = font['OS/2'];
  const { minX, minY, maxX, maxY } = font.bbox;
  return {
    postScriptName: font.postscriptName,
    ascender: typoAscender,
    descender: typoDescender,
    capHeight: font.capHeight,
    xHeight: font.xHeight,
    box: [minX, minY, maxX, maxY],
    italicAngle: font.italicAngle,
    serif: FONT_PACKAGES[typeface].serif,
    weight: cut.startsWith('7') ? 700 : 400,
  };
}
