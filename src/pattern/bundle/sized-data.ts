/**
 * Sized numbers as a bundle writes them (a number, a list, or text like `80 (88, 96)`) read into
 * `Sized`. Gives undefined where the text is no size list; the checks have a finding for that.
 */
import type { SizedData } from './schema.ts';
import { readSizeList, type Sized, valueFor } from './size-list.ts';

export function readSized(data: SizedData): Sized | undefined {
  if (typeof data === 'number') return { values: [data], spans: [] };
  if (typeof data !== 'string') return { values: data, spans: [] };
  const read = readSizeList(data);
  return 'sized' in read && data.slice(read.end).trim() === '' ? read.sized : undefined;
}

/** The value for one size, null where it does not apply, undefined where nothing can be read. */
export function sizedValue(data: SizedData | undefined, size: number): number | null | undefined {
  const sized = data === undefined ? undefined : readSized(data);
  return sized && valueFor(sized, size);
}
