/**
 * The store and the release protocol on a server that is not ours (`s3/server.ts` says which). What the
 * front of `tests/store` only claims to answer as S3 does is asked here of somebody else's program.
 */
import { createHash, randomUUID } from 'node:crypto';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { publish } from '../../src/pipeline/publish.ts';
import { currentVersion } from '../../src/release/commit.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
import { signDownload, signFetch, signPut, signUpload } from '../../src/store/s3-signing.ts';
import { openSigner } from '../../src/store/s3-client.ts';
import { readInPieces, writeInParts } from '../../src/store/s3-streams.ts';
import { fetchVersion, lookAtVersion } from '../../src/store/s3-uploads.ts';
import { listTopFolders, s3Store } from '../../src/store/s3.ts';
import type { Store } from '../../src/store/store.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { roomContract } from '../shelf/room.ts';
import { contentOf, witness } from '../release/witness.ts';
import { clientOf } from '../store/client.ts';
import { storeContract } from '../store/contract.ts';
import type { RealServer } from './s3/server.ts';
import { isStrict, serverName, startRealServer } from './s3/server.ts';

const PATTERN = 'skerry-hat';
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe.skipIf(serverName === undefined)(`a server that is not ours: ${serverName}`, () => {
  /** Everything of this run lies below one name, so that a bucket of somebody's stays clean. */
  const area = `castoff-${randomUUID()}`;
  let server: RealServer;
  let bucket: string;
  let rooms = 0;
  beforeAll(async () => {
    server = await startRealServer();
    bucket = await server.createBucket('castoff-conformance', { versioned: true });
  });
  afterAll(async () => {
    if (serverName === process.env['CASTOFF_TEST_BUCKET']) {
      const all = s3Store(server.client, { bucket, prefix: area });
      for await (const { key } of all.list('')) await all.delete(key);
    }
    await server.close();
  });
  const open = (): Store => s3Store(server.client, { bucket, prefix: `${area}/${(rooms += 1)}` });

  storeContract(async () => open());

  describe('bundles on its shelf', () => {
    roomContract(async () => storeRoom(open()));
  });

  const run = (releases: Store, version: string, changes: object = {}, token = 't') =>
    publish(
      { bundle: zipSync(Object.fromEntries(skerryFiles({ version, ...changes }))), releases },
      { rooms: studioRooms(), token },
    );

  it('takes an object in parts, shows it when it is whole, and gives it back in pieces', async () => {
    const MIB = 1024 * 1024;
    const place = { bucket, key: `${area}/parts/a.zip` };
    const written = { contentType: 'application/zip', fileName: 'a.zip' };
    async function* piecesOf(count: number, isCutOff: boolean) {
      for (let each = 0; each < count; each += 1) yield new Uint8Array(MIB + 1).fill(each);
      if (isCutOff) throw new Error('cut off');
    }
    const store = s3Store(server.client, { bucket, prefix: area });
    const cutOff = writeInParts(server.client, place, written, piecesOf(20, true));
    await expect(cutOff).rejects.toThrow('cut off');
    expect(await store.has('parts/a.zip')).toBe(false);
    await writeInParts(server.client, place, written, piecesOf(20, false));
    const told = createHash('sha256');
    for await (const piece of readInPieces(server.client, place)) told.update(piece);
    const sent = createHash('sha256');
    for await (const piece of piecesOf(20, false)) sent.update(piece);
    expect(told.digest('hex')).toBe(sent.digest('hex'));
    const url = await signFetch(server.client, place, 60);
    const { headers } = await fetch(url, { method: 'GET' });
    expect(headers.get('content-disposition')).toBe('attachment; filename="a.zip"');
  });

  it('keeps a release and its correction, the same bytes as any other store', async () => {
    const store = open();
    for (const version of ['1.0.0', '1.0.1']) await run(store, version);
    expect(await witness(store, PATTERN)).toBe('1.0.1');
    const again = open();
    for (const version of ['1.0.0', '1.0.1']) await run(again, version);
    expect(await contentOf(again)).toEqual(await contentOf(store));
    expect((await run(store, '1.0.1')).outcome).toBe('already');
  });

  it('lets one of ten publishers have a version, and the last of ten versions be current', async () => {
    const store = open();
    const ten = Array.from({ length: 10 }, (_, each) => each);
    const ends = await Promise.allSettled(
      ten.map((each) => run(store, '1.0.0', { sizes: ['S', 'M', `L${each}`] }, `t${each}`)),
    );
    expect(ends.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    await Promise.all(ten.toReversed().map((each) => run(store, `2.${each}.0`)));
    expect(await currentVersion(store, PATTERN)).toBe('2.9.0');
    expect(await witness(store, PATTERN)).toBe('2.9.0');
  });

  it.skipIf(!isStrict)(
    'knows versions, metadata and topmost folders of what was uploaded',
    async () => {
      const key = `${area}/uploads/hat.zip`;
      const form = await signUpload(server.client, { bucket, key }, TERMS);
      expect((await post(form, bytes('first'))).ok).toBe(true);
      const versions: string[] = [];
      for (const text of ['second', 'third']) {
        const response = await post(form, bytes(text));
        versions.push(response.headers.get('x-amz-version-id') ?? '');
      }
      const [version] = versions;
      const fetched = await fetchVersion(server.client, { bucket, key, version }, 100);
      expect(new TextDecoder().decode(fetched)).toBe('second');
      const seen = await lookAtVersion(server.client, { bucket, key }, 100);
      expect(seen.metadata).toEqual({ 'castoff-settings': 'e30' });
      const tops: string[] = [];
      for await (const top of listTopFolders(server.client, bucket)) tops.push(top);
      expect(tops).toContain(area);
    },
  );

  const TERMS = {
    contentType: 'application/zip',
    mostBytes: 100,
    seconds: 60,
    metadata: { 'castoff-settings': 'e30' },
  };

  async function post(
    { url, fields }: Awaited<ReturnType<typeof signUpload>>,
    content: Uint8Array,
    changes: Readonly<Record<string, string>> = {},
  ): Promise<Response> {
    const form = new FormData();
    for (const [name, value] of Object.entries({ ...fields, ...changes })) form.append(name, value);
    form.append('file', new Blob([Uint8Array.from(content)]), 'hat.zip');
    return fetch(url, { method: 'POST', body: form });
  }

  it.skipIf(!isStrict).each([
    ['too large', 'x'.repeat(101), {}],
    ['under another key', 'x', { key: 'somebody/else.zip' }],
    ['with other metadata', 'x', { 'x-amz-meta-castoff-settings': 'eyJ9' }],
    ['as another kind of file', 'x', { 'Content-Type': 'text/html' }],
  ])('refuses a signed form that is posted %s', async (_title, content, changes) => {
    const key = `${area}/uploads/refused.zip`;
    const form = await signUpload(server.client, { bucket, key }, TERMS);
    const { status } = await post(form, bytes(content), changes);
    expect([400, 403]).toContain(status);
    expect(await s3Store(server.client, { bucket, prefix: area }).has('uploads/refused.zip')).toBe(
      false,
    );
  });

  it.skipIf(!isStrict)('lends a download that cannot be bent to another object', async () => {
    const store = open();
    await store.put('mine', bytes('mine'));
    await store.put('other', bytes('other'));
    const key = `${area}/${rooms}/mine`;
    const terms = { fileName: 'hat.pdf', mediaType: 'application/pdf', seconds: 60 };
    const url = await signDownload(server.client, { bucket, key }, terms);
    const answer = await fetch(url);
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="hat.pdf"');
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    expect(await answer.text()).toBe('mine');
    expect((await fetch(url.replace('/mine', '/other'))).status).toBe(403);
  });

  it.skipIf(!isStrict)(
    'takes what was sealed into an address for one PUT, and nothing else',
    async () => {
      const client = server.endpoint === undefined ? openSigner() : signerOf(server);
      const terms = {
        contentType: 'application/pdf',
        sizeBytes: 5,
        seconds: 60,
        fileName: 'a.pdf',
      };
      const put = async (
        name: string,
        body: string,
        more: Readonly<Record<string, string>> = {},
      ) => {
        const key = `${area}/drafts/${name}`;
        const { url, headers } = await signPut(client, { bucket, key }, terms);
        return (await fetch(url, { method: 'PUT', body, headers: { ...headers, ...more } })).status;
      };
      expect(await put('longer', 'sheets')).toBe(403);
      expect(await put('shorter', 'she')).toBe(403);
      expect(await put('kind', 'sheet', { 'content-type': 'text/html' })).toBe(403);
      expect(await put('name', 'sheet', { 'content-disposition': 'inline' })).toBe(403);
      expect(await put('right', 'sheet')).toBe(200);
      const key = `${area}/drafts/right`;
      const found = await fetch(await signFetch(client, { bucket, key }, 60));
      expect(found.headers.get('content-disposition')).toBe('attachment; filename="a.pdf"');
      expect(found.headers.get('content-type')).toBe('application/pdf');
      expect(await found.text()).toBe('sheet');
    },
  );

  const signerOf = ({ endpoint = '', keys }: RealServer) =>
    clientOf({ endpoint, keys }, { forSigning: true });

  it.skipIf(!isStrict)('does not know a caller with a wrong secret', async () => {
    if (server.endpoint === undefined) return;
    const keys = { ...server.keys, secretAccessKey: 'wrong' };
    const stranger = s3Store(clientOf({ endpoint: server.endpoint, keys }), { bucket, prefix: '' });
    await expect(stranger.get('a')).rejects.toMatchObject({
      retryable: false,
      remedy: 'check the secret key and the clock',
    });
  });
});
