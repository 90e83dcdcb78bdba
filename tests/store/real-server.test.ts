/**
 * The contract against a real S3 server or AWS itself. Runs where `CASTOFF_TEST_BUCKET` names a bucket
 * that may be written to; region, keys and, for a server on loopback, `AWS_ENDPOINT_URL_S3` come from
 * the usual variables. `.ci/s3-conformance` starts a server and sets them.
 */
import { randomUUID } from 'node:crypto';
import { CreateBucketCommand } from '@aws-sdk/client-s3';
import { afterAll, beforeAll, describe } from 'vitest';
import { openClient } from '../../src/store/s3-client.ts';
import { s3Store } from '../../src/store/s3.ts';
import { storeContract } from './contract.ts';

const bucket = process.env['CASTOFF_TEST_BUCKET'] ?? '';

describe.skipIf(bucket === '')('a real server', () => {
  const area = `contract-${randomUUID()}`;
  const client = openClient();
  let cases = 0;

  beforeAll(async () => {
    if (process.env['CASTOFF_TEST_CREATE_BUCKET'] === 'yes') {
      await client.send(new CreateBucketCommand({ Bucket: bucket }));
    }
  });
  afterAll(async () => {
    const all = s3Store(client, { bucket, prefix: area });
    for await (const { key } of all.list('')) await all.delete(key);
    client.destroy();
  });

  storeContract(async () => s3Store(client, { bucket, prefix: `${area}/${(cases += 1)}` }));
});
