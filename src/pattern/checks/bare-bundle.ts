/**
 * A bundle that holds nothing but sizes, for rows that come without one. Everything else is as empty as
 * the format allows; no number in it stands for anything a knitter reads.
 */
import type { Bundle } from '../pattern.ts';

const NAME = 'text';
const DAY = '2000-01-01';

export const bareBundle = (sizes: readonly string[]): Bundle => ({
  data: {
    format: 'castoff/1',
    id: NAME,
    version: '0.0.0',
    issued: DAY,
    language: 'en-US',
    languages: ['en-US'],
    studio: { name: NAME, designer: NAME, copyright: '' },
    wearer: { age: 'adult', features: [] },
    level: 'basic',
    sizes: [...sizes],
    body: [],
    gauges: [],
    yarns: [],
    needles: [],
    notions: [],
    stitches: [],
    stitchPatterns: [],
    charts: [],
    pieces: [],
    joins: [],
    measurements: [],
    schematic: [],
    photos: [],
    history: [],
    accepted: [],
  },
  prose: new Map(),
  photos: new Map(),
  hash: '',
});
