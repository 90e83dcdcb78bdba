/**
 * The way into the pages in the cloud, and out again: by the issuer's own page and back, with everything
 * that may go wrong on the way. The issuer is written after OpenID Connect; attacks follow its Core 1.0
 * (3.1.3.7), RFC 7636, RFC 9207 and the OWASP cheat sheets on sessions and on unvalidated redirects.
 */
import { describe, expect, it } from 'vitest';
import { challengeOf } from '../../functions/pages/session.ts';
import { type Browser, HOME } from './browser.ts';
import { CLIENT, ISSUER } from './issuer.ts';
import { OpenedPages } from './opened-pages.ts';

const desk = new OpenedPages();

describe('a designer', () => {
  it('signs in at the issuer, and comes back to the page she wanted', async () => {
    const browser = await desk.signIn('ada', '/patterns/skerry-hat');
    expect(browser.jar.has('__Host-desk')).toBe(true);
    expect(browser.jar.has('__Host-sign-in')).toBe(false);
    expect((await browser.get('/')).status).toBe(200);
  });

  it('signs out: the cookie goes, and the next page asks again', async () => {
    const browser = await desk.signIn();
    const { html } = await browser.get('/');
    expect(html).toContain('action="/sign-out"');
    const left = await browser.post('/sign-out', {});
    expect(left.html).toContain(`${ISSUER}leave`);
    expect(browser.jar.has('__Host-desk')).toBe(false);
    expect((await browser.get('/')).location).toBe('/sign-in?to=%2F');
  });

  it('is led to the sign-in where her token is over between two pages', async () => {
    const browser = await desk.signIn();
    desk.clock = new Date(Date.now() + 3_600_000);
    expect((await browser.get('/patterns/hat/numbers')).location).toBe(
      '/sign-in?to=%2Fpatterns%2Fhat%2Fnumbers',
    );
    expect(browser.jar.has('__Host-desk')).toBe(false);
  });

  it('is told to wait where the issuer is out of reach', async () => {
    const browser = desk.browser();
    desk.issuer.silent = true;
    desk.clock = new Date(Date.now() + 2 * 3_600_000);
    expect((await browser.get('/sign-in')).status).toBe(503);
    desk.issuer.silent = false;
    expect((await browser.get('/sign-in')).status).toBe(303);
  });

  it('whose token names no studio is told so, and not sent round in circles', async () => {
    const browser = await desk.signIn(null);
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
    const browser = desk.browser();
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
    const browser = desk.browser();
    const back = desk.issuer.letIn((await browser.get('/sign-in')).location, 'ada');
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
    ['a token for another visit', () => (desk.issuer.slip = { nonce: 'another' })],
    ['a token given to another client', () => (desk.issuer.slip = { azp: 'another-client' })],
    ['a token for another audience', () => (desk.issuer.terms = { audience: 'another' })],
    ['an expired token', () => (desk.issuer.terms = { from: '-1 hour', until: '-1 minute' })],
  ];
  it.each(SLIPS)('is refused with %s', async (_title, slip) => {
    const browser = desk.browser();
    const back = desk.issuer.letIn((await browser.get('/sign-in')).location, 'ada');
    slip(back, browser);
    const { status, html } = await browser.get(back.href);
    expect(status).toBe(403);
    expect(html).toContain('he sign-in was refused');
    expect(browser.jar.has('__Host-desk')).toBe(false);
  });

  it('takes a code once', async () => {
    const browser = desk.browser();
    const back = desk.issuer.letIn((await browser.get('/sign-in')).location, 'ada');
    const jar = new Map(browser.jar);
    expect((await browser.get(back.href)).status).toBe(303);
    const again = desk.browser();
    for (const [name, value] of jar) again.jar.set(name, value);
    expect((await again.get(back.href)).status).toBe(403);
  });

  it('lets nobody in through another browser: the answer belongs to the one that asked', async () => {
    const thief = desk.browser();
    const back = desk.issuer.letIn((await thief.get('/sign-in')).location, 'mallory');
    const browser = desk.browser();
    await browser.get('/sign-in');
    expect((await browser.get(back.href)).status).toBe(403);
  });

  it.each([
    'https://elsewhere.example/', '//elsewhere.example/', '/\\elsewhere.example', '/patterns/a/b/c',
    'javascript:alert(1)', '/sign-in/back', '/sign-in', '/nowhere', '/%2Felsewhere.example', '/%',
    '/sign-out', '/patterns/a/undo',
  ])('leads on to the shelf and not to %s', async (to) => {
    const browser = desk.browser();
    const away = await browser.get(`/sign-in?to=${encodeURIComponent(to)}`);
    expect((await browser.get(desk.issuer.letIn(away.location, 'ada').href)).location).toBe('/');
  }); // prettier-ignore

  it.each(['/patterns/hat/numbers', '/patterns/hat/pages?language=de', '/handed-in/4f9c'])(
    'leads on to %s, a page of the desk',
    async (to) => {
      await desk.signIn('ada', to);
    },
  );
});
