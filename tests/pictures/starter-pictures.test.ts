/**
 * The rendered pictures of the starters, as a buyer meets them: light enough to send, free of
 * metadata, fine enough for a whole page, and the fabric in them laid from the chart.
 */
import { readdirSync, readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { preparePicture } from '../../src/press/pictures/index.ts';
import { readStarter } from '../../templates/starters/render/chart-source.ts';
import { knitStrands } from '../../templates/starters/render/fabric.ts';
import { CHART_START, hatFabric } from '../../templates/starters/render/hat-fabric.ts';
import { colourOf } from '../../templates/starters/render/yarn.ts';

const FOLDER = 'templates/starters';
const pictures = ['breakwater-hat', 'sea-fret-pullover'].flatMap((starter) =>
  readdirSync(`${FOLDER}/${starter}/photos`).map((file) => `${FOLDER}/${starter}/photos/${file}`),
);

describe('rendered pictures', () => {
  test('there are three of the hat and three of the pullover', () => {
    expect(pictures).toHaveLength(6);
  });

  test.each(pictures)('%s', async (path) => {
    const bytes = readFileSync(path);
    expect(bytes.length).toBeLessThanOrEqual(500_000);
    const { exif, xmp, iptc, format } = await sharp(bytes).metadata();
    expect([format, exif, xmp, iptc]).toEqual(['jpeg', undefined, undefined, undefined]);
    const use = { kind: 'print', widthPoints: 360 } as const;
    const { findings } = await preparePicture(bytes, use, { file: path, pointer: '' });
    expect(findings).toEqual([]);
  });
});

describe('the rendered fabric', () => {
  const chart = readStarter('breakwater-hat');

  test('crosses a rope in the round in which the chart crosses it', () => {
    const round = chart.rows.findIndex((row) => row.some((stitch) => stitch.endsWith('RC')));
    const rope = hatFabric(chart, 0, 8).wales.filter((wale) => wale.firstRow > 0 && wale.kind(CHART_START) === 'knit'); // prettier-ignore
    const middleOf = (row: number, wales: typeof rope) =>
      wales.reduce((sum, wale) => sum + wale.place(row).x, 0) / wales.length;
    const [before, after] = [CHART_START + round + 6 - 1, CHART_START + round + 6 + 3];
    const left = rope.filter((wale) => wale.place(before).x < middleOf(before, rope));
    expect(left).toHaveLength(3);
    // A right cross: the stitches from the left pass in front, to the right.
    expect(middleOf(after, left)).toBeGreaterThan(middleOf(after, rope));
    const depth = (wales: typeof rope) => wales.reduce((sum, wale) => sum + wale.place((before + after) / 2).z, 0) / wales.length; // prettier-ignore
    expect(depth(left)).toBeGreaterThan(depth(rope));
  });

  test('is laid the same way twice', () => {
    const yarn = { colour: colourOf(chart.swatch), radiusPixels: 4, plies: 4, relief: 0.8, heather: 0.1 }; // prettier-ignore
    const lay = () =>
      knitStrands(hatFabric(chart, 0, 16), {
        drape: (x, row, z) => [x * 16, -row * 15, z * 16],
        yarnAt: () => yarn,
        seed: 4,
        unevenness: 1,
      });
    expect(lay()).toEqual(lay());
  });
});
