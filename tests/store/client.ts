/** The real SDK, pointed at the front on loopback. */
import { S3Client } from '@aws-sdk/client-s3';
import type { S3Front } from './s3-front/server.ts';

process.env['AWS_SDK_JS_NODE_VERSION_SUPPORT_WARNING_DISABLED'] = 'true';

export const clientOf = (
  { endpoint, keys }: Pick<S3Front, 'endpoint' | 'keys'>,
  more: { readonly maxAttempts?: number; readonly forSigning?: boolean } = {},
): S3Client =>
  new S3Client({
    endpoint,
    region: 'us-east-1',
    forcePathStyle: true,
    credentials: keys,
    maxAttempts: more.maxAttempts ?? 3,
    ...(more.forSigning && { requestChecksumCalculation: 'WHEN_REQUIRED' }),
  });
