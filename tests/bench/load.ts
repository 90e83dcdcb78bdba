/**
 * Bundles a minute through the local runner over an S3 server, and whether memory stays flat: so many
 * studios one after the other publish the hat into a room of their own, nothing reused. Takes the real
 * server of the conformance tests where it is installed, else the front of the tests. The publisher is a
 * process of its own, so that its memory is nobody else's. Run with `npm run bench:load -- 500`.
 */
import { fork } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { zipSync } from 'fflate';
import sharp from 'sharp';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { s3Store } from '../../src/store/s3.ts';
import { serverName, startRealServer } from '../conformance/s3/server.ts';
import { clientOf } from '../store/client.ts';
import { startS3Front } from '../store/s3-front/server.ts';

const STARTER = path.resolve('templates/starters/breakwater-hat');
const LANGUAGES = ['en-US'];
const REPORT_EVERY = 25;
/** One photograph, as small as a page allows: the load is on the pipeline, not on the picture library. */
const PHOTO_PIXELS = 1200;

interface Order {
  readonly endpoint: string;
  readonly keys: { readonly accessKeyId: string; readonly secretAccessKey: string };
  readonly runs: number;
}

interface Photographed {
  readonly photos: readonly { readonly file: string }[];
}

interface Told {
  readonly run: number;
  readonly heapMegabytes: number;
  readonly residentMegabytes: number;
}

async function smallBundle(): Promise<Uint8Array> {
  const files = new Map(await unpackBundle(STARTER));
  const pattern = JSON.parse(new TextDecoder().decode(files.get('pattern.json'))) as Photographed;
  const [photo] = pattern.photos;
  if (photo === undefined) throw new Error('the starter has no photograph');
  for (const name of files.keys()) {
    if (/^(photos|prose)\//.test(name) && name !== 'prose/en-US.json') files.delete(name);
  }
  const image = sharp(path.join(STARTER, 'photos', photo.file)).resize(PHOTO_PIXELS);
  files.set(`photos/${photo.file}`, new Uint8Array(await image.jpeg().toBuffer()));
  const small = JSON.stringify({ ...pattern, photos: [photo], languages: LANGUAGES });
  files.set('pattern.json', new TextEncoder().encode(small));
  return zipSync(Object.fromEntries(files), { level: 1 });
}

async function publishMany({ endpoint, keys, runs }: Order): Promise<void> {
  const client = clientOf({ endpoint, keys });
  const [rooms, bundle] = [await openOwnRooms(), await smallBundle()];
  for (let run = 1; run <= runs; run += 1) {
    const releases = s3Store(client, { bucket: 'load', prefix: `studio-${run}` });
    const published = await publish(
      { bundle, releases, languages: LANGUAGES },
      { rooms, token: `load-${run}` },
    );
    if (published.outcome !== 'released') {
      throw new Error(`run ${run}: ${published.outcome} ${JSON.stringify(published.findings)}`);
    }
    if (run % REPORT_EVERY > 0 && run < runs) continue;
    globalThis.gc?.();
    const { heapUsed, rss } = process.memoryUsage();
    process.send?.({ run, heapMegabytes: heapUsed / 2 ** 20, residentMegabytes: rss / 2 ** 20 });
  }
  client.destroy();
  process.disconnect();
}

async function openServer() {
  if (serverName !== undefined) {
    const server = await startRealServer();
    await server.createBucket('load');
    return { ...server, endpoint: server.endpoint ?? '' };
  }
  const front = await startS3Front();
  front.createBucket('load');
  return { ...front, name: 'the front of the tests' };
}

async function watchMany(runs: number): Promise<void> {
  const server = await openServer();
  console.log(`${runs} studios, one after the other; store: ${server.name}`);
  const own = fileURLToPath(import.meta.url);
  const child = fork(own, ['child'], { execArgv: ['--import', 'tsx', '--expose-gc'] });
  const begun = performance.now();
  const order: Order = { endpoint: server.endpoint, keys: server.keys, runs };
  child.send(order);
  const told: Told[] = [];
  child.on('message', (message) => {
    const each = message as Told;
    told.push(each);
    const minutes = (performance.now() - begun) / 60_000;
    console.log(
      `${String(each.run).padStart(4)} releases  ${(each.run / minutes).toFixed(0).padStart(4)} a minute  heap ${each.heapMegabytes.toFixed(0)} MB  resident ${each.residentMegabytes.toFixed(0)} MB`,
    );
  });
  const code = await new Promise<number | null>((resolve) => child.once('exit', resolve));
  await server.close();
  if (code !== 0) throw new Error(`the publisher ended with ${code}`);
  const [first, last] = [told[Math.floor(told.length / 2)], told.at(-1)];
  if (first && last) {
    const grown = ((last.heapMegabytes / first.heapMegabytes - 1) * 100).toFixed(1);
    console.log(`heap after the last run against half way: ${grown} %`);
  }
}

if (process.argv[2] === 'child') {
  process.once('message', (order) => void publishMany(order as Order));
} else {
  await watchMany(Number(process.argv[2] ?? 500));
}
