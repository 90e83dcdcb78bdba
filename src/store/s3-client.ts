/**
 * The S3 client, configured once: standard retries, and path style where another server than AWS is
 * named (`AWS_ENDPOINT_URL_S3`). Kept apart so that nothing loads the SDK before it is needed.
 */
import { S3Client } from '@aws-sdk/client-s3';

/** For addresses alone: what will be put is not known yet, so no checksum of it may be sealed in. */
export const openSigner = (): S3Client =>
  openClient({ requestChecksumCalculation: 'WHEN_REQUIRED' });

export function openClient(
  more: { readonly requestChecksumCalculation?: 'WHEN_REQUIRED' } = {},
): S3Client {
  // The SDK tells every run that a later SDK will want a later Node; ours is pinned.
  process.env['AWS_SDK_JS_NODE_VERSION_SUPPORT_WARNING_DISABLED'] ??= 'true';
  const endpoint = process.env['AWS_ENDPOINT_URL_S3'] ?? process.env['AWS_ENDPOINT_URL'];
  return new S3Client({
    maxAttempts: 4,
    retryMode: 'standard',
    ...more,
    ...(endpoint !== undefined && { endpoint, forcePathStyle: true }),
  });
}
