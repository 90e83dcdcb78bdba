/**
 * The words of a request, read the same on this machine and in the cloud: what it brings as JSON, how long
 * that may be, and what a list is asked with. Takes texts; gives values of a schema, or a refusal.
 */
import { z } from 'zod';
import { API_LIMITS } from '../../base/limits.ts';
import { Refusal } from './refusal.ts';

/** Requests that bring more than an order. */
const LONGER: Readonly<Record<string, number>> = {
  'POST /bundles/{bundle}/corrections': API_LIMITS.changeBytes,
  'POST /bundles/{bundle}/replacements': API_LIMITS.replacementBytes,
};

/** `route` as in the document: `POST /bundles/{bundle}/undo`. */
export const mostBytesOf = (route: string): number => LONGER[route] ?? API_LIMITS.bodyBytes;

export const tooLong = (mostBytes: number): Refusal =>
  new Refusal(400, 'The request is too long', `at most ${mostBytes} bytes`);

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

type Query = Readonly<Record<string, string>>;

const runsQuery = z.object({
  bundle: z.string().min(1).max(80).optional(),
  limit: z.coerce.number().int().min(1).max(API_LIMITS.runs).default(20),
});

export function readRunsQuery(query: Query): z.output<typeof runsQuery> {
  const read = runsQuery.safeParse(query);
  if (read.success) return read.data;
  throw new Refusal(400, 'The list cannot be read', '“bundle” and “limit”');
}

export const patternId = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(64);
const versionName = z.string().regex(/^\d{1,4}\.\d{1,4}\.\d{1,4}$/);

const releasesQuery = z.object({
  after: z.templateLiteral([patternId, '/', versionName]).optional(),
  limit: z.coerce.number().int().min(1).max(API_LIMITS.releasesPerPage).default(100),
});

export function readReleasesQuery(query: Query): z.output<typeof releasesQuery> {
  const read = releasesQuery.safeParse(query);
  if (read.success) return read.data;
  throw new Refusal(400, 'The page cannot be read', '“after” and “limit”');
}

/** Which file of a release is asked for. */
export function readPath({ path }: Query): string {
  if (path !== undefined) return path;
  throw new Refusal(400, 'Which file?', 'name its “path”');
}
