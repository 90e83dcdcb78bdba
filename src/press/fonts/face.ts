/**
 * The one measuring interface: text in, positioned glyphs out. Only `press/fonts` knows the font
 * library; layout asks for widths here and the PDF room for glyphs and subsets. Lengths of glyphs are
 * thousandths of an em, so that a size is applied once, at the end.
 */
import type { Theme } from './chain.ts';

export type Family = 'text' | 'display' | 'symbol';
export type Weight = 'regular' | 'bold';

export interface TextStyle {
  readonly family: Family;
  readonly weight: Weight;
  readonly italic: boolean;
  /** BCP 47: chooses the face for Han characters, the shaping rules and the features. */
  readonly language: string;
}

export interface Glyph {
  readonly id: number;
  /** Thousandths of an em. */
  readonly advance: number;
  readonly xOffset: number;
  readonly yOffset: number;
  /**
   * The text this glyph stands for, for extraction; empty for the later parts of a cluster. A hyphen
   * that only the end of a line put there stands for U+00AD (ISO 32000-1, 14.8.2.2.3).
   */
  readonly text: string;
}

/** Glyphs of one face in one direction, in logical order of the text. */
export interface Run {
  /** Names the font file: the same everywhere, e.g. `noto-sans/400`. */
  readonly face: string;
  readonly direction: 'ltr' | 'rtl';
  readonly glyphs: readonly Glyph[];
  readonly width: number; // thousandths of an em
  readonly text: string;
}

/** Thousandths of an em, y up. */
export interface FaceMetrics {
  readonly ascender: number;
  readonly descender: number; // negative
  readonly capHeight: number;
  readonly xHeight: number;
}

/** What a PDF says of a face. Lengths in thousandths of an em, y up. */
export interface FaceDescription extends FaceMetrics {
  readonly postScriptName: string;
  /** Left, bottom, right, top of the box around all glyphs. */
  readonly box: readonly [number, number, number, number];
  /** Degrees counter-clockwise from upright; negative for italics. */
  readonly italicAngle: number;
  readonly serif: boolean;
  readonly weight: 400 | 700;
}

/** The glyphs of one face that one document uses, numbered in order of first use. */
export interface FaceSubset {
  readonly face: string;
  readonly description: FaceDescription;
  /** By code: the glyph of the whole face it draws. */
  readonly glyphs: readonly number[];
  /** Character code of a glyph that stands for its text; equal pairs get equal codes, from 1. */
  code(glyph: Glyph): number;
  /** By code: the advance in the font file, without kerning; code 0 is the missing glyph. */
  readonly advances: readonly number[];
  /** By code: the text to extract. */
  readonly texts: readonly string[];
  /** A TrueType font whose glyph numbers are the codes. Call when all codes are given. */
  fontFile(): Uint8Array;
}

export interface Fonts {
  /**
   * Shapes text that stands in one style; falls back face by face where a glyph is missing. Soft
   * hyphens and other characters without a shape are dropped, letters and marks are composed (NFC).
   * Words are shaped each alone, so widths add up. `level` is the bidi embedding level (odd = right to left).
   */
  shape(text: string, style: TextStyle, level?: number): readonly Run[];
  metrics(style: TextStyle): FaceMetrics;
  /** Characters no face of the style's chain has: each is a finding before anything is set. */
  missing(text: string, style: TextStyle): readonly string[];
}

/** The fonts as the PDF room sees them. */
export interface PrintFonts extends Fonts {
  /** A new, empty subset of the face a run names. */
  subset(face: string): FaceSubset;
  /** The same fonts with a designer's choice of typefaces. */
  themed(theme: Theme): PrintFonts;
}
