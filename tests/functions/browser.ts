/**
 * A browser before the pages in the cloud: keeps cookies as RFC 6265 has it, as far as our flags go, and
 * sends requests as API Gateway hands them over (payload format 2.0), found by the list of addresses.
 */
import { ADDRESSES } from '../../functions/pages/addresses.ts';
import type { Pages } from '../../functions/pages/pages.ts';
import { readRequest, writeAnswer } from '../../functions/pages/request.ts';

export const HOME = 'https://desk.northfold.example';

export interface Shown {
  readonly status: number;
  readonly heads: Readonly<Record<string, string>>;
  /** As they were set, with their flags. */
  readonly cookies: readonly string[];
  readonly html: string;
  readonly location: string;
}

export interface Browser {
  readonly jar: Map<string, string>;
  get(address: string): Promise<Shown>;
  post(address: string, form: Readonly<Record<string, string>>, heads?: Heads): Promise<Shown>;
}

type Heads = Readonly<Record<string, string>>;

const FORMS = ADDRESSES.map((route) => {
  const [method = '', path = ''] = route.split(' ');
  const words = [...path.matchAll(/\{(\w+)\+?\}/g)].map(([, name]) => name ?? '');
  const source = path
    .replaceAll('.', '\\.')
    .replaceAll(/\{\w+\+\}/g, '(.+)')
    .replaceAll(/\{\w+\}/g, '([^/]+)');
  return { route, method, words, form: new RegExp(`^${source}$`) };
});

/** A request as API Gateway hands it over. */
export function eventOf(method: string, address: string, { cookie, ...heads }: Heads, body = '') {
  const url = new URL(address, HOME);
  const found = FORMS.find((each) => each.method === method && each.form.test(url.pathname));
  const values = found?.form.exec(url.pathname)?.slice(1) ?? [];
  return {
    version: '2.0',
    routeKey: found?.route ?? `${method} ${url.pathname}`,
    rawPath: url.pathname,
    rawQueryString: url.search.slice(1),
    pathParameters: Object.fromEntries(
      (found?.words ?? []).map((name, at) => [name, decodeURIComponent(values[at] ?? '')]),
    ),
    headers: heads,
    cookies: cookie === undefined || cookie === '' ? [] : cookie.split('; '),
    body: Buffer.from(body).toString('base64'),
    isBase64Encoded: true,
  };
}

export function openBrowser(pages: Pages): Browser {
  const jar = new Map<string, string>();
  const send = async (method: string, address: string, heads: Heads, body = ''): Promise<Shown> => {
    const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
    const event = eventOf(method, address, { 'accept-language': 'en', ...heads, cookie }, body);
    const { statusCode = 0, headers = {}, cookies = [], body: html = '' } = writeAnswer(await pages(readRequest(event))); // prettier-ignore
    for (const cookie of cookies) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(cookie) ?? [];
      if (/; ?Max-Age=0/.test(cookie)) jar.delete(name);
      else jar.set(name, value);
    }
    const told = Object.fromEntries(Object.entries(headers).map(([n, v]) => [n, String(v)]));
    return { status: statusCode, heads: told, cookies, html, location: told['location'] ?? '' };
  };
  return {
    jar,
    get: (address) => send('GET', address, {}),
    post: (address, form, heads = { origin: HOME, 'sec-fetch-site': 'same-origin' }) =>
      send('POST', address, heads, new URLSearchParams(form).toString()),
  };
}
