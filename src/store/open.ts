/**
 * Opens the store that an address names: a path is a folder, `s3://bucket/prefix` a bucket. The SDK is
 * loaded only where a bucket is named; region and keys come from the usual AWS configuration.
 */
import { Fault } from '../base/fault.ts';
import { folderStore } from './folder.ts';
import type { S3Place } from './s3.ts';
import type { Store } from './store.ts';

const ADDRESS = /^s3:\/\/([a-z0-9][a-z0-9.-]{1,61}[a-z0-9])(?:\/(.*))?$/;

export const isBucketAddress = (address: string): boolean => /^s3:/i.test(address);

export function readBucketAddress(address: string): S3Place {
  const [, bucket, rest = ''] = ADDRESS.exec(address) ?? [];
  const prefix = rest.replace(/\/+$/, '');
  const plain = prefix === '' || prefix.split('/').every((step) => /^\w[\w.-]*$/.test(step));
  if (bucket === undefined || !plain) {
    throw new Fault('usage', `${address} is no address of a bucket`, {
      place: address,
      remedy: 'write s3://bucket or s3://bucket/folder',
    });
  }
  return { bucket, prefix };
}

export async function openStore(address: string): Promise<Store> {
  if (!isBucketAddress(address)) return folderStore(address);
  const place = readBucketAddress(address);
  const [{ s3Store }, { openClient }] = await Promise.all([
    import('./s3.ts'),
    import('./s3-client.ts'),
  ]);
  return s3Store(openClient(), place);
}
