/**
 * An uploaded bundle as a run names it: `s3://bucket/key?version=…`. The version makes a late or
 * repeated event mean the upload it was sent for, whatever has been uploaded since.
 */
import { Fault } from '../base/fault.ts';

export interface Upload {
  readonly bucket: string;
  readonly key: string;
  /** Absent where the bucket keeps no versions. */
  readonly version?: string | undefined;
}

export function writeUpload({ bucket, key, version }: Upload): string {
  const path = key.split('/').map(encodeURIComponent).join('/');
  return `s3://${bucket}/${path}${version === undefined ? '' : `?version=${encodeURIComponent(version)}`}`;
}

export function readUpload(reference: string): Upload {
  const match = /^s3:\/\/([^/?]+)\/([^?]+)(?:\?version=(.+))?$/.exec(reference);
  const [, bucket, path, version] = match ?? [];
  if (bucket === undefined || path === undefined) {
    throw new Fault('input', `${reference} names no upload`, { place: reference });
  }
  const key = path.split('/').map(decodeURIComponent).join('/');
  return { bucket, key, ...(version !== undefined && { version: decodeURIComponent(version) }) };
}
