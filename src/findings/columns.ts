/**
 * Widths of text in a terminal. East Asian wide and fullwidth characters take two columns, combining
 * marks none (Unicode Standard Annex 11, East Asian Width; blocks as of Unicode 16). Everything else
 * takes one. Needed so that carets and tables line up under any language.
 */
const COMBINING = /^\p{Mn}|\p{Me}|\p{Cf}$/u;

/** First and last code point of the wide blocks. */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f], [0x2e80, 0x303e], [0x3041, 0x33ff], [0x3400, 0x4dbf], [0x4e00, 0x9fff],
  [0xa000, 0xa4cf], [0xa960, 0xa97f], [0xac00, 0xd7a3], [0xf900, 0xfaff], [0xfe30, 0xfe6f],
  [0xff00, 0xff60], [0xffe0, 0xffe6], [0x1f300, 0x1faff], [0x20000, 0x3fffd],
]; // prettier-ignore

export function columnsOf(text: string): number {
  let columns = 0;
  for (const character of text) columns += columnsOfCharacter(character);
  return columns;
}

function columnsOfCharacter(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x300) return 1;
  if (COMBINING.test(character)) return 0;
  return WIDE.some(([first, last]) => code >= first && code <= last) ? 2 : 1;
}

export const padStart = (text: string, columns: number): string =>
  ' '.repeat(Math.max(0, columns - columnsOf(text))) + text;
export const padEnd = (text: string, columns: number): string =>
  text + ' '.repeat(Math.max(0, columns - columnsOf(text)));
