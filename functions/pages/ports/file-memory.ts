/**
 * Files by their hash, kept while a process lives, up to a number of bytes; the one longest unused goes
 * first. After a correction one file of a bundle is fetched again, and not its photographs.
 */
export interface FileMemory {
  get(hash: string): Uint8Array | undefined;
  keep(hash: string, bytes: Uint8Array): void;
}

export function openFileMemory(mostBytes: number): FileMemory {
  const kept = new Map<string, Uint8Array>();
  let total = 0;
  const forget = (hash: string) => {
    total -= kept.get(hash)?.length ?? 0;
    kept.delete(hash);
  };
  return {
    get: (hash) => kept.get(hash),
    keep(hash, bytes) {
      forget(hash);
      kept.set(hash, bytes);
      total += bytes.length;
      for (const oldest of kept.keys()) {
        if (total <= mostBytes) return;
        forget(oldest);
      }
    },
  };
}
