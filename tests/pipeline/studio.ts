/**
 * A small studio for tests of the engine: a bundle of the right shape with pictures of the right
 * kind, and rooms that make something recognisable in no time. What the rooms make is not under test
 * here; when they are called, in which order and how often, is.
 */
import { crc32, deflateSync } from 'node:zlib';
import { hashBytes, hashValue } from '../../src/base/hash.ts';
import type { Finding } from '../../src/findings/finding.ts';
import type { Bundle, CheckedPattern } from '../../src/pattern/pattern.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';

const encode = (value: unknown): Uint8Array =>
  new TextEncoder().encode(typeof value === 'string' ? value : JSON.stringify(value, null, 2));

/** A PNG of one colour (ISO/IEC 15948): signature, IHDR, IDAT, IEND. */
export function pngOf(widthPixels: number, heightPixels: number, shade = 128): Uint8Array {
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(widthPixels, 0);
  head.writeUInt32BE(heightPixels, 4);
  head.writeUInt8(8, 8);
  const rows = Buffer.alloc(heightPixels * (widthPixels + 1), shade);
  for (let row = 0; row < heightPixels; row += 1) rows.writeUInt8(0, row * (widthPixels + 1));
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** The Skerry hat: as small as a bundle can be. */
export const SKERRY = {
  format: 'castoff/1',
  id: 'skerry-hat',
  version: '1.0.0',
  issued: '2026-02-01',
  language: 'en-US',
  languages: ['en-US', 'de'],
  studio: { name: 'Northfold', designer: 'Ada Voss', copyright: '© 2026 Northfold' },
  wearer: { age: 'adult' },
  level: 'easy',
  sizes: ['S', 'M', 'L'],
  gauges: [
    { id: 'body', stitches: 20, rows: 28, pattern: 'stockinette', form: 'round', needle: 'main' },
  ],
  yarns: [
    {
      id: 'main',
      name: 'Northfold Fleet',
      weight: 4,
      fibres: [{ fibre: 'wool', percent: 100 }],
      ball: { grams: 100, metres: 200, yards: 219 },
      colours: [{ id: 'slate', name: 'Slate', swatch: '#2f4858', grams: '70 (80, 90)' }],
    },
  ],
  needles: [{ id: 'main', mm: 4.5, kind: 'circular' }],
  pieces: [
    {
      id: 'hat',
      title: 'hat',
      form: 'round',
      gauge: 'body',
      sections: [{ id: 'brim', lines: ['CO 80 (88, 96) sts'] }],
    },
  ],
  measurements: [],
  photos: [{ file: 'cover.png', role: 'cover', alt: 'coverAlt' }],
};

export type BundleRecord = typeof SKERRY;

export const PROSE = {
  'en-US': { title: 'Skerry', summary: 'A plain hat for a windy shore.', coverAlt: 'The hat.' },
  de: { title: 'Skerry', summary: 'Eine schlichte Mütze.', coverAlt: 'Die Mütze.' },
};

/** The files of the Skerry hat, with changes. */
export function skerryFiles(
  changes: Readonly<Record<string, unknown>> = {},
  files: Readonly<Record<string, Uint8Array | string | undefined>> = {},
): Map<string, Uint8Array> {
  const all: Record<string, Uint8Array | string | undefined> = {
    'pattern.json': encode({ ...SKERRY, ...changes }),
    'prose/en-US.json': encode(PROSE['en-US']),
    'prose/de.json': encode(PROSE.de),
    'photos/cover.png': pngOf(40, 30),
    ...files,
  };
  const present = Object.entries(all).filter(([, bytes]) => bytes !== undefined);
  return new Map(
    present.map(([name, bytes]) => [
      name,
      typeof bytes === 'string' ? encode(bytes) : (bytes as Uint8Array),
    ]),
  );
}

export interface StudioRooms extends Rooms {
  /** What was worked, in order: `compose de`, `picture print`. */
  readonly worked: string[];
}

/** Rooms that say what they were given; `findings` are what the check finds. */
export function studioRooms(
  more: {
    readonly fingerprint?: string;
    readonly findings?: (bundle: Bundle) => readonly Finding[];
    readonly unreviewed?: readonly string[];
    readonly proofFindings?: readonly Finding[];
  } = {},
): StudioRooms {
  const worked: string[] = [];
  return {
    worked,
    fingerprint: more.fingerprint ?? 'test-1',
    pictureSizes: ['print', 'shop-large', 'shop-square'],
    check: async (bundle) => checkedOf(bundle, more.findings?.(bundle) ?? []),
    checkLanguage: async () => [],
    preparePicture: async (bytes, size) => {
      worked.push(`picture ${size}`);
      const made = encode(`${size} of ${hashBytes(bytes)}`);
      return { bytes: made, mediaType: 'image/jpeg', widthPixels: 40, heightPixels: 30 };
    },
    compose: async (checked, order, resources) => {
      worked.push(`compose ${order.language}`);
      const { data, prose } = checked.pattern.bundle;
      const pictures = [...resources.pictures].map(([file, picture]) => [file, picture.hash]);
      const said = hashValue({ data, prose: prose.get(order.language), order, pictures });
      return { bytes: encode(`%PDF ${order.language} ${said}`), pages: 2 };
    },
    mark: async (_checked, order, bytes, stage) => {
      worked.push(`mark ${stage} ${order.language}`);
      return encode(`${new TextDecoder().decode(bytes)} ${stage}`);
    },
    unreviewed: more.unreviewed ?? [],
    proof: async () => more.proofFindings ?? [],
    companions: ({ checked, languages }) =>
      languages.map((language) => {
        const title = String(checked.pattern.bundle.prose.get(language)?.['title']);
        return {
          path: `${language}/listing.txt`,
          mediaType: 'text/plain',
          role: 'listing',
          language,
          inputs: { title, language },
          make: async () => encode(`${title} (${language})\n`),
        };
      }),
    parcels: () => [],
    sayHistory: () => undefined,
  };
}

function checkedOf(bundle: Bundle, findings: readonly Finding[]): CheckedPattern {
  const pattern = { bundle, sizes: bundle.data.sizes, pieces: [], charts: new Map() };
  return { pattern, pieces: [], findings };
}
