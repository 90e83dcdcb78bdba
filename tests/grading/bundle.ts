/** A small bundle for tests of numbers: one flat piece in three sizes at 20 sts and 28 rows over 4 in. */
import { type BundleData, bundleSchema } from '../../src/pattern/bundle/schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';

export const PLAIN = {
  format: 'castoff/1',
  id: 'gale-warning-scarf',
  version: '1.0.0',
  issued: '2026-01-05',
  language: 'en-US',
  languages: ['en-US'],
  studio: { name: 'Northfold', designer: 'Ada Marram', copyright: '© 2026 Northfold' },
  wearer: { age: 'adult' },
  level: 'easy',
  sizes: ['S', 'M', 'L'],
  body: [{ part: 'bust', size: { in: '34 (38, 42)', cm: '86.5 (96.5, 106.5)' } }],
  gauges: [
    {
      id: 'body',
      stitches: 20,
      rows: 28,
      over: '4 in',
      pattern: 'stockinette',
      needle: 'straight',
    },
  ],
  yarns: [
    {
      id: 'main',
      name: 'Northfold Longshore Worsted',
      weight: 4,
      fibres: [{ fibre: 'wool', percent: 100 }],
      ball: { grams: 100, metres: 200, yards: 219 },
      colours: [{ id: 'haar', name: 'Haar', swatch: '#b9c3c8' }],
    },
  ],
  needles: [{ id: 'straight', mm: 4.5, kind: 'straight' }],
  pieces: [
    {
      id: 'back',
      title: 'back',
      form: 'flat',
      gauge: 'body',
      sections: [
        {
          id: 'body',
          lines: [
            { id: 'cast-on', text: 'Cast on 97 (107, 117) sts.' },
            { id: 'end', text: 'Work in stockinette for 28 rows.' },
            'Bind off all sts.',
          ],
        },
      ],
    },
  ],
  measurements: [
    {
      id: 'bust',
      name: 'bust',
      letter: 'A',
      size: { in: '38 (42, 46)', cm: '96.5 (106.5, 117)' },
      from: { given: true },
    },
  ],
  photos: [{ file: 'cover.jpg', role: 'cover', alt: 'photo.cover' }],
} as const;

type Changes = { readonly [Key in keyof BundleData]?: unknown };

export const dataWith = (changes: Changes): BundleData =>
  bundleSchema.parse({ ...PLAIN, ...changes });

/** The bundle checked, without photographs. */
export const checked = (data: BundleData): CheckedPattern =>
  checkPattern({ data, prose: new Map(), photos: new Map(), hash: 'test' });

export const codes = (data: BundleData): readonly string[] =>
  checked(data).findings.map(({ code }) => code);
