/**
 * Broken invariants. A failed assertion is a fault of this program, never of a pattern: it crashes,
 * and nothing is written. Faults of a pattern are findings; faults of the surroundings are errors.
 */
export class BrokenInvariant extends Error {
  override name = 'BrokenInvariant';
}

export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new BrokenInvariant(message);
}

/** Closes an exhaustive `switch`: a new variant of a union fails to compile here. */
export function assertNever(value: never): never {
  throw new BrokenInvariant(`unhandled variant: ${JSON.stringify(value)}`);
}

/** The value, where an index or key is known to exist. */
export function present<T>(value: T | undefined | null, what: string): T {
  assert(value !== undefined && value !== null, `missing: ${what}`);
  return value;
}
