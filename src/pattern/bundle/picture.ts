/**
 * Reads the head of a photograph: which format, how many pixels. Takes bytes; never decodes, so that a
 * file that claims a billion pixels costs nothing. Anything but JPEG, PNG and WebP is refused here,
 * SVG with its scripts above all.
 */
import { PICTURE_LIMITS } from '../../base/limits.ts';

export interface PictureHead {
  readonly format: 'jpeg' | 'png' | 'webp';
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** The head, or what is wrong, said after the file's name. */
export function readPictureHead(bytes: Uint8Array): PictureHead | { readonly problem: string } {
  const data = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (data.length === 0) return { problem: 'is empty' };
  const read = READERS.find(({ isIt }) => isIt(data));
  if (!read) return { problem: 'is no JPEG, PNG or WebP picture' };
  const size = read.size(data);
  if (!size || size.width < 1 || size.height < 1) return { problem: `is a damaged ${read.name}` };
  const megapixels = (size.width * size.height) / 1e6;
  const tooLong = Math.max(size.width, size.height) > PICTURE_LIMITS.edgePixels;
  if (megapixels > PICTURE_LIMITS.megapixels || tooLong) {
    const limit = `at most ${PICTURE_LIMITS.megapixels} megapixels and ${PICTURE_LIMITS.edgePixels} a side`;
    return { problem: `has ${size.width} × ${size.height} pixels; ${limit} can be handled` };
  }
  return { format: read.format, widthPixels: size.width, heightPixels: size.height };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const READERS: readonly {
  readonly format: PictureHead['format'];
  readonly name: string;
  readonly isIt: (data: Buffer) => boolean;
  readonly size: (data: Buffer) => Size | undefined;
}[] = [
  {
    format: 'jpeg',
    name: 'JPEG',
    isIt: (data) => data.length > 2 && data.readUIntBE(0, 3) === 0xffd8ff,
    size: jpegSize,
  },
  {
    format: 'png',
    name: 'PNG',
    isIt: (data) => data.subarray(0, 8).equals(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')),
    size: pngSize,
  },
  {
    format: 'webp',
    name: 'WebP',
    isIt: (data) =>
      data.toString('latin1', 0, 4) === 'RIFF' && data.toString('latin1', 8, 12) === 'WEBP',
    size: webpSize,
  },
];

/** ISO/IEC 15948 (PNG): the first chunk is IHDR; the last is IEND. */
function pngSize(data: Buffer): Size | undefined {
  if (data.length < 33 || data.toString('latin1', 12, 16) !== 'IHDR') return undefined;
  if (data.lastIndexOf('IEND') < 0) return undefined;
  return { width: data.readUInt32BE(16), height: data.readUInt32BE(20) };
}

/** ITU-T T.81 (JPEG): segments until a start of frame (SOF0–15 but DHT, JPG, DAC). */
function jpegSize(data: Buffer): Size | undefined {
  if (data.lastIndexOf(Buffer.from([0xff, 0xd9])) < 0) return undefined;
  let at = 2;
  while (at + 9 < data.length) {
    if (data[at] !== 0xff) return undefined;
    const marker = data[at + 1] ?? 0;
    const isFill = marker === 0xff;
    const hasNoLength = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
    if (isFill || hasNoLength) {
      at += isFill ? 1 : 2;
      continue;
    }
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      return { height: data.readUInt16BE(at + 5), width: data.readUInt16BE(at + 7) };
    }
    at += 2 + data.readUInt16BE(at + 2);
  }
  return undefined;
}

/** RFC 9649 (WebP): lossy VP8, lossless VP8L, extended VP8X; the RIFF length must be there in full. */
function webpSize(data: Buffer): Size | undefined {
  if (data.length < 30 || data.readUInt32LE(4) + 8 > data.length) return undefined;
  switch (data.toString('latin1', 12, 16)) {
    case 'VP8 ':
      return { width: data.readUInt16LE(26) & 0x3fff, height: data.readUInt16LE(28) & 0x3fff };
    case 'VP8L': {
      const bits = data.readUInt32LE(21);
      return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
    }
    case 'VP8X':
      return { width: data.readUIntLE(24, 3) + 1, height: data.readUIntLE(27, 3) + 1 };
    default:
      return undefined;
  }
}
