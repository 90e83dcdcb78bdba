/**
 * What came back to the desk and waits for a yes: one changed file of a pattern, looked at but not yet
 * written. Kept for a while under a name nobody can guess; takes what was brought, gives it back once; to be looked at, as often as wanted.
 */
import { Fault } from '../base/fault.ts';
import type { Replacement } from '../shelf/shelf.ts';

export interface Waiting {
  readonly pattern: string;
  readonly replacement: Replacement;
}

export interface WaitingRoom {
  /** Gives the name under which it waits. */
  put(waiting: Waiting): Promise<string>;
  take(name: string, pattern: string): Promise<Replacement>;
  /** It goes on waiting. */
  look(name: string, pattern: string): Promise<Replacement>;
}

/** More than these nobody leaves lying; the oldest goes. */
const KEPT = 12;

/** In memory, for a desk that is one process. */
export function openWaitingRoom(newId: () => string): WaitingRoom {
  const all = new Map<string, Waiting>();
  return {
    async put(waiting) {
      const name = newId();
      all.set(name, waiting);
      for (const old of [...all.keys()].slice(0, -KEPT)) all.delete(old);
      return name;
    },
    async take(name, pattern) {
      const found = all.get(name);
      all.delete(name);
      return takenFor(found, pattern);
    },
    look: async (name, pattern) => takenFor(all.get(name), pattern),
  };
}

export function takenFor(found: Waiting | undefined, pattern: string): Replacement {
  if (found?.pattern === pattern) return found.replacement;
  throw new Fault('missing', 'this file waits here no more; nothing was written', {
    remedy: 'hand it in once more',
  });
}
