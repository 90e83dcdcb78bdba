/** Drawings as SVG: accessible, escaped, the same for the same input, and readable by another program. */
import sharp from 'sharp';
import { expect, test } from 'vitest';
import type { Drawing } from '../../src/press/drawing/drawing.ts';
import { drawChart, toSvg } from '../../src/press/drawing/index.ts';
import { roundedNumber } from '../../src/press/drawing/svg.ts';
import { buildChart, STITCHES } from './chart-builder.ts';

const drawing: Drawing = {
  widthPoints: 40,
  heightPoints: 20,
  symbols: { dot: [{ kind: 'path', steps: [['M', 0, 0], ['L', 5, 5], ['Z']], fill: '#000000' }] },
  shapes: [
    { kind: 'use', symbol: 'dot', x: 1 / 3, y: 2 },
    {
      kind: 'text',
      x: 1,
      y: 9,
      text: 'a < b & "c"',
      sizePoints: 8,
      anchor: 'start',
      weight: 'bold',
    },
  ],
};

test('has a title, a description and the role of an image (W3C SVG Accessibility API Mappings)', () => {
  const svg = toSvg(drawing, { title: 'Chart <A>', description: 'Rope & purl', language: 'en' });
  expect(svg).toContain('role="img"');
  expect(svg).toContain('aria-labelledby="drawing-title drawing-description"');
  expect(svg).toContain('<title id="drawing-title">Chart &lt;A&gt;</title>');
  expect(svg).toContain('<desc id="drawing-description">Rope &amp; purl</desc>');
  expect(svg).toContain('a &lt; b &amp; &quot;c&quot;');
});

test('gives the same text twice, and ids that do not meet those of another drawing', () => {
  const text = { title: 'A', description: 'B' };
  expect(toSvg(drawing, text)).toBe(toSvg(structuredClone(drawing), text));
  expect(toSvg(drawing, { ...text, idPrefix: 'second' })).not.toContain('drawing-s1');
});

test.each([
  [1 / 3, '0.33'],
  [-0.001, '0'],
  [12.5, '12.5'],
  [1e-9, '0'],
])('the number %d is written %s', (value, text) => {
  expect(roundedNumber(value)).toBe(text);
});

test('librsvg reads it and paints as large as it says', async () => {
  const chart = buildChart('flat', { '-': { stitch: 'p' } }, ['---', '---']);
  const [first] = drawChart(chart, STITCHES);
  if (!first) throw new Error('nothing drawn');
  const svg = toSvg(first, { title: 'Chart', description: 'Purl' });
  const { width, height } = await sharp(Buffer.from(svg), { density: 72 }).metadata();
  expect(width).toBe(Math.round(first.widthPoints));
  expect(height).toBe(Math.round(first.heightPoints));
});
