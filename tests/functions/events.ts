/**
 * Events as AWS sends them, for tests. The shape is that of "Amazon S3 event notifications through
 * EventBridge" in the S3 User Guide; the type is that of @types/aws-lambda.
 */
import type { S3ObjectCreatedNotificationEvent } from 'aws-lambda';

export const objectCreated = (
  key: string,
  version: string,
  sizeBytes = 2048,
): S3ObjectCreatedNotificationEvent => ({
  version: '0',
  id: '17793124-05d4-b198-2fde-7ededc63b103',
  'detail-type': 'Object Created',
  source: 'aws.s3',
  account: '111122223333',
  time: '2026-02-01T00:00:00Z',
  region: 'eu-west-1',
  resources: ['arn:aws:s3:::uploads'],
  detail: {
    version: '0',
    bucket: { name: 'uploads' },
    object: {
      key,
      size: sizeBytes,
      etag: 'b1946ac92492d2347c6235b4d2611184',
      'version-id': version,
      sequencer: '617f08299329d189',
    },
    'request-id': 'N4N7GDK58NMKJ12R',
    requester: '111122223333',
    'source-ip-address': '192.0.2.3',
    reason: 'PutObject',
  },
});
