/** Small pieces of wording that the families share: lists, plurals, and who is concerned. */

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** The sizes concerned as the subject of a sentence, and whether its verb is singular. */
export function sizesSay(
  sizes: readonly string[],
  affected: readonly number[],
): { readonly who: string; readonly one: boolean } {
  if (sizes.length <= 1) return { who: 'it', one: true };
  if (affected.length === sizes.length) return { who: 'every size', one: true };
  const names = affected.map((size) => sizes[size] ?? '');
  if (names.length === 1) return { who: `size ${names[0]}`, one: true };
  const shown = names.length > 5 ? [...names.slice(0, 4), `${names.length - 4} more`] : names;
  return { who: `sizes ${listed(shown)}`, one: false };
}
