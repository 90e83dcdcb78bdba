/**
 * Signing in by way of the issuer's own page (authorization code with a proof key), and out again. No
 * password comes here. Whoever comes back must bring what this very browser was given on its way out.
 */
import { page, seeOther } from '../../src/desk/answer.ts';
import { ADDRESSES } from './addresses.ts';
import { refused } from './issuer.ts';
import type { Asked, Visitor } from './pages.ts';
import type { Served } from './request.ts';
import { forgetSession, forgetVisit, keepSession, keepVisit, visitIn, visitOf } from './session.ts';

export async function goToIssuer({ desk, request }: Visitor): Promise<Served> {
  const secret = desk.newSecret();
  const onTo = ownPage(request.query.get('to') ?? '/');
  const { state, nonce, challenge } = visitOf(secret, onTo);
  const address = await desk.issuer.signInAt({ state, nonce, challenge });
  return { ...led(address), cookies: [keepVisit(secret, onTo)] };
}

export async function comeBack({ desk, request }: Visitor): Promise<Served> {
  const { query } = request;
  const visit = visitIn(request);
  if (visit === undefined) throw refused('this browser did not ask for it, or too long ago');
  await desk.issuer.requireSelf(query.get('iss'));
  const code = query.get('code');
  if (code === null || query.has('error')) throw refused('the issuer let nobody in');
  const held = await desk.issuer.redeem(code, visit);
  const cookies = [keepSession(held, desk.now()), forgetVisit];
  return { ...led(ownPage(visit.onTo)), cookies };
}

/** The cookie goes; who wants to leave the issuer too is shown the way. */
export async function leave({ desk, wording }: Asked): Promise<Served> {
  const issuer = await desk.issuer.signOutAt().catch(() => undefined);
  const html = wording.render('cloud-left', {
    title: wording.say('cloud.left'),
    issuer: issuer ?? '',
  });
  return { ...page(html), body: html, cookies: [forgetSession] };
}

/** To the issuer, and then on to this page. */
export const signInFirst = (address: string): Served => ({
  ...led(`/sign-in?to=${encodeURIComponent(ownPage(address))}`),
  cookies: [forgetSession],
});

export const led = (address: string): Served => ({ ...seeOther(address), body: '' });

const FORMS = ADDRESSES.flatMap((each) => {
  const [method, path = ''] = each.split(' ');
  if (method !== 'GET' || path.startsWith('/sign-in')) return [];
  const words = path.replaceAll('.', '\\.').replaceAll(/\{\w+\+\}/g, '[\\w./-]{1,200}').replaceAll(/\{\w+\}/g, '[\\w.-]{1,80}'); // prettier-ignore
  return [new RegExp(`^${words}$`)];
});

export const isOwnPage = (path: string): boolean => FORMS.some((form) => form.test(path));

/** One of our own pages, or the shelf: an address from elsewhere can send nobody away. */
function ownPage(address: string): string {
  const [path = '/'] = address.split('?');
  return isOwnPage(path) ? path : '/';
}
