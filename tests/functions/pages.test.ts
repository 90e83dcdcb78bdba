/**
 * Who may see the pages in the cloud: every address of the desk, out of the desk's own table, is asked for
 * with every bad token and by another studio; forms come from our own pages or not at all; what is hostile
 * or too large is refused in words. Attacks follow the OWASP cheat sheets on cross-site request forgery,
 * path traversal and JSON Web Tokens.
 */
import { generateKeyPair, UnsecuredJWT } from 'jose';
import { zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { DESK_ADDRESSES } from '../../src/desk/routes.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { begin, led, release, sendToStore, uploadForm } from './at-work.ts';
import { type Browser, HOME } from './browser.ts';
import { CLIENT, ISSUER } from './issuer.ts';
import { OpenedPages } from './opened-pages.ts';

const desk = new OpenedPages({ keeps: true });

let [ada, bo]: readonly (Browser | undefined)[] = [];
/** What the open words of an address stand for in Ada’s studio. */
let words: Readonly<Record<string, string>> = {};
/** An answer of hers that waits for a yes. */
let waits = '';

beforeAll(async () => {
  ada = await desk.signIn('ada');
  bo = await desk.signIn('bo');
  const at = await begin(ada);
  const upload = await sendToStore(uploadForm((await ada.get('/')).html), zipSync(Object.fromEntries(skerryFiles()))); // prettier-ignore
  expect(led(await ada.get(upload))).toBe('/patterns/skerry-hat');
  const run = await release(desk, ada, at);
  words = {
    name: 'breakwater-hat',
    pattern: 'breakwater-hat',
    version: '1.0.0',
    path: 'de/listing.txt',
    upload: upload.split(/[/?]/)[2] ?? '',
    run,
    tag: 'de',
    kind: 'csv',
  };
  const table = (await ada.get(`${at}/numbers.csv`)).html;
  const form = new FormData();
  form.append('paper', new Blob([table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, '$199')]), 'n.csv'); // prettier-ignore
  waits =
    /name="waits" value="([^"]+)"/.exec((await ada.post(`${at}/sheet`, form)).html)?.[1] ?? '';
  expect(waits).not.toBe('');
});

/** As both sign in anew for each test, whose token lasts five minutes. */
const both = (): readonly [Browser, Browser] => {
  if (!ada || !bo) throw new Error('nobody has signed in');
  return [ada, bo];
};

const QUERIES: Readonly<Record<string, string>> = {
  '/patterns/:name/rule': '?number=cast-on-sts',
  '/patterns/:name/packet/test.zip': '?language=en-US&size=S',
  '/patterns/:name/texts/:tag.:kind': '?all',
  '/patterns/:name/texts/new.:kind': '?tag=de&all',
};

function addressOf(address: string, given = words): string {
  const kind = address.includes('texts') ? 'xlf' : given['kind'];
  const word = (name: string) => (name === 'kind' ? kind : given[name]) ?? name;
  const path = address
    .replaceAll(/:(\w+)/g, (_all, name: string) => word(name))
    .replace('*', word('path'));
  return path + (QUERIES[address] ?? '');
}

const altered = (token: string, part: 0 | 1 | 2): string => {
  const parts = token.split('.');
  const bytes = Buffer.from(parts[part] ?? '', 'base64url');
  bytes[bytes.length >> 1] = (bytes[bytes.length >> 1] ?? 0) ^ 1;
  parts[part] = bytes.toString('base64url');
  return parts.join('.');
};
const claims = { sub: 'someone', studio: 'ada' };
const sign: OpenedPages['issuer']['sign'] = (said, terms) => desk.issuer.sign(said, terms);
const BAD_TOKENS: readonly (readonly [string, () => Promise<string | undefined> | undefined])[] = [
  ['without a token', () => undefined],
  ['with an empty token', async () => ''],
  ['with something that is no token', async () => 'YWRhOnNlY3JldA=='],
  ['with an expired token', () => sign(claims, { until: '-1 minute', from: '-1 hour' })],
  ['with a token of tomorrow', () => sign(claims, { from: '1 day', until: '2 days' })],
  ['with a token of another issuer', () => sign(claims, { issuer: 'https://x.example/' })],
  ['with a token for somebody else', () => sign(claims, { audience: 'castoff' })],
  ['with a token for several', () => sign(claims, { audience: [CLIENT, 'another'] })],
  ['with a token under a foreign key', async () => sign(claims, { key: (await generateKeyPair('RS256')).privateKey })],
  ['with an altered head', async () => altered(await sign(claims), 0)],
  ['with altered claims', async () => altered(await sign(claims), 1)],
  ['with an altered signature', async () => altered(await sign(claims), 2)],
  ['with a token that is not signed', async () =>
    new UnsecuredJWT(claims).setIssuer(ISSUER).setAudience(CLIENT).setExpirationTime('1 hour').encode()],
]; // prettier-ignore

describe.each([...DESK_ADDRESSES, ['POST', '/sign-out'] as const])('%s %s', (method, address) => {
  it('is shut to strangers, and asks the API for nothing', async () => {
    for (const [title, token] of BAD_TOKENS) {
      const browser = desk.browser();
      const given = await token();
      if (given !== undefined) browser.jar.set('__Host-desk', given);
      const asked = desk.asked.length;
      const wanted = addressOf(address);
      const { status, location, html } =
        method === 'POST' ? await browser.post(wanted, {}) : await browser.get(wanted);
      const to = encodeURIComponent(method === 'POST' ? '/' : wanted);
      expect([title, status, location, html]).toEqual([title, 303, `/sign-in?to=${to}`, '']);
      expect([title, browser.jar.has('__Host-desk')]).toEqual([title, false]);
      expect(desk.asked).toHaveLength(asked);
    }
  });
});

const OF_A_STUDIO = DESK_ADDRESSES.filter(([, address]) => address.includes(':'));

describe.each(OF_A_STUDIO.filter(([method]) => method === 'GET'))('%s %s', (_method, address) => {
  it('opens to its owner, and is not there for another studio', async () => {
    const [own, foreign] = await Promise.all(both().map((each) => each.get(addressOf(address))));
    expect([200, 202, 303], own?.html).toContain(own?.status);
    expect([address, foreign?.status]).toEqual([address, 404]);
    expect(foreign?.html).not.toMatch(/breakwater hat|skerry/i);
  });
});

const CHANGES: Readonly<Record<string, string>> = {
  file: 'pattern.json',
  pointer: '/version',
  value: '9.9.9',
  tag: '0'.repeat(32),
  code: 'x',
  where: '/pieces',
  waits: '',
};

describe.each(OF_A_STUDIO.filter(([method]) => method === 'POST'))('%s %s', (_method, address) => {
  it('changes nothing of another studio', async () => {
    const [owner, stranger] = both();
    const state = async () => [
      (await owner.get('/patterns/breakwater-hat')).html,
      (await owner.get('/patterns/breakwater-hat/release')).html,
      desk.cloud.machines.runs.size,
    ];
    const before = await state();
    const form = new FormData();
    for (const [name, value] of Object.entries({ ...CHANGES, waits })) form.append(name, value);
    for (const field of ['paper', 'sheets', 'since']) form.append(field, new Blob(['x']), 'n.csv');
    expect([address, (await stranger.post(addressOf(address), form)).status]).toEqual([address, 404]); // prettier-ignore
    expect(await state()).toEqual(before);
  });

  const here = { origin: HOME, 'sec-fetch-site': 'same-origin' };
  it.each([
    ['from another site', { ...here, origin: 'https://elsewhere.example' }],
    ['from nowhere', { 'sec-fetch-site': 'same-origin' }],
    ['from a hidden place', { ...here, origin: 'null' }],
    ['across sites', { ...here, 'sec-fetch-site': 'cross-site' }],
    ['from another host of the site', { ...here, 'sec-fetch-site': 'same-site' }],
    ['typed into an address', { ...here, 'sec-fetch-site': 'none' }],
    ['over plain HTTP', { ...here, origin: HOME.replace('https', 'http') }],
    ['from a name that begins like ours', { ...here, origin: `${HOME}.elsewhere.example` }],
  ])('takes no form %s', async (_title, heads) => {
    const [owner] = both();
    const asked = desk.asked.length;
    const { status } = await owner.post(addressOf(address), CHANGES, heads as Record<string, string>); // prettier-ignore
    expect(status).toBe(403);
    expect(desk.asked).toHaveLength(asked);
    expect(owner.jar.has('__Host-desk')).toBe(true);
  });
});

describe('what waits for a yes', () => {
  it('waits for its own studio alone, and for its own pattern', async () => {
    const [owner, stranger] = both();
    const at = await begin(stranger);
    expect((await stranger.post(`${at}/take`, { waits })).status).toBe(404);
    expect((await owner.post('/patterns/skerry-hat/take', { waits })).status).toBe(404);
    expect(led(await owner.post('/patterns/breakwater-hat/take', { waits }))).toContain('done=');
    led(await owner.post('/patterns/breakwater-hat/undo', {}));
  });
});

describe('every page', () => {
  it('is protected as at the desk on a laptop, and reaches the stores and nothing else', async () => {
    const [owner] = both();
    const { heads } = await owner.get('/');
    const store = desk.cloud.front.endpoint;
    expect(heads['content-security-policy']?.split('; ')).toEqual([
      "default-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      `img-src 'self' ${store} data:`,
      `connect-src 'self' ${store}`,
      `form-action 'self' ${store}`,
      "frame-src 'self'",
      "frame-ancestors 'self'",
      "base-uri 'none'",
    ]);
    expect(heads).toMatchObject({
      'strict-transport-security': 'max-age=31536000',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'same-origin',
      'cache-control': 'no-store',
    });
  });

  it('of a pattern for the web keeps the policy of its own', async () => {
    const [owner] = both();
    const { heads } = await owner.get('/patterns/breakwater-hat/web-page');
    expect(heads['content-security-policy']).toContain('sandbox');
    expect(heads['content-security-policy']).not.toContain(desk.cloud.front.endpoint);
  });

  it('comes packed to whoever can unpack it', async () => {
    const [owner] = both();
    const bare = await owner.get('/desk.css');
    const packed = await owner.get('/desk.css', { 'accept-encoding': 'br, gzip' });
    expect([bare.heads['content-encoding'], packed.heads['content-encoding']]).toEqual([
      undefined,
      'gzip',
    ]);
    expect(packed.heads['vary']).toBe('accept-encoding');
    expect(packed.html).toBe(bare.html);
  });

  it.each([
    '/patterns/..', '/patterns/..%2Freleases', '/patterns/%2e%2e%5c', '/patterns/%', '/nowhere', '//etc/passwd',
    '/files/breakwater-hat/1.0.0/../../x', '/files/breakwater-hat/1.0.0/%2e%2e/%2e%2e/etc/passwd', '/runs/../events',
    '/handed-in/..%2F..', '/patterns/__proto__', '/patterns/constructor', '/api/releases/..%2f', '/patterns/a%0d%0ab',
  ])('is not there: %s', async (address) => {
    const [owner] = both();
    expect((await owner.get(address)).status).toBe(404);
  }); // prettier-ignore

  it('is asked for, or sent a form: nothing else', async () => {
    const [owner] = both();
    const { pages } = desk;
    const heads = { cookie: [...owner.jar].map(([name, value]) => `${name}=${value}`).join('; ') };
    for (const method of ['PUT', 'DELETE', 'PATCH', 'OPTIONS']) {
      const asked = { method, path: '/', address: '/', query: new URLSearchParams(), heads, cookies: owner.jar, body: new Uint8Array() }; // prettier-ignore
      expect([method, (await pages(asked)).status]).toEqual([method, 404]);
    }
  });

  it('refuses a form that is too large, and says how large it may be', async () => {
    const [owner] = both();
    const form = new FormData();
    form.append('paper', new Blob([new Uint8Array(PAGES_LIMITS.formBytes)]), 'numbers.csv');
    const { status, html } = await owner.post('/patterns/breakwater-hat/sheet', form);
    expect(status).toBe(422);
    expect(html).toContain('4 MB');
  });

  it('speaks the language that was chosen, which only its own pages may choose', async () => {
    const browser = desk.browser();
    const heads = { origin: HOME, referer: `${HOME}/patterns/skerry-hat` };
    const chosen = await browser.post('/language', { language: 'de' }, heads);
    expect([chosen.status, chosen.location]).toEqual([303, '/patterns/skerry-hat']);
    expect(chosen.cookies[0]).toMatch(/^desk-language=de; HttpOnly; .*; Secure$/);
    expect((await browser.get('/sign-in/back')).html).toContain('<html lang="de">');
    const elsewhere = { origin: 'https://x.example' };
    expect((await browser.post('/language', { language: 'en' }, elsewhere)).status).toBe(403);
  });
});
