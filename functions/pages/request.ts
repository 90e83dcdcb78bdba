/**
 * A request for a page as API Gateway hands it over (payload format 2.0), and the answer as it takes it.
 * Nothing here is believed: no authoriser has looked at it, and every word of it may be anybody's.
 */
import type { APIGatewayProxyStructuredResultV2 } from 'aws-lambda';
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { API_LIMITS } from '../../src/base/limits.ts';
import type { Answer } from '../../src/desk/answer.ts';
import { askedLanguages } from '../../src/desk/chosen-language.ts';
import { PROTECTION } from '../../src/desk/guard.ts';

export interface Request {
  /** `GET /progress/{run}` */
  readonly route: string;
  /** The whole address asked for, with its query. */
  readonly address: string;
  readonly words: Readonly<Record<string, string>>;
  readonly query: URLSearchParams;
  readonly heads: Readonly<Record<string, string>>;
  readonly cookies: ReadonlyMap<string, string>;
  /** Languages the browser asks for, best first. */
  readonly languages: readonly string[];
  readonly form: URLSearchParams;
}

/** A page, with cookies to set and the one other place its form may be sent to. */
export interface Served extends Answer {
  readonly body: string | Uint8Array;
  readonly cookies?: readonly string[];
  readonly formsGoTo?: string;
}

/** How the pages speak to the issuer and the API. */
export type Wire = (address: string, how: RequestInit) => Promise<Response>;

const event = z.object({
  routeKey: z.string(),
  rawPath: z.string().default('/'),
  rawQueryString: z.string().default(''),
  pathParameters: z.record(z.string(), z.string()).default({}),
  headers: z.record(z.string(), z.string()).default({}),
  cookies: z.array(z.string()).default([]),
  body: z.string().default(''),
  isBase64Encoded: z.boolean().default(false),
});

export function readRequest(told: unknown): Request {
  const { routeKey, rawPath, rawQueryString, pathParameters, headers, cookies, ...sent } =
    event.parse(told);
  if (sent.body.length > API_LIMITS.bodyBytes)
    throw new Fault('input', `more than ${API_LIMITS.bodyBytes} bytes were sent`);
  const body = sent.isBase64Encoded ? Buffer.from(sent.body, 'base64').toString('utf8') : sent.body;
  return {
    route: routeKey,
    address: rawQueryString === '' ? rawPath : `${rawPath}?${rawQueryString}`,
    words: pathParameters,
    query: new URLSearchParams(rawQueryString),
    heads: { ...headers, cookie: cookies.join('; ') },
    cookies: new Map(cookies.map(pairOf)),
    languages: askedLanguages(headers['accept-language']),
    form: new URLSearchParams(body),
  };
}

function pairOf(cookie: string): readonly [string, string] {
  const at = cookie.indexOf('=');
  return [cookie.slice(0, at).trim(), cookie.slice(at + 1).trim()];
}

/** As the desk on a laptop protects its pages, and over TLS alone. */
export function writeAnswer(served: Served): APIGatewayProxyStructuredResultV2 {
  const { status, headers, body, cookies = [], formsGoTo } = served;
  const policy = PROTECTION['content-security-policy'] ?? '';
  const forms = formsGoTo === undefined ? "form-action 'self'" : `form-action 'self' ${formsGoTo}`;
  return {
    statusCode: status,
    headers: {
      ...PROTECTION,
      'content-security-policy': policy.replace("form-action 'self'", forms),
      'strict-transport-security': 'max-age=31536000',
      ...headers,
    },
    cookies: [...cookies],
    body: typeof body === 'string' ? body : Buffer.from(body).toString('utf8'),
  };
}
