/**
 * Renders the pictures of the starters and writes them beside their bundles. Nothing is photographed:
 * the fabric is laid stitch by stitch from the chart, lit and developed here. The same bytes come out
 * every time. Run it after a change of a chart, of a yarn's colour or of this folder:
 *
 *     npx tsx templates/starters/render/render.ts              all pictures, about fifteen minutes
 *     npx tsx templates/starters/render/render.ts hat/detail   one of them
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { babyFlat, babyNear } from './baby.ts';
import { cardiganClose, cardiganNear } from './cardigan.ts';
import { readStarter, starterFolder, type ChartRows } from './chart-source.ts';
import { hatClose, hatFlat, hatStanding } from './hat.ts';
import { mittensClose, mittensPair } from './mittens.ts';
import { develop, renderScene, type Scene } from './picture.ts';
import { pulloverClose, pulloverFlat, pulloverNear } from './pullover.ts';
import { raglanFlat, raglanNear } from './raglan.ts';
import { shawlClose, shawlSpread } from './shawl.ts';
import { socksClose, socksPair } from './socks.ts';
import { yokeClose, yokeFromAbove } from './yoke.ts';

interface Order {
  readonly name: string;
  readonly starter: string;
  readonly file: string;
  readonly scene: () => Scene;
}

/** A scene that is composed from the first chart of a starter. */
const charted =
  (starter: string, scene: (chart: ChartRows) => Scene) => (): Scene => scene(readStarter(starter));

const ORDERS: readonly Order[] = [
  { name: 'hat/cover', starter: 'breakwater-hat', file: 'cover.jpg', scene: charted('breakwater-hat', hatStanding) },
  { name: 'hat/detail', starter: 'breakwater-hat', file: 'detail.jpg', scene: charted('breakwater-hat', hatClose) },
  { name: 'hat/flat', starter: 'breakwater-hat', file: 'flat.jpg', scene: charted('breakwater-hat', hatFlat) },
  { name: 'pullover/cover', starter: 'sea-fret-pullover', file: 'cover.jpg', scene: charted('sea-fret-pullover', pulloverNear) },
  { name: 'pullover/detail', starter: 'sea-fret-pullover', file: 'detail.jpg', scene: charted('sea-fret-pullover', pulloverClose) },
  { name: 'pullover/flat', starter: 'sea-fret-pullover', file: 'flat.jpg', scene: charted('sea-fret-pullover', pulloverFlat) },
  { name: 'raglan/cover', starter: 'spindrift-raglan', file: 'cover.jpg', scene: raglanNear },
  { name: 'raglan/flat', starter: 'spindrift-raglan', file: 'flat.jpg', scene: raglanFlat },
  { name: 'socks/cover', starter: 'tideline-socks', file: 'cover.jpg', scene: socksPair },
  { name: 'socks/detail', starter: 'tideline-socks', file: 'detail.jpg', scene: socksClose },
  { name: 'mittens/cover', starter: 'cold-front-mittens', file: 'cover.jpg', scene: mittensPair },
  { name: 'mittens/detail', starter: 'cold-front-mittens', file: 'detail.jpg', scene: mittensClose },
  { name: 'shawl/cover', starter: 'undertow-shawl', file: 'cover.jpg', scene: shawlSpread },
  { name: 'shawl/detail', starter: 'undertow-shawl', file: 'detail.jpg', scene: shawlClose },
  { name: 'baby/cover', starter: 'little-squall-cardigan', file: 'cover.jpg', scene: babyNear },
  { name: 'baby/flat', starter: 'little-squall-cardigan', file: 'flat.jpg', scene: babyFlat },
  { name: 'yoke/cover', starter: 'mackerel-sky-yoke', file: 'cover.jpg', scene: yokeFromAbove },
  { name: 'yoke/detail', starter: 'mackerel-sky-yoke', file: 'detail.jpg', scene: yokeClose },
  { name: 'cardigan/cover', starter: 'harbor-light-cardigan', file: 'cover.jpg', scene: cardiganNear },
  { name: 'cardigan/detail', starter: 'harbor-light-cardigan', file: 'detail.jpg', scene: cardiganClose },
]; // prettier-ignore

/** A bundle is sent by mail and unpacked by tools with limits: no picture may weigh more. */
const MOST_BYTES = 500_000;
const QUALITIES = [84, 80, 76] as const;
/** A picture full of small stitches is made a little smaller before it is made coarser. */
const SCALES = [1, 0.92, 0.84, 0.76] as const;

/** JPEG without metadata, as large and as good as fits. */
async function encode(scene: Scene, bytes: Uint8Array): Promise<Buffer> {
  const raw = { width: scene.widthPixels, height: scene.heightPixels, channels: 3 } as const;
  for (const scale of SCALES)
    for (const quality of QUALITIES) {
      const width = Math.round(scene.widthPixels * scale);
      const picture = sharp(bytes, { raw }).resize({ width });
      const jpeg = await picture.jpeg({ quality, mozjpeg: true }).toBuffer();
      if (jpeg.length <= MOST_BYTES) return jpeg;
    }
  throw new Error('the picture does not fit its limit');
}

async function main(wanted: readonly string[]): Promise<void> {
  for (const { name, starter, file, scene: compose } of ORDERS) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    const scene = compose();
    const jpeg = await encode(scene, develop(renderScene(scene), scene.exposure, 2));
    mkdirSync(`${starterFolder(starter)}photos`, { recursive: true });
    writeFileSync(`${starterFolder(starter)}photos/${file}`, jpeg);
    process.stdout.write(`${name}: ${Math.round(jpeg.length / 1000)} kB\n`);
  }
}

await main(process.argv.slice(2));
