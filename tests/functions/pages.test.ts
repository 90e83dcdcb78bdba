/**
 * The pages in the cloud as a designer meets them: sign in, hand a bundle in, follow its run, fetch the
 * release; and every way in that must be shut. The API behind them is the real one, with its document and
 * its authoriser; the issuer is written after OpenID Connect.
 */
import { readdir, readFile } from 'node:fs/promises';
import { generateKeyPair, UnsecuredJWT } from 'jose';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ADDRESSES } from '../../functions/pages/addresses.ts';
import type { Pages } from '../../functions/pages/pages.ts';
import { challengeOf } from '../../functions/pages/session.ts';
import { finding } from '../../src/findings/register.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { type Browser, HOME, openBrowser } from './browser.ts';
import { openCloudDesk } from './cloud-desk.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';
import { objectCreated } from './events.ts';
import { CLIENT, ISSUER, type TestIssuer } from './issuer.ts';

let cloud: Cloud;
let issuer: TestIssuer;
let pages: Pages;
let clock: Date | undefined;

beforeAll(async () => {
  cloud = await startCloud();
  ({ pages, issuer } = await openCloudDesk(HOME, () => clock ?? new Date()));
});
afterAll(() => cloud.close());
beforeEach(() => {
  cloud.clear();
  clock = undefined;
  issuer.slip = {};
  issuer.terms = {};
  issuer.silent = false;
});

async function signIn(studio: unknown = 'ada', to = '/'): Promise<Browser> {
  const browser = openBrowser(pages);
  const first = await browser.get(to);
  const away = await browser.get(first.location);
  const back = issuer.letIn(away.location, studio);
  const { status, location } = await browser.get(back.href);
  expect([status, location]).toEqual([303, to]);
  return browser;
}

const tokenOn = (html: string): string => /name="token" value="([^"]+)"/.exec(html)?.[1] ?? '';
const attributes = (text: string): string =>
  text.replaceAll('&#x3D;', '=').replaceAll('&amp;', '&');

/** Fills the form in, posts the file to the store as the page says, and follows where that leads. */
async function handIn(browser: Browser, order: Readonly<Record<string, string>> = {}) {
  const { html } = await browser.get('/');
  const page = await browser.post('/hand-in', { token: tokenOn(html), ...order });
  expect(page.status).toBe(200);
  const form = new FormData();
  for (const [, name = '', value = ''] of page.html.matchAll(
    /type="hidden" name="([^"]+)" value="([^"]*)"/g,
  ))
    form.append(name, attributes(value));
  const bytes = zipSync(Object.fromEntries(skerryFiles()));
  form.append('file', new Blob([Uint8Array.from(bytes)]), 'bundle.zip');
  const url = attributes(/action="(http[^"]+)" enctype/.exec(page.html)?.[1] ?? '');
  const { status, headers } = await fetch(url, { method: 'POST', body: form, redirect: 'manual' });
  expect(status).toBe(303);
  const key = /name="key" value="([^"]+)"/.exec(page.html)?.[1] ?? '';
  const version = headers.get('x-amz-version-id') ?? '';
  const event = objectCreated(key, version, bytes.length);
  return { page, url, event, location: headers.get('location') ?? '' };
}

async function publish(browser: Browser): Promise<{ upload: string; run: string }> {
  const { event, location } = await handIn(browser);
  const { run } = await cloud.endOf(event);
  return { upload: new URL(location).pathname.split('/').at(-1) ?? '', run };
}

describe('a designer', () => {
  it('signs in at the issuer, and comes back to the page she wanted', async () => {
    const browser = await signIn('ada', '/patterns/skerry-hat');
    expect(browser.jar.has('__Host-desk')).toBe(true);
    expect(browser.jar.has('__Host-sign-in')).toBe(false);
    expect((await browser.get('/')).status).toBe(200);
  });

  it('hands a bundle in, sees it arrive, follows its run and fetches the release', async () => {
    const browser = await signIn();
    expect((await browser.get('/')).html).toContain('released nothing here yet');
    const { page, url, event, location } = await handIn(browser, { edition: 'large' });
    expect(page.heads['content-security-policy']).toContain(
      `form-action 'self' ${new URL(url).origin};`,
    );
    expect(location.startsWith(`${HOME}/handed-in/`)).toBe(true);
    expect((await browser.get(location)).html).toContain('data-watch="working"');
    const { run } = await cloud.endOf(event);
    const led = await browser.get(location);
    expect([led.status, led.location]).toEqual([303, `/progress/${run}`]);
    const ended = await browser.get(led.location);
    expect(ended.html).toContain('Every number follows in every size.');
    expect(ended.html).toContain('href="/patterns/skerry-hat/1.0.0"');
    expect((await browser.get('/')).html).toContain('href="/patterns/skerry-hat"');
    const release = await browser.get('/patterns/skerry-hat');
    const files = [...release.html.matchAll(/href="(\/files\/[^"]+)"/g)].map(([, at]) => at ?? '');
    expect(files.length).toBeGreaterThan(3);
    const file = await browser.get(files.find((each) => each.endsWith('.pdf')) ?? '');
    expect(file.status).toBe(303);
    const fetched = await fetch(file.location);
    expect(fetched.status).toBe(200);
    expect(fetched.headers.get('content-disposition')).toMatch(/^attachment; filename="skerry/);
  });

  it('sees a run at work, step by step', async () => {
    const browser = await signIn();
    await keepStart(cloud.studio('ada').work, {
      run: 'r1',
      at: new Date().toISOString(),
      source: '',
      settings: {},
    });
    const { html } = await browser.get('/progress/r1');
    expect(html).toContain('data-watch="working"');
    expect(html.match(/to come/g)).toHaveLength(4);
  });

  it('reads the findings as at her own desk, with nothing to fill in', async () => {
    const browser = await signIn();
    const where = {
      file: 'pattern.json',
      pointer: '/pieces/0/x',
      label: 'Crown, row 3',
      text: 'k2, p2',
    };
    const slip = finding('bundle/shape', where, { problem: 'a number is <b>missing</b>' });
    cloud.rooms = studioRooms({ findings: () => [slip] });
    const { run } = await publish(browser);
    const { html } = await browser.get(`/progress/${run}`);
    expect(html).toContain('One finding stands against a release.');
    expect(html).toContain('Piece: Crown');
    expect(html).toContain('at the desk on your own machine');
    expect(html).not.toContain('<b>missing');
    expect(html).not.toMatch(/action="[^"]*\/(correct|accept)"/);
  });

  it('signs out: the cookie goes, and the next page asks again', async () => {
    const browser = await signIn();
    const { html } = await browser.get('/');
    const left = await browser.post('/sign-out', { token: tokenOn(html) });
    expect(left.html).toContain(`${ISSUER}leave`);
    expect(browser.jar.has('__Host-desk')).toBe(false);
    expect((await browser.get('/')).location).toBe('/sign-in?to=%2F');
  });

  it('is told to wait where the issuer is out of reach', async () => {
    const browser = openBrowser(pages);
    issuer.silent = true;
    clock = new Date(Date.now() + 2 * 3_600_000);
    expect((await browser.get('/sign-in')).status).toBe(503);
    issuer.silent = false;
    expect((await browser.get('/sign-in')).status).toBe(303);
  });

  it('whose token names no studio is told so, and not sent round in circles', async () => {
    const browser = await signIn(null);
    const { status, html } = await browser.get('/');
    expect(status).toBe(403);
    expect(html).toContain('names no studio');
  });
});

describe('the way to the issuer and back', () => {
  it('proves its key as RFC 7636 does (appendix B)', () => {
    expect(challengeOf('dBjftJeZ4CVP-mB92K27uhbUJU1p1r_wW1gFWFOEjXk')).toBe(
      'E9Melhoa2OwvFrEMTJguCHaoeK1t8URWbuGJSstw-cM',
    );
  });

  it('asks for a code with state, nonce and proof key, and shows neither secret nor proof', async () => {
    const browser = openBrowser(pages);
    const { location, cookies } = await browser.get('/sign-in');
    const asked = Object.fromEntries(new URL(location).searchParams);
    expect(asked).toMatchObject({
      response_type: 'code',
      scope: 'openid',
      client_id: CLIENT,
      redirect_uri: `${HOME}/sign-in/back`,
      code_challenge_method: 'S256',
    });
    const [secret = ''] = (browser.jar.get('__Host-sign-in') ?? '').split('.');
    expect(location).not.toContain(secret);
    expect(new Set([asked['state'], asked['nonce'], asked['code_challenge']]).size).toBe(3);
    expect(cookies[0]).toMatch(/; Path=\/; Secure; HttpOnly; SameSite=Lax$/);
  });

  it('keeps the token in a cookie that no script reads and no other site sends with a form', async () => {
    const browser = openBrowser(pages);
    const back = issuer.letIn((await browser.get('/sign-in')).location, 'ada');
    const { cookies } = await browser.get(back.href);
    expect(cookies[0]).toMatch(
      /^__Host-desk=[\w.-]+; Max-Age=(29\d|300); Path=\/; Secure; HttpOnly; SameSite=Lax$/,
    );
  });

  const SLIPS: readonly (readonly [string, (back: URL, browser: Browser) => unknown])[] = [
    ['another state', (back) => back.searchParams.set('state', 'x'.repeat(43))],
    ['no state', (back) => back.searchParams.delete('state')],
    ['no cookie of its own', (_back, browser) => browser.jar.clear()],
    ['an empty secret', (_back, browser) => browser.jar.set('__Host-sign-in', '.Lw')],
    ['another issuer’s name', (back) => back.searchParams.set('iss', 'https://elsewhere.example/')],
    ['no issuer’s name', (back) => back.searchParams.delete('iss')],
    ['an error', (back) => back.searchParams.set('error', 'access_denied')],
    ['no code', (back) => back.searchParams.delete('code')],
    ['an unknown code', (back) => back.searchParams.set('code', 'guessed')],
    ['a token for another visit', () => (issuer.slip = { nonce: 'another' })],
    ['a token given to another client', () => (issuer.slip = { azp: 'another-client' })],
    ['a token for another audience', () => (issuer.terms = { audience: 'another' })],
    ['an expired token', () => (issuer.terms = { from: '-1 hour', until: '-1 minute' })],
  ];
  it.each(SLIPS)('is refused with %s', async (_title, slip) => {
    const browser = openBrowser(pages);
    const back = issuer.letIn((await browser.get('/sign-in')).location, 'ada');
    slip(back, browser);
    const { status, html } = await browser.get(back.href);
    expect(status).toBe(403);
    expect(html).toContain('the sign-in was refused');
    expect(browser.jar.has('__Host-desk')).toBe(false);
  });

  it('takes a code once', async () => {
    const browser = openBrowser(pages);
    const back = issuer.letIn((await browser.get('/sign-in')).location, 'ada');
    const jar = new Map(browser.jar);
    expect((await browser.get(back.href)).status).toBe(303);
    const again = openBrowser(pages);
    for (const [name, value] of jar) again.jar.set(name, value);
    expect((await again.get(back.href)).status).toBe(403);
  });

  it('lets nobody in through another browser: the answer belongs to the one that asked', async () => {
    const thief = openBrowser(pages);
    const back = issuer.letIn((await thief.get('/sign-in')).location, 'mallory');
    const browser = openBrowser(pages);
    await browser.get('/sign-in');
    expect((await browser.get(back.href)).status).toBe(403);
  });

  it.each([
    'https://elsewhere.example/', '//elsewhere.example/', '/\\elsewhere.example', '/patterns/a/b/c',
    'javascript:alert(1)', '/sign-in/back', '/sign-in', '/nowhere', '/%2Felsewhere.example',
  ])('leads on to the shelf and not to %s', async (to) => {
    const browser = openBrowser(pages);
    const away = await browser.get(`/sign-in?to=${encodeURIComponent(to)}`);
    expect((await browser.get(issuer.letIn(away.location, 'ada').href)).location).toBe('/');
  }); // prettier-ignore
});

// ---------------------------------------------------------------- who must not come in

const OPEN = ['GET /desk.css', 'GET /desk.js', 'GET /hand-in.js', 'GET /cloud.js', 'GET /sign-in', 'GET /sign-in/back', 'POST /language']; // prettier-ignore
const SHUT = ADDRESSES.filter((each) => !OPEN.includes(each));

const altered = (token: string, part: 0 | 1 | 2): string => {
  const parts = token.split('.');
  const bytes = Buffer.from(parts[part] ?? '', 'base64url');
  bytes[bytes.length >> 1] = (bytes[bytes.length >> 1] ?? 0) ^ 1;
  parts[part] = bytes.toString('base64url');
  return parts.join('.');
};
const claims = { sub: 'someone', studio: 'ada' };
const BAD_TOKENS: readonly (readonly [string, () => Promise<string | undefined> | undefined])[] = [
  ['without a token', () => undefined],
  ['with an empty token', async () => ''],
  ['with something that is no token', async () => 'YWRhOnNlY3JldA=='],
  ['with an expired token', () => issuer.sign(claims, { until: '-1 minute', from: '-1 hour' })],
  ['with a token of tomorrow', () => issuer.sign(claims, { from: '1 day', until: '2 days' })],
  ['with a token of another issuer', () => issuer.sign(claims, { issuer: 'https://x.example/' })],
  ['with a token for somebody else', () => issuer.sign(claims, { audience: 'castoff' })],
  ['with a token for several', () => issuer.sign(claims, { audience: [CLIENT, 'another'] })],
  ['with a token under a foreign key', async () => issuer.sign(claims, { key: (await generateKeyPair('RS256')).privateKey })],
  ['with an altered head', async () => altered(await issuer.sign(claims), 0)],
  ['with altered claims', async () => altered(await issuer.sign(claims), 1)],
  ['with an altered signature', async () => altered(await issuer.sign(claims), 2)],
  ['with a token that is not signed', async () =>
    new UnsecuredJWT(claims).setIssuer(ISSUER).setAudience(CLIENT).setExpirationTime('1 hour').encode()],
]; // prettier-ignore

/** Each page, as the designer Ada would ask for what is hers. */
function addressOf(route: string, { upload, run }: { upload: string; run: string }): string {
  const words: Readonly<Record<string, string>> = {
    upload,
    run,
    pattern: 'skerry-hat',
    version: '1.0.0',
    path: 'de/skerry-hat-1.0.0-de.pdf',
  };
  const [, path = ''] = route.split(' ');
  return path.replaceAll(/\{(\w+)\+?\}/g, (_all, name: string) => words[name] ?? '');
}

describe.each(SHUT)('%s', (route) => {
  const isForm = route.startsWith('POST ');
  it.each(BAD_TOKENS)('is shut %s', async (_title, token) => {
    const browser = openBrowser(pages);
    const given = await token();
    if (given !== undefined) browser.jar.set('__Host-desk', given);
    const address = addressOf(route, { upload: crypto.randomUUID(), run: 'r' });
    const { status, location, html } = isForm
      ? await browser.post(address, {})
      : await browser.get(address);
    const to = encodeURIComponent(isForm ? '/' : address);
    expect([status, location, html]).toEqual([303, `/sign-in?to=${to}`, '']);
    expect(browser.jar.has('__Host-desk')).toBe(false);
  });

  it('opens to its owner, and shows nothing of it to another studio', async () => {
    const [ada, bo] = [await signIn('ada'), await signIn('bo')];
    const address = addressOf(route, await publish(ada));
    if (isForm) {
      const send = async (browser: Browser) =>
        browser.post(address, { token: tokenOn((await browser.get('/')).html) });
      expect((await send(ada)).status).toBe(200);
      const foreign = await send(bo);
      expect(foreign.html).not.toContain('ada/');
      return;
    }
    const own = await ada.get(address);
    expect([200, 303]).toContain(own.status);
    const foreign = await bo.get(address);
    switch (route) {
      case 'GET /':
        expect(own.html).toContain('skerry hat');
        expect(foreign.html).not.toContain('skerry');
        break;
      case 'GET /handed-in/{upload}':
        expect(own.status).toBe(303);
        expect(foreign.status).toBe(200);
        break;
      default:
        expect(foreign.status).toBe(404);
        expect(foreign.html).not.toContain('skerry');
    }
  });
});

describe.each(SHUT.filter((each) => each.startsWith('POST ')))('%s', (route) => {
  const [, address = ''] = route.split(' ');
  const here = { origin: HOME, 'sec-fetch-site': 'same-origin' };
  it.each([
    ['without its token', here, () => ''],
    ['with the token of another person', here, (_own: string, foreign: string) => foreign],
    ['from another site', { origin: 'https://elsewhere.example' }, (own: string) => own],
    ['from nowhere', {}, (own: string) => own],
    ['from a hidden place', { origin: 'null' }, (own: string) => own],
    ['across sites', { origin: HOME, 'sec-fetch-site': 'cross-site' }, (own: string) => own],
  ])('takes no form %s', async (_title, heads, tokenFrom) => {
    const [ada, bo] = [await signIn('ada'), await signIn('bo')];
    const [own, foreign] = [tokenOn((await ada.get('/')).html), tokenOn((await bo.get('/')).html)];
    const token = tokenFrom(own, foreign);
    expect(
      (await ada.post(address, { token }, heads as Readonly<Record<string, string>>)).status,
    ).toBe(403);
    expect(ada.jar.has('__Host-desk')).toBe(true);
  });
});

describe('every page', () => {
  it('is protected as at the desk on a laptop, and keeps to itself', async () => {
    const { heads } = await (await signIn()).get('/');
    expect(heads['content-security-policy']).toContain("default-src 'none'; script-src 'self'");
    expect(heads).toMatchObject({
      'strict-transport-security': 'max-age=31536000',
      'x-content-type-options': 'nosniff',
      'cache-control': 'no-store',
    });
  });

  it.each(['/progress/..', '/progress/..%2Freleases', '/patterns/..%2Fruns', '/patterns/a/1.0.0%2F..', '/nowhere'])(
    'is not there: %s',
    async (address) => {
      const { status } = await (await signIn()).get(address);
      expect([404, 200]).toContain(status);
      if (status === 200) expect(new URL(address, HOME).pathname).toBe('/');
    },
  ); // prettier-ignore

  it('speaks every language of the desk', async () => {
    const folder = 'templates/desk';
    const tags = await readdir(`${folder}/words`);
    expect((await readdir(`${folder}/cloud/words`)).toSorted()).toEqual(tags.toSorted());
    const wordsOf = async (tag: string) =>
      Object.entries(
        JSON.parse(await readFile(`${folder}/cloud/words/${tag}`, 'utf8')) as Record<
          string,
          string
        >,
      );
    const english = (await wordsOf('en.json')).map(([key]) => key);
    for (const tag of tags) {
      const words = await wordsOf(tag);
      expect([tag, words.map(([key]) => key)]).toEqual([tag, english]);
      for (const [key, word] of words) expect([tag, key, word.trim()]).not.toContain('');
    }
  });

  it('speaks the language that was chosen, which only its own pages may choose', async () => {
    const browser = openBrowser(pages);
    const heads = { origin: HOME, referer: `${HOME}/patterns/skerry-hat` };
    const chosen = await browser.post('/language', { language: 'de' }, heads);
    expect([chosen.status, chosen.location]).toEqual([303, '/patterns/skerry-hat']);
    expect(chosen.cookies[0]).toMatch(/^desk-language=de; HttpOnly; .*; Secure$/);
    expect((await browser.get('/sign-in/back')).html).toContain('<html lang="de">');
    const elsewhere = await browser.post(
      '/language',
      { language: 'en' },
      { origin: 'https://x.example' },
    );
    expect(elsewhere.status).toBe(403);
  });
});
