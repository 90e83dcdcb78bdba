/**
 * The name under which a bundle lies on a shelf. Takes what somebody called it and the names that are
 * taken; gives one made of letters, digits and hyphens that is free, and safe in a path and an address.
 */
const MOST_LETTERS = 60;

export function plainName(wanted: string): string {
  const plain = wanted.replaceAll(/[^A-Za-z0-9-]+/g, '-').replaceAll(/^-+|-+$/g, '');
  return plain.slice(0, MOST_LETTERS) || 'pattern';
}

export function* freeNames(wanted: string): Generator<string> {
  const base = plainName(wanted);
  yield base;
  for (let next = 2; ; next += 1) yield `${base}-${next}`;
}

/** The names that `freeNames` gives, and so the only ones that a store holds. */
export const isPlainName = (name: string): boolean => /^[A-Za-z0-9][A-Za-z0-9-]{0,79}$/.test(name);
