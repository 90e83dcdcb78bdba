/**
 * A request for a page as API Gateway hands it over (payload format 2.0), and the answer as it takes it.
 * Nothing here is believed: no authoriser has looked at it, and every word of it may be anybody's.
 */
import { gzipSync } from 'node:zlib';
import type { APIGatewayProxyStructuredResultV2 } from 'aws-lambda';
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { type Call, decodePath, readForm } from '../../src/desk/answer.ts';
import { askedLanguages, chosenLanguage } from '../../src/desk/chosen-language.ts';
import { PROTECTION } from '../../src/desk/guard.ts';

export interface Request {
  readonly method: string;
  /** As it was sent, not decoded. */
  readonly path: string;
  /** The whole address asked for, with its query. */
  readonly address: string;
  readonly query: URLSearchParams;
  readonly heads: Readonly<Record<string, string>>;
  readonly cookies: ReadonlyMap<string, string>;
  readonly body: Uint8Array<ArrayBuffer>;
}

/** A page, with cookies to set. */
export interface Served {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | Uint8Array;
  readonly cookies?: readonly string[];
}

/** How the pages speak to the issuer, the API and the addresses it signs. */
export type Wire = (address: string, how: RequestInit) => Promise<Response>;

const event = z.object({
  rawPath: z.string().default('/'),
  rawQueryString: z.string().default(''),
  headers: z.record(z.string(), z.string()).default({}),
  cookies: z.array(z.string()).default([]),
  requestContext: z.object({ http: z.object({ method: z.string() }) }),
  body: z.string().default(''),
  isBase64Encoded: z.boolean().default(false),
});

export function readRequest(told: unknown): Request {
  const { rawPath, rawQueryString, headers, cookies, requestContext, ...sent } = event.parse(told);
  return {
    method: requestContext.http.method,
    path: rawPath,
    address: rawQueryString === '' ? rawPath : `${rawPath}?${rawQueryString}`,
    query: new URLSearchParams(rawQueryString),
    heads: { ...headers, cookie: cookies.join('; ') },
    cookies: new Map(cookies.map(pairOf)),
    body: Uint8Array.from(Buffer.from(sent.body, sent.isBase64Encoded ? 'base64' : 'utf8')),
  };
}

function pairOf(cookie: string): readonly [string, string] {
  const at = cookie.indexOf('=');
  return [cookie.slice(0, at).trim(), cookie.slice(at + 1).trim()];
}

/** The same as the desk on a laptop reads from its socket. `home`: where the pages answer. */
export function callOf({ method, path, query, heads, body }: Request, home: string): Call {
  const { referer = '' } = heads;
  return {
    method: method === 'POST' ? 'POST' : 'GET',
    path: decodePath(path),
    query,
    languages: [...chosenLanguage(heads['cookie']), ...askedLanguages(heads['accept-language'])],
    from: referer.startsWith(`${home}/`) ? referer.slice(home.length) : undefined,
    form: () => {
      if (body.length > PAGES_LIMITS.formBytes)
        throw new Fault('input', 'the form is too large', {
          remedy: `it may have ${Math.floor(PAGES_LIMITS.formBytes / 1024 / 1024)} MB`,
        });
      return readForm(body, heads['content-type']);
    },
    body: async (mostBytes) =>
      body.length > mostBytes ? undefined : new TextDecoder().decode(body),
  };
}

/** Shorter ones do not become shorter. */
const SHORT_BYTES = 1_000;

/**
 * As the desk on a laptop protects its pages, and over TLS alone. `stores`: the origins at which a browser
 * may hand files in and fetch them.
 */
export function writeAnswer(
  { status, headers, body, cookies = [] }: Served,
  { stores, packs }: { readonly stores: readonly string[]; readonly packs: boolean },
): APIGatewayProxyStructuredResultV2 {
  const bytes = typeof body === 'string' ? Buffer.from(body) : Buffer.from(body);
  const packed = packs && bytes.length > SHORT_BYTES && isText(headers['content-type'] ?? '');
  const sent = packed ? gzipSync(bytes) : bytes;
  return {
    statusCode: status,
    headers: {
      ...PROTECTION,
      'content-security-policy': policyWith(stores),
      'strict-transport-security': 'max-age=31536000',
      vary: 'accept-encoding',
      ...(packed && { 'content-encoding': 'gzip' }),
      ...headers,
    },
    cookies: [...cookies],
    body: sent.toString('base64'),
    isBase64Encoded: true,
  };
}

const isText = (type: string): boolean => /^text\/|json|xml|javascript/.test(type);

const OPENED = ['form-action', 'connect-src', 'img-src'] as const;

function policyWith(stores: readonly string[]): string {
  let policy = PROTECTION['content-security-policy'] ?? '';
  for (const name of OPENED)
    policy = policy.replace(`${name} 'self'`, [`${name} 'self'`, ...stores].join(' '));
  return policy;
}
