/**
 * Keys of stored objects. Every key of a release is made of hashes, slugs and versions; this gate
 * makes sure that nothing else ever reaches a disk or a bucket, whoever calls.
 */
import { Fault } from '../base/fault.ts';

const STEP = /^[A-Za-z0-9_][A-Za-z0-9._-]*$/;
const LONGEST = 512;

/** Throws unless the key is relative, plain and without tricks; a dot may not begin a step. */
export function requireKey(key: string): string {
  if (key.length > LONGEST || !key.split('/').every((step) => STEP.test(step))) {
    throw new Fault('store', `“${key}” is no key of a stored object`, {
      place: key,
      remedy: 'keys are made of letters, digits, hyphens and full stops between slashes',
    });
  }
  return key;
}

/** Order of keys as S3 lists them: by code unit, which for plain keys is by byte. */
export const byKey = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
