/**
 * How long each packed function takes for its first call, its process and imports included, and for the
 * next: two versions of the hat in two languages, through a runtime API on loopback. Sizes are those of the
 * folders that are zipped. Run with `npm run bench:packed`; this machine is not Lambda, the ratio is what counts.
 */
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { present } from '../../src/base/assert.ts';
import { s3Store } from '../../src/store/s3.ts';
import { objectCreated } from '../functions/events.ts';
import { startPacked, zipOfStarter } from '../functions/lambda/packed.ts';
import { clientOf } from '../store/client.ts';

const seconds = new Map<string, number[]>();
const { folder, front, machines, hosts, close } = await startPacked((step, took) => {
  seconds.set(step, [...(seconds.get(step) ?? []), took]);
});
const uploads = s3Store(clientOf(front), { bucket: 'uploads', prefix: '' });
for (const version of ['1.0.0', '1.0.1']) {
  const key = `northfold/hat-${version}.zip`;
  const zip = await zipOfStarter('templates/starters/breakwater-hat', version);
  await uploads.put(key, zip);
  const event = objectCreated(key, 'null', zip.length);
  const { run } = (await present(hosts.get('starter'), 'starter').invoke(event)) as {
    run: string;
  };
  const end = await machines.runs.get(run);
  if (end?.status !== 'succeeded' || end.state !== 'Released') throw new Error(JSON.stringify(end));
}
console.log('| function | first call | next calls | unpacked |\n| --- | ---: | ---: | ---: |');
for (const [step, [first = 0, ...next]] of seconds) {
  const usual = next.sort((a, b) => a - b)[Math.floor(next.length / 2)] ?? 0;
  const size =
    Number(
      execFileSync('du', ['-sk', path.join(folder, step)])
        .toString()
        .split('\t')[0],
    ) / 1024;
  console.log(
    `| ${step} | ${first.toFixed(2)} s | ${usual.toFixed(2)} s | ${size.toFixed(0)} MB |`,
  );
}
await close();
