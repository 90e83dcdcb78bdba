/**
 * The colours meant by the file: an sRGB profile, built here from the numbers of the standard so that
 * nobody has to ship one. Matrix and curve after IEC 61966-2-1, in the profile format ICC.1:2004-10
 * (version 4.2). The primaries are adapted to the D50 white of profiles by Bradford's method.
 */

/** ICC.1:2004-10, 6.3.4.3: the white of the connection space. */
const D50 = [0.9642, 1, 0.8249] as const;

/** IEC 61966-2-1 primaries and D65 white as XYZ after Bradford adaptation to D50. */
const COLORANTS = {
  rXYZ: [0.436065, 0.222488, 0.013916],
  gXYZ: [0.385147, 0.716873, 0.097076],
  bXYZ: [0.143066, 0.060608, 0.714096],
} as const;

/** Bradford's matrix from D65 to D50, row by row. */
const ADAPTATION = [
  1.047886, 0.022919, -0.050216, 0.029582, 0.990484, -0.017079, -0.009252, 0.015073, 0.751678,
] as const;

/** IEC 61966-2-1: ((x + 0.055) / 1.055) ^ 2.4 from 0.04045 on, x / 12.92 below. */
const CURVE = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045] as const;

const HEADER_BYTES = 128;

/** Numbers of 16 whole and 16 broken bits. */
function fixed(values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, place) => bytes.writeInt32BE(Math.round(value * 65536), place * 4));
  return bytes;
}

function element(type: string, ...parts: readonly Uint8Array[]): Buffer {
  const bytes = Buffer.concat([Buffer.from(`${type}\0\0\0\0`, 'latin1'), ...parts]);
  return Buffer.concat([bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4)]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, place) => bytes.writeUInt32BE(value, place * 4));
  return bytes;
}

/** Text in one language, English of the United States. */
function localised(value: string): Buffer {
  const characters = Buffer.from(value, 'utf16le').swap16();
  const record = Buffer.concat([Buffer.from('enUS', 'latin1'), words(characters.length, 28)]);
  return element('mluc', words(1, 12), record, characters);
}

/** The profile, some 500 bytes, always the same. */
export function standardRgbProfile(): Uint8Array {
  const curve = element('para', Buffer.from([0, 3, 0, 0]), fixed(CURVE));
  const tags: readonly (readonly [string, Buffer])[] = [
    ['desc', localised('sRGB')],
    ['cprt', localised('CC0')],
    ['wtpt', element('XYZ ', fixed(D50))],
    ['chad', element('sf32', fixed(ADAPTATION))],
    ['rXYZ', element('XYZ ', fixed(COLORANTS.rXYZ))],
    ['gXYZ', element('XYZ ', fixed(COLORANTS.gXYZ))],
    ['bXYZ', element('XYZ ', fixed(COLORANTS.bXYZ))],
    ['rTRC', curve],
    ['gTRC', curve],
    ['bTRC', curve],
  ];
  const tableBytes = 4 + tags.length * 12;
  const data: Buffer[] = [];
  const offsets = new Map<Buffer, number>();
  let end = HEADER_BYTES + tableBytes;
  for (const [, bytes] of tags) {
    if (offsets.has(bytes)) continue;
    offsets.set(bytes, end);
    data.push(bytes);
    end += bytes.length;
  }
  const table = tags.map(([name, bytes]) =>
    Buffer.concat([Buffer.from(name, 'latin1'), words(offsets.get(bytes) ?? 0, bytes.length)]),
  );
  return new Uint8Array(Buffer.concat([header(end), words(tags.length), ...table, ...data]));
}

/** A display profile for perceptual use; its date is that of the standard it is made from. */
function header(length: number): Buffer {
  const bytes = Buffer.alloc(HEADER_BYTES);
  bytes.writeUInt32BE(length, 0);
  bytes.writeUInt32BE(0x04200000, 8);
  bytes.write('mntrRGB XYZ ', 12, 'latin1');
  bytes.writeUInt16BE(1999, 24);
  bytes.writeUInt16BE(10, 26);
  bytes.writeUInt16BE(18, 28);
  bytes.write('acsp', 36, 'latin1');
  fixed(D50).copy(bytes, 68);
  return bytes;
}
