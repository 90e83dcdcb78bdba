/**
 * Signing in by way of the issuer's own page (authorization code with a proof key), and out again. No
 * password comes here. Whoever comes back must bring what this very browser was given on its way out.
 */
import { type Call, page, seeOther } from '../../src/desk/answer.ts';
import type { Pages } from '../../src/desk/routes.ts';
import { refused } from './issuer.ts';
import type { Visitor } from './pages.ts';
import type { Served } from './request.ts';
import { forgetSession, forgetVisit, keepSession, keepVisit, visitIn, visitOf } from './session.ts';

export async function goToIssuer({ order, pages, request }: Visitor): Promise<Served> {
  const secret = order.newSecret();
  const onTo = ownPage(request.query.get('to') ?? '/', pages);
  const { state, nonce, challenge } = visitOf(secret, onTo);
  const address = await order.issuer.signInAt({ state, nonce, challenge });
  return { ...led(address), cookies: [keepVisit(secret, onTo)] };
}

export async function comeBack({ order, pages, request }: Visitor): Promise<Served> {
  const { query } = request;
  const visit = visitIn(request);
  if (visit === undefined) throw refused('this browser did not ask for it, or too long ago');
  await order.issuer.requireSelf(query.get('iss'));
  const code = query.get('code');
  if (code === null || query.has('error')) throw refused('the issuer let nobody in');
  const held = await order.issuer.redeem(code, visit);
  const cookies = [keepSession(held, order.now()), forgetVisit];
  return { ...led(ownPage(visit.onTo, pages)), cookies };
}

/** The cookie goes; who wants to leave the issuer too is shown the way. */
export async function leave({ order, pages }: Visitor, call: Call): Promise<Served> {
  const wording = pages.wordings(call.languages);
  const issuer = await order.issuer.signOutAt().catch(() => undefined);
  const html = wording.render('left', {
    title: wording.say('left.title'),
    issuer: issuer ?? '',
    leaves: false,
  });
  return { ...page(html), body: html, cookies: [forgetSession] };
}

/** To the issuer, and then on to this page. */
export const signInFirst = (address: string, pages: Pages): Served => ({
  ...led(`/sign-in?to=${encodeURIComponent(ownPage(address, pages))}`),
  cookies: [forgetSession],
});

export const led = (address: string): Served => ({ ...seeOther(address), body: '' });

/** Kept in a cookie on the way: what is longer is left behind. */
const QUERY_LETTERS = 500;

/**
 * One of our own pages, or the shelf: an address from elsewhere can send nobody away. Read as a browser
 * would read it, so that it has no other meaning there.
 */
function ownPage(address: string, pages: Pages): string {
  const here = 'https://here.invalid';
  if (!URL.canParse(address, here)) return '/';
  const { origin, pathname, search } = new URL(address, here);
  if (origin !== here || !pages.isPage(pathname)) return '/';
  return pathname + (search.length > QUERY_LETTERS ? '' : search);
}
