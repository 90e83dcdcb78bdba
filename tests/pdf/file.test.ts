/**
 * The file itself: the same bytes in any process, place and order; the two places of metadata agree;
 * the colour profile is the sRGB of its standard; what cannot be written is refused.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { uriOf } from '../../src/press/pdf/address.ts';
import { standardRgbProfile } from '../../src/press/pdf/colour-profile.ts';
import { frameHeader } from '../../src/press/pdf/jpeg.ts';
import { colourOperator, number, pathOperators } from '../../src/press/pdf/operators.ts';
import { writePdf } from '../../src/press/pdf/write.ts';
import {
  factsFor,
  fonts,
  greyJpeg,
  HandSet,
  pictures,
  sampleBook,
  smallChart,
} from './hand-set.ts';
import { Objects, readWithViewer } from './reading.ts';

const resources = { fonts, pictures: pictures(greyJpeg()) };
const bytesOf = (book: HandSet) => writePdf(book.laid(), factsFor(book.language), resources);
const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

describe('the same input gives the same bytes', () => {
  const script = new URL('./hash-books.ts', import.meta.url).pathname;
  const hashesIn = (languages: readonly string[], environment: NodeJS.ProcessEnv) =>
    JSON.parse(
      execFileSync(process.execPath, ['--import', 'tsx', script, ...languages], {
        env: { PATH: process.env['PATH'], HOME: process.env['HOME'], ...environment },
        encoding: 'utf8',
      }),
    ) as Record<string, string>;

  it('in two processes with another zone, locale and order of documents', () => {
    const languages = ['de', 'ja', 'he'];
    const here = hashesIn(languages, { TZ: 'Pacific/Kiritimati', LANG: 'de_DE.UTF-8' });
    const there = hashesIn(languages.toReversed(), { TZ: 'America/Lima', LANG: 'C', LC_ALL: 'C' });
    expect(there).toEqual(here);
    const now = Object.fromEntries(
      languages.map((each) => [each, hash(bytesOf(sampleBook(each)))]),
    );
    expect(now).toEqual(here);
  });

  it('and another input gives another identifier', async () => {
    const identifier = async (title: string) => {
      const bytes = writePdf(sampleBook('de').laid(), factsFor('de', { title }), resources);
      const { metadata } = await readWithViewer(bytes);
      expect(metadata.info).toMatchObject({ Title: title });
      return (/\/ID \[ <([0-9A-Fa-f]{32})> <\1> \]/.exec(Buffer.from(bytes).toString('latin1')) ?? [])[1];
    }; // prettier-ignore
    const [one, two] = [await identifier('One'), await identifier('Two')];
    expect(one).toMatch(/^[0-9a-f]{32}$/i);
    expect(two).not.toBe(one);
  });
});

describe('the cross-reference', () => {
  it('leads to each object', () => {
    const bytes = Buffer.from(bytesOf(sampleBook('de')));
    const start = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(bytes.toString('latin1'))?.[1]);
    expect(bytes.subarray(start, start + 20).toString('latin1')).toMatch(/^\d+ 0 obj\n<</);
    const streams = [...bytes.toString('latin1').matchAll(/(?:^|\n)(\d+) 0 obj\n/g)];
    expect(new Set(streams.map(([, id]) => id)).size).toBe(streams.length);
  });
});

describe('metadata', () => {
  it('is the same in both places, and claims what is meant', async () => {
    const { metadata } = await readWithViewer(bytesOf(sampleBook('de')));
    const xmp = metadata.metadata;
    const info = metadata.info as Record<string, unknown>;
    expect(xmp.get('dc:title')).toBe(info['Title']);
    expect(xmp.get('dc:creator')).toEqual([info['Author']]);
    expect(xmp.get('pdf:keywords')).toBe(info['Keywords']);
    expect(info['Title']).toBe('Breakwater Hat <3 & more');
    expect([xmp.get('pdfaid:part'), xmp.get('pdfaid:conformance'), xmp.get('pdfuaid:part')]).toEqual([
      '2', 'A', '1',
    ]); // prettier-ignore
    expect(info['CreationDate']).toBe('D:20250314000000Z');
    expect(info['ModDate']).toBe(info['CreationDate']);
    expect(xmp.get('xmp:createdate')).toBe('2025-03-14T00:00:00Z');
    expect(xmp.get('xmp:modifydate')).toBe('2025-03-14T00:00:00Z');
  });

  it('leaves out what is not said', async () => {
    const silent = factsFor('de', { author: '', subject: '', keywords: [] });
    const { metadata } = await readWithViewer(writePdf(sampleBook('de').laid(), silent, resources));
    expect(metadata.info).not.toHaveProperty('Author');
    expect(metadata.metadata.get('dc:creator')).toBeNull();
  });

  it('holds no half characters and no controls', async () => {
    const odd = factsFor('de', { title: 'a\ud800b\nc\u0000d' });
    const { metadata } = await readWithViewer(writePdf(sampleBook('de').laid(), odd, resources));
    expect(metadata.info).toMatchObject({ Title: 'a\ufffdb c d' });
    expect(metadata.metadata.get('dc:title')).toBe('a\ufffdb c d');
  });

  it('refuses a date that is none', () => {
    const facts = factsFor('de', { issued: '14.3.2025' });
    expect(() => writePdf(sampleBook('de').laid(), facts, resources)).toThrow(/not a date/);
  });
});

describe('the colour profile', () => {
  const profile = Buffer.from(standardRgbProfile());
  const tag = (name: string): Buffer => {
    const at = profile.indexOf(name, 132, 'latin1');
    const offset = profile.readUInt32BE(at + 4);
    return profile.subarray(offset, offset + profile.readUInt32BE(at + 8));
  };
  const xyz = (name: string) => [8, 12, 16].map((at) => tag(name).readInt32BE(at) / 65536);

  it('states its own length and kind', () => {
    expect(profile.readUInt32BE(0)).toBe(profile.length);
    expect(profile.toString('latin1', 12, 24)).toBe('mntrRGB XYZ ');
    expect(profile.toString('latin1', 36, 40)).toBe('acsp');
  });

  it('has primaries that add up to its white', () => {
    const sum = [0, 1, 2].map((axis) =>
      ['rXYZ', 'gXYZ', 'bXYZ'].reduce((total, name) => total + (xyz(name)[axis] ?? 0), 0),
    );
    xyz('wtpt').forEach((white, axis) => expect(sum[axis]).toBeCloseTo(white, 3));
  });

  /**
   * IEC 61966-2-1 gives the primaries as chromaticities and white as D65; Bradford's cone responses
   * (ICC.1:2004-10, annex E) carry them to D50.
   */
  it('follows from the chromaticities of the standard', () => {
    type Matrix = readonly (readonly number[])[];
    const times = (matrix: Matrix, v: readonly number[]) =>
      matrix.map((row) => row.reduce((sum, value, at) => sum + value * (v[at] ?? 0), 0));
    const inverse = ([[a = 0, b = 0, c = 0] = [], [d = 0, e = 0, f = 0] = [], [g = 0, h = 0, i = 0] = []]: Matrix) => {
      const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
      return [
        [e * i - f * h, c * h - b * i, b * f - c * e],
        [f * g - d * i, a * i - c * g, c * d - a * f],
        [d * h - e * g, b * g - a * h, a * e - b * d],
      ].map((row) => row.map((value) => value / det));
    }; // prettier-ignore
    const cone = [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]; // prettier-ignore
    const xyOf = ([x = 0, y = 1]: readonly number[]) => [x / y, 1, (1 - x - y) / y];
    const [red, green, blue] = [[0.64, 0.33], [0.3, 0.6], [0.15, 0.06]].map(xyOf) as [number[], number[], number[]]; // prettier-ignore
    const white = xyOf([0.3127, 0.329]);
    const columns = [0, 1, 2].map((axis) => [red[axis] ?? 0, green[axis] ?? 0, blue[axis] ?? 0]);
    const amounts = times(inverse(columns), white);
    const from = times(cone, white);
    const to = times(cone, [0.9642, 1, 0.8249]);
    const adapted = (v: readonly number[]) =>
      times(inverse(cone), times(cone, v).map((value, at) => (value * (to[at] ?? 1)) / (from[at] ?? 1))); // prettier-ignore
    [red, green, blue].forEach((primary, at) => {
      const expected = adapted(primary.map((value) => value * (amounts[at] ?? 0)));
      const stated = xyz(['rXYZ', 'gXYZ', 'bXYZ'][at] ?? '');
      expected.forEach((value, axis) => expect(stated[axis]).toBeCloseTo(value, 3));
    });
  });
});

describe('pictures', () => {
  it('go in as they came', async () => {
    const objects = await Objects.read(bytesOf(sampleBook('de')));
    const image = objects.document.context
      .enumerateIndirectObjects()
      .map(([ref]) => ref)
      .find((ref) => String(objects.document.context.lookup(ref)).includes('/DCTDecode'));
    expect(Buffer.compare(objects.stream(image), Buffer.from(greyJpeg()))).toBe(0);
    expect(String(objects.at(image, 'ColorSpace'))).toBe('/DeviceGray');
  });

  it('that are no JPEG, or another than said, are refused', () => {
    const write = (jpeg: Uint8Array, widthPixels = 8) => {
      const [key = ''] = pictures(jpeg).keys();
      const wrong = new Map([[key, { jpeg, widthPixels, heightPixels: 8 }]]);
      return () => writePdf(sampleBook('de').laid(), factsFor('de'), { fonts, pictures: wrong });
    };
    expect(write(Uint8Array.from([0x89, 0x50, 0x4e, 0x47]))).toThrow(/no JPEG/);
    expect(write(greyJpeg().slice(0, 60))).toThrow(/no JPEG/);
    expect(write(greyJpeg(), 9)).toThrow(/not the RGB or grey JPEG/);
    expect(() => writePdf(sampleBook('de').laid(), factsFor('de'), { fonts, pictures: new Map() })).toThrow(/missing: picture/); // prettier-ignore
  });

  it('tell their size and colours in the header', () => {
    expect(frameHeader(greyJpeg())).toEqual({ widthPixels: 8, heightPixels: 8, components: 1 });
  });
});

describe('drawings', () => {
  it('write each symbol once, however many drawings use it', async () => {
    const book = new HandSet('en');
    book.figure(smallChart(10, 8), 'one');
    book.figure(smallChart(12, 6), 'two');
    const bytes = bytesOf(book);
    const objects = await Objects.read(bytes);
    const symbols = objects.dict(objects.at(objects.page(0), 'Resources', 'XObject')).keys();
    expect(symbols.map(String).sort()).toEqual(['/S1', '/S2']);
    const uses = objects.content(0).match(/\/S[12] Do/g) ?? [];
    expect(uses).toHaveLength((10 * 8 + 12 * 6) / 2);
  });

  it('cost a few bytes for each cell of a large chart', () => {
    const sizeOf = (rows: number) => {
      const book = new HandSet('en');
      book.figure(smallChart(60, rows), 'chart');
      return bytesOf(book).length;
    };
    expect((sizeOf(120) - sizeOf(60)) / (60 * 60)).toBeLessThan(4);
  });

  it('refuse a symbol that contains itself', () => {
    const book = new HandSet('en');
    const use = { kind: 'use', symbol: 'a', x: 0, y: 0 } as const;
    book.figure({ widthPoints: 1, heightPoints: 1, symbols: { a: [use] }, shapes: [use] }, 'loop');
    expect(() => bytesOf(book)).toThrow(/too deep/);
  });
});

describe('what cannot be set', () => {
  it('is refused: a character without a glyph', () => {
    const book = new HandSet('en');
    book.paragraph('a wave 🌊');
    expect(() => bytesOf(book)).toThrow(/no face has a character of “a wave 🌊”/u);
  });

  it('is refused: a document without pages', () => {
    const laid = { ...new HandSet('en').laid(), pages: [] };
    expect(() => writePdf(laid, factsFor('en'), resources)).toThrow(/at least one page/);
  });
});

describe('addresses', () => {
  it.each([
    ['https://northfold.example/a b?ü=1', 'https://northfold.example/a%20b?%C3%BC=1'],
    ['https://northfold.example/%41%zz%', 'https://northfold.example/%41%25zz%25'],
    [' mailto:help@northfold.example ', 'mailto:help@northfold.example'],
    ['https://northfold.example/\ud800"<>', 'https://northfold.example/%EF%BF%BD%22%3C%3E'],
  ])('%j becomes %s', (typed, uri) => expect(uriOf(typed)).toBe(uri));

  it.each(['javascript:alert(1)', 'file:///etc/passwd', 'northfold.example', '', 'https:// x'])(
    '%j is refused',
    (typed) => expect(() => uriOf(typed)).toThrow(/neither a page nor a letter/),
  );
});

describe('operators', () => {
  it.each([
    [0.1 + 0.2, '0.3'],
    [-0.0001, '0'],
    [1e-9, '0'],
    [12.34567, '12.346'],
    [-3, '-3'],
  ])('%d is written %s', (value, text) => expect(number(value)).toBe(text));

  it.each([NaN, Infinity, 1e12])('%d is refused', (value) => {
    expect(() => number(value)).toThrow(/not a coordinate/);
  });

  it.each([
    ['#000000', 'fill', '0 g'],
    ['#808080', 'stroke', '0.502 G'],
    ['#1f5560', 'fill', '0.122 0.333 0.376 rg'],
  ] as const)('%s as %s is %s', (colour, use, text) =>
    expect(colourOperator(colour, use)).toBe(text),
  );

  it('writes upright boxes in one word', () => {
    const box = [['M', 1, 2], ['L', 5, 2], ['L', 5, 8], ['L', 1, 8], ['Z']] as const; // prettier-ignore
    expect(pathOperators(box)).toBe('1 2 4 6 re');
    const slanted = [['M', 1, 2], ['L', 5, 3], ['L', 5, 8], ['L', 1, 8], ['Z']] as const; // prettier-ignore
    expect(pathOperators(slanted)).toBe('1 2 m\n5 3 l\n5 8 l\n1 8 l\nh');
  });
});
