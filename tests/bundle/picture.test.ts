import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readPictureHead } from '../../src/pattern/bundle/picture.ts';
import { pngOf } from '../pipeline/studio.ts';

/** Pictures written by libvips; sizes must be what it was asked for. */
const grey = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: '#888' } });

describe('the head of a photograph', () => {
  it.each([
    ['jpeg', () => grey(64, 48).jpeg().toBuffer()],
    ['jpeg', () => grey(64, 48).jpeg({ progressive: true }).withMetadata().toBuffer()],
    ['png', () => grey(64, 48).png().toBuffer()],
    ['webp', () => grey(64, 48).webp().toBuffer()],
    ['webp', () => grey(64, 48).webp({ lossless: true }).toBuffer()],
    ['webp', () => grey(64, 48).ensureAlpha(0.5).webp().withMetadata().toBuffer()],
  ] as const)('of a %s tells format and size', async (format, make) => {
    expect(readPictureHead(await make())).toEqual({ format, widthPixels: 64, heightPixels: 48 });
  });

  it('refuses a picture of 500 megapixels without decoding it', () => {
    const claim = Buffer.from(pngOf(8, 8));
    claim.writeUInt32BE(25_000, 16);
    claim.writeUInt32BE(20_000, 20);
    expect(readPictureHead(claim)).toEqual({
      problem: 'has 25000 × 20000 pixels; at most 200 megapixels and 30000 a side can be handled',
    });
  });

  it.each([
    ['nothing', Buffer.alloc(0), 'is empty'],
    [
      'an SVG',
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'),
      'is no JPEG, PNG or WebP picture',
    ],
    ['a GIF', Buffer.from('GIF89a\x01\x00\x01\x00'), 'is no JPEG, PNG or WebP picture'],
    ['a PNG cut off', Buffer.from(pngOf(8, 8)).subarray(0, 30), 'is a damaged PNG'],
    ['a JPEG of three bytes', Buffer.from([0xff, 0xd8, 0xff]), 'is a damaged JPEG'],
    [
      'a WebP without a body',
      Buffer.from('RIFF\xff\xff\xff\x7fWEBP', 'latin1'),
      'is a damaged WebP',
    ],
  ])('refuses %s', (_title, bytes, problem) => {
    expect(readPictureHead(bytes)).toEqual({ problem });
  });

  it('refuses a JPEG that is cut off', async () => {
    const bytes = await grey(64, 48).jpeg().toBuffer();
    expect(readPictureHead(bytes.subarray(0, bytes.length / 2))).toEqual({
      problem: 'is a damaged JPEG',
    });
  });
});
