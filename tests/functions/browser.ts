/**
 * A browser before the pages in the cloud: keeps cookies as RFC 6265 has it, as far as our flags go, and
 * sends requests as API Gateway hands them over (payload format 2.0).
 */
import { gunzipSync } from 'node:zlib';
import type { Pages } from '../../functions/pages/pages.ts';
import { readRequest, writeAnswer } from '../../functions/pages/request.ts';

export const HOME = 'https://desk.northfold.example';

export interface Shown {
  readonly status: number;
  readonly heads: Readonly<Record<string, string>>;
  /** As they were set, with their flags. */
  readonly cookies: readonly string[];
  readonly bytes: Uint8Array;
  readonly html: string;
  readonly location: string;
}

export type Form = Readonly<Record<string, string>> | FormData;

export interface Browser {
  readonly jar: Map<string, string>;
  get(address: string, heads?: Heads): Promise<Shown>;
  post(address: string, form: Form, heads?: Heads): Promise<Shown>;
}

type Heads = Readonly<Record<string, string>>;

/** A request as API Gateway hands it over. */
export function eventOf(
  method: string,
  address: string,
  { cookie, ...headers }: Heads,
  body: Buffer = Buffer.alloc(0),
) {
  // As it is written: no step of it may be taken before the pages see it.
  const [pathname = '', ...query] = address.replace(HOME, '').split('?');
  return {
    version: '2.0',
    routeKey: `${method} /{page+}`,
    rawPath: pathname,
    rawQueryString: query.join('?'),
    pathParameters: { page: pathname.slice(1) },
    headers,
    cookies: cookie === undefined || cookie === '' ? [] : cookie.split('; '),
    requestContext: { http: { method, path: pathname, protocol: 'HTTP/1.1' }, stage: '$default' },
    body: body.toString('base64'),
    isBase64Encoded: true,
  };
}

type Event = ReturnType<typeof eventOf>;
type Sent = ReturnType<typeof writeAnswer>;

/** `store`: where files are handed in and fetched. */
export const openBrowser = (pages: Pages, store = 'https://store.example'): Browser =>
  openBrowserBefore(async (event) => {
    const packs = /\bgzip\b/.test(event.headers['accept-encoding'] ?? '');
    return writeAnswer(await pages(readRequest(event)), { stores: [store], packs });
  });

/** Before whatever answers the gateway. */
export function openBrowserBefore(serve: (event: Event) => Promise<Sent>): Browser {
  const jar = new Map<string, string>();
  const send = async (method: string, address: string, heads: Heads, body?: Buffer) => {
    const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
    const event = eventOf(method, address, { 'accept-language': 'en', ...heads, cookie }, body);
    const answer = await serve(event);
    keep(jar, answer.cookies ?? []);
    return shownOf(answer);
  };
  return {
    jar,
    get: (address, heads = {}) => send('GET', address, heads),
    async post(address, form, heads = { origin: HOME, 'sec-fetch-site': 'same-origin' }) {
      const whole = form instanceof FormData ? form : new URLSearchParams(form);
      const written = new Response(whole);
      const type = written.headers.get('content-type') ?? '';
      const body = Buffer.from(await written.arrayBuffer());
      return send('POST', address, { 'content-type': type, ...heads }, body);
    },
  };
}

function keep(jar: Map<string, string>, cookies: readonly string[]): void {
  for (const cookie of cookies) {
    const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(cookie) ?? [];
    if (/; ?Max-Age=0/.test(cookie)) jar.delete(name);
    else jar.set(name, value);
  }
}

function shownOf(answer: Sent): Shown {
  const { statusCode = 0, headers = {}, cookies = [], body = '' } = answer;
  const heads = Object.fromEntries(Object.entries(headers).map(([n, v]) => [n, String(v)]));
  const sent = Buffer.from(body, 'base64');
  const bytes = heads['content-encoding'] === 'gzip' ? gunzipSync(sent) : sent;
  const html = new TextDecoder().decode(bytes);
  return { status: statusCode, heads, cookies, bytes, html, location: heads['location'] ?? '' };
}
