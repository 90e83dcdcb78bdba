/**
 * Photographs go into the file as the JPEG bytes they are: nothing is decoded. The header is read to
 * be sure of size and colours, because a wrong one shows as noise in print (ISO/IEC 10918-1, B.2.2).
 */
import { Fault } from '../../base/fault.ts';
import { plainStream, type PDFContext, type PDFRef } from './objects.ts';
import type { Picture } from './resources.ts';

interface FrameHeader {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly components: number;
}

/** Start-of-frame markers of baseline, extended and progressive coding. */
const FRAMES = new Set([0xc0, 0xc1, 0xc2]);

export function addJpeg(context: PDFContext, picture: Picture): PDFRef {
  const header = frameHeader(picture.jpeg);
  const fits =
    header.widthPixels === picture.widthPixels && header.heightPixels === picture.heightPixels;
  if (!fits || (header.components !== 1 && header.components !== 3)) {
    throw new Fault('input', 'a picture is not the RGB or grey JPEG it is said to be', {
      place: `${header.widthPixels} × ${header.heightPixels}, ${header.components} colours`,
      remedy: 'prepare the picture again',
    });
  }
  return plainStream(context, picture.jpeg, {
    Type: 'XObject',
    Subtype: 'Image',
    Width: header.widthPixels,
    Height: header.heightPixels,
    ColorSpace: header.components === 1 ? 'DeviceGray' : 'DeviceRGB',
    BitsPerComponent: 8,
    Filter: 'DCTDecode',
  });
}

/** Walks the segments to the frame header. */
export function frameHeader(jpeg: Uint8Array): FrameHeader {
  const view = new DataView(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength);
  let at = 2;
  while (at + 9 < jpeg.length && view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1);
    if (FRAMES.has(marker)) {
      return {
        heightPixels: view.getUint16(at + 5),
        widthPixels: view.getUint16(at + 7),
        components: view.getUint8(at + 9),
      };
    }
    at += 2 + view.getUint16(at + 2);
  }
  throw new Fault('input', 'a picture is no JPEG', { remedy: 'prepare the picture again' });
}
