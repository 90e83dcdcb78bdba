/**
 * Makes a photograph ready for print or shop: turned upright (EXIF), in sRGB, without metadata (a
 * camera writes place and owner into it), at the right size, as bytes that are the same for the same
 * input. What is no picture, too large to open, or too coarse to print ends in a finding.
 */
import type { Sharp } from 'sharp';
import { assertNever } from '../../base/assert.ts';
import { hashBytes } from '../../base/hash.ts';
import { PICTURE_LIMITS } from '../../base/limits.ts';
import type { Finding, Place } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { inTurn, loadEngine } from './engine.ts';
import { formatOf, PICTURE_FORMATS } from './format.ts';
import { LEAST_PRINT_DPI, PRINT_DPI, type PictureUse, type ShopUse } from './uses.ts';

export interface PreparedPicture {
  /** SHA-256 of `bytes`. */
  readonly hash: string;
  readonly bytes: Uint8Array;
  readonly mediaType: 'image/jpeg' | 'image/webp' | 'image/avif';
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Dots to the inch at the printed size; only for print. */
  readonly dotsPerInch?: number;
}

/** The picture, unless a finding says why there is none. */
export interface Preparation {
  readonly picture?: PreparedPicture;
  readonly findings: readonly Finding[];
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const MEGA = 1_000_000;
const POINTS_PER_INCH = 72;
const WHITE = '#ffffff';

/** Size upright, from the header alone; nothing is decoded. */
async function readHeader(bytes: Uint8Array): Promise<Size | undefined> {
  const sharp = await loadEngine();
  try {
    const header = await sharp(bytes, { limitInputPixels: false, failOn: 'error' }).metadata();
    return header.autoOrient;
  } catch {
    return undefined;
  }
}

const isTooLarge = ({ width, height }: Size): boolean =>
  width * height > PICTURE_LIMITS.megapixels * MEGA ||
  Math.max(width, height) > PICTURE_LIMITS.edgePixels;

/** The size after preparing; a picture is never made larger than it is. */
function targetSize(source: Size, use: PictureUse): Size {
  const scaled = (share: number): Size => ({
    width: Math.max(1, Math.round(source.width * share)),
    height: Math.max(1, Math.round(source.height * share)),
  });
  if (use.kind === 'shop') {
    const edge = Math.min(use.pixels, Math.min(source.width, source.height));
    if (use.shape === 'square') return { width: edge, height: edge };
    return scaled(Math.min(1, use.pixels / Math.max(source.width, source.height)));
  }
  return scaled(Math.min(1, (printedInches(source, use) * PRINT_DPI) / source.width));
}

/** How wide the picture stands on the page. */
function printedInches(
  source: Size,
  use: { readonly widthPoints: number; readonly heightPoints?: number },
): number {
  const byHeight = ((use.heightPoints ?? Infinity) * source.width) / source.height;
  return Math.min(use.widthPoints, byHeight) / POINTS_PER_INCH;
}

type Format = 'jpeg' | 'webp' | 'avif';

/** Quality chosen by eye on knitted fabric; full colour resolution keeps edges of coloured yarns. */
const QUALITY: Readonly<Record<Format, number>> = { jpeg: 85, webp: 82, avif: 58 };
/** What is tried, as a share of that quality, before a picture is made smaller to fit a limit. */
const COARSER = [1, 0.88, 0.76, 0.64];
const SMALLER = 0.84;
const LEAST_EDGE_PIXELS = 64;

/**
 * How hard each encoder searches. AVIF at 1 takes a third of the time it takes at 3, its files are some
 * 5 % larger and as good to a quarter of a decibel; WebP gains nothing above 3.
 */
const EFFORT = { webp: 3, avif: 1 };

function encode(image: Sharp, format: Format, quality: number): Sharp {
  switch (format) {
    case 'webp':
      return image.webp({ quality, effort: EFFORT.webp });
    case 'avif':
      return image.avif({ quality, effort: EFFORT.avif, chromaSubsampling: '4:4:4' });
    case 'jpeg':
      return image.jpeg({
        quality,
        chromaSubsampling: '4:4:4',
        progressive: false,
        mozjpeg: false,
      });
    default:
      return assertNever(format);
  }
}

async function render(bytes: Uint8Array, size: Size, use: PictureUse): Promise<PreparedPicture> {
  const sharp = await loadEngine();
  const upright = sharp(bytes, {
    limitInputPixels: PICTURE_LIMITS.megapixels * MEGA,
    failOn: 'error',
    sequentialRead: true,
  })
    .autoOrient()
    .resize({ ...size, fit: 'cover', position: 'centre' })
    .flatten({ background: WHITE })
    .toColourspace('srgb');
  const { data, info } =
    use.kind === 'print'
      ? await finish(encode(upright, 'jpeg', QUALITY.jpeg))
      : await fit(upright, use);
  return {
    hash: hashBytes(data),
    bytes: data,
    mediaType: `image/${use.kind === 'print' ? 'jpeg' : use.format}`,
    widthPixels: info.width,
    heightPixels: info.height,
    ...(use.kind === 'print' ? { dotsPerInch: info.width / printedInches(size, use) } : {}),
  };
}

const finish = (image: Sharp) => image.toBuffer({ resolveWithObject: true });

/** As good as the limit of the use allows. Shops are told the colour space by a profile. */
async function fit(upright: Sharp, { format, mostBytes = Infinity }: ShopUse) {
  const sharp = await loadEngine();
  const { data, info } = await finish(upright.raw());
  const { width, height, channels } = info;
  for (let share = 1; ; share *= SMALLER) {
    const edge = { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) }; // prettier-ignore
    const isLast = Math.max(edge.width, edge.height) * SMALLER < LEAST_EDGE_PIXELS;
    for (const coarser of COARSER) {
      const pixels = sharp(data, { raw: { width, height, channels } }).resize(edge);
      const quality = Math.round(QUALITY[format] * coarser);
      const made = await finish(encode(pixels.withIccProfile('srgb'), format, quality));
      if (made.data.length <= mostBytes || (isLast && coarser === COARSER.at(-1))) return made;
    }
  }
}

const unreadable = (place: Place, problem: string): Preparation => ({
  findings: [finding('press/picture-unreadable', place, { problem })],
});

async function prepare(bytes: Uint8Array, use: PictureUse, place: Place): Promise<Preparation> {
  if (formatOf(bytes) === undefined)
    return unreadable(place, `the file is no picture; give it as ${PICTURE_FORMATS}`);
  const source = await readHeader(bytes);
  if (!source) return unreadable(place, 'the picture cannot be opened: its header is damaged');
  if (isTooLarge(source)) {
    const { width, height } = source;
    return { findings: [finding('press/picture-too-large', place, { width, height })] };
  }
  try {
    const picture = await render(bytes, targetSize(source, use), use);
    const dpi = picture.dotsPerInch ?? Infinity;
    if (dpi >= LEAST_PRINT_DPI) return { picture, findings: [] };
    const facts = { dpi: Math.floor(dpi), least: LEAST_PRINT_DPI, width: source.width, needed: Math.ceil((source.width * LEAST_PRINT_DPI) / dpi) }; // prettier-ignore
    return { picture, findings: [finding('press/picture-resolution', place, facts)] };
  } catch {
    return unreadable(place, 'the picture breaks off or is damaged: save it again');
  }
}

/**
 * Prepares one picture for one use. `place` is where the bundle names the picture. Never throws for
 * what the bytes hold; throws only where the image library itself is missing.
 */
export const preparePicture = (
  bytes: Uint8Array,
  use: PictureUse,
  place: Place,
): Promise<Preparation> => inTurn(() => prepare(bytes, use, place));
