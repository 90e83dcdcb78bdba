/**
 * Finds the word somebody meant. Takes a mistyped word and the known ones, gives the few that are
 * within a slip or two of the pen: a letter left out, added, changed, or two neighbours swapped.
 */

/** Known words within a third of the word's length in slips, nearest first, at most `most`. */
export function nearestWords(word: string, known: readonly string[], most = 2): readonly string[] {
  const reach = Math.max(1, Math.floor(word.length / 3));
  return known
    .map((each) => ({ each, slips: slipsBetween(word.toLowerCase(), each.toLowerCase(), reach) }))
    .filter(({ slips }) => slips <= reach)
    .sort((a, b) => a.slips - b.slips || (a.each < b.each ? -1 : 1))
    .slice(0, most)
    .map(({ each }) => each);
}

/**
 * Edit distance with swaps of neighbours (optimal string alignment; Damerau, CACM 7:3, 1964).
 * Anything beyond `reach` is reported as more than `reach`.
 */
function slipsBetween(from: string, to: string, reach: number): number {
  if (Math.abs(from.length - to.length) > reach) return reach + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let row = 1; row <= from.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= to.length; column += 1) {
      const same = from[row - 1] === to[column - 1];
      let slips = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      const swapped = from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      if (row > 1 && column > 1 && swapped) {
        slips = Math.min(slips, (beforeLast[column - 2] ?? 0) + 1);
      }
      current.push(slips);
    }
    beforeLast = last;
    last = current;
  }
  return last[to.length] ?? 0;
}
