/**
 * The functions packed as they are deployed, each in a process of its own with the rights of its own role,
 * and the services round them on loopback. For tests of packing and for measuring.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { zipSync } from 'fflate';
import { packFunctions } from '../../../infra/build.ts';
import { FUNCTIONS } from '../../../infra/functions.ts';
import { unpackBundle } from '../../../src/pattern/bundle/unpack.ts';
import { readRoles } from '../../store/s3-front/roles.ts';
import type { S3Front } from '../../store/s3-front/server.ts';
import { startS3Front } from '../../store/s3-front/server.ts';
import type { TestIssuer } from '../issuer.ts';
import type { LoopbackMachines } from '../step-functions.ts';
import { startMachines } from '../step-functions.ts';
import { startTopic } from '../topic.ts';
import type { LambdaHost } from './host.ts';
import { startLambda } from './host.ts';
import { openOutside } from './outside.ts';

export interface Packed {
  readonly folder: string;
  readonly front: S3Front;
  readonly machines: LoopbackMachines;
  readonly hosts: ReadonlyMap<string, LambdaHost>;
  readonly issuer: TestIssuer;
  readonly close: () => Promise<void>;
}

/** `called` is told of every call of a step and how long it took. */
export async function startPacked(
  called: (step: string, seconds: number) => void = () => undefined,
): Promise<Packed> {
  const folder = await mkdtemp(path.join(tmpdir(), 'castoff-packed-'));
  await packFunctions(folder, 'this machine');
  const front = await startS3Front();
  for (const name of ['uploads', 'work', 'releases', 'shelf']) front.createBucket(name);
  front.roles = readRoles('tests/golden/infra/permissions.txt');
  const topic = await startTopic();
  const hosts = new Map<string, LambdaHost>();
  const machines = await startMachines(async (step, input) => {
    const begun = performance.now();
    const host = hosts.get(step);
    if (host === undefined) throw new Error(step);
    const output = await host.invoke(input);
    called(step, (performance.now() - begun) / 1000);
    return output;
  });
  const outside = await openOutside(async (event) => hosts.get('api')?.invoke(event));
  const environment = {
    OUTSIDE: outside.address,
    AWS_REGION: 'eu-west-1',
    AWS_SECRET_ACCESS_KEY: front.keys.secretAccessKey,
    AWS_ENDPOINT_URL_S3: front.endpoint,
    AWS_ENDPOINT_URL_SFN: machines.endpoint,
    AWS_ENDPOINT_URL_SNS: topic.endpoint,
    NEWS_TOPIC_ARN: 'arn:aws:sns:eu-west-1:111122223333:News',
    DESK_ADDRESS: 'https://desk.northfold.example',
    TOKEN_ISSUER: 'https://identity.northfold.example/',
    DESK_CLIENT: 'castoff-desk',
    STORE_ORIGINS: front.endpoint,
    WORK_BUCKET: 'work',
    RELEASES_BUCKET: 'releases',
    SHELF_BUCKET: 'shelf',
    STUDIO_CLAIM: 'studio',
    UPLOADS_BUCKET: 'uploads',
    STATE_MACHINE_ARN: 'arn:aws:states:eu-west-1:111122223333:stateMachine:Publish',
  };
  for (const { name } of FUNCTIONS) {
    // Each with a key of its own, which may do what its role may do in the stack and nothing else.
    const { accessKeyId: AWS_ACCESS_KEY_ID } = front.keysOf(name);
    const own = { ...environment, AWS_ACCESS_KEY_ID };
    hosts.set(name, await startLambda(path.join(folder, name), own));
  }
  const close = async (): Promise<void> => {
    for (const host of hosts.values()) host.close();
    outside.close();
    await machines.close();
    await topic.close();
    await front.close();
    await rm(folder, { recursive: true, force: true });
  };
  return { folder, front, machines, hosts, issuer: outside.issuer, close };
}

/** A starter in two languages: one that hyphenates, one with fonts of its own. */
export async function zipOfStarter(starter: string, version = '1.0.0'): Promise<Uint8Array> {
  const files = new Map(await unpackBundle(starter));
  const text = new TextDecoder().decode(files.get('pattern.json'));
  const pattern = { ...(JSON.parse(text) as object), version, languages: ['en-US', 'ja'] };
  files.set('pattern.json', new TextEncoder().encode(JSON.stringify(pattern)));
  return zipSync(Object.fromEntries(files), { level: 1 });
}
