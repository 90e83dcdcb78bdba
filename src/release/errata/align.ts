/**
 * Which line of the old pattern is which line of the new one. Takes two lists of keys, gives pairs in
 * order: equal keys are paired so that as many as possible keep their order (longest common
 * subsequence); what lies between two pairs is paired by likeness, and the rest was added or removed.
 * Where lines only changed in their places, each is compared with what stood in its place.
 */
export interface Pair<T> {
  readonly was?: T;
  readonly is?: T;
}

/** `key` names a line exactly, `likeness` says which changed lines may be the same one. */
export function alignLines<T>(
  old: readonly T[],
  now: readonly T[],
  key: (line: T) => string,
  likeness: (line: T) => string,
): readonly Pair<T>[] {
  const [was, is] = [old.map(key), now.map(key)];
  const common = commonOrder(was, is);
  // A line that came to read like its neighbour must not be taken for it.
  const kept = was.filter((each, index) => each === is[index]).length;
  if (old.length === now.length && kept === common.length) return inPlace(old, now);
  const pairs: Pair<T>[] = [];
  let [from, to] = [0, 0];
  for (const [a, b] of common) {
    pairs.push(...alignGap(old.slice(from, a), now.slice(to, b), likeness));
    pairs.push({ was: old[a]!, is: now[b]! });
    [from, to] = [a + 1, b + 1];
  }
  pairs.push(...alignGap(old.slice(from), now.slice(to), likeness));
  return pairs;
}

const inPlace = <T>(old: readonly T[], now: readonly T[]): Pair<T>[] =>
  old.map((was, index) => ({ was, is: now[index]! }));

/** Between two unchanged lines: the same label is the same line; equal numbers of lines pair in order. */
function alignGap<T>(
  old: readonly T[],
  now: readonly T[],
  likeness: (line: T) => string,
): Pair<T>[] {
  if (old.length === now.length) return inPlace(old, now);
  const pairs: Pair<T>[] = [];
  let [from, to] = [0, 0];
  for (const [a, b] of commonOrder(old.map(likeness), now.map(likeness))) {
    pairs.push(...old.slice(from, a).map((was) => ({ was })));
    pairs.push(...now.slice(to, b).map((is) => ({ is })));
    pairs.push({ was: old[a]!, is: now[b]! });
    [from, to] = [a + 1, b + 1];
  }
  pairs.push(...old.slice(from).map((was) => ({ was })));
  pairs.push(...now.slice(to).map((is) => ({ is })));
  return pairs;
}

/** Index pairs of a longest common subsequence; quadratic, and a section is at most some hundred lines. */
export function commonOrder(old: readonly string[], now: readonly string[]): [number, number][] {
  const lengths = Array.from({ length: old.length + 1 }, () => new Uint16Array(now.length + 1));
  for (let a = old.length - 1; a >= 0; a -= 1)
    for (let b = now.length - 1; b >= 0; b -= 1)
      lengths[a]![b] =
        old[a] === now[b]
          ? lengths[a + 1]![b + 1]! + 1
          : Math.max(lengths[a + 1]![b]!, lengths[a]![b + 1]!);
  const pairs: [number, number][] = [];
  let [a, b] = [0, 0];
  while (a < old.length && b < now.length) {
    if (old[a] === now[b]) pairs.push([a++, b++]);
    else if (lengths[a + 1]![b]! >= lengths[a]![b + 1]!) a += 1;
    else b += 1;
  }
  return pairs;
}
