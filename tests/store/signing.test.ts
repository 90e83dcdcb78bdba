/** Addresses that let one thing be put, and fetched again: what is sealed in them holds. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { signFetch, signPut } from '../../src/store/s3-signing.ts';
import { clientOf } from './client.ts';
import type { S3Front } from './s3-front/server.ts';
import { startS3Front } from './s3-front/server.ts';

let front: S3Front;
let hour = new Date();
beforeAll(async () => {
  front = await startS3Front(() => hour);
});
afterAll(() => front.close());
beforeEach(() => {
  hour = new Date();
  front.createBucket('work');
});

const PLACE = { bucket: 'work', key: 'ada/drafts/sheet' };
const TERMS = { contentType: 'application/pdf', sizeBytes: 5, seconds: 60 };
const sign = (more: object = {}, terms = TERMS) =>
  signPut(clientOf(front, { forSigning: true }), PLACE, { ...terms, ...more });
const put = async (
  { url, headers }: Awaited<ReturnType<typeof sign>>,
  body = 'sheet',
  more: Readonly<Record<string, string>> = {},
) => (await fetch(url, { method: 'PUT', body, headers: { ...headers, ...more } })).status;
const get = async () => fetch(await signFetch(clientOf(front), PLACE, 60));

describe('an address for one PUT', () => {
  it('takes what was told, and gives it back under its kind and name', async () => {
    expect(await put(await sign({ fileName: 'sheet.pdf' }))).toBe(200);
    const found = await get();
    expect([found.headers.get('content-type'), found.headers.get('content-disposition')]).toEqual([
      'application/pdf',
      'attachment; filename="sheet.pdf"',
    ]);
    expect(await found.text()).toBe('sheet');
  });

  it('lets it be shown where no name was told', async () => {
    await put(await sign());
    expect((await get()).headers.get('content-disposition')).toBe('inline');
  });

  it.each([
    ['more bytes', 'sheets', {}],
    ['fewer bytes', 'she', {}],
    ['another kind', 'sheet', { 'content-type': 'text/html' }],
    ['another name', 'sheet', { 'content-disposition': 'attachment; filename="x.exe"' }],
  ])('refuses %s', async (_title, body, more) => {
    expect(await put(await sign(), body, more)).toBe(403);
    expect((await get()).status).toBe(404);
  });

  it('is good for no other key, and not for ever', async () => {
    const signed = await sign();
    const elsewhere = signed.url.replace('ada/drafts/sheet', 'bo/drafts/sheet');
    expect(await put({ ...signed, url: elsewhere })).toBe(403);
    hour = new Date(hour.getTime() + 61_000);
    expect(await put(signed)).toBe(403);
  });

  it('seals no checksum: what will be put is not known yet', async () => {
    expect((await sign()).url).not.toContain('checksum');
    const careless = await signPut(clientOf(front), PLACE, TERMS);
    expect(await put(careless)).toBe(400);
  });
});
