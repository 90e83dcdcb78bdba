/**
 * The one direction of imports. Each room may import the rooms above it in this list and no others;
 * packages that mark a boundary may be imported in one room only.
 */
import { describe, expect, it } from 'vitest';
import { readSources } from './sources.ts';

/** What each room may import besides itself. The longest matching path names the room of a file. */
const ROOMS: Readonly<Record<string, readonly string[]>> = {
  'src/base': [],
  'src/findings': ['src/base'],
  'src/pattern/bundle': ['src/base', 'src/findings', 'src/pattern/pattern.ts'],
  'src/pattern/stitches': [
    'src/base',
    'src/findings',
    'src/pattern/bundle',
    'src/pattern/notation/ast.ts',
  ],
  'src/pattern/notation': [
    'src/base',
    'src/findings',
    'src/pattern/bundle',
    'src/pattern/stitches',
  ],
  'src/pattern': ['src/base', 'src/findings'],
  'src/language': ['src/base', 'src/findings', 'src/pattern'],
  'src/translation': ['src/base', 'src/findings', 'src/pattern', 'src/language'],
  'src/press/fonts': ['src/base'],
  'src/press/drawing': ['src/base', 'src/pattern'],
  'src/press/pictures': ['src/base', 'src/findings'],
  'src/press/document.ts': ['src/press/drawing/drawing.ts'],
  'src/press/layout': [
    'src/base',
    'src/press/document.ts',
    'src/press/fonts',
    'src/press/drawing/drawing.ts',
  ],
  'src/press/pdf': [
    'src/base',
    'src/press/document.ts',
    'src/press/fonts',
    'src/press/layout',
    'src/press/drawing/drawing.ts',
  ],
  'src/press/edition': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/press/document.ts',
    'src/press/drawing',
    'src/press/pictures',
  ],
  'src/press/proof': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/press/document.ts',
    'src/press/layout',
  ],
  'src/press': ['src/base', 'src/findings', 'src/pattern', 'src/language'],
  'src/store': ['src/base'],
  'src/release': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/press',
    'src/store',
  ],
  'src/packet': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/press',
    'src/release',
  ],
  'src/shelf': ['src/base', 'src/findings', 'src/pattern', 'src/store'],
  'src/pipeline': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/translation',
    'src/press',
    'src/release',
    'src/store',
  ],
  'src/desk': [
    'src/base',
    'src/findings',
    'src/pattern',
    'src/language',
    'src/translation',
    'src/press',
    'src/release',
    'src/packet',
    'src/store',
    'src/shelf',
    'src/pipeline',
  ],
  'src/cli': ['src'],
  'src/cli.ts': ['src'],
  functions: ['src'],
  infra: ['src/base', 'src/pipeline', 'src/press/fonts/font-files.ts', 'functions'],
};

/** Packages that mark a boundary, and the only folders that may import them. */
const BOUNDARIES: readonly { readonly package: RegExp; readonly rooms: readonly string[] }[] = [
  { package: /^@aws-sdk\//, rooms: ['src/store', 'functions', 'infra'] },
  { package: /^@aws-lambda-powertools\//, rooms: ['functions'] },
  { package: /^(aws-cdk-lib|constructs|cdk-nag)/, rooms: ['infra'] },
  { package: /^pdf-lib$/, rooms: ['src/press/pdf'] },
  { package: /^(fontkit|harfbuzzjs)$/, rooms: ['src/press/fonts'] },
  { package: /^saxes$/, rooms: ['src/translation'] },
  { package: /^sharp$/, rooms: ['src/press/pictures'] },
  { package: /^i18next$/, rooms: ['src/language'] },
  { package: /^handlebars$/, rooms: ['src/press/edition', 'src/release', 'src/desk'] },
  {
    package: /^zod$/,
    rooms: [
      'src/pattern/bundle',
      'src/language',
      'src/release',
      'src/packet',
      'src/pipeline',
      'src/shelf',
      'src/desk',
      'functions',
    ],
  },
];

const inside = (file: string, folder: string) => file === folder || file.startsWith(`${folder}/`);

function roomOf(file: string): string | undefined {
  return Object.keys(ROOMS)
    .filter((room) => inside(file, room))
    .sort((a, b) => b.length - a.length)[0];
}

const sources = readSources('src', 'functions', 'infra');

describe('imports run one way', () => {
  it('finds a room for every file', () => {
    expect(
      sources.filter(({ file }) => roomOf(file) === undefined).map(({ file }) => file),
    ).toEqual([]);
  });

  it('lets no room import what stands below it', () => {
    const breaches = sources.flatMap(({ file, imports }) => {
      const room = roomOf(file) ?? '';
      const allowed = [room, ...(ROOMS[room] ?? [])];
      return imports
        .filter((target) => /^(src|functions|infra|tests)\//.test(target))
        .filter((target) => !allowed.some((each) => inside(target, each)))
        .map((target) => `${file} imports ${target}`);
    });
    expect(breaches).toEqual([]);
  });

  it('keeps each marked package in its room', () => {
    const breaches = sources.flatMap(({ file, imports }) =>
      imports.flatMap((target) =>
        BOUNDARIES.filter((each) => each.package.test(target))
          .filter((each) => !each.rooms.some((room) => inside(file, room)))
          .map(() => `${file} imports ${target}`),
      ),
    );
    expect(breaches).toEqual([]);
  });

  it('keeps language and checks apart', () => {
    const met = sources.filter(
      ({ file, imports }) =>
        inside(file, 'src/language') &&
        imports.some((target) => inside(target, 'src/pattern/checks')),
    );
    expect(met.map(({ file }) => file)).toEqual([]);
  });
});
