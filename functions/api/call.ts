/**
 * A request as the routes see it: whose it is, and its words; and the two kinds of answers. Takes what API
 * Gateway hands over once its authoriser has checked the token (payload format 2.0). The studio comes from
 * the token alone: no word of a request can name another.
 */
import type { APIGatewayProxyStructuredResultV2 } from 'aws-lambda';
import { z } from 'zod';
import { mostBytesOf, tooLong } from '../../src/desk/api/asked.ts';
import { PROBLEM_TYPE, problemText, Refusal } from '../../src/desk/api/refusal.ts';
import { studioName } from '../../src/pipeline/payloads.ts';

export interface Call {
  /** `GET /runs/{run}` */
  readonly route: string;
  readonly path: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  readonly body: string;
}

export type Answer = Pick<APIGatewayProxyStructuredResultV2, 'body' | 'headers' | 'statusCode'>;

const request = z.object({
  routeKey: z.string(),
  pathParameters: z.record(z.string(), z.string()).default({}),
  queryStringParameters: z.record(z.string(), z.string()).default({}),
  body: z.string().default(''),
  isBase64Encoded: z.boolean().default(false),
});
const claims = z.object({
  requestContext: z.object({
    authorizer: z.object({ jwt: z.object({ claims: z.record(z.string(), z.unknown()) }) }),
  }),
});

export function readCall(event: unknown): Call {
  const { routeKey, pathParameters, queryStringParameters, body, isBase64Encoded } =
    request.parse(event);
  const most = mostBytesOf(routeKey);
  if (body.length > most) throw tooLong(most);
  const text = isBase64Encoded ? Buffer.from(body, 'base64').toString('utf8') : body;
  return { route: routeKey, path: pathParameters, query: queryStringParameters, body: text };
}

/** The caller's studio, by the claim that the deployment names. */
export function readStudio(event: unknown, claim: string): string {
  const token = claims.safeParse(event);
  const named = token.success ? token.data.requestContext.authorizer.jwt.claims[claim] : undefined;
  const studio = studioName.safeParse(named);
  if (studio.success) return studio.data;
  throw new Refusal(403, 'The token names no studio', `it needs the claim “${claim}”`);
}

/** What belongs to somebody else is not there, and no answer tells the difference. */
export const notFound = (what: string): Refusal => new Refusal(404, `There is no such ${what}`);

export const answer = (value: unknown, statusCode = 200): Answer => ({
  statusCode,
  headers: { 'content-type': 'application/json', 'cache-control': 'no-store' },
  body: typeof value === 'string' ? value : JSON.stringify(value),
});

/** Problem details, RFC 9457. */
export const problem = (refusal: Refusal): Answer => ({
  statusCode: refusal.status,
  headers: {
    'content-type': PROBLEM_TYPE,
    'cache-control': 'no-store',
    ...(refusal.status === 503 && { 'retry-after': '5' }),
  },
  body: problemText(refusal),
});
