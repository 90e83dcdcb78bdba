/**
 * Photographs made ready for print and shop. Pictures are made here and read back by the image library
 * (sharp, libvips); turned pictures follow the eight orientations of EXIF 2.32 (CIPA DC-008), colours
 * the published numbers of Display P3 and sRGB.
 */
import { deflateSync as deflate } from 'node:zlib';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { Place } from '../../src/findings/finding.ts';
import { standardRgbProfile } from '../../src/press/pdf/colour-profile.ts';
import { preparePicture, type PictureUse, type ShopUse } from '../../src/press/pictures/index.ts';

const PLACE: Place = { file: 'photos/cover.jpg', pointer: '' };
/** One of each form and shape, with and without a limit. */
const SHOP_USES: readonly ShopUse[] = [
  { kind: 'shop', name: 'square', shape: 'square', pixels: 2000, format: 'jpeg' },
  { kind: 'shop', name: 'whole', shape: 'whole', pixels: 1200, format: 'webp', mostBytes: 40_000 },
  { kind: 'shop', name: 'light', shape: 'whole', pixels: 1600, format: 'avif' },
];
const PRINT: PictureUse = { kind: 'print', widthPoints: 360 };

/** A picture whose four quarters have four colours: top left red, green, blue, bottom right white. */
function quarters(width: number, height: number): Promise<Buffer> {
  const pixels = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const colour = [[255, 0, 0], [0, 255, 0], [0, 0, 255], [255, 255, 255]][(y * 2 < height ? 0 : 2) + (x * 2 < width ? 0 : 1)]; // prettier-ignore
      pixels.set(colour ?? [], (y * width + x) * 3);
    }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}

/** The colour in a quarter, as the name it was given above. */
async function cornersOf(bytes: Uint8Array): Promise<string> {
  const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
  const name = (x: number, y: number) => {
    const at =
      (Math.floor(y * info.height) * info.width + Math.floor(x * info.width)) * info.channels;
    const [red = 0, green = 0, blue = 0] = data.subarray(at, at + 3);
    if (red > 128 && green > 128 && blue > 128) return 'w';
    return red > 128 ? 'r' : green > 128 ? 'g' : 'b';
  };
  return name(0.25, 0.25) + name(0.75, 0.25) + name(0.25, 0.75) + name(0.75, 0.75);
}

async function prepared(bytes: Uint8Array, use: PictureUse = PRINT) {
  const { picture, findings } = await preparePicture(bytes, use, PLACE);
  if (!picture) throw new Error(JSON.stringify(findings));
  return { picture, findings };
}

const refusalOf = async (bytes: Uint8Array) => {
  const { picture, findings } = await preparePicture(bytes, PRINT, PLACE);
  expect(picture).toBeUndefined();
  return findings.map(({ code, severity }) => `${severity} ${code}`);
};

describe('turned upright', () => {
  // What the stored quarters r g / b w look like after turning, by EXIF 2.32, table 6.
  test.each([
    [1, 'rgbw', 'as stored'],
    [2, 'grwb', 'mirrored'],
    [3, 'wbgr', 'half a turn'],
    [4, 'bwrg', 'upside down'],
    [5, 'rbgw', 'mirrored, and a quarter turn'],
    [6, 'brwg', 'a quarter turn clockwise'],
    [7, 'wgbr', 'mirrored, and a quarter turn'],
    [8, 'gwrb', 'a quarter turn the other way'],
  ])('orientation %i: %s, %s', async (orientation, corners) => {
    const bytes = await sharp(await quarters(160, 80)).withMetadata({ orientation }).jpeg({ quality: 95 }).toBuffer(); // prettier-ignore
    const { picture } = await prepared(bytes);
    expect(await cornersOf(picture.bytes)).toBe(corners);
    const upright = orientation < 5;
    expect([picture.widthPixels, picture.heightPixels]).toEqual(upright ? [160, 80] : [80, 160]);
  });
});

describe('metadata', () => {
  test('place, owner and camera are taken out, and no orientation is left to turn it twice', async () => {
    const bytes = await sharp(await quarters(80, 80))
      .withExif({
        IFD0: { Artist: 'Somebody', Copyright: 'Somebody' },
        IFD3: { GPSLatitude: '51/1 30/1 0/1' },
      }) // prettier-ignore
      .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"><secret/></x:xmpmeta>')
      .jpeg()
      .toBuffer();
    expect(Buffer.from(bytes).includes('Somebody')).toBe(true);
    const { picture } = await prepared(bytes);
    const { exif, xmp, iptc, icc } = await sharp(picture.bytes).metadata();
    expect([exif, xmp, iptc, icc]).toEqual([undefined, undefined, undefined, undefined]);
    expect(Buffer.from(picture.bytes).includes('Somebody')).toBe(false);
  });
});

/** Puts an iCCP chunk behind the header of a PNG (ISO 15948, 11.3.3.3). */
function attach(png: Buffer, profile: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from('iCCPprofile\0\0', 'latin1'), deflate(profile)]);
  const chunk = Buffer.alloc(8 + body.length);
  chunk.writeUInt32BE(body.length - 4, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), 4 + body.length);
  return Buffer.concat([png.subarray(0, 33), chunk, png.subarray(33)]);
}

const plain = (red: number, green: number, blue: number): Promise<Buffer> =>
  sharp({ create: { width: 64, height: 64, channels: 3, background: { r: red, g: green, b: blue } } }).png().toBuffer(); // prettier-ignore

describe('colour', () => {
  // Display P3 to sRGB by the matrices of CSS Color 4, section 18 (sample code), rounded to bytes.
  test.each([
    [
      [128, 128, 128],
      [128, 128, 128],
    ],
    [
      [180, 90, 60],
      [193, 83, 51],
    ],
    [
      [60, 120, 160],
      [30, 122, 164],
    ],
    [
      [255, 0, 0],
      [255, 0, 0],
    ], // outside sRGB: held at its edge
  ])('Display P3 %j becomes sRGB %j', async (from, to) => {
    const [red = 0, green = 0, blue = 0] = from;
    const tagged = await sharp(await plain(1, 1, 1))
      .withIccProfile('p3')
      .png()
      .toBuffer();
    const { icc } = await sharp(tagged).metadata();
    if (!icc) throw new Error('the library gave no Display P3 profile');
    const { picture } = await prepared(attach(await plain(red, green, blue), icc));
    const { data } = await sharp(picture.bytes).raw().toBuffer({ resolveWithObject: true });
    to.forEach((value, channel) => {
      expect(Math.abs((data[channel] ?? 0) - value), String(data.subarray(0, 3))).toBeLessThanOrEqual(3); // prettier-ignore
    });
  });

  test('CMYK for a press becomes RGB', async () => {
    const cmyk = await sharp({ create: { width: 64, height: 64, channels: 3, background: '#c03020' } })
      .toColourspace('cmyk').jpeg({ quality: 100 }).toBuffer(); // prettier-ignore
    expect((await sharp(cmyk).metadata()).space).toBe('cmyk');
    const { picture } = await prepared(cmyk);
    const { space, channels } = await sharp(picture.bytes).metadata();
    expect([space, channels]).toEqual(['srgb', 3]);
    expect(await cornersOf(picture.bytes)).toBe('rrrr');
  });

  test('a see-through ground becomes white, grey becomes RGB', async () => {
    const clear = await sharp({ create: { width: 40, height: 40, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } } }).png().toBuffer(); // prettier-ignore
    expect(await cornersOf((await prepared(clear)).picture.bytes)).toBe('wwww');
    const grey = await sharp(await quarters(40, 40))
      .toColourspace('b-w')
      .png()
      .toBuffer();
    expect((await sharp((await prepared(grey)).picture.bytes).metadata()).space).toBe('srgb');
  });
});

describe('sizes', () => {
  test.each([
    ['1800 px on 5 in are 300 dpi of 360', 1800, 1200, PRINT, [1500, 1000], 300, []],
    ['1000 px on 5 in are 200 dpi: enough', 1000, 500, PRINT, [1000, 500], 200, []],
    ['999 px on 5 in: too coarse', 999, 500, PRINT, [999, 500], 199.8, ['press/picture-resolution']],
    ['held by its height', 1000, 2000, { kind: 'print', widthPoints: 360, heightPoints: 360 }, [750, 1500], 300, []],
    ['one pixel', 1, 1, PRINT, [1, 1], 0.2, ['press/picture-resolution']],
  ] as const)('%s', async (_, width, height, use, size, dpi, codes) => {
    const { picture, findings } = await prepared(await quarters(width, height), use);
    expect([picture.widthPixels, picture.heightPixels]).toEqual(size);
    expect(picture.dotsPerInch).toBeCloseTo(dpi, 6);
    expect(findings.map(({ code }) => code)).toEqual(codes);
  }); // prettier-ignore

  test.each(SHOP_USES.map((use) => [use.name, use] as const))(
    'for the shop, %s',
    async (_, use) => {
      const { picture, findings } = await prepared(await quarters(3000, 2400), use);
      expect(findings).toEqual([]);
      expect(Math.max(picture.widthPixels, picture.heightPixels)).toBe(use.pixels);
      expect(picture.widthPixels / picture.heightPixels).toBeCloseTo(use.shape === 'square' ? 1 : 1.25, 2); // prettier-ignore
      const { format, compression, icc, exif } = await sharp(picture.bytes).metadata();
      // The library names AVIF by its container and the compression inside (ISO 23000-22).
      const name = format === 'heif' ? (compression === 'av1' ? 'avif' : compression) : format;
      expect([name, picture.mediaType]).toEqual([use.format, `image/${use.format}`]);
      expect(Buffer.from(icc ?? []).toString('latin1')).toMatch(/s\0?R\0?G\0?B/);
      expect(exif).toBeUndefined();
    },
  );

  test('a picture is made coarser, then smaller, until it is under the limit', async () => {
    const noise = Buffer.from(Array.from({ length: 900 * 900 * 3 }, (_, at) => (at * 7919) % 251));
    const png = await sharp(noise, { raw: { width: 900, height: 900, channels: 3 } })
      .png()
      .toBuffer();
    for (const format of ['jpeg', 'webp', 'avif'] as const) {
      const use = { kind: 'shop', name: 'x', shape: 'whole', pixels: 900, format } as const;
      const free = await prepared(png, use);
      const mostBytes = Math.round(free.picture.bytes.length * 0.9);
      const coarse = await prepared(png, { ...use, mostBytes });
      expect(coarse.picture.bytes.length).toBeLessThanOrEqual(mostBytes);
      expect(coarse.picture.widthPixels).toBe(900);
      const tight = await prepared(png, { ...use, mostBytes: 10_000 });
      expect(tight.picture.bytes.length).toBeLessThanOrEqual(10_000);
      expect(tight.picture.widthPixels).toBeLessThan(900);
    }
  });

  test('a small picture is never blown up', async () => {
    for (const use of SHOP_USES) {
      const { picture } = await prepared(await quarters(300, 200), use);
      expect(picture.widthPixels).toBeLessThanOrEqual(300);
    }
  });
});

describe('what is no picture', () => {
  const png = () => quarters(64, 64);

  test.each([
    ['a text', () => Buffer.from('not a picture')],
    ['nothing', () => Buffer.alloc(0)],
    ['an SVG, which may point outside', () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['a GIF', () => Buffer.from('R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==', 'base64')],
    ['a PDF', () => Buffer.from('%PDF-1.7\n')],
    ['the beginning of a JPEG and no more', () => Buffer.from([0xff, 0xd8, 0xff, 0xe0])],
    ['a PNG cut in the middle', async () => (await png()).subarray(0, 120)],
    ['a PNG with a flipped byte', async () => { const bytes = Buffer.from(await png()); bytes[60] = (bytes[60] ?? 0) ^ 0xff; return bytes; }],
  ])('%s is refused', async (_, make) => {
    expect(await refusalOf(await make())).toEqual(['error press/picture-unreadable']);
  }); // prettier-ignore

  /** A PNG that only says how large it is: signature, IHDR, an empty IDAT, IEND. */
  function pngHeader(width: number, height: number): Buffer {
    const bytes = Buffer.from('89504e470d0a1a0a0000000d49484452000000000000000008020000000000000000000000494441540000000000000000', 'hex'); // prettier-ignore
    bytes.writeUInt32BE(width, 16);
    bytes.writeUInt32BE(height, 20);
    bytes.writeUInt32BE(crc32(bytes.subarray(12, 29)), 29);
    bytes.writeUInt32BE(crc32(Buffer.from('IDAT')), 41);
    return bytes;
  }

  test('a header of 500 megapixels is refused from the header, without opening it', async () => {
    expect(await refusalOf(pngHeader(25_000, 20_000))).toEqual(['error press/picture-too-large']);
    expect(await refusalOf(pngHeader(40_000, 2))).toEqual(['error press/picture-too-large']);
  });
});

/** ISO 3309, as PNG uses it. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

describe('the same every time', () => {
  test('one picture prepared many times at once gives one hash', async () => {
    const bytes = await quarters(900, 700);
    const all = await Promise.all(Array.from({ length: 6 }, () => prepared(bytes)));
    expect(new Set(all.map(({ picture }) => picture.hash)).size).toBe(1);
  });
});

describe('the sRGB profile of the documents', () => {
  test('is read by Little CMS as what it is, and changes no sRGB colour', async () => {
    const pixels = Buffer.from(Array.from({ length: 3 * 256 }, (_, index) => (index * 97) % 256));
    const png = await sharp(pixels, { raw: { width: 16, height: 16, channels: 3 } })
      .png()
      .toBuffer();
    const tagged = await sharp(attach(png, standardRgbProfile())).metadata();
    expect(tagged.icc?.length).toBe(standardRgbProfile().length);
    const { data } = await sharp(attach(png, standardRgbProfile())).toColourspace('srgb').raw().toBuffer({ resolveWithObject: true }); // prettier-ignore
    for (let index = 0; index < pixels.length; index += 1)
      expect(Math.abs((data[index] ?? 0) - (pixels[index] ?? 0))).toBeLessThanOrEqual(1);
  });
});
