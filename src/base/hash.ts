/**
 * Content hashes. Artifacts are named by the SHA-256 of their bytes; recipes and bundles by the
 * SHA-256 of canonical JSON (keys sorted, no white space), so that key order never matters.
 */
import { createHash } from 'node:crypto';

/** Lower-case hexadecimal SHA-256. */
export function hashBytes(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** JSON with sorted keys and no white space: equal values give equal text. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value)
    .filter(([, entry]) => entry !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, entry]) => `${JSON.stringify(key)}:${canonicalJson(entry)}`);
  return `{${entries.join(',')}}`;
}

export const hashValue = (value: unknown): string => hashBytes(canonicalJson(value));
