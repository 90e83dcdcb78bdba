import { mkdtemp, readdir, rm, utimes, writeFile, mkdir, chmod } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { folderStore, WORK_FOLDER } from '../../src/store/folder.ts';
import { memoryStore } from '../../src/store/memory.ts';
import { openStore, readBucketAddress } from '../../src/store/open.ts';
import { s3Store } from '../../src/store/s3.ts';
import { fetchVersion } from '../../src/store/s3-uploads.ts';
import { clientOf } from './client.ts';
import { storeContract } from './contract.ts';
import type { S3Front } from './s3-front/server.ts';
import { startS3Front } from './s3-front/server.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('the memory', () => {
  storeContract(async () => memoryStore());
});

describe('a folder', () => {
  let root: string;
  beforeAll(async () => {
    root = await mkdtemp(join(tmpdir(), 'castoff-store-'));
  });
  afterAll(() => rm(root, { recursive: true, force: true }));
  let stores = 0;
  const folder = () => join(root, String((stores += 1)));

  storeContract(async () => folderStore(folder()));

  it('leaves nothing of its own behind', async () => {
    const path = folder();
    const store = folderStore(path);
    await store.put('a', bytes('1'), { condition: 'absent' });
    await store.put('a', bytes('2'), { condition: 'absent' });
    await store.put('a', bytes('2'), { condition: { tag: hashBytes('1') } });
    expect(await readdir(join(path, WORK_FOLDER))).toEqual([]);
  });

  it('takes away the lock of a process that died', async () => {
    const path = folder();
    const store = folderStore(path);
    await store.put('a', bytes('1'));
    const lock = join(path, WORK_FOLDER, `${hashBytes(join(path, 'a')).slice(0, 32)}.lock`);
    await writeFile(lock, 'a dead process');
    await utimes(lock, new Date(0), new Date(0));
    const put = await store.put('a', bytes('2'), { condition: { tag: hashBytes('1') } });
    expect(put.ok).toBe(true);
    expect(await readdir(join(path, WORK_FOLDER))).toEqual([]);
  });

  it('says what to do when the disk refuses', async () => {
    const path = folder();
    await mkdir(path, { recursive: true });
    await writeFile(join(path, 'releases'), 'a file in the way');
    await expect(folderStore(path).put('releases/x', bytes('1'))).rejects.toMatchObject({
      kind: 'store',
      retryable: false,
      place: 'releases/x',
    });
    if (process.getuid?.() === 0) return;
    await chmod(path, 0o500);
    await expect(folderStore(path).put('b', bytes('1'))).rejects.toMatchObject({
      remedy: 'give yourself the right to write there, or choose another folder',
    });
  });
});

describe('a bucket, through the SDK', () => {
  let front: S3Front;
  beforeAll(async () => {
    front = await startS3Front();
  });
  afterAll(() => front.close());
  beforeEach(() => {
    front.trouble = () => undefined;
  });
  let buckets = 0;
  const open = (more: Parameters<typeof clientOf>[1] = {}) => {
    const bucket = `bucket-${(buckets += 1)}`;
    front.createBucket(bucket);
    return s3Store(clientOf(front, more), { bucket, prefix: 'studio/hats' });
  };

  storeContract(async () => open());

  it('keeps below its prefix', async () => {
    front.createBucket('shared');
    const client = clientOf(front);
    const [one, two] = ['one', 'two'].map((prefix) =>
      s3Store(client, { bucket: 'shared', prefix }),
    );
    await one?.put('k', bytes('1'));
    expect(await two?.has('k')).toBe(false);
    const all = s3Store(client, { bucket: 'shared', prefix: '' });
    expect(await all.has('one/k')).toBe(true);
  });

  it('lists more than one page', async () => {
    const store = open();
    const keys = Array.from({ length: 1003 }, (_, each) => `k/${String(each).padStart(4, '0')}`);
    await Promise.all(keys.map((key) => store.put(key, bytes(''))));
    const found: string[] = [];
    for await (const { key } of store.list('k/')) found.push(key);
    expect(found).toEqual(keys);
  });

  const once = (kind: string, trouble: ReturnType<S3Front['trouble']>) => {
    let left = 1;
    front.trouble = (request) => (request.startsWith(kind) && left-- > 0 ? trouble : undefined);
  };

  it('tells a lost answer to its own write from a write of another', async () => {
    const store = open();
    once('PUT', { kind: 'lostAnswer' });
    expect((await store.put('a', bytes('mine'), { condition: 'absent' })).ok).toBe(true);
    const tag = (await store.get('a'))?.tag ?? '';
    once('PUT', { kind: 'lostAnswer' });
    expect((await store.put('a', bytes('mine 2'), { condition: { tag } })).ok).toBe(true);
    once('PUT', { kind: 'busy', status: 503 });
    expect(await store.put('a', bytes('other'), { condition: 'absent' })).toEqual({ ok: false });
  });

  it('tries again where S3 answers 409 to writes at the same moment', async () => {
    const store = open();
    once('PUT', { kind: 'busy', status: 409 });
    expect((await store.put('a', bytes('1'), { condition: 'absent' })).ok).toBe(true);
  });

  it('gives up with a fault that says whether trying again helps', async () => {
    const store = open({ maxAttempts: 1 });
    front.trouble = () => ({ kind: 'busy', status: 503 });
    await expect(store.get('a')).rejects.toMatchObject({ kind: 'store', retryable: true });
    front.trouble = () => undefined;
    const nowhere = s3Store(clientOf(front), { bucket: 'nowhere', prefix: '' });
    await expect(nowhere.put('a', bytes('1'))).rejects.toMatchObject({
      kind: 'missing',
      retryable: false,
      remedy: 'create the bucket, or correct its name',
    });
    const wrong = { ...front, keys: { ...front.keys, secretAccessKey: 'wrong' } };
    const stranger = s3Store(clientOf(wrong), { bucket: 'shared', prefix: '' });
    await expect(stranger.get('a')).rejects.toMatchObject({
      retryable: false,
      remedy: 'check the secret key and the clock',
    });
  });

  it('fetches one version of an upload, and none that is too large', async () => {
    front.createBucket('uploads', { versioned: true });
    const client = clientOf(front);
    const uploads = s3Store(client, { bucket: 'uploads', prefix: '' });
    await uploads.put('hat.zip', bytes('first'));
    await uploads.put('hat.zip', bytes('second'));
    const place = { bucket: 'uploads', key: 'hat.zip' };
    const fetched = await fetchVersion(client, place, 100);
    expect(new TextDecoder().decode(fetched)).toBe('second');
    await expect(fetchVersion(client, place, 3)).rejects.toMatchObject({ kind: 'input' });
    await expect(fetchVersion(client, { ...place, version: 'v0' }, 3)).rejects.toMatchObject({
      kind: 'missing',
    });
  });
});

describe('the address of a store', () => {
  it.each([
    ['s3://northfold', { bucket: 'northfold', prefix: '' }],
    ['s3://northfold/', { bucket: 'northfold', prefix: '' }],
    ['s3://northfold/shop/hats/', { bucket: 'northfold', prefix: 'shop/hats' }],
  ])('%s', (address, place) => {
    expect(readBucketAddress(address)).toEqual(place);
  });

  it.each(['s3://', 's3://No', 's3://a', 's3://northfold/../x', 's3://northfold//x', 'S3:/x'])(
    '%s is none',
    (address) => {
      expect(() => readBucketAddress(address)).toThrow(/is no address of a bucket/);
    },
  );

  it('opens a folder or a bucket', async () => {
    expect((await openStore('/tmp/x')).name).toBe('/tmp/x');
    expect((await openStore('s3://northfold/hats')).name).toBe('s3://northfold/hats');
  });
});
