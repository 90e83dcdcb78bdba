/**
 * The API as its callers meet it: a bundle handed in by a signed form, its run followed, its release
 * listed and fetched; and every way in that must be shut. Tokens are made and checked by the jose library.
 */
import { Validator } from '@seriousme/openapi-schema-validator';
import { exportJWK, generateKeyPair, SignJWT, UnsecuredJWT } from 'jose';
import type { CryptoKey, JWTPayload } from 'jose';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../functions/api/call.ts';
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import { hashBytes } from '../../src/base/hash.ts';
import { finding } from '../../src/findings/register.ts';
import { keepFindings, keepPictures } from '../../src/pipeline/claims.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { s3Store } from '../../src/store/s3.ts';
import { clientOf } from '../store/client.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';
import { objectCreated } from './events.ts';
import type { Gateway } from './gateway.ts';
import { openGateway, OPERATIONS } from './gateway.ts';

const ISSUER = 'https://identity.northfold.example/';
const AUDIENCE = 'castoff';

let cloud: Cloud;
let gateway: Gateway;
let keys: { readonly publicKey: CryptoKey; readonly privateKey: CryptoKey };

beforeAll(async () => {
  cloud = await startCloud();
  keys = await generateKeyPair('RS256', { extractable: true });
  const known = { ...(await exportJWK(keys.publicKey)), kid: 'k1', alg: 'RS256' };
  const { handler } = (await import('../../functions/api/handler.ts')) as {
    handler: (event: unknown) => Promise<Answer>;
  };
  const serve = (event: unknown) => handler(event);
  gateway = openGateway(serve, { issuer: ISSUER, audience: AUDIENCE, keys: { keys: [known] } });
});
afterAll(() => cloud.close());
beforeEach(() => cloud.clear());

interface Said {
  readonly key?: CryptoKey;
  readonly issuer?: string;
  readonly audience?: string;
  readonly from?: string;
  readonly until?: string;
}

const sign = (claims: JWTPayload, said: Said = {}): Promise<string> =>
  new SignJWT(claims)
    .setProtectedHeader({ alg: 'RS256', kid: 'k1' })
    .setIssuer(said.issuer ?? ISSUER)
    .setAudience(said.audience ?? AUDIENCE)
    .setIssuedAt()
    .setNotBefore(said.from ?? '-1 minute')
    .setExpirationTime(said.until ?? '5 minutes')
    .sign(said.key ?? keys.privateKey);

const tokenOf = (studio: unknown): Promise<string> => sign({ sub: 'someone', studio });

const ask = async (request: string, studio = 'ada', body?: string) =>
  gateway.ask(request, { token: await tokenOf(studio), ...(body !== undefined && { body }) });

interface Opened {
  readonly upload: string;
  readonly url: string;
  readonly fields: Readonly<Record<string, string>>;
}

async function open(studio = 'ada', order?: unknown): Promise<Opened> {
  const answer = await ask(
    'POST /uploads',
    studio,
    order === undefined ? '' : JSON.stringify(order),
  );
  expect(answer.status).toBe(201);
  return answer.value as Opened;
}

const bundle = (version = '1.0.0'): Uint8Array =>
  zipSync(Object.fromEntries(skerryFiles({ version })));

/** Posts the form as a browser does: the fields, then the file. */
async function post(
  { url, fields }: Opened,
  bytes: Uint8Array = bundle(),
  changes: Readonly<Record<string, string | undefined>> = {},
): Promise<{ readonly status: number; readonly event: unknown }> {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...fields, ...changes })) {
    if (value !== undefined) form.append(name, value);
  }
  form.append('file', new Blob([Uint8Array.from(bytes)]), 'bundle.zip');
  const { status, headers } = await fetch(url, { method: 'POST', body: form });
  const version = headers.get('x-amz-version-id') ?? '';
  return { status, event: objectCreated(fields['key'] ?? '', version, bytes.length) };
}

/** A bundle handed in through the API, and its run to the end. */
async function publish(studio = 'ada', order?: unknown) {
  const opened = await open(studio, order);
  const { status, event } = await post(opened);
  expect(status).toBe(204);
  const { run } = await cloud.endOf(event);
  return { ...opened, run };
}

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
    expect((await ask(`GET /runs/${run}`)).value).toEqual({
      run,
      state: 'released',
      findings: 0,
      blocking: 0,
      pattern: 'skerry-hat',
      version: '1.0.0',
    });
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
        /^attachment; filename="[\w.-]+"$/,
      );
      expect(hashBytes(new Uint8Array(await response.arrayBuffer()))).toBe(artifact);
    }
  });

  it('orders languages and editions with the upload', async () => {
    await publish('ada', { languages: ['de'], editions: [{ kind: 'large' }] });
    const { value } = await ask('GET /releases/skerry-hat/1.0.0');
    expect(value).toMatchObject({ languages: ['de'] });
    expect(cloud.rooms.worked.filter((each) => each.startsWith('compose'))).toEqual(['compose de']);
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
    cloud.rooms = studioRooms({ findings: () => [slip] });
    const { run } = await publish();
    const blocked = { run, state: 'blocked', findings: 1, blocking: 1 };
    expect((await ask(`GET /runs/${run}`)).value).toEqual(blocked);
    expect((await ask(`GET /runs/${run}/findings`)).value).toMatchObject({
      blocking: 1,
      more: 0,
      findings: [{ code: 'bundle/shape' }],
    });
    const { event } = await post(await open(), new TextEncoder().encode('no zip'));
    const failed = await cloud.endOf(event);
    expect((await ask(`GET /runs/${failed.run}`)).value).toMatchObject({
      state: 'failed',
      message: 'the file is no zip',
      place: 'the zip',
      remedy: 'name the folder that holds pattern.json, or a zip of it',
    });
  });

  it('sees a run at work, and one that never told its end', async () => {
    const { work } = cloud.studio('ada');
    await keepStart(work, startOf('young'));
    await keepStart(work, startOf('old', new Date(0)));
    expect((await ask('GET /runs/young')).value).toMatchObject({ state: 'working', done: [] });
    expect((await ask('GET /runs/old')).value).toMatchObject({ state: 'lost' });
  });

  it('sees how far a run has come', async () => {
    const { work } = cloud.studio('ada');
    await keepStart(work, startOf('young'));
    await keepFindings(work, 'young', []);
    expect((await ask('GET /runs/young')).value).toMatchObject({ done: ['intake'] });
    await keepPictures(work, 'young', []);
    expect((await ask('GET /runs/young')).value).toMatchObject({
      done: ['intake', 'check', 'pictures'],
    });
  });

  it('turns the pages of a long list', async () => {
    const { releases } = cloud.studio('ada');
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
    cloud.front.trouble = () => ({ kind: 'busy', status: 503 });
    const { status } = await ask('GET /releases/skerry-hat/1.0.0');
    cloud.front.trouble = () => undefined;
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
    const uploads = s3Store(clientOf(cloud.front), { bucket: 'uploads', prefix: '' });
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
    const again = await cloud.endOf((await post(first)).event);
    expect(again.run).not.toBe(first.run);
    expect((await ask(`GET /uploads/${first.upload}`)).value).toMatchObject({ run: again.run });
  });
});

// ---------------------------------------------------------------- who must not come in

const ALTERED = (token: string, part: 0 | 1 | 2): string => {
  const parts = token.split('.');
  const bytes = Buffer.from(parts[part] ?? '', 'base64url');
  bytes[bytes.length >> 1] = (bytes[bytes.length >> 1] ?? 0) ^ 1;
  parts[part] = bytes.toString('base64url');
  return parts.join('.');
};

/** The same words under another studio’s name, with the signature of the first. */
const renamed = (token: string): string => {
  const [head, body = '', signature] = token.split('.');
  const said = JSON.parse(Buffer.from(body, 'base64url').toString('utf8')) as object;
  const other = Buffer.from(JSON.stringify({ ...said, studio: 'bo' })).toString('base64url');
  return [head, other, signature].join('.');
};

const claims = { sub: 'someone', studio: 'ada' };
const BAD_TOKENS: readonly (readonly [string, () => Promise<string | undefined> | undefined])[] = [
  ['without a token', () => undefined],
  ['with an empty token', async () => ''],
  ['with something that is no token', async () => 'Basic YWRhOnNlY3JldA=='],
  ['with an expired token', () => sign(claims, { until: '-1 minute', from: '-1 hour' })],
  ['with a token of tomorrow', () => sign(claims, { from: '1 day', until: '2 days' })],
  ['with a token of another issuer', () => sign(claims, { issuer: 'https://elsewhere.example/' })],
  ['with a token for somebody else', () => sign(claims, { audience: 'another-service' })],
  [
    'with a token under a foreign key',
    async () => sign(claims, { key: (await generateKeyPair('RS256')).privateKey }),
  ],
  ['with an altered head', async () => ALTERED(await sign(claims), 0)],
  ['with altered claims', async () => ALTERED(await sign(claims), 1)],
  ['with an altered signature', async () => ALTERED(await sign(claims), 2)],
  ['with another studio’s name put in', async () => renamed(await sign(claims))],
  [
    'with a token that is not signed',
    async () =>
      new UnsecuredJWT(claims)
        .setIssuer(ISSUER)
        .setAudience(AUDIENCE)
        .setExpirationTime('1 hour')
        .encode(),
  ],
  [
    'with the public key used as a secret',
    async () => {
      const secret = Buffer.from(JSON.stringify(await exportJWK(keys.publicKey)));
      return new SignJWT(claims)
        .setProtectedHeader({ alg: 'HS256', kid: 'k1' })
        .setIssuer(ISSUER)
        .setAudience(AUDIENCE)
        .setExpirationTime('1 hour')
        .sign(secret);
    },
  ],
];

/** Each route, as the designer Ada would ask for what is hers. */
function requestsFor(upload: string, run: string): ReadonlyMap<string, string> {
  const words: Readonly<Record<string, string>> = {
    upload,
    run,
    pattern: 'skerry-hat',
    version: '1.0.0',
  };
  const requests = OPERATIONS.map(({ route }) => {
    const filled = route.replaceAll(/\{(\w+)\}/g, (_all, name: string) => words[name] ?? '');
    const query = route.endsWith('download') ? '?path=de/skerry-hat-1.0.0-de.pdf' : '';
    return [route, `${filled}${query}`] as const;
  });
  return new Map(requests);
}

describe.each(OPERATIONS.map(({ route }) => route))('%s', (route) => {
  it.each(BAD_TOKENS)('is shut %s', async (_title, token) => {
    const request = requestsFor(crypto.randomUUID(), 'r').get(route) ?? '';
    const { status } = await gateway.ask(request, { token: await token() });
    expect(status).toBe(401);
  });

  it.each([undefined, '', 'Ada', '..', 'ada/../bo', 'ada/x', ['ada'], { ada: 1 }, 'x'.repeat(99)])(
    'is shut to a token whose studio is %j',
    async (studio) => {
      const request = requestsFor(crypto.randomUUID(), 'r').get(route) ?? '';
      const { status } = await gateway.ask(request, { token: await tokenOf(studio) });
      expect(status).toBe(403);
    },
  );

  it('opens to its owner, and shows nothing of it to another studio', async () => {
    const { upload, run } = await publish();
    const request = requestsFor(upload, run).get(route) ?? '';
    const own = await ask(request);
    expect([200, 201]).toContain(own.status);
    const foreign = await ask(request, 'bo');
    switch (route) {
      case 'POST /uploads':
        expect((foreign.value as Opened).fields['key']).toMatch(/^bo\/[0-9a-f-]{36}\.zip$/);
        break;
      case 'GET /uploads/{upload}':
        expect(foreign.value).toEqual({ upload });
        break;
      case 'GET /releases':
        expect(foreign.value).toEqual({ releases: [] });
        break;
      default:
        expect(foreign.status).toBe(404);
    }
    const nothing = request.replace(run, 'no-such-run').replace('skerry-hat', 'no-such-hat');
    if (foreign.status === 404) expect(await ask(nothing)).toEqual(foreign);
  });
});
