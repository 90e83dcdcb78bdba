/** A tree without its places in the text, for comparison. */
export function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== 'span' && key !== 'spans' && key !== 'text')
      .map(([key, inner]) => [key, withoutPlaces(inner)]),
  );
}
