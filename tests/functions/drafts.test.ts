/** Drafts through the API: put by a signed address, fetched by another, of the size and kind that were told. */
import { describe, expect, it } from 'vitest';
import { OpenedApi } from './opened-api.ts';

const api = new OpenedApi();
const { ask, tell } = api;

interface Draft {
  readonly draft: string;
  readonly put: { readonly url: string; readonly headers: Readonly<Record<string, string>> };
  readonly url: string;
}

const ORDER = { contentType: 'application/pdf', sizeBytes: 5 };
const open = (more: object = {}, studio = 'ada') =>
  tell<Draft>('POST /drafts', { ...ORDER, ...more }, { studio });
const put = ({ put: { url, headers } }: Draft, body = 'sheet') =>
  fetch(url, { method: 'PUT', body, headers });

describe('a draft', () => {
  it('is put, and fetched under its name', async () => {
    const opened = await open({ fileName: 'hat-1.0.0-de.pdf' });
    expect((await put(opened)).status).toBe(200);
    const { url } = (await ask(`GET /drafts/${opened.draft}`)).value as { url: string };
    for (const address of [opened.url, url]) {
      const found = await fetch(address);
      expect(found.headers.get('content-type')).toBe('application/pdf');
      expect(found.headers.get('content-disposition')).toBe(
        'attachment; filename="hat-1.0.0-de.pdf"',
      );
      expect(await found.text()).toBe('sheet');
    }
  });

  it('is not there before it was put, nor for another studio', async () => {
    const opened = await open();
    expect((await ask(`GET /drafts/${opened.draft}`)).status).toBe(404);
    expect((await fetch(opened.url)).status).toBe(404);
    await put(opened);
    expect((await ask(`GET /drafts/${opened.draft}`)).status).toBe(200);
    expect((await ask(`GET /drafts/${opened.draft}`, 'bo')).status).toBe(404);
  });

  it.each(['application/json; charset=utf-8', 'image/avif'])('is of the kind %s', async (kind) => {
    const opened = await open({ contentType: kind });
    expect((await put(opened)).status).toBe(200);
    expect((await fetch(opened.url)).headers.get('content-type')).toBe(kind);
  });

  it('takes no other size', async () => {
    const opened = await open();
    expect((await put(opened, 'sheets')).status).toBe(403);
    expect((await ask(`GET /drafts/${opened.draft}`)).status).toBe(404);
  });

  it.each(['..', '..%2Fruns%2Fr', 'no-uuid', '%00', crypto.randomUUID()])(
    'is not there under the name %s',
    async (draft) => {
      expect((await ask(`GET /drafts/${draft}`)).status).toBe(404);
    },
  );

  it.each([
    { contentType: 'text/html' },
    { contentType: 'image/svg+xml' },
    { sizeBytes: 0 },
    { sizeBytes: 1.5 },
    { sizeBytes: 430_000_000 },
    { fileName: '../x.pdf' },
    { fileName: 'x".pdf' },
    { fileName: 'x\r\nset-cookie: a=b' },
    { fileName: '' },
    { key: 'releases/x' },
  ])('is not opened with %j', async (more) => {
    expect((await ask('POST /drafts', 'ada', JSON.stringify({ ...ORDER, ...more }))).status).toBe(
      400,
    );
  });
});
