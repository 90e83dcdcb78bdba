/**
 * Every way into the API that must be shut: each route with each wrong token, and from another studio. A
 * route that is not in the table here fails. Tokens are made and checked by the jose library.
 */
import { exportJWK, generateKeyPair, SignJWT, UnsecuredJWT } from 'jose';
import { describe, expect, it } from 'vitest';
import { present } from '../../src/base/assert.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { tagOf } from '../../src/shelf/shelf.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { AUDIENCE, ISSUER } from './callers.ts';
import { OPERATIONS } from './gateway.ts';
import { OpenedApi } from './opened-api.ts';

const api = new OpenedApi();
const { ask, publish } = api;

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
  [
    'with an expired token',
    () => api.callers.sign(claims, { until: '-1 minute', from: '-1 hour' }),
  ],
  ['with a token of tomorrow', () => api.callers.sign(claims, { from: '1 day', until: '2 days' })],
  [
    'with a token of another issuer',
    () => api.callers.sign(claims, { issuer: 'https://elsewhere.example/' }),
  ],
  [
    'with a token for somebody else',
    () => api.callers.sign(claims, { audience: 'another-service' }),
  ],
  [
    'with a token under a foreign key',
    async () => api.callers.sign(claims, { key: (await generateKeyPair('RS256')).privateKey }),
  ],
  ['with an altered head', async () => ALTERED(await api.callers.sign(claims), 0)],
  ['with altered claims', async () => ALTERED(await api.callers.sign(claims), 1)],
  ['with an altered signature', async () => ALTERED(await api.callers.sign(claims), 2)],
  ['with another studio’s name put in', async () => renamed(await api.callers.sign(claims))],
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
      const secret = Buffer.from(JSON.stringify(await exportJWK(api.callers.keys.publicKey)));
      return new SignJWT(claims)
        .setProtectedHeader({ alg: 'HS256', kid: 'k1' })
        .setIssuer(ISSUER)
        .setAudience(AUDIENCE)
        .setExpirationTime('1 hour')
        .sign(secret);
    },
  ],
];

/** What is Ada’s: each name stands for the words in the braces of a route. */
type Owned = Readonly<Record<string, string>>;

/** Where nothing is hers yet: what the routes are asked for by those who are not let in. */
const NOTHING: Owned = {
  upload: crypto.randomUUID(),
  draft: crypto.randomUUID(),
  run: 'r',
  bundle: 'skerry-hat',
  pattern: 'skerry-hat',
  version: '1.0.0',
};

async function owned(): Promise<Owned> {
  const { upload, run } = await publish();
  await ask('POST /releases/skerry-hat/1.0.0/zip');
  const { draft, put } = await api.tell<{ draft: string; put: { url: string; headers: object } }>(
    'POST /drafts',
    { contentType: 'application/pdf', sizeBytes: 3 },
  );
  await fetch(put.url, { method: 'PUT', body: 'pdf', headers: { ...put.headers } });
  const bundle = await api.lay();
  await api.tell(`POST /bundles/${bundle}/corrections`, CORRECTION);
  await ask(`POST /bundles/${await api.lay()}/away`);
  const { work } = api.cloud.studio('ada');
  const young = { run: 'young', at: new Date().toISOString(), source: 'none', settings: {} };
  await keepStart(work, young);
  return { ...NOTHING, upload, run, draft, bundle };
}

const german = skerryFiles().get('prose/de.json') ?? new Uint8Array();
const CORRECTION = {
  file: 'prose/de.json',
  pointer: '/title',
  value: 'Schäre',
  tag: tagOf(german),
};
const FRENCH = { file: 'prose/fr.json', text: '{}', said: 'texts' };
const patternTag = tagOf(skerryFiles().get('pattern.json') ?? new Uint8Array());
const ACCEPTANCE = { code: 'yarn/short', where: '/yarns/0', reason: 'Two balls.', tag: patternTag };

interface Entry {
  readonly body?: unknown;
  readonly query?: string;
  /** What the owner is answered. */
  readonly own?: number;
  /** What another studio sees; left out where it is told that there is no such thing. */
  readonly foreign?: (value: unknown, owned: Owned) => void;
  /** Words that stand for others than those of `owned`. */
  readonly words?: Owned;
}

const is = (expected: unknown) => (value: unknown) => expect(value).toEqual(expected);

const ROUTES: Readonly<Record<string, Entry>> = {
  'POST /uploads': {
    own: 201,
    foreign: (value) =>
      expect((value as { fields: { key: string } }).fields.key).toMatch(/^bo\/[0-9a-f-]{36}\.zip$/),
  },
  'GET /uploads/{upload}': { foreign: (value, { upload }) => is({ upload })(value) },
  'GET /bundles': { foreign: is({ bundles: [] }) },
  'POST /bundles': {
    body: { starter: 'breakwater-hat' },
    own: 201,
    foreign: is({ bundle: 'breakwater-hat' }),
  },
  'GET /starters': { foreign: (value) => expect(value).toHaveProperty('starters') },
  'GET /bundles/{bundle}': {},
  'POST /bundles/{bundle}/corrections': {
    body: {
      ...CORRECTION,
      file: 'pattern.json',
      pointer: '/level',
      value: 'intermediate',
      tag: patternTag,
    },
    own: 201,
  },
  'POST /bundles/{bundle}/acceptances': { body: ACCEPTANCE, own: 201 },
  'POST /bundles/{bundle}/replacements': { body: FRENCH, own: 201 },
  'POST /bundles/{bundle}/undo': { own: 201 },
  'POST /bundles/{bundle}/away': {},
  'GET /away': { foreign: is({ away: [] }) },
  'POST /away/{bundle}/back': { words: { bundle: 'skerry-hat-2' } },
  'POST /bundles/{bundle}/runs': { own: 202 },
  'POST /drafts': {
    body: { contentType: 'application/pdf', sizeBytes: 3 },
    own: 201,
    foreign: (value) =>
      expect((value as { put: { url: string } }).put.url).toContain('/bo/drafts/'),
  },
  'GET /drafts/{draft}': {},
  'GET /runs': { foreign: is({ runs: [] }) },
  'GET /runs/{run}': {},
  'GET /runs/{run}/findings': {},
  'POST /runs/{run}/stop': { own: 202, words: { run: 'young' } },
  'GET /releases': { foreign: is({ releases: [] }) },
  'GET /releases/{pattern}': {},
  'GET /releases/{pattern}/{version}': {},
  'GET /releases/{pattern}/{version}/zip': { own: 202 },
  'POST /releases/{pattern}/{version}/zip': { own: 202 },
  'GET /releases/{pattern}/{version}/download': { query: '?path=de/skerry-hat-1.0.0-de.pdf' },
};

const entryOf = (route: string): Entry => present(ROUTES[route], `an entry for ${route}`);

/** The route with its words filled in. */
const requestFor = (route: string, given: Owned): string => {
  const { query = '', words = {} } = entryOf(route);
  const known = { ...given, ...words };
  return route.replaceAll(/\{(\w+)\}/g, (_all, name: string) => known[name] ?? '') + query;
};

const bodyOf = (route: string): string | undefined => {
  const { body } = entryOf(route);
  return body === undefined ? undefined : JSON.stringify(body);
};

describe.each(OPERATIONS.map(({ route }) => route))('%s', (route) => {
  it.each(BAD_TOKENS)('is shut %s', async (_title, token) => {
    const { status } = await api.callers.gateway.ask(requestFor(route, NOTHING), {
      token: await token(),
    });
    expect(status).toBe(401);
  });

  it.each([undefined, '', 'Ada', '..', 'ada/../bo', 'ada/x', ['ada'], { ada: 1 }, 'x'.repeat(99)])(
    'is shut to a token whose studio is %j',
    async (studio) => {
      const asked = { token: await api.callers.tokenOf(studio) };
      const { status } = await api.callers.gateway.ask(requestFor(route, NOTHING), asked);
      expect(status).toBe(403);
    },
  );

  it('opens to its owner, and shows nothing of it to another studio', async () => {
    const hers = await owned();
    const { own = 200, foreign } = entryOf(route);
    const request = requestFor(route, hers);
    const strange = await ask(request, 'bo', bodyOf(route));
    if (foreign) foreign(strange.value, hers);
    else {
      expect(strange.status).toBe(404);
      const nothing = { run: 'no-such-run', pattern: 'no-such-hat', bundle: 'no-such-bundle' };
      const nowhere = { ...hers, ...nothing, draft: crypto.randomUUID() };
      const answered = await ask(requestFor(route, nowhere), 'bo', bodyOf(route));
      // A shelf tells the name that was asked for, so that a page can.
      const { place: _place, ...told } = strange.value as { place?: string };
      expect({ ...answered, value: { ...(answered.value as object), place: undefined } }).toEqual({
        ...strange,
        value: { ...told, place: undefined },
      });
    }
    const answer = await ask(request, 'ada', bodyOf(route));
    expect(answer.status, JSON.stringify(answer.value)).toBe(own);
  });
});
