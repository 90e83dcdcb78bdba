/** A value that is made when it is first asked for, and then kept. Takes how it is made; gives how to ask. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}
