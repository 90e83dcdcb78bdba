/**
 * What came back to the desk and waits for a yes: one changed file of a pattern, looked at but not yet
 * written. Kept in memory for a while under a name nobody can guess; takes what was brought, gives it
 * back once.
 */
import { Fault } from '../base/fault.ts';
import type { Brought } from './work/papers.ts';

export interface Waiting {
  readonly pattern: string;
  readonly brought: Brought;
  readonly said: string;
}

/** More than these nobody leaves lying; the oldest goes. */
const KEPT = 12;

export class WaitingRoom {
  readonly #all = new Map<string, Waiting>();
  readonly #newId: () => string;

  constructor(newId: () => string) {
    this.#newId = newId;
  }

  put(waiting: Waiting): string {
    const id = this.#newId();
    this.#all.set(id, waiting);
    for (const old of [...this.#all.keys()].slice(0, -KEPT)) this.#all.delete(old);
    return id;
  }

  take(id: string, pattern: string): Waiting {
    const found = this.#all.get(id);
    this.#all.delete(id);
    if (found?.pattern === pattern) return found;
    throw new Fault('missing', 'this file waits here no more; nothing was written', {
      remedy: 'hand it in once more',
    });
  }
}
