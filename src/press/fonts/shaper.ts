/**
 * Words to glyphs by HarfBuzz, the reference implementation of OpenType shaping, in WebAssembly. The
 * only module that calls it: takes a font file and a stretch of text in one script and direction, gives
 * positioned glyphs. Knows no styles, no fallback and no PDF.
 */
import * as harfbuzz from 'harfbuzzjs';
import { present } from '../../base/assert.ts';
import type { Glyph } from './face.ts';
import { isSquareScript, type ScriptTag } from './script.ts';

/** A stretch of one script and direction, ready for one face. */
export interface Stretch {
  readonly text: string;
  readonly script: ScriptTag;
  /** BCP 47. */
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
}

/** Gives glyphs in the order of the text. */
export type Shaper = (stretch: Stretch) => Glyph[];

/** ISO 15924. */
const SCRIPTS: Readonly<Record<ScriptTag, string>> = {
  latn: 'Latn',
  grek: 'Grek',
  cyrl: 'Cyrl',
  hebr: 'Hebr',
  kana: 'Kana',
  hani: 'Hani',
  hang: 'Hang',
};

const NO_KERNING = [new harfbuzz.Feature('kern', 0)];
const USUAL: harfbuzz.Feature[] = [];

/** One buffer for all words, filled and emptied again. */
const buffer = new harfbuzz.Buffer();

/** Copies the file into the shaper's own memory; call at the first use of a face. */
export function openShaper(file: Uint8Array): Shaper {
  const blob = new harfbuzz.Blob(wholeBuffer(file));
  const font = new harfbuzz.Font(new harfbuzz.Face(blob));
  return (stretch) => {
    fill(stretch);
    harfbuzz.shape(font, buffer, isSquareScript(stretch.script) ? NO_KERNING : USUAL);
    return glyphsOf(stretch);
  };
}

/** A file of its own memory needs no further copy; one that shares memory does. */
function wholeBuffer({ buffer: memory, byteOffset, byteLength }: Uint8Array): ArrayBuffer {
  const isWhole = memory instanceof ArrayBuffer && memory.byteLength === byteLength;
  return isWhole ? memory : new Uint8Array(memory, byteOffset, byteLength).slice().buffer;
}

function fill({ text, script, language, direction }: Stretch): void {
  buffer.clearContents();
  // Characters keep their own glyphs wherever they are not drawn as one.
  buffer.setClusterLevel(harfbuzz.ClusterLevel.MONOTONE_CHARACTERS);
  buffer.addText(text);
  buffer.setDirection(direction === 'rtl' ? harfbuzz.Direction.RTL : harfbuzz.Direction.LTR);
  buffer.setScript(SCRIPTS[script]);
  buffer.setLanguage(language);
}

/**
 * The glyphs in the buffer. The first of a cluster stands for the text up to the next cluster, so the
 * glyphs' texts, put together, are the stretch's.
 */
function glyphsOf({ text, direction }: Stretch): Glyph[] {
  const infos = buffer.getGlyphInfos();
  const positions = buffer.getGlyphPositions();
  if (direction === 'rtl') {
    infos.reverse();
    positions.reverse();
  }
  const glyphs: Glyph[] = [];
  let end = text.length;
  for (let at = infos.length - 1; at >= 0; at -= 1) {
    const { codepoint, cluster } = present(infos[at], 'a glyph');
    const { xAdvance, xOffset, yOffset } = present(positions[at], 'its position');
    const isFirst = infos[at - 1]?.cluster !== cluster;
    const own = isFirst ? text.slice(cluster, end) : '';
    if (isFirst) end = cluster;
    glyphs.push({ id: codepoint, advance: xAdvance, xOffset, yOffset, text: own });
  }
  return glyphs.reverse();
}
