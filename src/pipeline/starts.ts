/**
 * That runs were started: when, for which upload or bundle, and with what order. Keeps one record for each
 * run and two lists of them, whose keys sort the latest first, so that the newest are found without reading
 * the rest. What is said twice, as after a repeated event, stands as it was said first.
 */
import { z } from 'zod';
import { present } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { hashBytes } from '../base/hash.ts';
import { RUN_LIMITS } from '../base/limits.ts';
import { parseJson } from '../release/manifest.ts';
import type { Store } from '../store/store.ts';
import { writeJson } from './claims.ts';
import { settings } from './payloads.ts';

const started = z.strictObject({
  run: z.string(),
  at: z.iso.datetime(),
  /** The name on the shelf; nothing where the bundle came as an upload. */
  bundle: z.string().optional(),
  /** What the first step reads. */
  source: z.string(),
  settings,
});
export type Started = z.output<typeof started>;

const startKey = (run: string): string => `runs/${run}/started.json`;
/** By the whole key of the upload, which may hold any character. */
const uploadKey = (upload: string): string => `uploads/${hashBytes(upload)}.json`;
/** A name on the shelf may hold any character as well. */
const listOf = (bundle?: string): string =>
  `started/${bundle === undefined ? 'all' : hashBytes(bundle)}/`;

/** Milliseconds of thirteen digits reach into the year 2286; the later, the smaller. */
const LAST_MOMENT = 9_999_999_999_999;
const DIGITS = String(LAST_MOMENT).length;
const placeOf = ({ run, at }: Started): string =>
  `${String(LAST_MOMENT - Date.parse(at)).padStart(DIGITS, '0')}-${run}`;

/** The record comes first: what stands in a list is there. Gives it as it stands. */
export async function keepStart(work: Store, start: Started, upload?: string): Promise<Started> {
  const { ok } = await writeJson(work, startKey(start.run), start, 'absent');
  const standing = ok ? start : present(await recallStart(work, start.run), start.run);
  const { run, bundle } = standing;
  await writeJson(work, listOf() + placeOf(standing), { run });
  if (bundle !== undefined) await writeJson(work, listOf(bundle) + placeOf(standing), { run });
  if (upload !== undefined) await writeJson(work, uploadKey(upload), { run });
  return standing;
}

/** How the run was started; nothing where there is none of that name. */
export async function recallStart(work: Store, run: string): Promise<Started | undefined> {
  const stored = await work.get(startKey(run));
  return stored && started.parse(parseJson(stored.bytes));
}

/** The latest run that was started for an upload. */
export async function recallRunOf(work: Store, upload: string): Promise<string | undefined> {
  const stored = await work.get(uploadKey(upload));
  return stored && z.object({ run: z.string() }).parse(parseJson(stored.bytes)).run;
}

/** The latest first; all of the studio, or those of one bundle of the shelf. */
export async function listStarts(
  work: Store,
  { bundle, limit }: { readonly bundle?: string | undefined; readonly limit: number },
): Promise<readonly Started[]> {
  const runs: string[] = [];
  const from = listOf(bundle);
  for await (const { key } of work.list(from)) {
    if (runs.push(key.slice(from.length + DIGITS + 1)) === limit) break;
  }
  const found = await Promise.all(runs.map((run) => recallStart(work, run)));
  // A run is cleared up some time, and its place in the list perhaps an hour later.
  return found.filter((each) => each !== undefined);
}

const turnKey = (bundle: string): string => `started/last/${hashBytes(bundle)}.json`;

/**
 * One run of a bundle at a time. Gives the start that is due: the wanted one, or the one at work, which a
 * later caller joins. It is written whole before anything is done about it, so that whoever joins a start
 * that was cut off in the middle can do the rest of it.
 */
export async function takeTurn(
  work: Store,
  wanted: Started & { readonly bundle: string },
  isOver: (last: Started) => Promise<boolean>,
): Promise<Started> {
  const key = turnKey(wanted.bundle);
  for (let tries = 0; tries < RUN_LIMITS.turns; tries += 1) {
    const stored = await work.get(key);
    const last = stored && started.parse(parseJson(stored.bytes));
    if (last && !(await isOver(last))) return last;
    const condition = stored ? { tag: stored.tag } : 'absent';
    if ((await writeJson(work, key, wanted, condition)).ok) return wanted;
  }
  throw new Fault('store', 'others start the same bundle at this very moment', {
    place: wanted.bundle,
    retryable: true,
  });
}
