/**
 * Where the bundle of a run comes from, as its input names it: one version of an upload, or a state of the
 * studio's shelf. Both stay what they are, however late a step is tried again.
 */
import type { S3Client } from '@aws-sdk/client-s3';
import { BUNDLE_LIMITS } from '../src/base/limits.ts';
import { type BundleFiles, unpackBundle } from '../src/pattern/bundle/unpack.ts';
import { readTree } from '../src/shelf/tree.ts';
import { fetchVersion } from '../src/store/s3-uploads.ts';
import type { Store } from '../src/store/store.ts';
import { readUpload } from '../src/store/upload.ts';

const SHELF = 'shelf:';

export const shelfSource = (state: string): string => `${SHELF}${state}`;

export async function readSource(
  source: string,
  { client, shelf }: { readonly client: S3Client; readonly shelf: Store },
): Promise<BundleFiles> {
  if (source.startsWith(SHELF)) return readTree(shelf, source.slice(SHELF.length));
  return unpackBundle(await fetchVersion(client, readUpload(source), BUNDLE_LIMITS.zipBytes));
}
