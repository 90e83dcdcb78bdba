/**
 * A store that lives as long as the process: the work area of a run on a laptop, and the store that
 * tests fail on purpose. Same contract as the folder and S3.
 */
import { hashBytes } from '../base/hash.ts';
import { byKey, requireKey } from './key.ts';
import type { Listed, PutOptions, PutResult, Store, StoredObject } from './store.ts';

interface Held extends StoredObject {
  readonly modified: Date;
}

/** `now` dates the objects, for those who clear up old ones. */
export function memoryStore(now: () => Date = () => new Date(0), name = 'memory'): Store {
  const objects = new Map<string, Held>();

  const holds = (key: string, condition: PutOptions['condition']): boolean => {
    const held = objects.get(key);
    if (condition === undefined) return true;
    return condition === 'absent' ? held === undefined : held?.tag === condition.tag;
  };

  return {
    name,
    get: async (key) => {
      const held = objects.get(requireKey(key));
      return held && { bytes: held.bytes.slice(), tag: held.tag };
    },
    has: async (key) => objects.has(requireKey(key)),
    put: async (key, bytes, options = {}): Promise<PutResult> => {
      if (!holds(requireKey(key), options.condition)) return { ok: false };
      const tag = hashBytes(bytes);
      objects.set(key, { bytes: bytes.slice(), tag, modified: now() });
      return { ok: true, tag };
    },
    async *list(prefix, after = ''): AsyncGenerator<Listed> {
      const found = [...objects.keys()].filter((key) => key.startsWith(prefix) && key > after);
      for (const key of found.sort(byKey)) {
        const held = objects.get(key);
        if (held) yield { key, sizeBytes: held.bytes.length, modified: held.modified };
      }
    },
    delete: async (key) => {
      objects.delete(requireKey(key));
    },
  };
}
