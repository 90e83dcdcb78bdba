/**
 * Which buckets a page in a browser may fetch from by signed addresses, and how (cross-origin resource
 * sharing). Data alone: the stack declares it, and the store of the tests keeps to it.
 */
import type { BucketName } from './functions.ts';

/** Drafts and zips; released files. */
export const SHARED: readonly BucketName[] = ['work', 'releases'];

export interface SharingRule {
  readonly allowedOrigins: readonly string[];
  readonly allowedMethods: readonly 'GET'[];
  /** Browsers ask again after so many seconds. */
  readonly maxAge: number;
}

/** `origin`: that of the pages. */
export const sharingWith = (origin: string): SharingRule => ({
  allowedOrigins: [origin],
  allowedMethods: ['GET'],
  maxAge: 3_600,
});
