/**
 * An upload by a form that somebody with keys has signed ("Browser-based uploads using POST", Amazon S3 API
 * Reference): the policy is checked as a server does, and every field must be named in it.
 */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import { S3Error } from './errors.ts';
import type { Keys } from './signature.ts';

export interface Posted {
  readonly key: string;
  readonly bytes: Buffer;
  /** Headers to keep with the object. */
  readonly headers: Readonly<Record<string, string>>;
  /** Where the browser is led afterwards, with the object's name in the query. */
  readonly leadTo?: string;
}

const policySchema = z.object({
  expiration: z.iso.datetime(),
  conditions: z.array(
    z.union([
      z.tuple([z.literal('content-length-range'), z.number(), z.number()]),
      z.tuple([z.enum(['eq', 'starts-with']), z.string(), z.string()]),
      z.record(z.string(), z.string()),
    ]),
  ),
});
type Condition = z.output<typeof policySchema>['conditions'][number];

/** Fields that need no condition. */
const FREE = new Set(['x-amz-signature', 'policy', 'file', 'bucket']);

export async function readPost(
  contentType: string,
  body: Buffer,
  bucket: string,
  keys: Keys,
  now: Date,
): Promise<Posted> {
  const form = await new Response(Uint8Array.from(body), {
    headers: { 'content-type': contentType },
  }).formData();
  const fields = new Map<string, string>([['bucket', bucket]]);
  let bytes: Buffer | undefined;
  for (const [name, value] of form) {
    if (typeof value !== 'string') bytes = Buffer.from(await value.arrayBuffer());
    else fields.set(name.toLowerCase(), value);
  }
  const encoded = fields.get('policy');
  if (encoded === undefined) throw new S3Error(403, 'AccessDenied');
  requireOwnSignature(encoded, fields, keys);
  const policy = policySchema.parse(JSON.parse(Buffer.from(encoded, 'base64').toString('utf8')));
  if (Date.parse(policy.expiration) < now.getTime()) throw new S3Error(403, 'AccessDenied');
  if (bytes === undefined) throw new S3Error(400, 'InvalidArgument', 'no file');
  const named = policy.conditions.flatMap((each) => requireCondition(each, fields, bytes.length));
  const extra = [...fields.keys()].find((name) => !FREE.has(name) && !named.includes(name));
  if (extra !== undefined) throw new S3Error(403, 'AccessDenied', `Extra input fields: ${extra}`);
  const kept = [...fields].filter(
    ([name]) => name === 'content-type' || name.startsWith('x-amz-meta-'),
  );
  const leadTo = fields.get('success_action_redirect');
  const key = fields.get('key') ?? '';
  return { key, bytes, headers: Object.fromEntries(kept), ...(leadTo !== undefined && { leadTo }) };
}

function requireOwnSignature(
  policy: string,
  fields: ReadonlyMap<string, string>,
  keys: Keys,
): void {
  const [keyId, ...scope] = (fields.get('x-amz-credential') ?? '').split('/');
  if (keyId !== keys.accessKeyId) throw new S3Error(403, 'InvalidAccessKeyId');
  const signing = scope.reduce<string | Buffer>(
    (secret, part) => createHmac('sha256', secret).update(part).digest(),
    `AWS4${keys.secretAccessKey}`,
  );
  const expected = createHmac('sha256', signing).update(policy).digest();
  const given = Buffer.from(fields.get('x-amz-signature') ?? '', 'hex');
  if (given.length !== expected.length || !timingSafeEqual(given, expected)) {
    throw new S3Error(403, 'SignatureDoesNotMatch');
  }
}

/** Gives the fields that the condition names. */
function requireCondition(
  condition: Condition,
  fields: ReadonlyMap<string, string>,
  sizeBytes: number,
): readonly string[] {
  if (!Array.isArray(condition)) {
    for (const [name, value] of Object.entries(condition)) requireField(name, fields, 'eq', value);
    return Object.keys(condition).map((name) => name.toLowerCase());
  }
  const [kind, first, second] = condition;
  if (kind === 'content-length-range') {
    if (sizeBytes > Number(second)) throw new S3Error(400, 'EntityTooLarge');
    if (sizeBytes < Number(first)) throw new S3Error(400, 'EntityTooSmall');
    return [];
  }
  const name = String(first).replace(/^\$/, '');
  requireField(name, fields, kind, String(second));
  return [name.toLowerCase()];
}

function requireField(
  name: string,
  fields: ReadonlyMap<string, string>,
  kind: 'eq' | 'starts-with',
  wanted: string,
): void {
  const value = fields.get(name.toLowerCase()) ?? '';
  const holds = kind === 'eq' ? value === wanted : value.startsWith(wanted);
  if (!holds) throw new S3Error(403, 'AccessDenied', `Policy Condition failed: ${name}`);
}
