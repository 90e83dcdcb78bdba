/**
 * A cache that cannot grow without end: two generations of entries, the older dropped when the younger
 * is full. An entry that is used again moves to the younger generation, so what a document needs stays.
 * It changes the time a call takes and never its result.
 */
export class BoundedCache<Key, Value> {
  readonly #limit: number;
  #young = new Map<Key, Value>();
  #old = new Map<Key, Value>();

  /** At most twice `limit` entries are held. */
  constructor(limit: number) {
    this.#limit = limit;
  }

  get(key: Key): Value | undefined {
    const found = this.#young.get(key);
    if (found !== undefined) return found;
    const kept = this.#old.get(key);
    if (kept !== undefined) this.set(key, kept);
    return kept;
  }

  set(key: Key, value: Value): void {
    if (this.#young.size >= this.#limit) {
      this.#old = this.#young;
      this.#young = new Map();
    }
    this.#young.set(key, value);
  }

  clear(): void {
    this.#young.clear();
    this.#old.clear();
  }
}
