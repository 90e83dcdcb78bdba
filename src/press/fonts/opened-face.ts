/**
 * One font file, opened: which characters it has, its metrics and its subsets, read by fontkit, and its
 * words shaped by HarfBuzz. Only this module and `subset.ts` call the font library. Faces are opened
 * once per process and kept.
 */
import { readFileSync } from 'node:fs';
import * as fontkit from 'fontkit';
import { assert } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import type { FaceDescription, FaceSubset, Glyph } from './face.ts';
import { FONT_PACKAGES, type FaceName, type Typeface } from './font-files.ts';
import { openShaper, type Shaper, type Stretch } from './shaper.ts';
import { subsetOf } from './subset.ts';

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
  const face = createFace(name, ...readFont(path));
  opened.set(path, face);
  return face;
}

function readFont(path: string): readonly [Uint8Array, fontkit.Font] {
  try {
    const file = readFileSync(path);
    const font = fontkit.create(file);
    assert('layout' in font, 'a font collection is not a face');
    return [file, font];
  } catch (cause) {
    throw new Fault('missing', 'a font file cannot be read', {
      place: path,
      remedy: 'install the font packages, or name the folder that holds them',
      cause,
    });
  }
}

function createFace(name: FaceName, file: Uint8Array, font: fontkit.Font): OpenedFace {
  assert(font.unitsPerEm === UNITS_PER_EM, `${name} has ${font.unitsPerEm} units per em`);
  const known = new Map<number, boolean>();
  let shaper: Shaper | undefined;
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
    shape: (stretch) => (shaper ??= openShaper(file))(stretch),
    subset: () => subsetOf(name, font, describe(name, font)),
  };
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
