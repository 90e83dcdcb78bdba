/**
 * Parcels as a shop receives them, opened by other tools: the zip by yauzl, pictures by image-size and
 * exifr, which share nothing with the library that made them.
 */
import exifr from 'exifr';
import { imageSize } from 'image-size';
import { beforeAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { readZip } from '../../src/pattern/bundle/zip.ts';
import { preparePicture } from '../../src/press/pictures/index.ts';
import { readPdf } from '../../src/press/proof/read-pdf.ts';
import { packParcel, type ParcelPicture } from '../../src/release/shop/parcel.ts';
import { readProfiles, type ShopProfile, shopUses } from '../../src/release/shop/profile.ts';
import { bundleOf, equipment, starter } from './starters.ts';

const NAME = 'little-squall-cardigan';
const { profiles, languages, templates, fonts } = await equipment();
const store = new Map<string, Uint8Array>();
const pictures: ParcelPicture[] = [];

/** Parts of a WebP file by their four letters (RFC 9649, 2.3 to 2.7). */
function webpChunks(bytes: Uint8Array): ReadonlyMap<string, Uint8Array> {
  const file = Buffer.from(bytes);
  expect([file.toString('latin1', 0, 4), file.toString('latin1', 8, 12)]).toEqual(['RIFF', 'WEBP']);
  const chunks = new Map<string, Uint8Array>();
  for (let at = 12; at + 8 <= file.length;) {
    const size = file.readUInt32LE(at + 4);
    chunks.set(file.toString('latin1', at, at + 4), file.subarray(at + 8, at + 8 + size));
    at += 8 + size + (size % 2);
  }
  return chunks;
}

/** One photograph is enough: how pictures look is tested elsewhere. */
beforeAll(async () => {
  const { photos } = await bundleOf(NAME);
  const [file, bytes] = [...photos][0] ?? [];
  if (file === undefined || bytes === undefined) throw new Error('no photograph');
  for (const use of shopUses(profiles)) {
    const { picture } = await preparePicture(bytes, use, { file, pointer: '' });
    if (!picture) throw new Error(`no picture ${use.name}`);
    store.set(picture.hash, picture.bytes);
    const { hash, mediaType, widthPixels, heightPixels } = picture;
    const sizeBytes = picture.bytes.length;
    pictures.push({ file, size: use.name, artifact: hash, mediaType, sizeBytes, widthPixels, heightPixels }); // prettier-ignore
  }
  store.set('document', new TextEncoder().encode('%PDF-1.7'));
});

async function pack(profile: ShopProfile) {
  const checked = await starter(NAME);
  return packParcel(
    {
      profile,
      checked,
      languages: ['en-US', 'ja'].map((tag) => languages.get(tag)!),
      offered: ['English', '日本語'],
      source: languages.get('en-US')!,
      documents: ['en-US', 'ja'].map((language) => ({
        path: `${language}/little-squall-1.0.0-${language}.pdf`,
        artifact: 'document',
        mediaType: 'application/pdf',
        sizeBytes: 8,
        language,
      })),
      pictures,
      fetch: async (artifact) => store.get(artifact)!,
    },
    templates,
    fonts,
  );
}

describe.each(profiles.map((profile) => [profile.name, profile] as const))('%s', (_, profile) => {
  it('holds texts within its limits, documents and pictures, the same bytes every time', async () => {
    const { zip, list } = await pack(profile);
    expect(hashBytes((await pack(profile)).zip)).toBe(hashBytes(zip));
    const files = await readZip(zip, 'parcel.zip');
    const read = (name: string) => new TextDecoder().decode(files.get(name)).trim();
    for (const language of ['en-us', 'ja']) {
      expect(Array.from(read(`${language}/title.txt`)).length).toBeLessThanOrEqual(profile.texts.title); // prettier-ignore
      expect(Array.from(read(`${language}/short.txt`)).length).toBeLessThanOrEqual(profile.texts.short); // prettier-ignore
      expect(files.has(`${language}/little-squall-1-0-0-${language}.pdf`)).toBe(profile.documents);
      expect(files.has(`${language}/product.jsonld`)).toBe(profile.formats.includes('json-ld'));
    }
    for (const name of files.keys()) expect(name).toMatch(/^[a-z0-9-]+(\/[a-z0-9-]+)?\.[a-z]+$/);
    const { pages } = await readPdf(list);
    const text = pages.flatMap((page) => page.pieces.map((piece) => piece.text)).join('');
    for (const name of files.keys())
      if (!name.startsWith('upload-list')) expect(text.replaceAll(/[\s-]/g, '')).toContain(name.replaceAll('-', '')); // prettier-ignore
    expect(text).toContain('Caution');
  });

  it('shows pictures of the sizes it asks for, upright sRGB, with nothing of the camera', async () => {
    const files = await readZip((await pack(profile)).zip, 'parcel.zip');
    for (const { name, pixels, shape, mostBytes = Infinity } of profile.pictures) {
      const [place, bytes] = [...files].find(([file]) => file.includes(name))!;
      expect(bytes.length).toBeLessThanOrEqual(mostBytes);
      const { width, height } = imageSize(bytes);
      expect(Math.max(width, height)).toBeLessThanOrEqual(pixels);
      if (shape === 'square') expect(width).toBe(height);
      // The second tool reads no WebP: its container is plain enough to be read here.
      if (place.endsWith('.webp')) {
        const chunks = webpChunks(bytes);
        expect([...chunks.keys()].sort()).toEqual(['ICCP', 'VP8 ', 'VP8X']);
        const profile = Buffer.from(chunks.get('ICCP')!);
        expect(profile.toString('latin1', 16, 20)).toBe('RGB ');
        expect(profile.toString('utf16le').concat(profile.swap16().toString('utf16le'))).toMatch(/sRGB/i); // prettier-ignore
        continue;
      }
      const told = (await exifr.parse(Buffer.from(bytes), { icc: true, xmp: true, gps: true, tiff: true })) as Record<string, unknown>; // prettier-ignore
      expect(told['ColorSpaceData']).toBe('RGB');
      expect(String(told['ProfileDescription'])).toMatch(/sRGB/i);
      for (const secret of ['latitude', 'Artist', 'Make', 'Model', 'Orientation'])
        expect(told[secret]).toBeUndefined();
    }
  });
});

describe('a profile', () => {
  it('that cannot be read is told by its file and its key', () => {
    const wrong = new Map([['odd.json', { ...profiles[0], formats: ['fax'] }]]);
    expect(() => readProfiles(wrong)).toThrow(/odd\.json: formats/);
  });

  it('may not give another size under a known name', () => {
    const [first] = profiles;
    const other = { ...first!, name: 'other', pictures: [{ ...first!.pictures[0]!, pixels: 99 }] };
    expect(() => shopUses([first!, other])).toThrow(/another one in other/);
  });
});
