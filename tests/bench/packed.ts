/**
 * How long each packed function takes for its first call, its process and imports included, and for the
 * next: two versions of the hat in two languages, through a runtime API on loopback. Sizes are those of the
 * folders that are zipped. Run with `npm run bench:packed`; this machine is not Lambda, the ratio is what counts.
 */
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { present } from '../../src/base/assert.ts';
import { s3Store } from '../../src/store/s3.ts';
import { openBrowserBefore } from '../functions/browser.ts';
import { objectCreated } from '../functions/events.ts';
import { startPacked, zipOfStarter } from '../functions/lambda/packed.ts';
import { clientOf } from '../store/client.ts';

type Sent = Awaited<ReturnType<Parameters<typeof openBrowserBefore>[0]>>;

const seconds = new Map<string, number[]>();
const { folder, front, machines, hosts, issuer, close } = await startPacked((step, took) => {
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
await showPages();
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

/** A designer at the pages: as cold as they get with a pattern and a document, and again. */
async function showPages(): Promise<void> {
  const serve = present(hosts.get('pages'), 'pages');
  const browser = openBrowserBefore(async (event) => (await serve.invoke(event)) as Sent);
  browser.jar.set('__Host-desk', await issuer.sign({ sub: 'someone', studio: 'ada' }));
  const timed = async (what: string, ask: () => Promise<unknown>) => {
    const begun = performance.now();
    await ask();
    const took = (performance.now() - begun) / 1000;
    seconds.set('pages', [...(seconds.get('pages') ?? []), took]);
    console.log(`pages, ${what}: ${took.toFixed(2)} s`);
  };
  const hat = '/patterns/breakwater-hat';
  await timed('an empty shelf', () => browser.get('/'));
  await browser.post('/begin', { starter: 'breakwater-hat' });
  await timed('findings, never looked at', () => browser.get(hat));
  await timed('findings, again', () => browser.get(hat));
  await timed('a document, never set', () => browser.get(`${hat}/sheet.pdf?language=de`));
  await timed('a document, again', () => browser.get(`${hat}/sheet.pdf?language=fr`));
}
