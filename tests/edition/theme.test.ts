/**
 * The designer's look in a finished document: typefaces, two colours and a logo of outlines, and what
 * each edition makes of them. Contrast is that of WCAG 2.1, success criterion 1.4.3.
 */
import { beforeAll, expect, it } from 'vitest';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { hashBytes } from '../../src/base/hash.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import type { ThemeData } from '../../src/pattern/bundle/theme.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';
import { lookOf, typefacesOf } from '../../src/press/theme.ts';
import { pngOf, skerryFiles } from '../pipeline/studio.ts';

const HILLS: ThemeData = {
  text: 'noto-serif',
  headings: 'source-sans-3',
  ink: '#2a1f2d',
  accent: '#8a2b3a',
  logo: {
    width: 100,
    height: 40,
    paths: [
      { d: 'M0 40 L25 0 L50 40 Z', colour: 'accent' },
      { d: 'M50 40 L75 10 L100 40 Z', colour: 'ink' },
    ],
  },
};

const files = (theme: unknown) => skerryFiles({ theme }, { 'photos/cover.png': pngOf(1600, 1200) });

let rooms: Rooms;
beforeAll(async () => {
  rooms = await openOwnRooms();
});

it('takes the typefaces, and those of the house where none are named', () => {
  expect(typefacesOf(HILLS)).toEqual({ text: 'noto-serif', display: 'source-sans-3' });
  expect(typefacesOf({ text: 'noto-sans' }).display).toBe(typefacesOf(undefined).display);
});

it('draws the logo in the two colours, no larger than its room', () => {
  const { logo, colours } = lookOf(HILLS);
  expect(colours).toEqual({ ink: '#2a1f2d', accent: '#8a2b3a' });
  expect(logo).toMatchObject({ widthPoints: 86, heightPoints: 34.4 });
  expect(logo?.shapes.map((shape) => 'fill' in shape && shape.fill)).toEqual(['#8a2b3a', '#2a1f2d']); // prettier-ignore
});

it('draws the logo in one colour where ink is saved', () => {
  const { logo } = lookOf(HILLS, 'ink-saving');
  expect(logo?.shapes.map((shape) => 'fill' in shape && shape.fill)).toEqual(['#2a1f2d', '#2a1f2d']); // prettier-ignore
});

it.each(['standard', 'large', 'ink-saving'] as const)(
  'is proved in the edition %s',
  async (kind) => {
    const { bundle } = loadBundle(files(HILLS));
    const checked = await rooms.check(bundle!);
    const picture = await rooms.preparePicture(pngOf(1600, 1200), 'print');
    const pictures = new Map([['cover.png', { ...picture, hash: hashBytes(picture.bytes) }]]);
    const order = { language: 'de', edition: { kind } } as const;
    const themed = await rooms.compose(checked, order, { pictures });
    expect(await rooms.proof(checked, order, themed.bytes, { pictures })).toEqual([]);
    const plain = await rooms.compose(await rooms.check(loadBundle(files(undefined)).bundle!), order, { pictures }); // prettier-ignore
    expect(hashBytes(themed.bytes)).not.toBe(hashBytes(plain.bytes));
  },
);

it.each([
  ['a colour too pale to read', { accent: '#cccccc' }],
  ['a typeface that is not on the list', { text: 'handwriting' }],
  ['a logo with arcs', { logo: { width: 9, height: 9, paths: [{ d: 'M0 0 A5 5 0 0 1 9 9 Z' }] } }],
])('refuses %s', (_what, theme) => {
  const { bundle, findings } = loadBundle(files(theme));
  expect(bundle).toBeUndefined();
  expect(findings.map(({ where }) => where.pointer.split('/')[1])).toEqual(['theme']);
});
