/**
 * Two parties at one store, whose operations take effect in an order the test writes down: so many of
 * the one, so many of the other. What a random schedule seldom meets is met here for certain.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Listed, Store } from '../../src/store/store.ts';

export class Turnstile {
  readonly #waiting = new Map<string, (() => Promise<void>)[]>();
  readonly #ended = new Set<string>();

  /** The store as one party sees it: each operation waits for its turn. */
  store(party: string, inner: Store): Store {
    const turn = <T>(work: () => Promise<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        const queue = this.#waiting.get(party) ?? [];
        this.#waiting.set(party, queue);
        queue.push(() => work().then(resolve, reject));
      });
    return {
      name: inner.name,
      get: (key) => turn(() => inner.get(key)),
      has: (key) => turn(() => inner.has(key)),
      put: (key, bytes, options) => turn(() => inner.put(key, bytes, options)),
      delete: (key) => turn(() => inner.delete(key)),
      async *list(prefix, after) {
        const listed = await turn(async () => {
          const all: Listed[] = [];
          for await (const each of inner.list(prefix, after)) all.push(each);
          return all;
        });
        yield* listed;
      },
    };
  }

  /** Tells that a party is through, whether well or not. */
  ends<T>(party: string, work: Promise<T>): Promise<PromiseSettledResult<T>> {
    return Promise.allSettled([work]).then(([result]) => {
      this.#ended.add(party);
      return result;
    });
  }

  /** Lets a party do so many operations, or fewer if it ends; gives how many it did. */
  async let(party: string, operations: number): Promise<number> {
    for (let done = 0; done < operations; done += 1) {
      while (!this.#waiting.get(party)?.length) {
        if (this.#ended.has(party)) return done;
        await nextTurn();
      }
      await this.#waiting.get(party)?.shift()?.();
      await nextTurn();
    }
    return operations;
  }
}
