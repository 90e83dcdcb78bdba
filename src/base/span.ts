/**
 * Places in text. A span is a half-open range of UTF-16 offsets into one line of notation; a place
 * adds where that line lives in the bundle (a JSON pointer, RFC 6901, and the file it points into).
 */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export const span = (start: number, end: number): Span => ({ start, end });
export const NOWHERE: Span = { start: 0, end: 0 };

export const cover = (first: Span, last: Span): Span => ({ start: first.start, end: last.end });

/** One step of a JSON pointer, escaped as RFC 6901 asks. */
export function pointerTo(base: string, ...steps: readonly (string | number)[]): string {
  const escape = (step: string | number) =>
    String(step).replaceAll('~', '~0').replaceAll('/', '~1');
  return base + steps.map((step) => '/' + escape(step)).join('');
}

/** The value a JSON pointer names inside a document, or undefined. */
export function followPointer(document: unknown, pointer: string): unknown {
  let here: unknown = document;
  for (const step of pointer.split('/').slice(1)) {
    const key = step.replaceAll('~1', '/').replaceAll('~0', '~');
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Record<string, unknown>)[key];
  }
  return here;
}
