/**
 * A request as the routes see it: whose it is, and its words; and the two kinds of answers. Takes what API
 * Gateway hands over once its authoriser has checked the token (payload format 2.0). The studio comes from
 * the token alone: no word of a request can name another.
 */
import type { APIGatewayProxyStructuredResultV2 } from 'aws-lambda';
import { z } from 'zod';
import type { Fault, FaultKind } from '../../src/base/fault.ts';
import { API_LIMITS } from '../../src/base/limits.ts';
import { studioName } from '../../src/pipeline/payloads.ts';

export interface Call {
  /** `GET /runs/{run}` */
  readonly route: string;
  readonly path: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  readonly body: string;
}

export type Answer = Pick<APIGatewayProxyStructuredResultV2, 'body' | 'headers' | 'statusCode'>;

/** An answer that is thrown: the request cannot be served. */
export class Refusal extends Error {
  readonly status: number;
  readonly detail: string | undefined;
  /** Where it is wrong. */
  readonly place: string | undefined;
  constructor(status: number, title: string, detail?: string, place?: string) {
    super(title);
    this.status = status;
    this.detail = detail;
    this.place = place;
  }
}

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

/** Requests that bring more than an order. */
const LONGER: Readonly<Record<string, number>> = {
  'POST /bundles/{bundle}/corrections': API_LIMITS.changeBytes,
  'POST /bundles/{bundle}/replacements': API_LIMITS.replacementBytes,
};

export function readCall(event: unknown): Call {
  const { routeKey, pathParameters, queryStringParameters, body, isBase64Encoded } =
    request.parse(event);
  const most = LONGER[routeKey] ?? API_LIMITS.bodyBytes;
  if (body.length > most)
    throw new Refusal(400, 'The request is too long', `at most ${most} bytes`);
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

/** What a request brings as JSON; what nothing is said of is left to the schema. */
export function readOrder<T>(schema: z.ZodType<T>, body: string): T {
  const read = schema.safeParse(body === '' ? {} : parse(body));
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const words = `${issue?.path.join('/') ?? ''}: ${issue?.message ?? ''}`;
  throw new Refusal(400, 'The order cannot be read', words);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Refusal(400, 'The order is no JSON');
  }
}

/** What belongs to somebody else is not there, and no answer tells the difference. */
export const notFound = (what: string): Refusal => new Refusal(404, `There is no such ${what}`);

const STATUS: Readonly<Partial<Record<FaultKind, number>>> = {
  missing: 404,
  conflict: 409,
  input: 422,
};

/** A fault that the caller can do something about; nothing where it is our own affair. */
export function refusalOf({ kind, message, remedy, place, cause }: Fault): Refusal | undefined {
  // What is missing because the store says so is no name that a caller gave.
  if (kind === 'missing' && cause !== undefined) return undefined;
  const status = STATUS[kind];
  // The caller knows nothing of our buckets.
  const told = place?.startsWith('s3://') ? undefined : place;
  return status === undefined ? undefined : new Refusal(status, message, remedy, told);
}

export const answer = (value: unknown, statusCode = 200): Answer => ({
  statusCode,
  headers: { 'content-type': 'application/json', 'cache-control': 'no-store' },
  body: typeof value === 'string' ? value : JSON.stringify(value),
});

/** Problem details, RFC 9457. */
export const problem = ({ status, message: title, detail, place }: Refusal): Answer => ({
  statusCode: status,
  headers: {
    'content-type': 'application/problem+json',
    'cache-control': 'no-store',
    ...(status === 503 && { 'retry-after': '5' }),
  },
  body: JSON.stringify({ title, status, detail, place }),
});
