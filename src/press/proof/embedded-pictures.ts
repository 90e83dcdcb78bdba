/**
 * Which photographs a finished file holds, as hashes of their bytes. Photographs stand in a file as the
 * JPEG they were prepared as, so equal hashes mean that what is printed is what was prepared. Looks for
 * image dictionaries in the raw bytes; decodes nothing.
 */
import { hashBytes } from '../../base/hash.ts';

/** The dictionary of an image up to its first byte (ISO 32000-1, 7.3.8 and 8.9.5); none holds another. */
const IMAGE = /<<([^<>]*\/Subtype\s*\/Image\b[^<>]*)>>\s*stream\r?\n/g;
const LENGTH = /\/Length\s+(\d+)/;

export function embeddedPictures(bytes: Uint8Array): ReadonlySet<string> {
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
  const hashes = new Set<string>();
  for (const found of text.matchAll(IMAGE)) {
    const length = Number(LENGTH.exec(found[1] ?? '')?.[1] ?? 0);
    const start = found.index + found[0].length;
    hashes.add(hashBytes(bytes.subarray(start, start + length)));
  }
  return hashes;
}
