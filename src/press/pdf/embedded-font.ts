/**
 * One face in one PDF: a composite font whose character codes are the glyph numbers of its subset
 * (Type 0 with an Identity CIDFontType2; ISO 32000-1, 9.7). The file, the widths and the text map are
 * taken from the subset when every page is painted. Packed font files are kept, because the editions
 * of one text use the same glyphs in the same order.
 */
import { createHash } from 'node:crypto';
import { deflateSync } from 'node:zlib';
import { BoundedCache } from '../fonts/bounded-cache.ts';
import type { FaceDescription, FaceSubset } from '../fonts/face.ts';
import {
  add,
  assign,
  bytesText,
  packedStream,
  type PDFContext,
  type PDFRef,
  plainStream,
} from './objects.ts';
import { toUnicodeMap } from './to-unicode.ts';

/** Flag bit 3: glyphs are named by number, not by a standard Latin encoding (table 123). */
const SYMBOLIC = 1 << 2;
const SERIF = 1 << 1;
const ITALIC = 1 << 6;

interface PackedFile {
  readonly bytes: Uint8Array;
  readonly length: number;
}

/** A Japanese subset is about 150 kB packed. */
const FILES_KEPT = 24;
const files = new BoundedCache<string, PackedFile>(FILES_KEPT);

/** Writes the objects of the font under the reference that pages already name. */
export function embedFont(context: PDFContext, ref: PDFRef, subset: FaceSubset): void {
  const digest = createHash('sha256').update(subset.face).update(subset.glyphs.join()).digest();
  const baseFont = `${subsetTag(digest)}+${subset.description.postScriptName}`;
  const descendant = add(context, {
    Type: 'Font',
    Subtype: 'CIDFontType2',
    BaseFont: baseFont,
    CIDSystemInfo: {
      Registry: bytesText('Adobe'),
      Ordering: bytesText('Identity'),
      Supplement: 0,
    },
    FontDescriptor: describe(context, baseFont, subset, digest.toString('hex')),
    ...widths(subset.advances),
    CIDToGIDMap: 'Identity',
  });
  assign(context, ref, {
    Type: 'Font',
    Subtype: 'Type0',
    BaseFont: baseFont,
    Encoding: 'Identity-H',
    DescendantFonts: [descendant],
    ToUnicode: packedStream(context, toUnicodeMap(subset.texts)),
  });
}

/** Six capitals that tell one subset of a font from another (9.6.4). */
function subsetTag(digest: Buffer): string {
  return Array.from(digest.subarray(0, 6), (byte) => String.fromCharCode(65 + (byte % 26))).join(
    '',
  );
}

function describe(context: PDFContext, name: string, subset: FaceSubset, digest: string): PDFRef {
  const { description } = subset;
  const file = packedFile(subset, digest);
  return add(context, {
    Type: 'FontDescriptor',
    FontName: name,
    Flags: SYMBOLIC | (description.serif ? SERIF : 0) | (description.italicAngle ? ITALIC : 0),
    FontBBox: description.box,
    ItalicAngle: description.italicAngle,
    Ascent: description.ascender,
    Descent: description.descender,
    CapHeight: description.capHeight,
    XHeight: description.xHeight,
    StemV: stemWidth(description),
    FontFile2: plainStream(context, file.bytes, { Filter: 'FlateDecode', Length1: file.length }),
  });
}

/** Only used to imitate a font that is not there; the font files do not say it. */
const stemWidth = ({ weight }: FaceDescription): number => (weight === 700 ? 140 : 85);

function packedFile(subset: FaceSubset, digest: string): PackedFile {
  const known = files.get(digest);
  if (known) return known;
  const file = subset.fontFile();
  const packed = { bytes: deflateSync(file), length: file.length };
  files.set(digest, packed);
  return packed;
}

/** The commonest advance as the default, the rest in runs of neighbouring codes (9.7.4.3). */
function widths(advances: readonly number[]): { DW: number; W: (number | number[])[] } {
  const uses = new Map<number, number>();
  for (const advance of advances) uses.set(advance, (uses.get(advance) ?? 0) + 1);
  let usual = advances[0] ?? 0;
  for (const [advance, count] of uses) if (count > (uses.get(usual) ?? 0)) usual = advance;
  const list: (number | number[])[] = [];
  let run: number[] | undefined;
  advances.forEach((advance, code) => {
    if (advance === usual) run = undefined;
    else if (run) run.push(advance);
    else list.push(code, (run = [advance]));
  });
  return { DW: usual, W: list };
}
