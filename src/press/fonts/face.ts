/**
 * The one measuring interface: text in, positioned glyphs out. Only `press/fonts` knows the font
 * library; layout asks for widths here and the PDF room for glyphs and subsets. Lengths of glyphs are
 * thousandths of an em, so that a size is applied once, at the end.
 */
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
  /** The text this glyph stands for, for extraction; empty for the later parts of a cluster. */
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

export interface Fonts {
  /**
   * Shapes text that stands in one style; falls back face by face where a glyph is missing. Soft
   * hyphens are dropped. `level` is the bidi embedding level (odd = right to left).
   */
  shape(text: string, style: TextStyle, level?: number): readonly Run[];
  metrics(style: TextStyle): FaceMetrics;
  /** Characters no face of the style's chain has: each is a finding before anything is set. */
  missing(text: string, style: TextStyle): readonly string[];
}
