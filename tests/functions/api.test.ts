/**
 * The API as its callers meet it: a bundle handed in by a signed form, its run followed, its release
 * listed and fetched. The shelf, the drafts and every way in that must be shut have files of their own.
 */
import { Validator } from '@seriousme/openapi-schema-validator';
import { describe, expect, it } from 'vitest';
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import { hashBytes } from '../../src/base/hash.ts';
import { finding } from '../../src/findings/register.ts';
import { keepFindings, keepPictures } from '../../src/pipeline/claims.ts';
import { keepFollows } from '../../src/pipeline/follows.ts';
import { keepPlan, proofRun } from '../../src/pipeline/run-progress.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { studioRooms } from '../pipeline/studio.ts';
import { s3Store } from '../../src/store/s3.ts';
import { clientOf } from '../store/client.ts';
import { bundle, OpenedApi, post } from './opened-api.ts';

const api = new OpenedApi();
const { ask, open, publish } = api;

const startOf = (run: string, at = new Date()) => ({
  run,
  at: at.toISOString(),
  source: 'none',
  settings: {},
});

describe('the document of the API', () => {
  it('is OpenAPI 3.1, as its published schema judges', async () => {
    // The schema of spec.openapis.org, in @seriousme/openapi-schema-validator.
    const validator = new Validator();
    expect(await validator.validate(structuredClone(openapi))).toEqual({ valid: true });
    expect(validator.version).toBe('3.1');
  });
});

describe('a designer', () => {
  it('hands a bundle in, follows it and fetches the release', async () => {
    const { upload, run } = await publish();
    expect((await ask(`GET /uploads/${upload}`)).value).toEqual({ upload, run });
    const told = {
      run,
      state: 'released',
      startedAt: expect.any(String),
      settings: {},
      findings: 0,
      blocking: 0,
      pattern: 'skerry-hat',
      version: '1.0.0',
      made: 8,
      reused: 0,
    };
    expect((await ask(`GET /runs/${run}`)).value).toEqual({
      ...told,
      done: ['intake', 'check', 'pictures', 'stage'],
      documents: [
        { language: 'en-US', edition: 'standard', done: true },
        { language: 'de', edition: 'standard', done: true },
      ],
    });
    expect((await ask('GET /runs')).value).toEqual({ runs: [told] });
    expect((await ask('GET /releases')).value).toEqual({
      releases: [{ pattern: 'skerry-hat', version: '1.0.0' }],
    });
    const manifest = (await ask('GET /releases/skerry-hat/1.0.0')).value as {
      readonly files: readonly { readonly path: string; readonly artifact: string }[];
    };
    for (const { path, artifact } of manifest.files) {
      const asked = `GET /releases/skerry-hat/1.0.0/download?path=${encodeURIComponent(path)}`;
      const { url } = (await ask(asked)).value as { readonly url: string };
      const response = await fetch(url);
      expect(response.headers.get('content-disposition')).toMatch(
        /\.(pdf|jpe?g|png|webp|avif|txt)$/.test(path)
          ? /^inline; filename="[\w.-]+"$/
          : /^attachment; filename="[\w.-]+"$/,
      );
      expect(hashBytes(new Uint8Array(await response.arrayBuffer()))).toBe(artifact);
    }
  });

  it('lists a proof, and fetches its files by its name', async () => {
    await publish('ada', { stage: 'proof' });
    expect((await ask('GET /releases')).value).toEqual({ releases: [] });
    expect((await ask('GET /releases/skerry-hat')).value).toEqual({
      pattern: 'skerry-hat',
      versions: [],
      copies: [{ name: '1.0.0-proof-1', version: '1.0.0', stage: 'proof', copy: 1 }],
    });
    const copy = 'GET /releases/skerry-hat/1.0.0-proof-1';
    const { files } = (await ask(copy)).value as {
      readonly files: readonly { readonly path: string; readonly artifact: string }[];
    };
    const [{ path, artifact } = { path: '', artifact: '' }] = files;
    const asked = await ask(`${copy}/download?path=${encodeURIComponent(path)}`);
    const response = await fetch((asked.value as { readonly url: string }).url);
    expect(hashBytes(new Uint8Array(await response.arrayBuffer()))).toBe(artifact);
    expect((await ask(copy, 'bea')).status).toBe(404);
    for (const none of ['1.0.0', '1.0.0-proof-2', '1.0.0-test-1', '1.0.0-proof-0'])
      expect((await ask(`GET /releases/skerry-hat/${none}`)).status).toBe(404);
  });

  it('orders languages and editions with the upload', async () => {
    await publish('ada', { languages: ['de'], editions: [{ kind: 'large' }] });
    const { value } = await ask('GET /releases/skerry-hat/1.0.0');
    expect(value).toMatchObject({ languages: ['de'] });
    expect(api.cloud.rooms.worked.filter((each) => each.startsWith('compose'))).toEqual([
      'compose de',
    ]);
  });

  it.each([
    ['{"languages": "de"}', 'The order cannot be read'],
    ['{"languages": []}', 'The order cannot be read'],
    ['{"colour": "red"}', 'The order cannot be read'],
    ['{"editions": [{"kind": "golden"}]}', 'The order cannot be read'],
    ['languages', 'The order is no JSON'],
    [`{"languages": ["${'x'.repeat(20_000)}"]}`, 'The request is too long'],
  ])('is told what is wrong with the order %.40s', async (body, title) => {
    const { status, value } = await ask('POST /uploads', 'ada', body);
    expect([status, (value as { title: string }).title]).toEqual([400, title]);
  });

  it('reads what was found, and what went wrong', async () => {
    const slip = finding('bundle/shape', { file: 'pattern.json', pointer: '/x' }, { problem: 'p' });
    api.cloud.rooms = studioRooms({ findings: () => [slip] });
    const { run } = await publish();
    const blocked = { state: 'blocked', findings: 1, blocking: 1, pattern: 'skerry-hat' };
    expect((await ask(`GET /runs/${run}`)).value).toMatchObject({ ...blocked, done: ['intake'] });
    expect((await ask(`GET /runs/${run}/findings`)).value).toMatchObject({
      blocking: 1,
      more: 0,
      findings: [{ code: 'bundle/shape' }],
    });
    const { event } = await post(await open(), new TextEncoder().encode('no zip'));
    const failed = await api.cloud.endOf(event);
    expect((await ask(`GET /runs/${failed.run}`)).value).toMatchObject({
      state: 'failed',
      message: 'the file is no zip',
      place: 'the zip',
      remedy: 'name the folder that holds pattern.json, or a zip of it',
    });
  });

  it('sees a run at work, and one that never told its end', async () => {
    const { work } = api.cloud.studio('ada');
    await keepStart(work, startOf('young'));
    await keepStart(work, startOf('old', new Date(0)));
    expect((await ask('GET /runs/young')).value).toMatchObject({ state: 'working', done: [] });
    expect((await ask('GET /runs/old')).value).toMatchObject({ state: 'lost' });
  });

  it('sees how far a run has come', async () => {
    const { work } = api.cloud.studio('ada');
    await keepStart(work, startOf('young'));
    await keepFindings(work, 'young', []);
    expect((await ask('GET /runs/young')).value).toMatchObject({ done: ['intake'] });
    const order = {
      language: 'de',
      edition: { kind: 'one-size', size: 'S', paper: 'A4' },
    } as const;
    const orders = [order, { ...order, language: 'fr', stage: 'proof' as const }];
    await keepPlan(work, 'young', { pattern: 'skerry-hat', version: '1.0.0', orders });
    await keepFollows(work, 'young', { earlier: [], history: {} });
    await keepPictures(work, 'young', []);
    await keepFindings(work, proofRun('young', order), []);
    const document = { language: 'de', edition: 'one-size', size: 'S', paper: 'A4', done: true };
    expect((await ask('GET /runs/young')).value).toMatchObject({
      pattern: 'skerry-hat',
      version: '1.0.0',
      done: ['intake', 'check', 'pictures'],
      documents: [document, { ...document, language: 'fr', stage: 'proof', done: false }],
    });
  });

  it('turns the pages of a long list', async () => {
    const { releases } = api.cloud.studio('ada');
    const versions = Array.from({ length: 25 }, (_, each) => `1.${each}.0`);
    for (const version of versions) {
      await releases.put(`releases/skerry-hat/${version}/manifest.json`, new Uint8Array(1));
      await releases.put(`releases/skerry-hat/current.json`, new Uint8Array(1));
    }
    const found: string[] = [];
    let after = '';
    do {
      const { value } = await ask(`GET /releases?limit=10${after && `&after=${after}`}`);
      const { releases: page, next } = value as {
        readonly releases: readonly { readonly version: string }[];
        readonly next?: string;
      };
      found.push(...page.map(({ version }) => version));
      expect(page.length).toBe(next === undefined ? 5 : 10);
      after = next ?? '';
    } while (after !== '');
    expect(found.toSorted()).toEqual(versions.toSorted());
    const { value } = await ask('GET /releases/skerry-hat');
    expect((value as { versions: string[] }).versions).toEqual(versions);
  });

  it.each([
    ['GET /releases?limit=0', 400],
    ['GET /releases?limit=101', 400],
    ['GET /releases?after=../../bo', 400],
    ['GET /releases?after=skerry-hat/1.0.0/x', 400],
    ['GET /uploads/not-a-uuid', 400],
    ['GET /releases/skerry-hat/1.0.0/download', 400],
    ['GET /releases/skerry-hat/1.0.0/download?path=de/x.pdf', 404],
    ['GET /runs/..%2F..%2Fbo%2Fruns%2Fr', 404],
    ['GET /releases/..%2Fbo/1.0.0', 404],
    ['GET /releases/skerry-hat/..%2F1.0.0', 404],
    ['DELETE /releases/skerry-hat', 404],
  ])('is refused %s with %d', async (request, status) => {
    expect((await ask(request)).status).toBe(status);
  });

  it('is told to try again where the storage is busy', async () => {
    api.cloud.front.trouble = () => ({ kind: 'busy', status: 503 });
    const { status } = await ask('GET /releases/skerry-hat/1.0.0');
    api.cloud.front.trouble = () => undefined;
    expect(status).toBe(503);
  });
});

describe('a signed form', () => {
  it.each([
    ['another studio’s folder', { key: 'bo/stolen.zip' }],
    ['another name', { key: 'ada/other.zip' }],
    ['another order', { 'x-amz-meta-castoff-settings': 'eyJ9' }],
    ['another way on', { success_action_redirect: 'https://elsewhere.example/' }],
    ['no order', { 'x-amz-meta-castoff-settings': undefined }],
    ['a field more', { 'x-amz-meta-more': 'x' }],
    ['another policy', { Policy: Buffer.from('{}').toString('base64') }],
    ['no policy', { Policy: undefined }],
    ['another kind of file', { 'Content-Type': 'text/html' }],
  ])('is refused with %s', async (_title, changes) => {
    const opened = await open();
    expect((await post(opened, bundle(), changes)).status).toBe(403);
    const stored: string[] = [];
    const uploads = s3Store(clientOf(api.cloud.front), { bucket: 'uploads', prefix: '' });
    for await (const { key } of uploads.list('')) stored.push(key);
    expect(stored).toEqual([]);
  });

  it('leads the browser to the page of its upload, and nowhere else', async () => {
    const opened = await open('ada', { leadTo: 'desk' });
    expect(opened.fields['success_action_redirect']).toBe(
      `https://desk.northfold.example/handed-in/${opened.upload}`,
    );
    const elsewhere = { success_action_redirect: 'https://elsewhere.example/' };
    expect((await post(opened, bundle(), elsewhere)).status).toBe(403);
    const named = JSON.stringify({ leadTo: 'https://elsewhere.example/' });
    expect((await ask('POST /uploads', 'ada', named)).status).toBe(400);
  });

  it('is refused where the bundle is too large', async () => {
    const opened = await open();
    const policy = JSON.parse(
      Buffer.from(opened.fields['Policy'] ?? '', 'base64').toString('utf8'),
    ) as { readonly conditions: readonly unknown[] };
    expect(policy.conditions).toContainEqual(['content-length-range', 1, 300 * 1024 * 1024]);
    expect((await post(opened, new Uint8Array())).status).toBe(400);
  });

  it('names the run even where it is posted twice', async () => {
    const first = await publish();
    const again = await api.cloud.endOf((await post(first)).event);
    expect(again.run).not.toBe(first.run);
    expect((await ask(`GET /uploads/${first.upload}`)).value).toMatchObject({ run: again.run });
  });
});
