/**
 * Artifacts by content and the recipes that lead to them. A recipe says: these inputs gave that
 * artifact; so work whose inputs are unchanged is not done again. Takes a store and the inputs as
 * plain JSON; knows nothing of what an artifact is.
 */
import { z } from 'zod';
import { hashBytes, hashValue } from '../base/hash.ts';
import type { Store } from '../store/store.ts';
import { pardon, readCondemned } from './condemned.ts';
import { artifactKey, recipeKey } from './keys.ts';
import { parseJson } from './manifest.ts';

const artifactRecord = z.strictObject({
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  sizeBytes: z.number().int().nonnegative(),
  mediaType: z.string(),
  /** Whatever the maker wants to know of it again: pixels of a picture, pages of a document. */
  facts: z.record(z.string(), z.union([z.number(), z.string()])),
});

export type Artifact = z.output<typeof artifactRecord>;

export interface Made {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
  readonly facts?: Readonly<Record<string, number | string>>;
}

export interface Obtained {
  readonly artifact: Artifact;
  readonly reused: boolean;
}

/** The artifact these inputs lead to: found by its recipe, or made and remembered. */
export async function obtain(
  store: Store,
  inputs: unknown,
  make: () => Promise<Made>,
): Promise<Obtained> {
  // First the list, then the recipe: what is condemned later outlives this run.
  const condemned = (await readCondemned(store))?.list.keys ?? [];
  const key = recipeKey(hashValue(inputs));
  const known = await recall(store, key, condemned);
  if (known) return { artifact: known, reused: true };
  const made = await keep(store, await make());
  await store.put(key, encode(made), { contentType: 'application/json' });
  return { artifact: made, reused: false };
}

/**
 * Stores bytes under their hash. Written even where the object exists: the bytes are the same, and the
 * fresh date keeps them from being condemned while this run still needs them.
 */
async function keep(store: Store, made: Made): Promise<Artifact> {
  const hash = hashBytes(made.bytes);
  const key = artifactKey(hash, made.mediaType);
  await pardon(store, key);
  await store.put(key, made.bytes, { contentType: made.mediaType });
  const { mediaType, facts = {} } = made;
  return { hash, sizeBytes: made.bytes.length, mediaType, facts: { ...facts } };
}

async function recall(
  store: Store,
  key: string,
  condemned: readonly string[],
): Promise<Artifact | undefined> {
  const known = readRecipe((await store.get(key))?.bytes);
  if (known === undefined) return undefined;
  const artifact = artifactKey(known.hash, known.mediaType);
  if (condemned.includes(artifact)) return undefined;
  return (await store.has(artifact)) ? known : undefined;
}

/** What a recipe leads to; nothing where it cannot be read, for then it is made anew. */
export function readRecipe(bytes: Uint8Array | undefined): Artifact | undefined {
  const parsed = bytes && artifactRecord.safeParse(parseJson(bytes));
  return parsed?.success ? parsed.data : undefined;
}

const encode = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));
