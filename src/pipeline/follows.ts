/**
 * What a release follows: the versions before it, and the line each document's history gets for what
 * changed since. Found once, in the check, and kept for the steps after it; a version that is released
 * already keeps what it was compared with, so that a run that is repeated ends in the same bytes.
 */
import { z } from 'zod';
import type { Bundle, CheckedPattern } from '../pattern/pattern.ts';
import { findRelease } from '../release/commit.ts';
import { earlierVersions, recallRelease } from '../release/earlier.ts';
import { parseJson } from '../release/manifest.ts';
import type { Store } from '../store/store.ts';
import type { Ports } from './ports.ts';

const followsRecord = z.strictObject({
  /** The version before this one first. */
  earlier: z.array(z.string()),
  /** A line for the history, by language; none where nothing prints otherwise. */
  history: z.record(z.string(), z.string()),
});
export type Follows = z.output<typeof followsRecord>;

export const followsKey = (run: string): string => `runs/${run}/follows.json`;
const NOTHING: Follows = { earlier: [], history: {} };

/** Versions to compare this one with. */
export async function findEarlier(ports: Ports, { data }: Bundle): Promise<readonly string[]> {
  const { id, version } = data;
  const released = await findRelease(ports.releases, id, version);
  if (released) return released.earlier ?? [];
  return earlierVersions(ports.releases, id, version);
}

/** Earlier versions a process keeps worked, between the check and the sheets. */
const REMEMBERED = 3;
const worked = new WeakMap<Ports, Map<string, CheckedPattern>>();

/** The patterns of those versions, worked like any other. */
export async function recallEarlier(
  ports: Ports,
  pattern: string,
  versions: readonly string[],
): Promise<readonly CheckedPattern[]> {
  const checked: CheckedPattern[] = [];
  const known = worked.get(ports) ?? new Map<string, CheckedPattern>();
  worked.set(ports, known);
  for (const version of versions) {
    const bundle = await recallRelease(ports.releases, pattern, version);
    const earlier = known.get(bundle.hash) ?? (await ports.rooms.check(bundle));
    if (known.size < REMEMBERED) known.set(bundle.hash, earlier);
    checked.push(earlier);
  }
  return checked;
}

export async function keepFollows(work: Store, run: string, follows: Follows): Promise<void> {
  const bytes = new TextEncoder().encode(JSON.stringify(follows));
  await work.put(followsKey(run), bytes, { contentType: 'application/json' });
}

export async function recallFollows(work: Store, run: string): Promise<Follows> {
  const stored = await work.get(followsKey(run));
  return stored ? followsRecord.parse(parseJson(stored.bytes)) : NOTHING;
}
