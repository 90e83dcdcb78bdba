/**
 * The shelf through the API: starters and uploads laid on it, bundles read by signed addresses, changed and
 * changed back; over the S3 of the tests, with hostile words, over limits, and by several at once.
 */
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { arrivalKey } from '../../functions/api/arrivals.ts';
import { API_LIMITS } from '../../src/base/limits.ts';
import { hashBytes } from '../../src/base/hash.ts';
import { tagOf } from '../../src/shelf/shelf.ts';
import { readTree } from '../../src/shelf/tree.ts';
import { s3Store } from '../../src/store/s3.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { clientOf } from '../store/client.ts';
import { bundle, OpenedApi, post } from './opened-api.ts';

const api = new OpenedApi();
const { ask, lay, open, tell } = api;

const GERMAN = 'prose/de.json';
const shown = z.object({
  bundle: z.string(),
  state: z.string(),
  files: z.array(
    z.object({ path: z.string(), hash: z.string(), sizeBytes: z.number(), url: z.string() }),
  ),
  history: z.array(z.looseObject({ number: z.number(), after: z.string() })),
  expires: z.string(),
});
const show = async (name: string) => shown.parse((await ask(`GET /bundles/${name}`)).value);
const tagIn = async (name: string, file: string): Promise<string> =>
  (await show(name)).files.find(({ path }) => path === file)?.hash.slice(0, 32) ?? '';
const titleFrom = (tag: string, value = 'Schäre') => ({ file: GERMAN, pointer: '/title', value, tag }); // prettier-ignore
const textOf = async (name: string, file: string): Promise<string> => {
  const { files } = await show(name);
  const response = await fetch(files.find(({ path }) => path === file)?.url ?? '');
  return response.ok ? response.text() : '';
};
const names = async (studio = 'ada') => (await ask('GET /bundles', studio)).value;

describe('a bundle on the shelf', () => {
  it('is begun from a starter, each time anew', async () => {
    const { starters } = (await ask('GET /starters')).value as { starters: string[] };
    expect(starters).toContain('breakwater-hat');
    const begin = { starter: 'breakwater-hat' };
    expect(await tell('POST /bundles', begin)).toEqual({ bundle: 'breakwater-hat' });
    expect(await tell('POST /bundles', begin)).toEqual({ bundle: 'breakwater-hat-2' });
    expect(await names()).toEqual({ bundles: ['breakwater-hat', 'breakwater-hat-2'] });
    expect(await names('bo')).toEqual({ bundles: [] });
  });

  it('is told with every file, whose bytes anybody may fetch who holds the address', async () => {
    const name = await lay();
    const { files, state, history, expires } = await show(name);
    expect(files.map(({ path }) => path)).toEqual([...skerryFiles().keys()].sort());
    for (const { path, hash, sizeBytes, url } of files) {
      const bytes = new Uint8Array(await (await fetch(url)).arrayBuffer());
      expect([bytes.length, hashBytes(bytes)], path).toEqual([sizeBytes, hash]);
    }
    expect(history).toEqual([]);
    expect(Date.parse(expires) - Date.now()).toBeGreaterThan(60_000);
    const frozen = await readTree(api.cloud.studio('ada').shelf, state);
    expect([...frozen.keys()]).toEqual(files.map(({ path }) => path));
  });

  it('is corrected, answered, given a file, and taken back', async () => {
    const name = await lay();
    const made = await tell(`POST /bundles/${name}/corrections`, titleFrom(await tagIn(name, GERMAN))); // prettier-ignore
    expect(made).toMatchObject({ number: 1, file: GERMAN, before: 'Skerry', after: 'Schäre' });
    expect(await textOf(name, GERMAN)).toContain('Schäre');
    const answer = { code: 'yarn/short', where: '/yarns/0', reason: ' Two balls. ' };
    const tag = await tagIn(name, 'pattern.json');
    await tell(`POST /bundles/${name}/acceptances`, { ...answer, tag });
    expect(await textOf(name, 'pattern.json')).toContain('"reason":"Two balls."');
    const french = { file: 'prose/fr.json', text: '{"title": "Écueil 🧶"}\n', said: 'texts' };
    await tell(`POST /bundles/${name}/replacements`, french);
    expect(await textOf(name, 'prose/fr.json')).toBe(french.text);
    expect(await tell(`POST /bundles/${name}/undo`, undefined)).toMatchObject({ undoes: 3 });
    expect((await show(name)).files.map(({ path }) => path)).not.toContain('prose/fr.json');
    const { history } = await show(name);
    expect(history.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });

  it('that nobody laid there is not there, under whatever name', async () => {
    await lay();
    const strange = ['..', '.', '%2e%2e', '..%2Fbo', 'skerry-hat%2F..%2Fskerry-hat', 'skerry-hat%00', '__proto__', 'Skerry-Hat', 'x'.repeat(300)]; // prettier-ignore
    for (const name of strange) {
      expect((await ask(`GET /bundles/${name}`)).status, name).toBe(404);
      const body = JSON.stringify(titleFrom('0'.repeat(32)));
      expect((await ask(`POST /bundles/${name}/corrections`, 'ada', body)).status).toBe(404);
      expect((await ask(`POST /bundles/${name}/undo`)).status).toBe(404);
    }
  });

  it.each(['..', 'render', 'README.md', '', 'breakwater-hat/../tideline-socks'])(
    'is not begun from %j',
    async (starter) => {
      const { value } = await ask('POST /bundles', 'ada', JSON.stringify({ starter }));
      expect(value).toMatchObject({ status: 404 });
      expect(await names()).toEqual({ bundles: [] });
    },
  );
});

describe('a change', () => {
  it('from an older page is told so, with the file that is another now', async () => {
    const name = await lay();
    const tag = await tagIn(name, GERMAN);
    await tell(`POST /bundles/${name}/corrections`, titleFrom(tag));
    const again = JSON.stringify(titleFrom(tag, 'Klippe'));
    const { value } = await ask(`POST /bundles/${name}/corrections`, 'ada', again);
    expect(value).toEqual({
      title: `${GERMAN} was changed since this page was made; nothing was written`,
      status: 409,
      detail: 'look at the pattern as it is now, then make the change again',
      place: GERMAN,
    });
    expect(await textOf(name, GERMAN)).toContain('Schäre');
  });

  it('made by two at once is made by one', async () => {
    const name = await lay();
    const tag = await tagIn(name, GERMAN);
    const ends = await Promise.all(
      ['Schäre', 'Klippe', 'Riff'].map((value) =>
        ask(`POST /bundles/${name}/corrections`, 'ada', JSON.stringify(titleFrom(tag, value))),
      ),
    );
    expect(ends.filter(({ status }) => status === 201)).toHaveLength(1);
    expect(ends.filter(({ status }) => status === 409)).toHaveLength(2);
    const { history } = await show(name);
    expect(history).toHaveLength(1);
    expect(await textOf(name, GERMAN)).toContain(history[0]?.after ?? 'none');
  });

  it('is made once where the answers of the store are lost', async () => {
    const name = await lay();
    const tag = await tagIn(name, GERMAN);
    const asked = new Set<string>();
    api.cloud.front.trouble = (request) => {
      if (!request.startsWith('PUT shelf/') || asked.has(request)) return undefined;
      asked.add(request);
      return { kind: 'lostAnswer' };
    };
    await tell(`POST /bundles/${name}/corrections`, titleFrom(tag));
    api.cloud.front.trouble = () => undefined;
    expect(asked.size).toBe(3);
    expect((await show(name)).history).toHaveLength(1);
  });

  it.each<readonly [string, string, number]>([
    ['replacements', JSON.stringify({ file: '../x.json', text: '{}', said: '' }), 422],
    ['replacements', JSON.stringify({ file: 'photos/cover.png', text: '', said: '' }), 422],
    ['replacements', JSON.stringify({ file: 'Prose/DE.json', text: '{}', said: '' }), 422],
    ['replacements', JSON.stringify({ file: 'x.json', text: '"x"', said: 'x'.repeat(401) }), 400],
    ['replacements', JSON.stringify({ file: 'x.json', said: '' }), 400],
    ['corrections', JSON.stringify({ ...titleFrom('0'.repeat(32)), file: 'none.json' }), 404],
    ['corrections', JSON.stringify({ ...titleFrom('0'.repeat(32)), more: 1 }), 400],
    ['corrections', JSON.stringify(titleFrom('no tag')), 400],
    ['corrections', JSON.stringify(titleFrom('0'.repeat(32), 'x'.repeat(8_001))), 400],
    ['corrections', 'x'.repeat(API_LIMITS.changeBytes + 1), 400],
    ['corrections', 'no JSON', 400],
    [
      'acceptances',
      JSON.stringify({ code: 'a/b', where: '', reason: '', tag: '0'.repeat(32) }),
      400,
    ],
    ['undo', '', 404],
  ])('to %s with %.50s is refused with %d', async (kind, body, status) => {
    const name = await lay();
    const before = (await show(name)).state;
    expect((await ask(`POST /bundles/${name}/${kind}`, 'ada', body)).status).toBe(status);
    expect(await show(name)).toMatchObject({ state: before, history: [] });
  });

  it.each(['/__proto__/title', '/constructor', '/title/0', 'title'])(
    'to the place %j, which is none, is refused',
    async (pointer) => {
      const name = await lay();
      const body = { ...titleFrom(await tagIn(name, GERMAN)), pointer };
      const { status } = await ask(
        `POST /bundles/${name}/corrections`,
        'ada',
        JSON.stringify(body),
      );
      expect(status).toBe(404);
    },
  );

  it('may be as large as a function may take, and no larger', async () => {
    const name = await lay();
    const texts = (letters: number) =>
      JSON.stringify({ file: 'prose/fr.json', text: `{"a":"${'x'.repeat(letters)}"}`, said: '' });
    const place = `POST /bundles/${name}/replacements`;
    expect((await ask(place, 'ada', texts(API_LIMITS.replacementBytes))).status).toBe(400);
    expect((await ask(place, 'ada', texts(4_000_000))).status).toBe(201);
  });

  it('is told to be tried again where the storage is busy', async () => {
    const name = await lay();
    const tag = await tagIn(name, GERMAN);
    api.cloud.front.trouble = (request) =>
      request.includes('head.json') ? { kind: 'busy', status: 503 } : undefined;
    const body = JSON.stringify(titleFrom(tag));
    const { status } = await ask(`POST /bundles/${name}/corrections`, 'ada', body);
    api.cloud.front.trouble = () => undefined;
    expect(status).toBe(503);
  });
});

describe('a bundle that is put away', () => {
  it('is listed no more, and comes back as it was', async () => {
    const name = await lay();
    await tell(`POST /bundles/${name}/corrections`, titleFrom(await tagIn(name, GERMAN)));
    const before = await show(name);
    const put = await tell<object>(`POST /bundles/${name}/away`, undefined, { status: 200 });
    expect(put).toMatchObject({ bundle: name });
    expect(await names()).toEqual({ bundles: [] });
    expect((await ask('GET /away')).value).toEqual({ away: [put] });
    for (const request of [
      `GET /bundles/${name}`,
      `POST /bundles/${name}/undo`,
      `POST /bundles/${name}/runs`,
      `POST /bundles/${name}/away`,
    ])
      // prettier-ignore
      expect((await ask(request)).status, request).toBe(404);
    expect((await ask(`POST /away/${name}/back`)).value).toEqual({ bundle: name });
    const { files, state, history } = await show(name);
    expect([state, history]).toEqual([before.state, before.history]);
    expect(files.map(({ hash }) => hash)).toEqual(before.files.map(({ hash }) => hash));
    expect((await ask(`POST /away/${name}/back`)).status).toBe(404);
  });

  it('keeps its name: the next one that is handed in gets another', async () => {
    const name = await lay();
    await ask(`POST /bundles/${name}/away`);
    expect(await lay()).toBe(`${name}-2`);
    expect((await ask(`POST /away/${name}/back`)).value).toEqual({ bundle: name });
  });

  it('is there to be put away and taken back by its own studio alone', async () => {
    const name = await lay();
    expect((await ask(`POST /bundles/${name}/away`, 'bo')).status).toBe(404);
    await ask(`POST /bundles/${name}/away`);
    expect((await ask('GET /away', 'bo')).value).toEqual({ away: [] });
    expect((await ask(`POST /away/${name}/back`, 'bo')).status).toBe(404);
    for (const strange of ['..', '%2e%2e', '..%2Fbo', `${name}%2F..%2F${name}`, '__proto__'])
      expect((await ask(`POST /away/${strange}/back`)).status, strange).toBe(404);
    expect(await names()).toEqual({ bundles: [] });
  });
});

describe('an upload for the shelf', () => {
  const hand = async (zip = bundle(), studio = 'ada') => {
    const opened = await open(studio, { into: 'shelf', leadTo: 'desk' });
    const { status, event } = await post(opened, zip);
    return { ...opened, status, event };
  };
  const layUpload = (upload: string, more: object = {}, studio = 'ada') =>
    ask('POST /bundles', studio, JSON.stringify({ upload, ...more }));

  it('leads back to the desk, and starts no run', async () => {
    const { upload, fields, status, event } = await hand();
    expect(status).toBe(303);
    expect(fields['key']).toBe(`ada/desk/${upload}.zip`);
    expect(fields['success_action_redirect']).toBe(
      `https://desk.northfold.example/handed-in/${upload}`,
    );
    expect((await api.cloud.endOf(event)).run).toBe('');
    expect((await ask(`GET /uploads/${upload}`)).value).toEqual({ upload });
    expect((await layUpload(upload)).value).toEqual({ bundle: 'skerry-hat' });
  });

  it.each([
    [{}, 'skerry-hat'],
    [{ name: 'Winter hat (3).zip' }, 'Winter-hat-3'],
    [{ name: '../../bo/hat' }, 'bo-hat'],
    [{ name: '…' }, 'pattern'],
  ])('with %j lies there as %s', async (more, name) => {
    const { upload } = await hand();
    expect((await layUpload(upload, more)).value).toEqual({ bundle: name });
  });

  it('asked for again is the same bundle, also by two at once', async () => {
    const { upload } = await hand();
    const ends = await Promise.all([layUpload(upload), layUpload(upload), layUpload(upload)]);
    expect(ends.filter(({ status }) => status === 201)).toHaveLength(1);
    expect(ends.filter(({ status }) => status === 409)).toHaveLength(2);
    expect((await layUpload(upload)).value).toEqual({ bundle: 'skerry-hat' });
    expect(await names()).toEqual({ bundles: ['skerry-hat'] });
  });

  it('whose laying broke off is laid after a while', async () => {
    const { upload } = await hand();
    const { shelf } = api.cloud.studio('ada');
    const claim = (since: number) =>
      shelf.put(
        `uploads/${upload}.json`,
        new TextEncoder().encode(JSON.stringify({ since: new Date(since).toISOString() })),
      );
    await claim(Date.now());
    expect((await layUpload(upload)).status).toBe(409);
    await claim(Date.now() - API_LIMITS.arrivalSeconds * 1000);
    expect((await layUpload(upload)).status).toBe(201);
  });

  it.each([
    ['no zip', new TextEncoder().encode('no zip'), 'the file is no zip'],
    [
      'a zip without a pattern',
      zipSync({ 'a.json': new Uint8Array(2) }),
      'there is no pattern.json in what was handed in',
    ],
    [
      'a zip that climbs out',
      zipSync({ 'pattern.json': new Uint8Array(2), '../x.json': new Uint8Array(2) }),
      'the zip cannot be read: invalid relative path: ../x.json',
    ],
  ])('that is %s is refused in words, each time', async (_title, zip, title) => {
    const { upload } = await hand(zip);
    for (const _each of ['first', 'again'])
      expect((await layUpload(upload)).value).toMatchObject({ status: 422, title });
    expect(await names()).toEqual({ bundles: [] });
  });

  it('of another studio, or one that never arrived, is not there', async () => {
    const { upload } = await hand();
    expect((await layUpload(upload, {}, 'bo')).status).toBe(404);
    const { upload: later } = await open('ada', { into: 'shelf' });
    expect((await layUpload(later)).status).toBe(404);
    const uploads = s3Store(clientOf(api.cloud.front), { bucket: 'uploads', prefix: '' });
    await uploads.put(arrivalKey('ada', later), bundle());
    expect((await layUpload(later)).status).toBe(201);
  });

  it('that was handed in to be published is not laid, and the other way round', async () => {
    const opened = await open();
    await post(opened);
    expect((await layUpload(opened.upload)).status).toBe(404);
  });

  it.each([
    '{"into": "shelf", "languages": ["de"]}',
    '{"into": "floor"}',
    '{"into": "shelf", "stage": "proof"}',
  ])('is not ordered by %s', async (body) => {
    expect((await ask('POST /uploads', 'ada', body)).status).toBe(400);
  });

  it.each(['{}', '{"upload": "../x"}', '{"starter": "a", "upload": "b"}', '[]', 'null'])(
    'is not laid by %s',
    async (body) => {
      expect((await ask('POST /bundles', 'ada', body)).status).toBe(400);
    },
  );
});

describe('an address of the shelf', () => {
  it('is good for that file alone, and for reading alone', async () => {
    const name = await lay();
    const [first, second] = (await show(name)).files;
    const elsewhere = (first?.url ?? '').replace(first?.hash ?? '', second?.hash ?? '');
    expect((await fetch(elsewhere)).status).toBe(403);
    expect((await fetch(first?.url ?? '', { method: 'PUT', body: 'x' })).status).toBe(403);
    expect((await fetch((first?.url ?? '').replace('/ada/', '/bo/'))).status).toBe(403);
    expect(first?.url).toContain(`/shelf/ada/files/${first?.hash}`);
    expect(tagOf(new Uint8Array(await (await fetch(first?.url ?? '')).arrayBuffer()))).toBe(
      first?.hash.slice(0, 32),
    );
  });
});
