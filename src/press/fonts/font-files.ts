/**
 * The faces the press can set with, and in which order each family asks them for a character. Data
 * only: a new face is a line here. Every file is a static TrueType font under the SIL Open Font
 * Licence, taken from its npm package; a bundled function carries the same paths in a folder.
 */
import type { TextStyle } from './face.ts';

/** A type family of the list a designer may choose from, or one that completes it. */
export type Typeface =
  | 'source-sans-3'
  | 'noto-sans'
  | 'noto-serif'
  | 'noto-sans-jp'
  | 'noto-sans-kr'
  | 'noto-sans-sc'
  | 'noto-sans-hebrew';

interface FontPackage {
  /** Start of the file names, as in `NotoSans_400Regular.ttf`. */
  readonly stem: string;
  readonly italic: boolean;
  readonly serif: boolean;
}

export const FONT_PACKAGES: Readonly<Record<Typeface, FontPackage>> = {
  'source-sans-3': { stem: 'SourceSans3', italic: true, serif: false },
  'noto-sans': { stem: 'NotoSans', italic: true, serif: false },
  'noto-serif': { stem: 'NotoSerif', italic: true, serif: true },
  'noto-sans-jp': { stem: 'NotoSansJP', italic: false, serif: false },
  'noto-sans-kr': { stem: 'NotoSansKR', italic: false, serif: false },
  'noto-sans-sc': { stem: 'NotoSansSC', italic: false, serif: false },
  'noto-sans-hebrew': { stem: 'NotoSansHebrew', italic: false, serif: false },
};

/** Names one font file: `noto-sans/400`, with `i` after the weight for italics. */
export type FaceName = `${Typeface}/${400 | 700}${'' | 'i'}`;

/** The face of a typeface for a style; upright where the script has no italics. */
export function faceName(
  typeface: Typeface,
  style: Pick<TextStyle, 'weight' | 'italic'>,
): FaceName {
  const italic = style.italic && FONT_PACKAGES[typeface].italic ? 'i' : '';
  return `${typeface}/${style.weight === 'bold' ? 700 : 400}${italic}`;
}

/** Path of a face's file below the folder of font packages. */
export function fontPath(face: FaceName): string {
  const [typeface, cut] = face.split('/') as [Typeface, string];
  const weight = cut.startsWith('7') ? '700Bold' : '400Regular';
  const variant = cut.endsWith('i') ? `${weight}_Italic` : weight;
  return `${typeface}/${variant}/${FONT_PACKAGES[typeface].stem}_${variant}.ttf`;
}

/** Every font file, for whoever packs the fonts beside a bundled function. */
export function allFontPaths(): readonly string[] {
  const cuts = (typeface: Typeface): FaceName[] => [
    `${typeface}/400`,
    `${typeface}/700`,
    ...(FONT_PACKAGES[typeface].italic
      ? [`${typeface}/400i` as FaceName, `${typeface}/700i` as FaceName]
      : []),
  ];
  return (Object.keys(FONT_PACKAGES) as Typeface[]).flatMap(cuts).map(fontPath);
}
