/**
 * The contract against a server that is not ours. Where `CASTOFF_TEST_BUCKET` is set it is that bucket,
 * with region, keys and `AWS_ENDPOINT_URL_S3` from the usual variables: AWS itself, or any server.
 * Otherwise a moto server (https://docs.getmoto.org, `pip install 'moto[server]'`) is started here on
 * loopback, if it is installed; else these tests are skipped.
 */
import type { ChildProcess } from 'node:child_process';
import { spawn, spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import type { S3Client } from '@aws-sdk/client-s3';
import { CreateBucketCommand } from '@aws-sdk/client-s3';
import { afterAll, beforeAll, describe } from 'vitest';
import { openClient } from '../../src/store/s3-client.ts';
import { s3Store } from '../../src/store/s3.ts';
import { clientOf } from './client.ts';
import { storeContract } from './contract.ts';

const named = process.env['CASTOFF_TEST_BUCKET'];
const hasMoto = spawnSync('moto_server', ['--help'], { stdio: 'ignore' }).status === 0;

describe.skipIf(named === undefined && !hasMoto)('a real server', () => {
  const bucket = named ?? 'castoff-contract';
  const area = `contract-${randomUUID()}`;
  let client: S3Client;
  let server: ChildProcess | undefined;
  let cases = 0;

  beforeAll(async () => {
    if (named !== undefined) {
      client = openClient();
      return;
    }
    const port = await freePort();
    server = spawn('moto_server', ['-H', '127.0.0.1', '-p', String(port)], { stdio: 'ignore' });
    const endpoint = `http://127.0.0.1:${port}`;
    client = clientOf({ endpoint, keys: { accessKeyId: 'any', secretAccessKey: 'any' } });
    await untilAnswering(endpoint);
    await client.send(new CreateBucketCommand({ Bucket: bucket }));
  });

  afterAll(async () => {
    const all = s3Store(client, { bucket, prefix: area });
    for await (const { key } of all.list('')) await all.delete(key);
    client.destroy();
    server?.kill();
  });

  storeContract(async () => s3Store(client, { bucket, prefix: `${area}/${(cases += 1)}` }));
});

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => {
    probe.listen(0, '127.0.0.1', resolve);
  });
  const { port } = probe.address() as AddressInfo;
  await new Promise((resolve) => {
    probe.close(resolve);
  });
  return port;
}

async function untilAnswering(endpoint: string): Promise<void> {
  for (let attempt = 0; attempt < 300; attempt += 1) {
    if (await fetch(endpoint).catch(() => undefined)) return;
    await pause(100);
  }
  throw new Error(`no server at ${endpoint}`);
}
