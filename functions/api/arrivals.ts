/**
 * From an upload to the shelf, once. A browser that is led back by the store may ask twice, so the upload is
 * claimed before it is read: `uploads/<upload>.json` in the studio's shelf tells who is at it, and then the
 * name under which the bundle lies. A claim whose holder broke off is taken over after a while.
 */
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { API_LIMITS, JSON_LIMITS } from '../../src/base/limits.ts';
import { followPointer } from '../../src/base/span.ts';
import { readJson } from '../../src/pattern/bundle/json.ts';
import { PATTERN_FILE } from '../../src/pattern/bundle/load.ts';
import type { BundleFiles } from '../../src/pattern/bundle/unpack.ts';
import { readHandedInZip } from '../../src/shelf/handed-in.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
import type { WriteCondition } from '../../src/store/store.ts';
import { notFound } from './call.ts';
import type { Desk } from './desk.ts';

/** Uploads for the shelf lie apart: none of them starts a run. */
export const arrivalKey = (studio: string, upload: string): string =>
  `${studio}/desk/${upload}.zip`;

const record = z.union([
  z.strictObject({ bundle: z.string() }),
  z.strictObject({ since: z.iso.datetime() }),
]);
type Standing = z.output<typeof record>;

/** Gives the name of the bundle; the same one however often it is asked. */
export async function takeArrival(
  desk: Desk,
  upload: string,
  wanted: string | undefined,
): Promise<string> {
  const claimed = await claim(desk, upload);
  if ('bundle' in claimed) return claimed.bundle;
  const settle = (standing: Standing) => write(desk, upload, standing, { tag: claimed.tag });
  try {
    const bundle = await lay(desk, upload, wanted);
    await settle({ bundle });
    return bundle;
  } catch (error) {
    await settle({ since: LONG_AGO }).catch(() => undefined);
    throw error;
  }
}

const LONG_AGO = new Date(0).toISOString();

async function lay(desk: Desk, upload: string, wanted: string | undefined): Promise<string> {
  const zip = await desk.fetchUpload(arrivalKey(desk.studio, upload));
  if (zip === undefined) throw notFound('upload');
  const { wanted: called, files } = await readHandedInZip(wanted ?? '', zip);
  return storeRoom(desk.shelf).keep(called === '' ? idOf(files) : called, files);
}

/** What the pattern calls itself, as far as it can be read. */
function idOf(files: BundleFiles): string {
  const text = new TextDecoder().decode(files.get(PATTERN_FILE));
  const id = followPointer(readJson(text, JSON_LIMITS.depth).value, '/id');
  return typeof id === 'string' ? id : '';
}

// ---------------------------------------------------------------- the claim

type Claim = { readonly bundle: string } | { readonly tag: string };

async function claim(desk: Desk, upload: string): Promise<Claim> {
  const mine = { since: desk.now.toISOString() };
  const first = await write(desk, upload, mine, 'absent');
  if (first.ok) return first;
  const held = await desk.shelf.get(claimKey(upload));
  if (held === undefined) throw busy(upload);
  const standing = record.parse(JSON.parse(new TextDecoder().decode(held.bytes)));
  if ('bundle' in standing) return standing;
  const seconds = (desk.now.getTime() - Date.parse(standing.since)) / 1000;
  if (seconds < API_LIMITS.arrivalSeconds) throw busy(upload);
  const taken = await write(desk, upload, mine, { tag: held.tag });
  if (!taken.ok) throw busy(upload);
  return taken;
}

const claimKey = (upload: string): string => `uploads/${upload}.json`;

const write = ({ shelf }: Desk, upload: string, standing: Standing, condition: WriteCondition) =>
  shelf.put(claimKey(upload), new TextEncoder().encode(JSON.stringify(standing)), {
    condition,
    contentType: 'application/json',
  });

const busy = (upload: string): Fault =>
  new Fault('conflict', 'this upload is being laid on the shelf at this very moment', {
    place: upload,
    remedy: 'look at the shelf in a moment',
  });
