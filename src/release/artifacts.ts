/**
 * Artifacts by content and the recipes that lead to them. A recipe says: these inputs gave that
 * artifact; so work whose inputs are unchanged is not done again. Takes a store and the inputs as
 * plain JSON; knows nothing of what an artifact is.
 */
import { z } from 'zod';
import { hashBytes, hashValue } from '../base/hash.ts';
import type { Store } from '../store/store.ts';
import { artifactKey, recipeKey } from './keys.ts';
import { parseJson } from './manifest.ts';

const artifact = z.strictObject({
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  sizeBytes: z.number().int().nonnegative(),
  mediaType: z.string(),
  /** Whatever the maker wants to know of it again: pixels of a picture, pages of a document. */
  facts: z.record(z.string(), z.union([z.number(), z.string()])),
});

export type Artifact = z.output<typeof artifact>;

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
  const key = recipeKey(hashValue(inputs));
  const known = await recall(store, key);
  if (known) return { artifact: known, reused: true };
  const made = await keep(store, await make());
  await store.put(key, encode(made), { contentType: 'application/json' });
  return { artifact: made, reused: false };
}

/**
 * Stores bytes under their hash. Written even where the object exists: the bytes are the same, and the
 * fresh date keeps them from being cleared up while this run still needs them.
 */
export async function keep(store: Store, made: Made): Promise<Artifact> {
  const hash = hashBytes(made.bytes);
  await store.put(artifactKey(hash, made.mediaType), made.bytes, { contentType: made.mediaType });
  const { mediaType, facts = {} } = made;
  return { hash, sizeBytes: made.bytes.length, mediaType, facts: { ...facts } };
}

async function recall(store: Store, key: string): Promise<Artifact | undefined> {
  const stored = await store.get(key);
  const parsed = stored && artifact.safeParse(parseJson(stored.bytes));
  if (!parsed?.success) return undefined;
  const { hash, mediaType } = parsed.data;
  return (await store.has(artifactKey(hash, mediaType))) ? parsed.data : undefined;
}

const encode = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));
