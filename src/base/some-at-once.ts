/**
 * The same work for every item, so many at a time. Takes the items, the bound and the work; gives the
 * results in the order of the items. The first failure is thrown, and nothing more is begun after it.
 */
export async function someAtOnce<Item, Result>(
  items: readonly Item[],
  most: number,
  work: (item: Item) => Promise<Result>,
): Promise<readonly Result[]> {
  const results = new Map<number, Result>();
  const waiting = items.entries();
  const lane = async (): Promise<void> => {
    try {
      // All lanes draw from one iterator, so that each item is worked once.
      for (const [at, item] of waiting) results.set(at, await work(item));
    } finally {
      waiting.return?.();
    }
  };
  await Promise.all(Array.from({ length: Math.min(most, items.length) }, lane));
  return items.map((_, at) => results.get(at) as Result);
}
