/**
 * An S3 server that is not ours, on loopback, for as long as a test runs: MinIO where `install.sh` has
 * built it, else moto. Where `CASTOFF_TEST_BUCKET` names a bucket it is that one, with region, keys and
 * `AWS_ENDPOINT_URL_S3` from the usual variables: AWS itself, or any server.
 */
import type { ChildProcess } from 'node:child_process';
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { homedir, tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { CreateBucketCommand, PutBucketVersioningCommand } from '@aws-sdk/client-s3';
import type { S3Client } from '@aws-sdk/client-s3';
import { openClient } from '../../../src/store/s3-client.ts';
import { clientOf } from '../../store/client.ts';

export interface RealServer {
  /** What it is: `MinIO`, `moto`, or the bucket that was named. */
  readonly name: string;
  readonly endpoint: string | undefined;
  readonly keys: { readonly accessKeyId: string; readonly secretAccessKey: string };
  readonly client: S3Client;
  /** The bucket that was named, or a new one. */
  createBucket(name: string, options?: { readonly versioned?: boolean }): Promise<string>;
  close(): Promise<void>;
}

const named = process.env['CASTOFF_TEST_BUCKET'];
const minio = pathOfMinio();
const hasMoto =
  minio === undefined && spawnSync('moto_server', ['--help'], { stdio: 'ignore' }).status === 0;

/** Undefined where there is none. */
export const serverName: string | undefined =
  named ?? (minio === undefined ? (hasMoto ? 'moto' : undefined) : 'MinIO');

/** Whether it checks signatures and signed forms. */
export const isStrict = named !== undefined || minio !== undefined;

export async function startRealServer(): Promise<RealServer> {
  if (named !== undefined) return openNamed(named);
  const port = await freePort();
  const endpoint = `http://127.0.0.1:${port}`;
  const keys = { accessKeyId: 'northfold', secretAccessKey: 'a-secret-of-the-tests' };
  const folder = await mkdtemp(path.join(tmpdir(), 'castoff-s3-'));
  const server =
    minio === undefined ? startMoto(port) : await startMinio(minio, port, folder, keys);
  await untilAnswering(endpoint, server);
  const client = clientOf({ endpoint, keys });
  return {
    name: serverName ?? '',
    endpoint,
    keys,
    client,
    async createBucket(name, { versioned = false } = {}) {
      await client.send(new CreateBucketCommand({ Bucket: name }));
      const VersioningConfiguration = { Status: 'Enabled' as const };
      if (versioned)
        await client.send(
          new PutBucketVersioningCommand({ Bucket: name, VersioningConfiguration }),
        );
      return name;
    },
    async close() {
      client.destroy();
      const gone = new Promise((resolve) => server.once('exit', resolve));
      if (server.kill()) await gone;
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function openNamed(bucket: string): RealServer {
  const client = openClient();
  return {
    name: bucket,
    endpoint: process.env['AWS_ENDPOINT_URL_S3'],
    keys: {
      accessKeyId: process.env['AWS_ACCESS_KEY_ID'] ?? '',
      secretAccessKey: process.env['AWS_SECRET_ACCESS_KEY'] ?? '',
    },
    client,
    createBucket: async () => bucket,
    close: async () => client.destroy(),
  };
}

/** Where `install.sh` puts it; the version stands there. */
function pathOfMinio(): string | undefined {
  const script = readFileSync(new URL('install.sh', import.meta.url), 'utf8');
  const version = /^version=(\S+)$/m.exec(script)?.[1] ?? '';
  const cache = process.env['XDG_CACHE_HOME'] ?? path.join(homedir(), '.cache');
  const file = path.join(cache, 'castoff', `minio-${version}`);
  return existsSync(file) ? file : undefined;
}

async function startMinio(
  program: string,
  port: number,
  folder: string,
  keys: RealServer['keys'],
): Promise<ChildProcess> {
  const console = `127.0.0.1:${await freePort()}`;
  const words = ['server', '--quiet', '--address', `127.0.0.1:${port}`];
  return spawn(program, [...words, '--console-address', console, folder], {
    stdio: 'ignore',
    env: {
      PATH: process.env['PATH'] ?? '',
      HOME: folder,
      MINIO_ROOT_USER: keys.accessKeyId,
      MINIO_ROOT_PASSWORD: keys.secretAccessKey,
      MINIO_BROWSER: 'off',
      MINIO_UPDATE: 'off',
      MINIO_CI_CD: '1',
    },
  });
}

const startMoto = (port: number): ChildProcess =>
  spawn('moto_server', ['-H', '127.0.0.1', '-p', String(port)], { stdio: 'ignore' });

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

/** Any answer will do, but that of a server which is still getting ready. */
async function untilAnswering(endpoint: string, server: ChildProcess): Promise<void> {
  for (let attempt = 0; attempt < 300 && server.exitCode === null; attempt += 1) {
    const answer = await fetch(endpoint).catch(() => undefined);
    if (answer && answer.status < 500) return;
    await pause(100);
  }
  server.kill();
  throw new Error(`no server at ${endpoint}`);
}
