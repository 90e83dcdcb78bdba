/**
 * Clears up what no release names: artifacts of runs that died, results nobody came back for. Works in
 * two runs a term of grace apart, so that no publisher that is at work loses anything; a run of the
 * pipeline is far shorter than that. Takes the hour from the caller; deletes nothing when in doubt.
 */
import { Fault } from '../base/fault.ts';
import type { Store } from '../store/store.ts';
import { readRecipe } from './artifacts.ts';
import type { CondemnedList, StoredList } from './condemned.ts';
import { CONDEMNED_KEY, readCondemned, writeCondemned } from './condemned.ts';
import { artifactKey } from './keys.ts';
import { readManifest } from './manifest.ts';

export interface TidyOptions {
  readonly now: Date;
  /** Names this run among others. */
  readonly owner: string;
  /** Longer than any publisher can be at work. */
  readonly graceHours?: number;
  /** How long work is remembered for use in a later version. */
  readonly recipeDays?: number;
}

export interface Tidied {
  readonly deleted: number;
  readonly deletedBytes: number;
  /** Artifacts that go with the next run, if nobody needs them before `notBefore`. */
  readonly condemned: number;
  readonly notBefore?: Date;
}

export const DEFAULT_GRACE_HOURS = 24;
export const DEFAULT_RECIPE_DAYS = 180;
/** An owner that has not finished by then has died. */
const OWNER_HOURS = 2;
/** Deletions between two looks at whether this run still owns the list. */
const LOOK_EVERY = 50;
const HOUR_MILLISECONDS = 3_600_000;

export async function tidyStore(store: Store, options: TidyOptions): Promise<Tidied> {
  const found = await readCondemned(store);
  if (found === undefined) return condemn(store, options);
  const { state, since, keys } = found.list;
  const age = options.now.getTime() - Date.parse(since);
  const grace = (options.graceHours ?? DEFAULT_GRACE_HOURS) * HOUR_MILLISECONDS;
  if (state === 'listed' && age < grace) {
    await forgetRecipes(store, new Set(keys));
    return waiting(keys.length, since, grace);
  }
  if (state === 'deleting' && age < OWNER_HOURS * HOUR_MILLISECONDS) throw busy();
  return execute(store, found, options);
}

const waiting = (condemned: number, since: string, grace: number): Tidied => ({
  deleted: 0,
  deletedBytes: 0,
  condemned,
  notBefore: new Date(Date.parse(since) + grace),
});

/** First run: lists what is not needed, then forgets the recipes that lead there. */
async function condemn(store: Store, options: TidyOptions): Promise<Tidied> {
  const grace = (options.graceHours ?? DEFAULT_GRACE_HOURS) * HOUR_MILLISECONDS;
  const keys = await findGarbage(store, options, grace);
  if (keys.length === 0) return { deleted: 0, deletedBytes: 0, condemned: 0 };
  const since = options.now.toISOString();
  const value: CondemnedList = { state: 'listed', since, owner: '', keys: [...keys] };
  if (!(await writeCondemned(store, value, undefined))) throw busy();
  await forgetRecipes(store, new Set(keys));
  return waiting(keys.length, since, grace);
}

/** Second run: becomes the one owner, spares what was released meanwhile, deletes the rest. */
async function execute(store: Store, found: StoredList, options: TidyOptions): Promise<Tidied> {
  const named = await namedArtifacts(store);
  const keys = found.list.keys.filter((key) => !named.has(key));
  const since = options.now.toISOString();
  const sealed: CondemnedList = { state: 'deleting', since, owner: options.owner, keys };
  if (!(await writeCondemned(store, sealed, found))) throw busy();
  await forgetRecipes(store, new Set(keys));
  const result = await deleteAll(store, new Set(keys), options.owner);
  await store.delete(CONDEMNED_KEY);
  return { ...result, condemned: 0 };
}

/** Stops where another run has taken the work over. */
async function deleteAll(
  store: Store,
  doomed: ReadonlySet<string>,
  owner: string,
): Promise<{ readonly deleted: number; readonly deletedBytes: number }> {
  let [deleted, deletedBytes] = [0, 0];
  for await (const { key, sizeBytes } of store.list('artifacts/')) {
    if (!doomed.has(key)) continue;
    if (deleted % LOOK_EVERY === 0 && (await readCondemned(store))?.list.owner !== owner)
      throw busy();
    await store.delete(key);
    deleted += 1;
    deletedBytes += sizeBytes;
  }
  return { deleted, deletedBytes };
}

/** Old artifacts that no release names and no living recipe leads to. */
async function findGarbage(
  store: Store,
  { now, recipeDays = DEFAULT_RECIPE_DAYS }: TidyOptions,
  grace: number,
): Promise<readonly string[]> {
  const needed = new Set(await namedArtifacts(store));
  const oldestRecipe = now.getTime() - recipeDays * 24 * HOUR_MILLISECONDS;
  for await (const { key, modified } of store.list('recipes/')) {
    if (modified.getTime() < oldestRecipe) continue;
    const recipe = readRecipe((await store.get(key))?.bytes);
    if (recipe) needed.add(artifactKey(recipe.hash, recipe.mediaType));
  }
  const garbage: string[] = [];
  for await (const { key, modified } of store.list('artifacts/')) {
    const isYoung = modified.getTime() > now.getTime() - grace;
    if (!isYoung && !needed.has(key)) garbage.push(key);
  }
  return garbage;
}

/** A manifest that cannot be read stops everything: what it names is not known. */
async function namedArtifacts(store: Store): Promise<ReadonlySet<string>> {
  const named = new Set<string>();
  for await (const { key } of store.list('releases/')) {
    if (!key.endsWith('/manifest.json')) continue;
    const stored = await store.get(key);
    for (const { artifact, mediaType } of stored ? readManifest(stored.bytes, key).files : []) {
      named.add(artifactKey(artifact, mediaType));
    }
  }
  return named;
}

async function forgetRecipes(store: Store, keys: ReadonlySet<string>): Promise<void> {
  for await (const { key } of store.list('recipes/')) {
    const recipe = readRecipe((await store.get(key))?.bytes);
    const leadsTo = recipe && artifactKey(recipe.hash, recipe.mediaType);
    if (leadsTo !== undefined && keys.has(leadsTo)) await store.delete(key);
  }
}

const busy = (): Fault =>
  new Fault('conflict', 'somebody else is clearing up this store', {
    place: CONDEMNED_KEY,
    retryable: true,
    remedy: 'wait for them; after two hours their work is taken over',
  });
