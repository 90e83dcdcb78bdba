/**
 * The order of a zip: an object that the API writes and whose arrival has the zip made, as the arrival of
 * an upload starts a run. So the API needs no right to call anything, an order is never lost between the two,
 * and one that comes twice names the same zip.
 */
import { z } from 'zod';
import { studioName } from '../../src/pipeline/payloads.ts';
import { readMadeName } from '../../src/release/made.ts';

export interface ZipOrder {
  readonly pattern: string;
  /** A version for sale, or the name of a copy: `1.0.0-proof-2`. */
  readonly version: string;
}

export const zipKey = ({ pattern, version }: ZipOrder): string => `zips/${pattern}/${version}.zip`;
export const zipOrderKey = ({ pattern, version }: ZipOrder): string =>
  `zips/${pattern}/${version}.json`;

export const zipOrder = z.strictObject({ since: z.iso.datetime() });

const arrived = z.object({ detail: z.object({ object: z.object({ key: z.string() }) }) });
const KEY = /^([^/]+)\/zips\/([a-z0-9-]{1,64})\/([^/]+)\.json$/;

/** The order an event tells of; nothing where the object is none. */
export function readZipOrder(event: unknown): (ZipOrder & { readonly studio: string }) | undefined {
  const [, studio = '', pattern = '', version = ''] =
    KEY.exec(arrived.parse(event).detail.object.key) ?? [];
  const known = studioName.safeParse(studio).success && readMadeName(version) !== undefined;
  return known ? { studio, pattern, version } : undefined;
}
