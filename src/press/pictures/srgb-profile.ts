/**
 * The sRGB colour profile as an ICC file, written from the published numbers: primaries and white of
 * IEC 61966-2-1, adapted to the D50 of the profile connection space, and its transfer curve. Needed
 * as output intent of archival PDFs. About half a kilobyte, the same bytes every time, no licence.
 */

/** ICC.1:2004-10 (profile version 4.2), the version PDF/A-2 is built on. */
const VERSION = 0x04200000;
const HEADER_BYTES = 128;

/** Primaries of sRGB adapted to D50 by Bradford, as columns X, Y, Z (IEC 61966-2-1, annex). */
const RED = [0.43607, 0.22249, 0.01392];
const GREEN = [0.38515, 0.71687, 0.09708];
const BLUE = [0.14307, 0.06061, 0.7141];
const D50 = [0.9642, 1, 0.82491];
/** From D65 to D50, Bradford. */
const ADAPTATION = [1.04788, 0.02292, -0.0502, 0.02959, 0.99048, -0.01706, -0.00923, 0.01508, 0.75168]; // prettier-ignore
/** y = ((x + 0.055) / 1.055)^2.4 from 0.04045 on, x / 12.92 below. */
const CURVE = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045];

const text = (value: string): number[] => Array.from(value, (letter) => letter.charCodeAt(0));
const word = (value: number): number[] => [24, 16, 8, 0].map((shift) => (value >>> shift) & 0xff);
const half = (value: number): number[] => [(value >>> 8) & 0xff, value & 0xff];
/** s15Fixed16Number: a signed number in 65,536ths. */
const fixed = (value: number): number[] => word(Math.round(value * 65536) >>> 0);

const numbers = (kind: string, values: readonly number[]) => [
  ...text(kind),
  ...word(0),
  ...values.flatMap(fixed),
];
const curve = [...text('para'), ...word(0), ...half(3), ...half(0), ...CURVE.flatMap(fixed)];

/** multiLocalizedUnicodeType with one text, in English. */
const words = (value: string): number[] => [
  ...text('mluc'), ...word(0), ...word(1), ...word(12),
  ...text('enUS'), ...word(value.length * 2), ...word(28),
  ...text(value).flatMap(half),
]; // prettier-ignore

const TAGS: readonly (readonly [name: string, bytes: readonly number[]])[] = [
  ['desc', words('sRGB')],
  ['cprt', words('No copyright, use freely')],
  ['wtpt', numbers('XYZ ', D50)],
  ['chad', numbers('sf32', ADAPTATION)],
  ['rXYZ', numbers('XYZ ', RED)],
  ['gXYZ', numbers('XYZ ', GREEN)],
  ['bXYZ', numbers('XYZ ', BLUE)],
  ['rTRC', curve],
  ['gTRC', curve],
  ['bTRC', curve],
];

function header(size: number): number[] {
  const date = [2026, 1, 1, 0, 0, 0].flatMap(half);
  return [
    ...word(size), ...word(0), ...word(VERSION),
    ...text('mntrRGB XYZ '), ...date, ...text('acsp'),
    ...word(0), ...word(0), ...word(0), ...word(0), ...word(0), ...word(0),
    ...word(0), ...D50.flatMap(fixed), ...word(0),
    ...Array.from({ length: 44 }, () => 0),
  ]; // prettier-ignore
}

function build(): Uint8Array {
  const directory: number[] = word(TAGS.length);
  const body: number[] = [];
  const start = HEADER_BYTES + 4 + 12 * TAGS.length;
  const places = new Map<readonly number[], number>();
  for (const [name, bytes] of TAGS) {
    const place = places.get(bytes) ?? start + body.length;
    if (!places.has(bytes)) {
      body.push(...bytes);
      while (body.length % 4 !== 0) body.push(0);
    }
    places.set(bytes, place);
    directory.push(...text(name), ...word(place), ...word(bytes.length));
  }
  return Uint8Array.from([...header(start + body.length), ...directory, ...body]);
}

let built: Uint8Array | undefined;

/** The profile's bytes. Three components, display class, perceptual intent. */
export function srgbProfile(): Uint8Array {
  built ??= build();
  return built;
}
