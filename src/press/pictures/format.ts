/**
 * What kind of picture some bytes are, told by their first bytes and never by a file name. Only
 * formats of photographs are let in: a format that can refer to other files or run for long (SVG, PDF)
 * is not a photograph, whatever it is called.
 */
export type PictureFormat = 'jpeg' | 'png' | 'webp' | 'tiff' | 'avif';

const text = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, to));

const startsWith = (bytes: Uint8Array, ...first: readonly number[]): boolean =>
  first.every((value, index) => bytes[index] === value);

/** JPEG: ITU-T T.81, B.1.1.3; PNG: ISO 15948, 5.2; WebP: RFC 9649; TIFF 6.0; AVIF: ISO 23000-22. */
export function formatOf(bytes: Uint8Array): PictureFormat | undefined {
  if (startsWith(bytes, 0xff, 0xd8, 0xff)) return 'jpeg';
  if (startsWith(bytes, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return 'png';
  if (text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 12) === 'WEBP') return 'webp';
  if (startsWith(bytes, 0x49, 0x49, 0x2a, 0) || startsWith(bytes, 0x4d, 0x4d, 0, 0x2a))
    return 'tiff';
  if (text(bytes, 4, 8) === 'ftyp' && /^avi[fs]$/.test(text(bytes, 8, 12))) return 'avif';
  return undefined;
}

/** Formats by name, for the reader of a finding. */
export const PICTURE_FORMATS = 'JPEG, PNG, WebP, TIFF or AVIF';
