/**
 * A store that fails on purpose: at its n-th operation, before or after taking effect, once or for good.
 * For good is a process that died there; once is a network that hiccuped.
 */
import { Fault } from '../../src/base/fault.ts';
import type { Store } from '../../src/store/store.ts';

export interface Failing {
  readonly at: number;
  readonly when: 'before' | 'after';
  readonly forGood: boolean;
}

export interface FailingStore extends Store {
  /** Operations asked for so far. */
  operations(): number;
  /** Whether the failing operation was reached. */
  failed(): boolean;
}

export function failingStore(inner: Store, failing: Failing): FailingStore {
  let count = 0;
  let failed = false;

  const trouble = (): Fault =>
    new Fault('store', `operation ${failing.at} failed ${failing.when} its effect`, {
      retryable: true,
    });

  const guard = async <T>(work: () => Promise<T>): Promise<T> => {
    count += 1;
    if (failed && failing.forGood) throw trouble();
    const hit = count === failing.at;
    if (hit && failing.when === 'before') {
      failed = true;
      throw trouble();
    }
    const result = await work();
    if (hit) {
      failed = true;
      throw trouble();
    }
    return result;
  };

  return {
    name: inner.name,
    operations: () => count,
    failed: () => failed,
    get: (key) => guard(() => inner.get(key)),
    has: (key) => guard(() => inner.has(key)),
    put: (key, bytes, options) => guard(() => inner.put(key, bytes, options)),
    delete: (key) => guard(() => inner.delete(key)),
    async *list(prefix, after) {
      await guard(async () => undefined);
      yield* inner.list(prefix, after);
    },
  };
}
