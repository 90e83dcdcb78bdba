/**
 * The functions as they are deployed: bundled, with their data, fonts and packages, each in a process
 * of its own, told of a real upload, over loopback: a font or a package left out shows here.
 */
import { existsSync } from 'node:fs';
import { mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { packFunctions } from '../../infra/build.ts';
import { FUNCTIONS } from '../../infra/functions.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { findRelease } from '../../src/release/commit.ts';
import { s3Store } from '../../src/store/s3.ts';
import { witness } from '../release/witness.ts';
import { clientOf } from '../store/client.ts';
import type { S3Front } from '../store/s3-front/server.ts';
import { startS3Front } from '../store/s3-front/server.ts';
import { objectCreated } from './events.ts';
import type { LambdaHost } from './lambda/host.ts';
import { startLambda } from './lambda/host.ts';
import type { LoopbackMachines } from './step-functions.ts';
import { startMachines } from './step-functions.ts';
import type { LoopbackTopic } from './topic.ts';
import { startTopic } from './topic.ts';

const STARTER = 'templates/starters/breakwater-hat';
const isWhole = existsSync(join(STARTER, 'photos', 'cover.jpg'));

/** The starter in two languages: one that hyphenates, one with fonts of its own. */
async function zipOfStarter(): Promise<Uint8Array> {
  const files = new Map(await unpackBundle(STARTER));
  const text = new TextDecoder().decode(files.get('pattern.json'));
  const pattern = { ...(JSON.parse(text) as object), languages: ['en-US', 'ja'] };
  files.set('pattern.json', new TextEncoder().encode(JSON.stringify(pattern)));
  return zipSync(Object.fromEntries(files), { level: 1 });
}

describe.skipIf(!isWhole)('the packed functions', () => {
  let folder: string;
  let front: S3Front;
  let machines: LoopbackMachines;
  let topic: LoopbackTopic;
  const hosts = new Map<string, LambdaHost>();

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'castoff-packed-'));
    await packFunctions(folder, 'this machine');
    front = await startS3Front();
    for (const name of ['uploads', 'work', 'releases']) front.createBucket(name);
    topic = await startTopic();
    machines = await startMachines(
      (step, input) => hosts.get(step)?.invoke(input) ?? Promise.reject(new Error(step)),
    );
    const environment = {
      AWS_REGION: 'eu-west-1',
      AWS_ACCESS_KEY_ID: front.keys.accessKeyId,
      AWS_SECRET_ACCESS_KEY: front.keys.secretAccessKey,
      AWS_ENDPOINT_URL_S3: front.endpoint,
      AWS_ENDPOINT_URL_SFN: machines.endpoint,
      AWS_ENDPOINT_URL_SNS: topic.endpoint,
      NEWS_TOPIC_ARN: 'arn:aws:sns:eu-west-1:111122223333:News',
      WORK_BUCKET: 'work',
      RELEASES_BUCKET: 'releases',
      STATE_MACHINE_ARN: 'arn:aws:states:eu-west-1:111122223333:stateMachine:Publish',
    };
    for (const { name } of FUNCTIONS) {
      hosts.set(name, await startLambda(join(folder, name), environment));
    }
  });
  afterAll(async () => {
    for (const host of hosts.values()) host.close();
    await machines?.close();
    await topic?.close();
    await front?.close();
    await rm(folder, { recursive: true, force: true });
  });

  it('are small enough to be deployed, and none carries what it does not need', async () => {
    for (const { name, parts } of FUNCTIONS) {
      const has = (path: string) => existsSync(join(folder, name, path));
      expect((await stat(join(folder, name, 'handler.mjs'))).size).toBeLessThan(8 * 1024 * 1024);
      expect(has('fonts')).toBe(parts.includes('fonts'));
      expect(has('node_modules/sharp')).toBe(parts.includes('pictures'));
      expect(has('locales')).toBe(parts.includes('data'));
    }
  });

  it('turn an upload into a release', async () => {
    const client = clientOf(front);
    const bytes = await zipOfStarter();
    await s3Store(client, { bucket: 'uploads', prefix: '' }).put('northfold/hat.zip', bytes);
    const event = objectCreated('northfold/hat.zip', 'null', bytes.length);
    const started = (await hosts.get('starter')?.invoke(event)) as { run: string };
    const end = await machines.runs.get(started.run);
    expect(end, JSON.stringify(end)).toMatchObject({ status: 'succeeded', state: 'Released' });
    const releases = s3Store(client, { bucket: 'releases', prefix: 'northfold' });
    const version = await witness(releases, 'breakwater-hat');
    const manifest = await findRelease(releases, 'breakwater-hat', version ?? '');
    const documents = manifest?.files.filter(({ role }) => role === 'document') ?? [];
    expect(documents).toHaveLength(manifest?.languages.length ?? -1);
    expect(documents.every(({ sizeBytes }) => sizeBytes > 10_000)).toBe(true);
  });

  it('carry a fault through the machine as words', async () => {
    const client = clientOf(front);
    await s3Store(client, { bucket: 'uploads', prefix: '' }).put('a/no.zip', new Uint8Array(9));
    const started = (await hosts.get('starter')?.invoke(objectCreated('a/no.zip', 'null', 9))) as {
      run: string;
    };
    const end = await machines.runs.get(started.run);
    expect(end).toMatchObject({ status: 'failed', error: 'Castoff.Refused' });
    const work = s3Store(client, { bucket: 'work', prefix: 'a' });
    const record = await work.get(`runs/${started.run}/failure.json`);
    expect(JSON.parse(new TextDecoder().decode(record?.bytes))).toMatchObject({
      kind: 'input',
      message: 'the file is no zip',
    });
  });
});
