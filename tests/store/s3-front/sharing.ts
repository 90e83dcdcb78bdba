/**
 * What S3 tells a browser of another origin ("How Amazon S3 evaluates a CORS configuration", User Guide): a
 * rule fits by origin, method and asked headers; the first that fits is answered by; where none does, the
 * question before a request is refused and the request itself is answered without a word of it.
 */
import type { IncomingHttpHeaders } from 'node:http';
import type { SharingRule } from '../../../infra/sharing.ts';
import { S3Error } from './errors.ts';

export type Sharing = ReadonlyMap<string, readonly SharingRule[]>;

interface Asked {
  readonly method: string;
  readonly bucket: string;
  readonly headers: IncomingHttpHeaders;
}

/** Headers to be added; none where the browser is told nothing. */
export function sharedHeaders(
  sharing: Sharing,
  { method, bucket, headers }: Asked,
): Readonly<Record<string, string>> {
  const { origin } = headers;
  if (origin === undefined) return {};
  const asks = method === 'OPTIONS';
  const wanted = asks ? headers['access-control-request-method'] : method;
  const more = asks ? headers['access-control-request-headers'] : undefined;
  const rule = sharing
    .get(bucket)
    ?.find(
      ({ allowedOrigins, allowedMethods }) =>
        more === undefined &&
        allowedOrigins.includes(origin) &&
        allowedMethods.some((each) => each === wanted),
    );
  if (rule === undefined) {
    if (asks) throw new S3Error(403, 'AccessForbidden', 'CORSResponse: not allowed here');
    return {};
  }
  return {
    'access-control-allow-origin': origin,
    'access-control-allow-methods': rule.allowedMethods.join(', '),
    'access-control-max-age': String(rule.maxAge),
    'access-control-allow-credentials': 'true',
    vary: 'Origin, Access-Control-Request-Headers, Access-Control-Request-Method',
  };
}
