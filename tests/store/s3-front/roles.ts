/**
 * Who may do what in the S3 of the tests: roles with permissions as IAM has them, an action and a resource
 * with `*` in it. Takes the reviewed list of the stack's permissions, so that what runs against it runs
 * with exactly the rights that are deployed. A caller without a role may do everything.
 */
import { readFileSync } from 'node:fs';
import { S3Error } from './errors.ts';

export interface Permission {
  readonly action: string;
  /** `bucket/key` with stars, or the bucket alone. */
  readonly resource: RegExp;
}

export type Roles = ReadonlyMap<string, readonly Permission[]>;

/** A request as S3 asks IAM about it ("Actions defined by Amazon S3", Service Authorization Reference). */
export interface Asked {
  readonly method: string;
  readonly bucket: string;
  readonly key: string;
  readonly hasVersion: boolean;
}

/** Reads `tests/golden/infra/permissions.txt`: a role a paragraph, a permission a line. */
export function readRoles(file: string): Roles {
  const paragraphs = readFileSync(file, 'utf8').trim().split('\n\n');
  return new Map(
    paragraphs.map((paragraph) => {
      const [name = '', ...lines] = paragraph.split('\n');
      return [name.toLowerCase(), lines.map((line) => permissionOf(line.trim()))];
    }),
  );
}

function permissionOf(line: string): Permission {
  const [action = '', resource = ''] = line.split(' ');
  const [bucket = '', ...key] = resource.split('/');
  const written = [bucket.toLowerCase(), ...key].join('/');
  const pattern = written.replaceAll(/[.+?^${}()|[\]\\]/g, '\\$&').replaceAll('*', '.*');
  return { action, resource: new RegExp(`^${pattern}$`) };
}

export function may(permissions: readonly Permission[], asked: Asked): boolean {
  const resource = asked.key === '' ? asked.bucket : `${asked.bucket}/${asked.key}`;
  return permissions.some(
    (each) => each.action === actionOf(asked) && each.resource.test(resource),
  );
}

function actionOf({ method, key, hasVersion }: Asked): string {
  if (key === '') return 's3:ListBucket';
  switch (method) {
    case 'GET':
    case 'HEAD':
      return hasVersion ? 's3:GetObjectVersion' : 's3:GetObject';
    case 'PUT':
    case 'POST':
      return 's3:PutObject';
    case 'DELETE':
      return 's3:DeleteObject';
    default:
      return 'none';
  }
}

/** S3 hides what is missing from whoever may not list: 403 where others get 404. */
export function hideMissing(error: unknown, permissions: readonly Permission[], bucket: string) {
  const isMissing = error instanceof S3Error && error.status === 404;
  if (!isMissing || may(permissions, { method: 'GET', bucket, key: '', hasVersion: false })) {
    return error;
  }
  return new S3Error(403, 'AccessDenied');
}
